/** What can be folded away: sections, repetitions, runs of comment lines and of `use` lines. */
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import { crankFences } from '../../grammar/markdown.js';
import type { Placed, SequenceSection, Step } from '../../grammar/tree.js';
import { allSteps } from '../sequence/names.js';
import type { ParsedDocument } from './document.js';
import { isBlank, isComment, lastLineOf } from './extent.js';

export interface FoldingWishes {
  /** The client folds whole lines, and hides the last of a range as well. */
  readonly lineFoldingOnly?: boolean;
  /** At most so many are told; 5,000 unless it is said otherwise. */
  readonly rangeLimit?: number | undefined;
}

const MOST_RANGES = 5_000;

/** What is dropped first where there are too many is at the end. */
const RANKS = { section: 0, use: 1, repeat: 2, comment: 3 } as const;
interface Ranked {
  readonly rank: number;
  readonly range: FoldingRange;
}

/** The ranges from the top of the document, none within one line. */
export function foldingRanges(document: ParsedDocument, wishes: FoldingWishes = {}): FoldingRange[] {
  const { lineFoldingOnly = false, rangeLimit = MOST_RANGES } = wishes;
  const endOfFence = fenceEnds(document);
  const found: Ranked[] = [
    ...document.tree.sections.flatMap((placed) => sectionRange(placed, endOfFence)),
    ...useRuns(document, endOfFence),
    ...document.tree.sections.flatMap(({ section, line }) =>
      section.kind === 'sequence' ? repeats(section, line, lineFoldingOnly) : [],
    ),
    ...commentRuns(document, endOfFence),
  ].filter(({ range: { startLine, endLine } }) => endLine > startLine);
  // A client that folds whole lines takes one range for each line that it can fold at.
  const kept = lineFoldingOnly ? outermost(found) : found;
  const most = Math.max(0, rangeLimit);
  const chosen = kept.length > most ? kept.sort((a, b) => a.rank - b.rank).slice(0, most) : kept;
  return chosen.map(({ range }) => range).sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
}

/** In Markdown, the last line of the fence that a line lies in; elsewhere there is no such end. */
function fenceEnds({ isMarkdown, lines }: ParsedDocument): (line: number) => number {
  if (!isMarkdown) return () => Number.POSITIVE_INFINITY;
  const ends = new Map<number, number>();
  for (const { from, to } of crankFences(lines.join('\n'))) {
    for (let line = from; line < to; line++) ends.set(line, to - 1);
  }
  return (line) => ends.get(line) ?? line;
}

/** A section may go on in the next fence, but what a reader folds away is what stands in one piece. */
function sectionRange({ section, line }: Placed, endOfFence: (line: number) => number): Ranked[] {
  if (section.kind === 'preamble' || section.kind === 'use') return [];
  let last = Math.min(lastLineOf(section), endOfFence(line) - line);
  while (last > 0 && isBlank(section.lines[last])) last--;
  return [{ rank: RANKS.section, range: { startLine: line, endLine: line + last, kind: FoldingRangeKind.Region } }];
}

/** Rows of `use` lines; comments and blank lines may stand between. */
function useRuns(document: ParsedDocument, endOfFence: (line: number) => number): Ranked[] {
  const runs: Ranked[] = [];
  let start: number | undefined;
  let end = 0;
  const close = () => {
    if (start !== undefined) {
      runs.push({ rank: RANKS.use, range: { startLine: start, endLine: end, kind: FoldingRangeKind.Imports } });
    }
    start = undefined;
  };
  for (const { section, line } of document.tree.sections) {
    if (section.kind !== 'use' || (start !== undefined && line > endOfFence(start))) close();
    if (section.kind !== 'use') continue;
    start ??= line;
    end = line;
  }
  close();
  return runs;
}

function repeats(section: SequenceSection, start: number, lineFoldingOnly: boolean): Ranked[] {
  const ranges: Ranked[] = [];
  for (const step of allSteps(section.steps)) {
    if (step.syntax.kind !== 'repeat' || !step.close) continue;
    ranges.push({ rank: RANKS.repeat, range: repeatRange(step, step.close, section, start, lineFoldingOnly) });
  }
  return ranges;
}

function repeatRange(
  { line, syntax }: Step,
  { line: last, syntax: brace }: NonNullable<Step['close']>,
  { lines }: SequenceSection,
  start: number,
  lineFoldingOnly: boolean,
): FoldingRange {
  if (!lineFoldingOnly) {
    const open = lines[line].text.indexOf('{', syntax.to - 1);
    return {
      startLine: start + line,
      startCharacter: open < 0 ? syntax.to : open + 1,
      endLine: start + last,
      endCharacter: brace.from,
    };
  }
  // The brace stays in sight, unless a step stands before it.
  const isFirst = /^[\s}]*$/.test(lines[last].text.slice(0, brace.from));
  return { startLine: start + line, endLine: start + last - (isFirst ? 1 : 0) };
}

function commentRuns(document: ParsedDocument, endOfFence: (line: number) => number): Ranked[] {
  const runs: Ranked[] = [];
  let start: number | undefined;
  let end = 0;
  const close = () => {
    if (start !== undefined) {
      runs.push({ rank: RANKS.comment, range: { startLine: start, endLine: end, kind: FoldingRangeKind.Comment } });
    }
    start = undefined;
  };
  for (const { section, line: first } of document.tree.sections) {
    for (const [own, syntax] of section.lines.entries()) {
      const line = first + own;
      if (!isComment(syntax) || (start !== undefined && line > endOfFence(start))) close();
      if (!isComment(syntax)) continue;
      start ??= line;
      end = line;
    }
  }
  close();
  return runs;
}

function outermost(found: readonly Ranked[]): Ranked[] {
  const byStart = new Map<number, Ranked>();
  for (const one of found) {
    const known = byStart.get(one.range.startLine);
    if (!known || known.range.endLine < one.range.endLine) byStart.set(one.range.startLine, one);
  }
  return [...byStart.values()];
}
