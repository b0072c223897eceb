/** From the cursor to a moment of a run, and from one moment to others. */
import type { LineItem } from '../../../grammar/tree.js';
import type { Frame } from '../../sequence/tape.js';
import { framesAround } from '../../stepping/written.js';
import type { Named } from '../sequences.js';
import { itemsAbove } from '../spots.js';
import type { GoneThrough } from './gone-through.js';

/** A way to go, so many times; less than 0 is back. */
export interface Move {
  readonly by: 'step' | 'turn' | 'line';
  readonly count: number;
}

/** Times that one move goes at the most, so that moving always ends soon. */
export const MOST_MOVED = 10_000;

/**
 * The moment after the step at the cursor, the last time that it was carried out; or, where somebody looks at another
 * round, the time in that round. Above the first step it is the start.
 *
 * @param line counted from the first line of the sequence
 * @param now the moment that is shown
 */
export function momentAt(
  { section }: Pick<Named, 'section'>,
  gone: GoneThrough,
  line: number,
  character: number,
  now?: number,
): number {
  for (const { line: own, item } of itemsAbove(section, line, character)) {
    const all = gone.written.of({ line: own, from: item.from });
    const last = all.at(-1);
    if (!last || !isStep(item)) continue;
    const round = now === undefined ? undefined : all.findLast(({ frame }) => isAround(frame, gone, now));
    return gone.timeline.after((round ?? last).last);
  }
  return 0;
}

const isStep = ({ kind }: LineItem): boolean => kind !== 'goal' && kind !== 'case' && kind !== 'close';

/** Whether what is shown at a moment lies in this very round. */
function isAround(frame: Frame, { stepped, timeline }: GoneThrough, moment: number): boolean {
  const { row } = timeline.done(moment);
  return row >= 0 && frame.parent !== undefined && framesAround(stepped.run, row).includes(frame);
}

/** Where somebody comes to who goes on or back from a moment. */
export function movedFrom(moment: number, moves: readonly Move[], gone: GoneThrough): number {
  const { timeline } = gone;
  let at = timeline.clamped(moment);
  for (const { by, count } of moves) {
    if (by === 'turn') {
      at = timeline.clamped(at + count);
      continue;
    }
    const move = { step: count < 0 ? stepBack : stepOn, line: count < 0 ? lineBack : lineOn }[by];
    for (let made = 0; made < Math.min(Math.abs(count), MOST_MOVED); made++) at = move(at, gone);
  }
  return at;
}

function stepOn(moment: number, { timeline, stepped }: GoneThrough): number {
  const next = timeline.next(moment);
  return next < stepped.run.tape.length ? timeline.after(next) : moment;
}

function stepBack(moment: number, { timeline }: GoneThrough): number {
  const { row } = timeline.done(moment);
  return row < 0 ? 0 : timeline.before(row);
}

/** To the end of what the next line of the sequence does, or of what is left of the present one. */
function lineOn(moment: number, gone: GoneThrough): number {
  const { timeline, stepped } = gone;
  const { tape } = stepped.run;
  let row = timeline.next(moment);
  if (row >= tape.length) return moment;
  while (row + 1 < tape.length && isOnOneLine(row, row + 1, gone)) row++;
  return timeline.after(row);
}

function lineBack(moment: number, gone: GoneThrough): number {
  const { timeline } = gone;
  let { row } = timeline.done(moment);
  if (row < 0) return 0;
  while (row > 0 && isOnOneLine(row - 1, row, gone)) row--;
  return timeline.before(row);
}

/** Whether two rows, one after the other, belong to one line, and to one time that its first step was carried out. */
function isOnOneLine(row: number, next: number, { written }: GoneThrough): boolean {
  const [one, other] = [written.ownStep(row), written.ownStep(next)];
  return one.line === other.line && (other.syntax.from > one.syntax.from || written.isOneTime(row, next));
}
