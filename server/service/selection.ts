/** What a selection grows to: from the word to the step, its repetition, its section, the file. */
import type { Position, Range, SelectionRange } from 'vscode-languageserver';
import { crankFences } from '../../grammar/markdown.js';
import type { Span, Step } from '../../grammar/tree.js';
import { allSteps } from '../sequence/names.js';
import type { ParsedDocument } from './document.js';
import { lastLineOf, rangeOfSection } from './extent.js';
import { itemAt, rangeOn, type Spot, spotAt, tokenAt } from './spots.js';
import { positionIn } from './text.js';

/** For each position the ranges around it, each within the next and smaller than it. */
export const selectionRanges = (document: ParsedDocument, positions: readonly Position[]): SelectionRange[] => {
  const fences = document.isMarkdown ? fenceRanges(document) : [];
  return positions.map((position) => selectionAt(document, positionIn(document.lines, position), fences));
};

function selectionAt(document: ParsedDocument, position: Position, fences: readonly Range[]): SelectionRange {
  const last = document.lines.length - 1;
  const whole = rangeFrom(0, 0, last, document.lines[last].length);
  const spot = spotAt(document, position.line);
  const around = [...(spot ? [...onLine(spot, position), ...inSection(spot)] : []), ...fences, whole];
  const growing = around.filter((range) => holds(range, position, position)).sort(bySize);
  let selection: SelectionRange = { range: whole };
  for (const range of growing.reverse()) {
    const { range: outer } = selection;
    if (holds(outer, range.start, range.end) && !isSame(outer, range)) selection = { range, parent: selection };
  }
  return selection;
}

/** The token, everything in the step that holds it, the step, the line. */
function onLine(spot: Spot, { line, character }: Position): Range[] {
  const { text } = spot.syntax;
  const spans: Span[] = [{ from: text.length - text.trimStart().length, to: text.trimEnd().length }];
  const token = tokenAt(text, character);
  if (token) {
    spans.push(token);
    if (token.kind === 'text' && token.text.length > 1) spans.push({ from: token.from + 1, to: token.to - 1 });
  }
  const item = itemAt(spot, character);
  if (item) spans.push(...spansIn(item, character));
  return spans.filter(({ from, to }) => to > from).map((span) => rangeOn(line, span));
}

/** The spans of all nodes of an item that hold a column. */
function spansIn(item: object, character: number): Span[] {
  const spans: Span[] = [];
  const waiting: object[] = [item];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    const span = spanOf(node);
    if (span && span.from <= character && character <= span.to) spans.push(span);
    for (const value of Object.values(node)) if (typeof value === 'object' && value !== null) waiting.push(value);
  }
  return spans;
}

function spanOf(node: object): Span | undefined {
  if ('from' in node && 'to' in node) return node as Span;
  // Figures and the place of their units have no span of their own.
  if (!('figures' in node)) return undefined;
  const { figures, at } = node as { figures: Span; at?: Span };
  return typeof figures === 'object' ? { from: figures.from, to: (at ?? figures).to } : undefined;
}

/** The bodies of repetitions and the repetitions, the section's body and the section. */
function inSection({ placed, line }: Spot): Range[] {
  const { section, line: start } = placed;
  if (section.kind === 'preamble') return [];
  const ranges = [rangeOfSection(placed)];
  const last = lastLineOf(section);
  if (last > 0) ranges.push(rangeFrom(start + 1, 0, start + last, section.lines[last].text.trimEnd().length));
  if (section.kind !== 'sequence') return ranges;
  for (const step of allSteps(section.steps)) {
    if (step.line > line) break;
    if (step.syntax.kind === 'repeat' && step.close && step.close.line >= line) {
      ranges.push(...repeatRanges(step, step.close, start, section.lines[step.line].text));
    }
  }
  return ranges;
}

function repeatRanges(step: Step, close: NonNullable<Step['close']>, start: number, text: string): Range[] {
  const { line, syntax } = step;
  const open = text.indexOf('{', syntax.to - 1);
  const body = open < 0 ? syntax.to : open + 1;
  return [
    rangeFrom(start + line, body, start + close.line, close.syntax.from),
    rangeFrom(start + line, syntax.from, start + close.line, close.syntax.to),
  ];
}

const fenceRanges = ({ lines }: ParsedDocument): Range[] =>
  crankFences(lines.join('\n')).flatMap(({ from, to }) =>
    to > from ? [rangeFrom(from, 0, to - 1, (lines[to - 1] ?? '').length)] : [],
  );

const rangeFrom = (line: number, character: number, endLine: number, endCharacter: number): Range => ({
  start: { line, character },
  end: { line: endLine, character: endCharacter },
});

const isBefore = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const holds = ({ start, end }: Range, from: Position, to: Position): boolean =>
  isBefore(start, from) && isBefore(to, end);
const isSame = (a: Range, b: Range): boolean => holds(a, b.start, b.end) && holds(b, a.start, a.end);

/** Smaller ranges first: of two that hold one position, one that begins later or ends earlier. */
const bySize = (a: Range, b: Range): number =>
  a.end.line - a.start.line - (b.end.line - b.start.line) ||
  b.start.line - a.start.line ||
  a.end.character - a.start.character - (b.end.character - b.start.character) ||
  b.start.character - a.start.character;
