/**
 * Formats whole files.
 *
 * Invariant: formatting never loses anything: comments, blank lines and grouping marks stay, and a line that can't be
 * read is left exactly as it is. Formatting twice changes nothing.
 */
import { opens } from './lines.js';
import { joinItems, print } from './printer.js';
import { Parser, splitLines } from './sections.js';
import type { CrankFile, LineSyntax, Section } from './tree.js';

const INDENT = '  ';
const DEEPEST_INDENT = 40;
/** Comments behind neighbouring lines stand under one another, unless a line is longer than this. */
const LONGEST_BEFORE_COMMENT = 60;

const parser = new Parser();

/** The whole text, formatted, with its own line ends and byte order mark. */
export function format(text: string): string {
  const bom = text.startsWith('\ufeff') ? '\ufeff' : '';
  const ends: string[] = text.match(/\r\n|\n|\r/g) ?? [];
  const end = ends[0] ?? '\n';
  const lines = splitLines(text.slice(bom.length));
  const printed = formatLines(parser.parseLines(lines));
  if (printed.at(-1) !== '') ends.push(end);
  return bom + joinLines(printed, lines, ends);
}

/** Puts lines and their ends together. A blank line between a CR and an LF keeps its blanks, or the two would be one end. */
export function joinLines(printed: readonly string[], written: readonly string[], ends: readonly string[]): string {
  const text = printed.map((line, i) => {
    const wouldFuse = line === '' && ends[i - 1] === '\r' && ends[i] === '\n';
    return (wouldFuse ? written[i] : line) + (ends[i] ?? '');
  });
  return text.join('');
}

interface Line {
  readonly syntax: LineSyntax;
  /** Below a section's header. */
  readonly inBody: boolean;
}

/** Every line of a file as the formatter writes it, in the same number of lines. */
export function formatLines(file: CrankFile): string[] {
  const lines: Line[] = [];
  for (const { section } of file.sections) {
    const isPreamble = section.kind === 'preamble';
    for (const [i, syntax] of section.lines.entries()) lines.push({ syntax, inBody: i > 0 && !isPreamble });
  }
  const margins = marginComments(lines);
  const codes: string[] = [];
  let depth = 0;
  for (const [i, { syntax, inBody }] of lines.entries()) {
    if (!inBody) depth = 0;
    const level = !inBody || margins.has(i) ? 0 : 1 + Math.max(0, depth - leadingCloses(syntax));
    codes.push(indentOf(level) + codeOf(syntax));
    depth = depthAfter(syntax, depth);
  }
  return withComments(lines, codes);
}

const indentOf = (level: number): string => INDENT.repeat(Math.min(level, DEEPEST_INDENT));

/** How many repetitions are open behind a line. */
function depthAfter({ items }: LineSyntax, before: number): number {
  let depth = before;
  for (const { kind } of items) {
    if (kind === 'repeat') depth++;
    else if (kind === 'close' && depth > 0) depth--;
  }
  return depth;
}

/** The blanks that a step on a line of a section is to have before it, if it closes nothing; lines count from 0. */
export function indentIn({ kind, lines }: Section, line: number): string {
  if (line === 0 || kind === 'preamble' || kind === 'use') return '';
  return indentOf(1 + lines.slice(0, line).reduce((depth, syntax) => depthAfter(syntax, depth), 0));
}

const hasCode = ({ header, items }: LineSyntax): boolean => header !== undefined || items.length > 0;

function codeOf(line: LineSyntax): string {
  return joinItems((line.header ? [line.header, ...line.items] : line.items).map(print));
}

/** Braces with which a line begins: they stand as deep as their `repeat`. */
function leadingCloses({ items }: LineSyntax): number {
  const firstOther = items.findIndex((item) => item.kind !== 'close');
  return firstOther < 0 ? items.length : firstOther;
}

/**
 * Comments that stay at the margin: those that were written there, with nothing but the next section, the end, or more
 * of their kind below. All others stand as deep as the body they are in.
 */
function marginComments(lines: readonly Line[]): ReadonlySet<number> {
  const margins = new Set<number>();
  let isBeforeSection = true;
  for (let i = lines.length - 1; i >= 0; i--) {
    const { syntax } = lines[i];
    if (hasCode(syntax) || syntax.errors.length > 0) isBeforeSection = opens(syntax.text) !== undefined;
    else if (syntax.comment) {
      isBeforeSection &&= syntax.comment.from === 0;
      if (isBeforeSection) margins.add(i);
    }
  }
  return margins;
}

/** Puts comments behind the code, those of neighbouring lines under one another. */
function withComments(lines: readonly Line[], codes: readonly string[]): string[] {
  const isBeside = (i: number): boolean => {
    const { syntax } = lines[i];
    const isShort = codes[i].length <= LONGEST_BEFORE_COMMENT;
    return isShort && syntax.errors.length === 0 && syntax.comment !== undefined && hasCode(syntax);
  };
  const printed: string[] = [];
  for (let i = 0; i < lines.length; ) {
    let end = i;
    let width = 0;
    for (; end < lines.length && isBeside(end); end++) width = Math.max(width, codes[end].length);
    for (const last = Math.max(end, i + 1); i < last; i++) printed.push(lineText(lines[i].syntax, codes[i], width));
  }
  return printed;
}

function lineText(line: LineSyntax, code: string, width: number): string {
  if (line.errors.length > 0) return line.text;
  if (!line.comment) return code.trimEnd();
  return hasCode(line) ? `${code.padEnd(width)}  ${line.comment.text}` : code + line.comment.text;
}
