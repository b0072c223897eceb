/**
 * A run cut into moments: before the first step, after each step, and within a step after each turn of the crank.
 *
 * Invariant: the last moment of a step shows what the run's tape shows, so that going back and forth tells the same.
 */
import {
  beginStep,
  type Crank,
  crankWith,
  has,
  LEVERS,
  newState,
  OF_THE_STEP,
  RANG,
  type State,
  TURNS,
} from '../machine/index.js';
import { stateBefore } from '../sequence/rows.js';
import type { Run } from '../sequence/run.js';

/** What has been done by a moment. */
export interface Done {
  /** The row of the step that was carried out last, wholly or in part; −1 before the first. */
  readonly row: number;
  /** Turns of it that are made. */
  readonly turns: number;
  /** Whether the step is done: no turns of it are left. */
  readonly isWhole: boolean;
}

/** How a machine stands at a moment, and how it stood before what was done last. */
export interface Glimpse {
  readonly before: State;
  readonly after: State;
  /** The bell rang in between. */
  readonly rang: boolean;
}

export class Timeline {
  /** How many moments there are; the first is 0. */
  readonly length: number;
  /** The moment before each row, and that at the end. */
  private readonly starts: Int32Array;
  private readonly crank: Crank;

  constructor(readonly run: Run) {
    const { tape, order } = run;
    this.starts = new Int32Array(tape.length + 1);
    for (let row = 0; row < tape.length; row++) {
      this.starts[row + 1] = this.starts[row] + Math.max(1, tape.lookAt(row)[TURNS]);
    }
    this.length = this.starts[tape.length] + 1;
    this.crank = crankWith(order.profile, order.fault);
  }

  /** The moment at which a row is yet to be carried out; `tape.length` is past the last. */
  before(row: number): number {
    return this.starts[row];
  }

  /** The moment at which a row is done; before the first step for −1. */
  after(row: number): number {
    return this.starts[row + 1];
  }

  /** A number that is no moment counts as the nearest one. */
  clamped(moment: number): number {
    return Number.isFinite(moment) ? Math.min(this.length - 1, Math.max(0, Math.trunc(moment))) : 0;
  }

  done(moment: number): Done {
    if (moment <= 0) return { row: -1, turns: 0, isWhole: true };
    // The first row that is done later than this, less one.
    let low = 0;
    let high = this.starts.length - 2;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.starts[middle + 1] < moment) low = middle + 1;
      else high = middle;
    }
    const made = moment - this.starts[low];
    const turns = this.run.tape.lookAt(low)[TURNS];
    return { row: low, turns: Math.min(made, turns), isWhole: made >= turns };
  }

  /** The row that is next, or that is under way; as many as there are rows at the end. */
  next(moment: number): number {
    const { row, isWhole } = this.done(moment);
    return isWhole ? row + 1 : row;
  }

  stateAt(moment: number): State {
    const { row, turns, isWhole } = this.done(moment);
    if (row < 0) return newState();
    return isWhole ? this.run.tape.stateAt(row) : this.cranked(row, turns);
  }

  glimpse(moment: number): Glimpse {
    const { row, turns } = this.done(moment);
    const after = this.stateAt(moment);
    if (row < 0) return { before: after, after, rang: false };
    if (turns <= 1) return { before: stateBefore(this.run, row), after, rang: has(after, RANG) };
    const before = this.cranked(row, turns - 1);
    const last = before.slice();
    last[LEVERS] &= ~OF_THE_STEP;
    this.turn(last, row);
    return { before, after, rang: has(last, RANG) };
  }

  /**
   * How the machine stands at each moment at which a row leads, one after the other, the first of them as it stood
   * before. Each is good until the next is asked for, and not to be changed.
   */
  *through(row: number): Generator<State> {
    const { tape } = this.run;
    const before = stateBefore(this.run, row);
    yield before;
    const turns = tape.lookAt(row)[TURNS];
    const state = before.slice();
    beginStep(state);
    for (let made = 1; made < turns; made++) {
      this.turn(state, row);
      yield state;
    }
    yield tape.stateAt(row);
  }

  /** How the machine stands within a step, after so many turns of it. */
  private cranked(row: number, turns: number): State {
    const state = stateBefore(this.run, row);
    beginStep(state);
    for (let made = 0; made < turns; made++) this.turn(state, row);
    return state;
  }

  private turn(state: State, row: number): void {
    const { syntax } = this.run.tape.stepAt(row);
    this.crank.turn(state, syntax.kind === 'turn' && syntax.back);
  }
}
