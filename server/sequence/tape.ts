/**
 * The trace of a run, kept compactly: the state after every step, as the numbers that it is. It becomes text only where
 * somebody asks for it.
 *
 * Invariant: there is one run. Whoever wants to know what a machine shows after a step reads it here.
 */
import type { Section, Step, StepSyntax } from '../../grammar/tree.js';
import { FRAME, STATE_SIZE, type State } from '../machine/index.js';

/** A step that opens out into others: `repeat`, `run`, `multiply`, `divide`. */
export interface Frame {
  /** Undefined for the sequence itself. */
  readonly parent?: Frame;
  readonly step?: Step;
  /** The section in which the steps inside the frame are written. */
  readonly section: Section;
  /** How many steps of other kinds it lies within: 0 for the sequence itself. */
  readonly depth: number;
  /** The round of a `repeat`, from 1. */
  readonly round?: number;
  /** Its steps are those that a `multiply` or `divide` stands for, written nowhere. */
  readonly isOpened: boolean;
  /** Its number among the frames of the tape. */
  readonly id: number;
}

/** Every so many rows the whole state is kept, so that no row is far from one. */
const WHOLE_EVERY = 64;
/** What a row takes on average, as a first guess: a turn moves the low figures of result and counter. */
const GUESSED_SIZE = 4;

/**
 * A row is a bit set of the numbers that have changed since the row before, and those numbers. Most steps move little,
 * and memory that is not touched costs no time.
 */
export class Tape {
  private numbers: Int32Array;
  private readonly steps: Step[];
  private size = 0;
  readonly frames: Frame[] = [];
  /** A `repeat` was left before its time, for none of the steps in it could be carried out. */
  leftRounds = false;
  /** Every `multiply` and `divide` as it was come to, and the row that follows: where it could not be done, it has none. */
  readonly opened: { readonly step: Step; readonly row: number }[] = [];
  /** Where rows 0, 64, 128 … begin. */
  private readonly wholes: number[] = [];
  private end = 0;
  private readonly last: State = new Int32Array(STATE_SIZE);
  /** The row that was looked at last: the next one is most often asked for after it. */
  private readonly seen: State = new Int32Array(STATE_SIZE);
  private seenRow = -1;
  private seenEnd = 0;

  constructor(expectedRows: number) {
    this.numbers = new Int32Array(expectedRows * GUESSED_SIZE + 2 * STATE_SIZE);
    this.steps = new Array(expectedRows);
  }

  get length(): number {
    return this.size;
  }

  /** Keeps the state after a step; `step` is as it was carried out, with numbers in place of parameters. */
  keep(step: Step, state: State): void {
    if (this.end + STATE_SIZE + 1 > this.numbers.length) this.grow();
    const { numbers, last } = this;
    const isWhole = this.size % WHOLE_EVERY === 0;
    if (isWhole) this.wholes.push(this.end);
    const start = this.end;
    let end = start + 1;
    let changed = 0;
    for (let i = 0; i < STATE_SIZE; i++) {
      const number = state[i];
      if (number === last[i] && !isWhole) continue;
      last[i] = number;
      changed |= 1 << i;
      numbers[end++] = number;
    }
    numbers[start] = changed;
    this.end = end;
    this.steps[this.size++] = step;
  }

  /** A step that stands for others is come to; `step` as it is carried out. */
  opens(step: Step): void {
    this.opened.push({ step, row: this.size });
  }

  private grow(): void {
    const numbers = new Int32Array(this.numbers.length * 2);
    numbers.set(this.numbers);
    this.numbers = numbers;
  }

  /** The state after row `row` (from 0), as a copy. */
  stateAt(row: number): State {
    return this.lookAt(row).slice();
  }

  /** The same without copying it: good until the tape is looked at again, and not to be changed. */
  lookAt(row: number): State {
    if (this.seenRow < 0 || row < this.seenRow || row - this.seenRow > WHOLE_EVERY) {
      this.seenRow = row - (row % WHOLE_EVERY) - 1;
      this.seenEnd = this.wholes[(row / WHOLE_EVERY) | 0];
    }
    const { numbers, seen } = this;
    for (; this.seenRow < row; this.seenRow++) {
      const changed = numbers[this.seenEnd++];
      for (let bits = changed; bits !== 0; bits &= bits - 1)
        seen[31 - Math.clz32(bits & -bits)] = numbers[this.seenEnd++];
    }
    return seen;
  }

  stepAt(row: number): Step<StepSyntax> {
    return this.steps[row];
  }

  frameAt(row: number): Frame {
    return this.frames[this.lookAt(row)[FRAME]];
  }
}
