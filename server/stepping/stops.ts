/** Going on until something stops: a step that is marked, a register that changes, something that is noticed. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import type { State } from '../machine/index.js';
import type { Happening } from './stepped-run.js';
import { isSameStand, type Stand, type Walk } from './walk.js';

/** Why one stops; several things may come together at one stand. */
export interface Stop {
  /** What was marked there, as `atStep` or `changed` name it. */
  readonly marks: readonly number[];
  readonly noticed: readonly Happening[];
  /** A register changed, as opposed to a step that was come to. */
  readonly isChange?: true;
}

/** Where one wants to stop. */
export interface Watch {
  /** Asked where a step is come to, forwards or backwards. */
  atStep?(step: Step, stand: Stand, isForward: boolean): readonly number[];
  /** Asked for every turn and step. */
  changed?(before: State, after: State): readonly number[];
  /** Happenings at which one stops, in the order of their rows. */
  readonly noticed?: readonly Happening[];
}

/** Where somebody stopped; nothing stopped them where there is no reason. */
export interface Halt {
  readonly stand: Stand;
  readonly stop?: Stop;
}

/** Where a search has come to, for whoever gives it up on the way. */
export interface Progress {
  at?: Stand;
}

/** Steps between two pauses. */
const BETWEEN_PAUSES = 500;

/** Goes on from a stand to another, if nothing stops before; without one, to the end or the start. */
export function* goOn(
  walk: Walk,
  from: Stand,
  to: Stand | undefined,
  watch: Watch,
  progress: Progress = {},
): Gradual<Halt> {
  const isForward = !to || walk.compare(from, to) <= 0;
  const goal = to ?? walk.end;
  return yield* (isForward ? forwards : backwards)(walk, from, goal, watch, progress);
}

function* forwards(walk: Walk, from: Stand, to: Stand, watch: Watch, progress: Progress): Gradual<Halt> {
  const isBetween = (stand: Stand) => walk.compare(stand, from) > 0 && walk.compare(stand, to) <= 0;
  const noticed = new Noticed(watch.noticed);
  let untilPause = BETWEEN_PAUSES;
  const last = Math.min(walk.rows - 1, walk.rowOf(to));
  for (let row = walk.rowOf(from); row <= last; row++) {
    const [first] = walk.standsBefore(row);
    if (isBetween(first)) progress.at = first;
    for (const halt of haltsIn(walk, row, watch, noticed, true)) {
      if (isBetween(halt.stand)) return atGoal(halt, to);
    }
    untilPause -= 1 + (watch.changed ? walk.timeline.after(row) - walk.timeline.before(row) : 0);
    if (untilPause < 0) {
      untilPause = BETWEEN_PAUSES;
      yield;
    }
  }
  return { stand: to, ...(walk.isEnd(to) && atEnd(noticed.at(walk.rows))) };
}

function* backwards(walk: Walk, from: Stand, to: Stand, watch: Watch, progress: Progress): Gradual<Halt> {
  const isBetween = (stand: Stand) => walk.compare(stand, from) < 0 && walk.compare(stand, to) >= 0;
  const noticed = new Noticed(watch.noticed);
  let untilPause = BETWEEN_PAUSES;
  for (let row = Math.min(walk.rows - 1, walk.rowOf(from)); row >= walk.rowOf(to); row--) {
    const [first] = walk.standsBefore(row);
    if (isBetween(first)) progress.at = first;
    const halts = [...haltsIn(walk, row, watch, noticed, false)].filter(({ stand }) => isBetween(stand));
    const halt = halts.at(-1);
    if (halt) return halt;
    untilPause -= 1 + (watch.changed ? walk.timeline.after(row) - walk.timeline.before(row) : 0);
    if (untilPause < 0) {
      untilPause = BETWEEN_PAUSES;
      yield;
    }
  }
  return { stand: to };
}

/** Everything in a row at which one would stop, in the order of its stands. */
function* haltsIn(walk: Walk, row: number, watch: Watch, noticed: Noticed, isForward: boolean): Generator<Halt> {
  if (watch.atStep) {
    for (const stand of walk.standsBefore(row)) {
      const step = walk.stepAt(stand);
      const marks = step ? watch.atStep(step, stand, isForward) : [];
      if (marks.length > 0) yield { stand, stop: { marks, noticed: [] } };
    }
  }
  let changedAtEnd: readonly number[] = [];
  if (watch.changed) {
    const end = walk.timeline.after(row);
    let moment = walk.timeline.before(row);
    let before: State | undefined;
    for (const state of walk.timeline.through(row)) {
      const marks = before ? watch.changed(before, state) : [];
      before = state.slice();
      if (marks.length > 0 && moment < end) {
        yield { stand: { moment, depth: walk.frameOf(row).depth }, stop: { marks, noticed: [], isChange: true } };
      } else if (moment === end) changedAtEnd = marks;
      moment++;
    }
  }
  const happenings = noticed.at(row);
  if (happenings.length === 0 && changedAtEnd.length === 0) return;
  const stop = {
    marks: changedAtEnd,
    noticed: happenings,
    ...(changedAtEnd.length > 0 && { isChange: true as const }),
  };
  yield { stand: walk.doneAt(row), stop };
}

/** Where one meant to go anyway, nothing but a mark or a finding is told. */
const atGoal = (halt: Halt, to: Stand): Halt => (isSameStand(halt.stand, to) ? { ...halt, stand: to } : halt);

const atEnd = (noticed: readonly Happening[]): { readonly stop?: Stop } =>
  noticed.length > 0 ? { stop: { marks: [], noticed } } : {};

/** Happenings by their rows. */
class Noticed {
  private readonly byRow = new Map<number, Happening[]>();

  constructor(happenings: readonly Happening[] = []) {
    for (const happening of happenings) {
      const known = this.byRow.get(happening.row);
      if (known) known.push(happening);
      else this.byRow.set(happening.row, [happening]);
    }
  }

  at(row: number): readonly Happening[] {
    return this.byRow.get(row) ?? [];
  }
}
