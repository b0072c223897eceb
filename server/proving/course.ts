/**
 * A run of the sound machine as a row of steps that can be carried out one by one from where it stood before each: those
 * of `repeat` and `run` one by one, each `multiply` and `divide` whole, for on another machine it may stand for others.
 */
import type { Step } from '../../grammar/tree.js';
import { LEVERS, newState, STATE_SIZE, TURNS } from '../machine/index.js';
import { type Moment, moves } from '../sequence/looks.js';
import type { Point } from '../sequence/resumed.js';
import type { Run } from '../sequence/run.js';

export class Course {
  readonly steps: Step[] = [];
  /** The first row of the tape that belongs to a step, and behind the last one the length of the tape. */
  readonly firstRows: number[] = [];
  /** States before each step, one behind the other, and the one at the end. */
  private readonly states: Int32Array;
  private readonly happened: number[] = [];
  private readonly turns: number[] = [];

  constructor(readonly run: Run) {
    const { tape } = run;
    const { opened } = tape;
    this.states = new Int32Array((tape.length + opened.length + 1) * STATE_SIZE);
    const state = newState();
    let happened = 0;
    let turns = 0;
    let row = 0;
    let next = 0;
    const begin = (step: Step | undefined) => {
      this.states.set(state, this.firstRows.length * STATE_SIZE);
      this.firstRows.push(row);
      this.happened.push(happened);
      this.turns.push(turns);
      if (step) this.steps.push(step);
    };
    const pass = () => {
      state.set(tape.lookAt(row));
      if (moves(tape.stepAt(row))) happened = state[LEVERS];
      turns += state[TURNS];
      row++;
    };
    while (row < tape.length || next < opened.length) {
      if (opened[next]?.row === row) {
        const { step } = opened[next++];
        begin(step);
        // The same step may come again in the next round, and one that stands for none has no row.
        const end = Math.min(tape.length, opened[next]?.row ?? tape.length);
        while (row < end && tape.frameAt(row).isOpened && tape.frameAt(row).step === step) pass();
      } else {
        begin(tape.stepAt(row));
        pass();
      }
    }
    begin(undefined);
  }

  get length(): number {
    return this.steps.length;
  }

  /** How the machine stood before a step; behind the last one, at the end. */
  pointBefore(at: number): Point {
    const state = this.states.subarray(at * STATE_SIZE, (at + 1) * STATE_SIZE);
    return { state, happened: this.happened[at], rows: this.firstRows[at], turns: this.turns[at] };
  }

  get end(): Point {
    return this.pointBefore(this.length);
  }

  momentAfter(at: number): Moment {
    return this.pointBefore(at + 1);
  }
}
