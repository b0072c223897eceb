/**
 * Readings beside the steps: what the machine shows after each line.
 *
 * Invariant: only the lines that are asked for are looked at, and each costs the same however long the run is; the rows
 * of a run are gathered once.
 */
import type { InlayHint, Range } from 'vscode-languageserver';
import type { ExpectItem, ExpectStep, GoalLine, LineItem, LineSyntax } from '../../grammar/tree.js';
import { has, LEVERS, REFUSED, type State } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { compare } from '../sequence/expects.js';
import { isSummedUp, rowsOf, type StepRows, stateBefore } from '../sequence/rows.js';
import type { Run } from '../sequence/run.js';
import { substitute } from '../sequence/substitute.js';
import type { AnalysedDocument, Reader } from './document.js';
import {
  changes,
  everything,
  goalResult,
  grouped,
  namedReading,
  positionText,
  readingText,
  registersOf,
  sequenceReport,
  shownRun,
} from './readings.js';
import { spotAt } from './spots.js';
import { rangeIn } from './text.js';

/** The readings of the lines of a range: one hint behind the last step of each line on which the machine moved. */
export function inlayHints(document: AnalysedDocument, range: Range, reader: Reader): InlayHint[] {
  if (reader.settings.readings === 'off') return [];
  const { start, end } = rangeIn(document.lines, range);
  const hints: InlayHint[] = [];
  for (let line = start.line; line <= end.line; line++) {
    const spot = spotAt(document, line);
    if (spot?.placed.section.kind !== 'sequence' || spot.syntax.items.length === 0) continue;
    const report = sequenceReport(document, spot.placed.section);
    const run = report && shownRun(report, document, reader);
    const label = run && labelOf(run, spot.line, spot.syntax.items, reader);
    if (!label) continue;
    const character = endOf(spot.syntax);
    hints.push({ position: { line, character }, label, paddingLeft: true });
  }
  return hints;
}

/** Behind everything on a line but a comment. */
const endOf = ({ text, comment }: LineSyntax): number => text.slice(0, comment?.from).trimEnd().length;

/** An item of a line with what the run made of it. */
interface Done {
  readonly item: LineItem;
  readonly rows: StepRows;
}

function labelOf(run: CaseRun, line: number, items: readonly LineItem[], reader: Reader): string {
  const { words } = reader;
  const done = items.flatMap((item): Done[] => {
    const rows = rowsOf(run).of({ line, from: item.from });
    return rows ? [{ item, rows }] : [];
  });
  const read = [
    ...done.flatMap(({ item, rows }) => readOf(run, item, rows.last, reader)),
    ...items.flatMap((item) => (item.kind === 'goal' ? goalText(run, item, reader) : [])),
  ];
  const steps = done.filter(({ item }) => !isReading(item));
  const parts = [...movedOf(run, steps, reader), ...read];
  const last = lastOf(done);
  if (parts.length === 0 || !last) return parts.join(SEPARATOR);
  const times = last.rows.times > 1 ? ` ${words.readings.time(last.rows.times)}` : '';
  return parts.join(SEPARATOR) + times;
}

const SEPARATOR = ' · ';

/** Prose and readings move nothing. */
const isReading = ({ kind }: LineItem): boolean =>
  kind === 'note' || kind === 'caution' || kind === 'expect' || kind === 'ask';

/** The item whose rows end last; of several, the outermost. */
function lastOf(done: readonly Done[]): Done | undefined {
  let last: Done | undefined;
  for (const next of done) if (!last || next.rows.last > last.rows.last) last = next;
  return last;
}

/** What the steps of a line have changed together, the last time that they were carried out. */
function movedOf(run: CaseRun, steps: readonly Done[], { words, settings }: Reader): string[] {
  const last = lastOf(steps);
  if (!last) return [];
  // Where a run broke off within a line, what stands behind that is of an earlier round.
  const counted = steps.filter(({ item }) => item.from <= last.item.from);
  const first = Math.min(...counted.map(({ rows }) => rows.first));
  const { profile } = run.order;
  const after = run.tape.stateAt(last.rows.last);
  const parts =
    settings.readings === 'all'
      ? everything(after, profile, words)
      : changes(stateBefore(run, first), after, profile, words, setBy(counted, after));
  // Steps inside another one of the line are counted with that.
  const outer = counted.filter(
    ({ item, rows }) => !counted.some((other) => other.item.from < item.from && holds(other.rows, rows)),
  );
  const turns = outer.reduce((sum, { rows }) => sum + rows.turns, 0);
  if (turns > 0 && outer.some(({ item }) => isSummedUp(item))) parts.push(words.readings.turns(turns));
  if (outer.some(({ rows }) => rows.rang)) parts.push(words.readings.bell);
  return parts;
}

const holds = (outer: StepRows, inner: StepRows): boolean =>
  outer.first <= inner.first && inner.last <= outer.last && outer.times <= inner.times;

/** The levers are told after `set`, even if they stood there before. */
const setBy = (steps: readonly Done[], after: State): readonly 'setting'[] =>
  steps.some(({ item }) => item.kind === 'set') && !has(after, REFUSED) ? ['setting'] : [];

/** What is read at a step: what goes into a blank, and what is not as expected. */
function readOf(run: CaseRun, item: LineItem, row: number, reader: Reader): string[] {
  const { words, settings } = reader;
  const { profile, values } = run.order;
  const state = run.tape.stateAt(row);
  if (item.kind === 'ask') {
    if (settings.readings === 'all') return everything(state, profile, words);
    const has = registersOf(profile);
    return item.items.flatMap(({ register }) =>
      has.includes(register) ? [namedReading(state, profile, register, words)] : [],
    );
  }
  if (item.kind !== 'expect') return [];
  const step = substitute(item, values) as ExpectStep;
  return step.items.flatMap((wanted, i) => expectedText(run, wanted, item.items[i], row, reader) ?? []);
}

/** What is found where something else is expected. What is met is told only where it is not written: of parameters. */
function expectedText(
  run: CaseRun,
  wanted: ExpectItem,
  written: ExpectItem,
  row: number,
  { words }: Reader,
): string | undefined {
  const { profile } = run.order;
  const state = run.tape.stateAt(row);
  if (!canBeRead(wanted, run)) return undefined;
  const differs = compare(wanted, state, happenedBefore(run, row), profile);
  if (wanted.kind === 'register') {
    const { register } = wanted;
    if (differs) return `≠ ${namedReading(state, profile, register, words)}`;
    const isNamed = written.kind === 'register' && written.figures.kind === 'name';
    return isNamed ? `✓ ${readingText(state, profile, register)}` : undefined;
  }
  if (!differs) return undefined;
  if (differs.is === 'carriage') return `≠ ${positionText(differs.reading, words)}`;
  return differs.is === 'register' ? undefined : `≠ ${words.readings.missed[differs.is]}`;
}

/** Whether the machine has what is asked for, and the parameter a value. */
export function canBeRead(wanted: ExpectItem, { order: { profile } }: Pick<Run, 'order'>): boolean {
  switch (wanted.kind) {
    case 'register':
      return wanted.figures.kind === 'number' && (wanted.register !== 'counter' || profile.counter > 0);
    case 'carriage':
      return wanted.position.kind === 'number';
    case 'bell':
      return profile.bell;
    default:
      return true;
  }
}

/** So many readings and notes in a row are gone back over for the step that they speak of. */
const MOST_READINGS = 1_000;

/** What happened in the last step before a row that is itself no reading: bits of the levers. */
export function happenedBefore({ tape }: Pick<Run, 'tape'>, row: number): number {
  for (let before = row - 1; before >= 0 && before >= row - MOST_READINGS; before--) {
    if (!isReading(tape.stepAt(before).syntax)) return tape.stateAt(before)[LEVERS];
  }
  return 0;
}

/** What a goal is and how it was met. */
function goalText(run: CaseRun, goal: GoalLine, { words, wording }: Reader): string[] {
  const result = goalResult(run, goal);
  if (!result) return [];
  const { readings } = words;
  const wanted = grouped(wording.shortNumber(result.goal));
  const reading = grouped(result.reading);
  if (!result.met) return [`= ${wanted}`, readings.goalMissed(reading)];
  const met = `✓ ${readings.goal[result.met]}`;
  return result.met === 'exact' ? [`= ${wanted}`, met] : [`= ${wanted}`, met, readings.reads(reading)];
}
