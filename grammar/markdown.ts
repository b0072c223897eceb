/**
 * Reads the fenced blocks marked `crank` of a Markdown file as sections of one file, and finds its insets.
 *
 * Invariant: the lines that come out are as many as went in and keep their columns, so that findings stand at the
 * Markdown's own lines.
 */
import type MarkdownIt from 'markdown-it';
import ParserBlock from 'markdown-it/lib/parser_block.mjs';
import type Token from 'markdown-it/lib/token.mjs';
import { formatLines, joinLines } from './formatter.js';
import { hasMark, type Inset, insetsOf, type Mark } from './insets.js';
import { Parser, splitLines } from './sections.js';

// What a page's paragraphs hold does not matter here: CommonMark's blocks alone are read, and links nobody asks for left out.
const blocks = new ParserBlock();
blocks.ruler.disable(['reference', 'table']);
const page = { block: blocks, options: { html: true, maxNesting: 20 } } as unknown as MarkdownIt;

/** A `crank` fence: its first and last line of content, from 0; `to` is just behind the last. */
export interface Fence {
  readonly from: number;
  readonly to: number;
  /** Its text as a page shows it: without the margin. */
  readonly content: string;
}

/** The fences of a text that are marked `crank`, from the top. */
export const crankFences = (text: string): Fence[] => fencesIn(splitLines(text));

const fencesIn = (lines: readonly string[]): Fence[] => fencesOf(blocksOf(lines));

function blocksOf(lines: readonly string[]): Token[] {
  const tokens: Token[] = [];
  blocks.parse(
    lines
      .join('\n')
      .replace(/^\ufeff/, '')
      .replaceAll('\0', '\uFFFD'),
    page,
    {},
    tokens,
  );
  return tokens;
}

function fencesOf(tokens: readonly Token[]): Fence[] {
  const fences: Fence[] = [];
  for (const token of tokens) {
    if (token.type !== 'fence' || !token.map || token.info.trim().split(/\s+/)[0] !== 'crank') continue;
    const [first, end] = token.map;
    const contentLines = token.content === '' ? 0 : token.content.replace(/\n$/, '').split('\n').length;
    fences.push({ from: first + 1, to: Math.min(end, first + 1 + contentLines), content: token.content });
  }
  return fences;
}

/** The comments for insets: each on a line that Markdown takes for HTML. */
function marksOf(lines: readonly string[], tokens: readonly Token[]): Mark[] {
  const marks: Mark[] = [];
  const around: number[] = [];
  for (const [i, token] of tokens.entries()) {
    if (token.nesting > 0) around.push(i);
    else if (token.nesting < 0) around.pop();
    if (token.type !== 'html_block' || !token.map || !hasMark(token.content)) continue;
    const [first, end] = token.map;
    for (let line = first; line < end; line++) {
      if (!hasMark(lines[line])) continue;
      marks.push({ line, within: around.at(-1) ?? -1, isInHtml: line > first });
    }
  }
  return marks;
}

/** What a Markdown page holds for the program. */
export interface Page {
  /** The lines as the parser is to see them: blank outside the fences. */
  readonly lines: readonly string[];
  readonly insets: readonly Inset[];
}

export function readPage(text: string): Page {
  const lines = splitLines(text);
  const tokens = blocksOf(lines);
  const insets = hasMark(text) ? insetsOf(lines, marksOf(lines, tokens)) : [];
  return { lines: linesWithin(lines, fencesOf(tokens)), insets };
}

function linesWithin(lines: readonly string[], fences: readonly Fence[]): string[] {
  const kept: string[] = lines.map(() => '');
  for (const { from, to } of fences) {
    const quotes = marginOf(lines[from - 1]).split('>').length - 1;
    for (let line = from; line < to; line++) kept[line] = withoutQuotes(lines[line] ?? '', quotes);
  }
  return kept;
}

/** What stands before a fence: the marks of the quotations it is in, and blanks. */
export const marginOf = (line: string): string => /^(?:[ \t]*>)*[ \t]*/.exec(line)?.[0] ?? '';

/** A fence in a quotation has `>` before each line: blanks keep the columns. */
function withoutQuotes(line: string, quotes: number): string {
  if (quotes === 0) return line;
  return line.replace(new RegExp(`^(?:[ \\t]*>){1,${quotes}}`), (marks) => ' '.repeat(marks.length));
}

/** Formats the `crank` fences of a Markdown file and leaves everything else as it is. */
export function formatMarkdown(text: string): string {
  const ends = text.match(/\r\n|\n|\r/g) ?? [];
  const written = splitLines(text);
  return joinLines(formatFences(written), written, ends);
}

/** The lines of a Markdown file with those in `crank` fences formatted, as many as before. */
export function formatFences(written: readonly string[]): string[] {
  const fences = fencesIn(written);
  const masked = linesWithin(written, fences);
  const printed = formatLines(new Parser().parseLines(masked));
  const lines = [...written];
  for (const { from, to } of fences) {
    const margin = marginOf(written[from - 1]);
    for (let line = from; line < to; line++) {
      if (printed[line] === masked[line]) continue;
      lines[line] = printed[line] === '' ? margin.trimEnd() : margin + printed[line];
    }
  }
  return lines;
}
