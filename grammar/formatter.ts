/**
 * Formats whole files.
 *
 * Invariant: formatting never loses anything: comments, blank lines and grouping marks stay, and a line that can't be
 * read is left exactly as it is. Formatting twice changes nothing.
 */
import { opens } from './lines.js';
import { joinItems, print } from './printer.js';
import { Parser } from './sections.js';
import type { CrankFile, LineSyntax } from './tree.js';

const INDENT = '  ';
const DEEPEST_INDENT = 40;
/** Comments behind neighbouring lines stand under one another, unless a line is longer than this. */
const LONGEST_BEFORE_COMMENT = 60;

const parser = new Parser();

/** The whole text, formatted, with its own line ends and byte order mark. */
export function format(text: string): string {
  const bom = text.startsWith('\ufeff') ? '\ufeff' : '';
  const ends = text.match(/\r\n|\n|\r/g) ?? [];
  const end = ends[0] ?? '\n';
  const printed = formatLines(parser.parse(text.slice(bom.length)));
  const endsOpen = printed.at(-1) !== '';
  return bom + printed.map((line, i) => line + (ends[i] ?? (endsOpen ? end : ''))).join('');
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
  const codes: string[] = [];
  let depth = 0;
  for (const [i, { syntax, inBody }] of lines.entries()) {
    if (!inBody) depth = 0;
    codes.push(INDENT.repeat(Math.min(levelOf(lines, i, depth), DEEPEST_INDENT)) + codeOf(syntax));
    for (const item of syntax.items) {
      if (item.kind === 'repeat') depth++;
      else if (item.kind === 'close' && depth > 0) depth--;
    }
  }
  return withComments(lines, codes);
}

const hasCode = ({ header, items }: LineSyntax): boolean => header !== undefined || items.length > 0;

function codeOf(line: LineSyntax): string {
  return joinItems((line.header ? [line.header, ...line.items] : line.items).map(print));
}

function levelOf(lines: readonly Line[], at: number, depth: number): number {
  const { syntax, inBody } = lines[at];
  if (!inBody) return 0;
  if (!hasCode(syntax)) return commentLevel(lines, at, depth);
  const firstOther = syntax.items.findIndex((item) => item.kind !== 'close');
  const closes = firstOther < 0 ? syntax.items.length : firstOther;
  return 1 + Math.max(0, depth - closes);
}

/** A comment stands as deep as the body it is in; before a section that follows, only if it was written at the margin. */
function commentLevel(lines: readonly Line[], at: number, depth: number): number {
  if (lines[at].syntax.comment?.from !== 0) return 1 + depth;
  for (let i = at + 1; i < lines.length; i++) {
    const { syntax } = lines[i];
    if (hasCode(syntax) || syntax.errors.length > 0) return opens(syntax.text) === undefined ? 1 + depth : 0;
    if (syntax.comment && syntax.comment.from !== 0) return 1 + depth;
  }
  return 0;
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
    while (end < lines.length && isBeside(end)) end++;
    const width = Math.max(0, ...codes.slice(i, end).map((code) => code.length));
    for (const last = Math.max(end, i + 1); i < last; i++) printed.push(lineText(lines[i].syntax, codes[i], width));
  }
  return printed;
}

function lineText(line: LineSyntax, code: string, width: number): string {
  if (line.errors.length > 0) return line.text;
  if (!line.comment) return code.trimEnd();
  return hasCode(line) ? `${code.padEnd(width)}  ${line.comment.text}` : code + line.comment.text;
}
