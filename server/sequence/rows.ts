/**
 * Which rows of a run's tape belong to a written step.
 *
 * A step with parameters is kept on the tape as a copy with numbers in place of the names; its line and its first
 * column stay what they were, so that these two are the key. Steps between the braces of `repeat`, those of another
 * sequence and those that `multiply` and `divide` stand for belong to every written step around them.
 */
import type { LineItem, Step } from '../../grammar/tree.js';
import { FRAME, has, newState, RANG, type State, TURNS } from '../machine/index.js';
import type { Run } from './run.js';
import type { Frame } from './tape.js';

/** Where a written step stands: its line in the section (from 0) and its first column. */
export interface Written {
  readonly line: number;
  readonly from: number;
}

/** What a run made of a written step, the last time that it came to it. */
export interface StepRows {
  /** First and last row of the tape, from 0. */
  readonly first: number;
  readonly last: number;
  /** How often it was carried out in the run: more than once inside a `repeat`. */
  readonly times: number;
  /** Turns of the crank that it took. */
  readonly turns: number;
  /** Whether the bell rang. */
  readonly rang: boolean;
}

/** The rows of each written step of a run's own section. */
export interface RunRows {
  /** Undefined where the run never came to the step, or the step left no row. */
  of(step: Written): StepRows | undefined;
}

const known = new WeakMap<Run, RunRows>();

/** The rows of a run; they are gathered once. */
export function rowsOf(run: Run): RunRows {
  let rows = known.get(run);
  if (!rows) {
    const gathered = gather(run);
    rows = { of: (step) => gathered.get(keyOf(step)) };
    known.set(run, rows);
  }
  return rows;
}

/** Where a step of the tree stands. */
export const writtenAs = ({ line, syntax }: Step): Written => ({ line, from: syntax.from });

/** Longer lines are not read, so that no column is as large. */
const MOST_COLUMNS = 4_096;
/** Where a step stands, as one number: no two of a section have the same. */
export const keyOf = ({ line, from }: Written): number => line * MOST_COLUMNS + from;

function gather({ order, tape }: Run): ReadonlyMap<number, StepRows> {
  const found = new Map<number, StepRows>();
  const { frames } = tape;
  const isOwn = (frame: Frame) => frame.section === order.section && !frame.isOpened;
  const first = new Int32Array(frames.length).fill(-1);
  const last = new Int32Array(frames.length).fill(-1);
  const turns = new Int32Array(frames.length);
  const rang = new Uint8Array(frames.length);
  for (let row = 0; row < tape.length; row++) {
    const state = tape.stateAt(row);
    const id = state[FRAME];
    if (first[id] < 0) first[id] = row;
    last[id] = row;
    turns[id] += state[TURNS];
    if (has(state, RANG)) rang[id] = 1;
    if (!isOwn(frames[id])) continue;
    const key = keyOf(writtenAs(tape.stepAt(row)));
    const times = (found.get(key)?.times ?? 0) + 1;
    found.set(key, { first: row, last: row, times, turns: state[TURNS], rang: has(state, RANG) });
  }
  // A frame has a higher number than the one around it.
  for (let id = frames.length - 1; id > 0; id--) {
    const { parent } = frames[id];
    if (!parent || first[id] < 0) continue;
    if (first[parent.id] < 0 || first[id] < first[parent.id]) first[parent.id] = first[id];
    last[parent.id] = Math.max(last[parent.id], last[id]);
    turns[parent.id] += turns[id];
    rang[parent.id] |= rang[id];
  }
  for (const frame of frames) {
    const { parent, step, id } = frame;
    if (!parent || !step || !isOwn(parent) || first[id] < 0) continue;
    const key = keyOf(writtenAs(step));
    const before = found.get(key);
    // The rounds of a `repeat` are one carrying out.
    const isFurtherRound = before !== undefined && (frame.round ?? 1) > 1;
    found.set(key, {
      first: isFurtherRound ? before.first : first[id],
      last: last[id],
      times: (before?.times ?? 0) + (isFurtherRound ? 0 : 1),
      turns: turns[id] + (isFurtherRound ? before.turns : 0),
      rang: rang[id] === 1 || (isFurtherRound && before.rang),
    });
  }
  return found;
}

/** What the machine showed before a row. */
export const stateBefore = ({ tape }: Run, row: number): State => (row > 0 ? tape.stateAt(row - 1) : newState());

/** Steps of which it is not seen how often the crank is turned. */
export const isSummedUp = (item: LineItem): boolean =>
  item.kind === 'repeat' ||
  item.kind === 'run' ||
  item.kind === 'multiply' ||
  item.kind === 'divide' ||
  (item.kind === 'turn' && item.until !== undefined);
