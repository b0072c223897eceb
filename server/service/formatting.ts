/**
 * The formatter as edits.
 *
 * Invariant: a document with all its edits made reads as `format` writes it. An edit touches one line alone, and there
 * no more than what changes, so that the cursor and marks in the text stay where they are.
 *
 * The notation has one style: what a client wishes about blanks and tabs makes no difference.
 */
import type { Position, Range, TextEdit } from 'vscode-languageserver';
import { formatLines, indentIn } from '../../grammar/formatter.js';
import { crankFences, formatFences, marginOf } from '../../grammar/markdown.js';
import { sectionOn } from '../../grammar/sections.js';
import type { LineSyntax, Placed } from '../../grammar/tree.js';
import type { ParsedDocument } from './document.js';
import { rangeOn, spotAt } from './spots.js';
import { positionIn, rangeIn } from './text.js';

/** The characters after which `formatOnType` has something to do. */
export const TYPED = { newLine: '\n', brace: '}' } as const;

/** The edits that format a whole document. */
export function formatDocument(document: ParsedDocument): TextEdit[] {
  const { lines, isMarkdown, eol } = document;
  const { printed } = formatted(document, 0, lines.length - 1);
  const last = lines.length - 1;
  const endsOpen = !isMarkdown && printed[last] !== '';
  return lines.flatMap((line, i) => {
    const wanted = withMark(line, printed[i]);
    return editsOn(i, line, endsOpen && i === last ? wanted + eol : wanted);
  });
}

/** The edits that format the lines that a range touches; one at whose start it ends is not among them. */
export const formatRange = (document: ParsedDocument, range: Range): TextEdit[] => formatRanges(document, [range]);

/** The same for several ranges; each line is formatted once. */
export function formatRanges(document: ParsedDocument, ranges: readonly Range[]): TextEdit[] {
  const chosen = new Set<number>();
  for (const range of ranges) {
    const { start, end } = rangeIn(document.lines, range);
    const last = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
    for (let line = start.line; line <= last; line++) chosen.add(line);
  }
  return formatChosen(document, [...chosen]);
}

/**
 * The edits after a character has been typed, of which the position is right behind. A new line is brought under the
 * one above, and that one is formatted; a brace goes as far out as its `repeat`.
 */
export function formatOnType(document: ParsedDocument, position: Position, typed: string): TextEdit[] {
  const { line } = positionIn(document.lines, position);
  if (typed === TYPED.brace) return formatChosen(document, [line]);
  if (typed !== TYPED.newLine || line === 0) return [];
  if (document.lines[line].trim() !== '') return formatChosen(document, [line - 1, line]);
  const indent = newLineIndent(document, line);
  return [
    ...formatChosen(document, [line - 1]),
    ...(indent === undefined ? [] : editsOn(line, document.lines[line], indent)),
  ];
}

/** What a new line is to begin with; undefined where it is none of the notation. */
function newLineIndent(document: ParsedDocument, line: number): string | undefined {
  const spot = spotAt(document, line);
  const { lines, isMarkdown } = document;
  const fence = isMarkdown
    ? crankFences(lines.join('\n')).find(({ from, to }) => from <= line && line < to)
    : undefined;
  if (!spot || (isMarkdown && !fence)) return undefined;
  return (fence ? marginOf(lines[fence.from - 1]) : '') + indentIn(spot.placed.section, spot.line);
}

function formatChosen(document: ParsedDocument, chosen: readonly number[]): TextEdit[] {
  if (chosen.length === 0) return [];
  const sorted = [...chosen].sort((a, b) => a - b);
  const { from, printed } = formatted(document, sorted[0], sorted[sorted.length - 1]);
  return sorted.flatMap((line) => {
    const written = document.lines[line];
    return editsOn(line, written, withMark(written, printed[line - from] ?? written));
  });
}

/** Lines as the formatter writes them, from the one numbered `from`: those of all sections that `first` to `last` touch. */
function formatted(document: ParsedDocument, first: number, last: number): { from: number; printed: string[] } {
  const { tree, lines, isMarkdown } = document;
  if (isMarkdown) return { from: 0, printed: formatFences(lines) };
  const { sections } = tree;
  let start = sectionOn(sections, first);
  let end = sectionOn(sections, last);
  // Comments behind neighbouring lines stand under one another, be they of one section or of two.
  while (start > 0 && areBeside(sections[start - 1], sections[start])) start--;
  while (end < sections.length - 1 && areBeside(sections[end], sections[end + 1])) end++;
  const printed = formatLines({ sections: sections.slice(start, end + 1), lineCount: tree.lineCount });
  return { from: sections[start]?.line ?? 0, printed };
}

const areBeside = (above: Placed, below: Placed): boolean =>
  hasComment(above.section.lines.at(-1)) && hasComment(below.section.lines[0]);
const hasComment = (line: LineSyntax | undefined): boolean => line?.comment !== undefined;

const BYTE_ORDER_MARK = '\ufeff';

/** A byte order mark before the first line is none of the formatter's business. */
const withMark = (written: string, printed: string): string =>
  written.startsWith(BYTE_ORDER_MARK) && !printed.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK + printed : printed;

/** The edits that make one line another: of the blanks before it, and of the rest. */
function editsOn(line: number, written: string, wanted: string): TextEdit[] {
  if (written === wanted) return [];
  const [blanks, indent] = [indentLength(written), indentLength(wanted)];
  const before = changeOf(written.slice(0, blanks), wanted.slice(0, indent), 0);
  const behind = changeOf(written.slice(blanks), wanted.slice(indent), blanks);
  if (before && behind && before.to === behind.from) {
    return [editOf(line, { from: before.from, to: behind.to, text: before.text + behind.text })];
  }
  return [before, behind].flatMap((change) => (change ? editOf(line, change) : []));
}

interface Change {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

const editOf = (line: number, { from, to, text }: Change): TextEdit => ({
  range: rangeOn(line, { from, to }),
  newText: text,
});

const indentLength = (line: string): number => line.length - line.trimStart().length;

/** What has to be replaced, without what is the same at both ends. */
function changeOf(written: string, wanted: string, at: number): Change | undefined {
  if (written === wanted) return undefined;
  const shorter = Math.min(written.length, wanted.length);
  let start = 0;
  while (start < shorter && written[start] === wanted[start]) start++;
  if (isInPair(written, start) || isInPair(wanted, start)) start--;
  let end = 0;
  while (end < shorter - start && written[written.length - 1 - end] === wanted[wanted.length - 1 - end]) end++;
  if (isInPair(written, written.length - end) || isInPair(wanted, wanted.length - end)) end--;
  return { from: at + start, to: at + written.length - end, text: wanted.slice(start, wanted.length - end) };
}

/** Whether a place in a text lies within a character of two units. */
const isInPair = (text: string, at: number): boolean =>
  /^[\ud800-\udbff][\udc00-\udfff]$/.test(text.slice(Math.max(0, at - 1), at + 1));
