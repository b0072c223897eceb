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

export class Tape {
  private numbers: Int32Array;
  private readonly steps: Step[] = [];
  readonly frames: Frame[] = [];
  private size = 0;

  constructor(expectedRows: number) {
    this.numbers = new Int32Array(Math.max(4, expectedRows) * STATE_SIZE);
  }

  get length(): number {
    return this.size;
  }

  /** Keeps the state after a step; `step` is as it was carried out, with numbers in place of parameters. */
  keep(step: Step, state: State): void {
    const at = this.size * STATE_SIZE;
    if (at >= this.numbers.length) this.grow();
    const numbers = this.numbers;
    for (let i = 0; i < STATE_SIZE; i++) numbers[at + i] = state[i];
    this.steps[this.size++] = step;
  }

  private grow(): void {
    const numbers = new Int32Array(this.numbers.length * 2);
    numbers.set(this.numbers);
    this.numbers = numbers;
  }

  /** The state after row `row` (from 0); it must not be changed. */
  stateAt(row: number): State {
    return this.numbers.subarray(row * STATE_SIZE, (row + 1) * STATE_SIZE);
  }

  stepAt(row: number): Step<StepSyntax> {
    return this.steps[row];
  }

  frameAt(row: number): Frame {
    return this.frames[this.numbers[row * STATE_SIZE + FRAME]];
  }
}
