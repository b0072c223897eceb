/** Takes a run up in its middle: carries out single steps from a state that it is given, and writes nothing down. */
import { finish, type Gradual } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import { STATE_SIZE, type State } from '../machine/index.js';
import { CODES, type Facts, rankOf, SEVERITIES } from './findings.js';
import { Runner, type RunOrder } from './run.js';
import type { Frame } from './tape.js';

const MOST_HARMLESS: number = SEVERITIES.length;

/** A point between two steps of a run: how the machine stands, and what of the limits is used up. */
export interface Point {
  readonly state: State;
  /** The levers' bits after the last step that is not itself a reading. */
  readonly happened: number;
  readonly rows: number;
  readonly turns: number;
}

/**
 * Invariant: from the same point it comes to the same state as the run that passes there, and breaks off where that one
 * would. Of what is noticed it keeps how grave it is.
 */
export class Resumed extends Runner {
  /** How grave the gravest thing is that was noticed since it stood where it was told to, as `rankOf` says. */
  worst = MOST_HARMLESS;
  private rows = 0;
  private readonly opened: Frame;

  constructor(order: RunOrder) {
    super(order);
    this.opened = { ...this.frame, parent: this.frame, depth: 1, isOpened: true };
  }

  /** Stands where a run stood. */
  take({ state, happened, rows, turns }: Point): void {
    for (let i = 0; i < STATE_SIZE; i++) this.state[i] = state[i];
    this.happened = happened;
    this.rows = rows;
    this.turns = turns;
    this.wraps.close();
    this.brokeOff = false;
    this.worst = MOST_HARMLESS;
  }

  /** Where it stands now. */
  get point(): Point {
    return { state: this.state.slice(), happened: this.happened, rows: this.rows, turns: this.turns };
  }

  /** Goes on from a later point of the run that it was taken from, for up to there both do the same. */
  skip(to: Point, rows: number, turns: number): void {
    this.take({ ...to, rows: this.rows + rows, turns: this.turns + turns });
  }

  /** Carries out a step that holds no others; false if it never ends. */
  carryOutStep(step: Step): boolean {
    const inner = this.step(step);
    if (inner) finish(inner);
    return !this.brokeOff;
  }

  override get row(): number {
    return this.rows;
  }

  protected override keep(): void {
    this.rows++;
  }

  override report(facts: Facts): void {
    this.worst = Math.min(this.worst, rankOf(CODES[facts.code]));
  }

  override reportLater(): (facts: Facts) => void {
    return (facts) => this.report(facts);
  }

  /** The steps that a `multiply` or `divide` stands for. */
  override *inside(_step: Step, steps: Iterable<Step>): Gradual<boolean> {
    const { frame } = this;
    this.frame = this.opened;
    yield* this.steps(steps);
    this.frame = frame;
    return true;
  }
}
