/**
 * Runs a sequence on a machine, from the top, and keeps what the machine shows after every step.
 *
 * Invariant: a run always ends: steps, turns and nesting have limits, each with its finding.
 * Invariant: a step that the machine cannot do moves nothing, and the run goes on.
 */
import { finish, type Gradual } from '../../grammar/gradual.js';
import type { Section, SequenceSection, Step, StepSyntax } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  beginStep,
  COUNT_MINUS,
  type Crank,
  crankWith,
  type Fault,
  FRAME,
  has,
  LEVERS,
  MOST_TURNS,
  newState,
  POSITION,
  type Profile,
  REFUSED,
  REGISTERS,
  type Register,
  type State,
  SUBTRACTING,
  TURNS,
} from '../machine/index.js';
import { type Effort, effortOf } from './effort.js';
import { type Facts, type Place, placeOn, type Related } from './findings.js';
import * as hands from './hands.js';
import { carryOutNested } from './nested.js';
import { Notices, type Site } from './notices.js';
import { readStep } from './reads.js';
import type { CounterBalance } from './short.js';
import { substitute, type Values } from './substitute.js';
import { type Frame, Tape } from './tape.js';
import { crankStep } from './turns.js';
import { OpenWraps } from './wraps.js';

export const MOST_STEPS = 100_000;
export const DEEPEST_NESTING = 32;
/** Rounds of `repeat` and runs of other sequences, empty ones as well: what keeps no row must not go on for ever. */
const MOST_FRAMES = 2 * MOST_STEPS;

export interface RunOrder {
  readonly section: SequenceSection;
  readonly profile: Profile;
  readonly values: Values;
  /** 0 for the defaults, then the number of the case. */
  readonly case: number;
  /** What is wrong with the machine; it is sound where nothing is said. */
  readonly fault?: Fault;
  /** Finds a sequence as seen from the section that names it. */
  readonly resolve: (name: string, from: Section) => SequenceSection | undefined;
}

export interface Run {
  readonly order: RunOrder;
  readonly tape: Tape;
  readonly notices: Notices;
  readonly effort: Effort;
  /** The state at the end, or where the run broke off. */
  readonly state: State;
  /** A limit was met, or a step without end: later steps have no readings. */
  readonly brokeOff: boolean;
}

export const run = (order: RunOrder): Run => finish(runGradually(order));

/** The same, with pauses in which the caller may give up. */
export const runGradually = (order: RunOrder): Gradual<Run> => new Runner(order).run();

/** Steps, rounds and turns between two pauses: some two milliseconds. */
const WORK_BETWEEN_PAUSES = 20_000;

const REGISTER_BIT = { setting: 1, counter: 2, result: 4 } as const;

/** What `left-engaged` and related places want to know: where something was last switched. */
export type Switch = 'auto-clear' | 'auto-divide' | 'drive' | 'count' | 'park';

export class Runner implements hands.Workplace {
  readonly profile: Profile;
  readonly state: State = newState();
  readonly crank: Crank;
  readonly wraps = new OpenWraps();
  shifts = 0;
  leversMoved = 0;
  turns = 0;
  brokeOff = false;
  /** The step before, prose left aside. */
  before: Step | undefined;
  beforeRow = -1;
  /** What bell, overflow and overdraw are asked of: the levers' bits after the last step that is not itself a reading. */
  happened = 0;
  /** In a short multiplication: how often the counter went past its ends, and came back. */
  counterBalance: CounterBalance | undefined;
  /** `turn until stop` ends when the carriage stands below this position. */
  stopsBelow = 1;

  protected readonly tape: Tape;
  private readonly notices = new Notices();
  protected frame: Frame;
  private untilPause = WORK_BETWEEN_PAUSES;
  /** The step that is carried out, as written; within another sequence's steps, `runStep` is the `run` in this one. */
  private written: Step = NO_STEP;
  private runStep: Step | undefined;
  values: Values;
  private readonly running: SequenceSection[];
  private readonly switched = new Map<Switch, Place>();
  /** Registers that the sequence has set, cleared, dialled or transferred; and those whose lack of it was told. */
  private known = 0;
  /** Registers whose markers have been placed. */
  private pointsPlaced = 0;

  constructor(private readonly order: RunOrder) {
    this.profile = order.profile;
    this.crank = crankWith(order.profile, order.fault);
    this.tape = new Tape(order.section.steps.length);
    this.frame = { section: order.section, depth: 0, id: 0, isOpened: false };
    this.tape.frames.push(this.frame);
    this.running = [order.section];
    this.values = order.values;
    if (order.profile.counter === 0) this.known |= REGISTER_BIT.counter;
  }

  *run(): Gradual<Run> {
    const { order, tape, notices, state } = this;
    yield* this.steps(order.section.steps);
    this.wraps.close();
    if (!this.brokeOff) this.noticeEngaged();
    const effort = effortOf(this.profile, { turns: this.turns, shifts: this.shifts, levers: this.leversMoved });
    return { order, tape, notices, effort, state, brokeOff: this.brokeOff };
  }

  /** The section in which the present step is written. */
  get section(): Section {
    return this.frame.section;
  }

  /** The present step is one of those that a `multiply` or `divide` stands for. */
  get isOpened(): boolean {
    return this.frame.isOpened;
  }

  /** The row of the tape that the present step will have. */
  get row(): number {
    return this.tape.length;
  }

  report(facts: Facts, related: readonly Related[] = []): void {
    this.notices.note(this.site(), facts, related);
  }

  /** Where the present step is written, and at which step of the sequence itself that counts. */
  protected site(): Site {
    const { written, runStep } = this;
    return runStep ? { step: runStep, within: { section: this.frame.section, step: written } } : { step: written };
  }

  /** Reports at the present step, however much later. */
  reportLater(): (facts: Facts) => void {
    const site = this.site();
    return (facts) => this.notices.note(site, facts);
  }

  /** Where something was switched on, as a related place. */
  relatedTo(what: Switch, why: Related['why']): readonly Related[] {
    const at = this.switched.get(what);
    return at ? [{ at, why }] : [];
  }

  /** A register is used or read; if the sequence never cleared it, that is told once. */
  private uses(bits: number): void {
    const unknown = bits & ~this.known;
    if (unknown === 0) return;
    this.known |= unknown;
    this.report({ code: 'assumes-clear', registers: REGISTERS.filter((r) => unknown & REGISTER_BIT[r]) });
  }

  usesRegister(register: Register): void {
    this.uses(REGISTER_BIT[register]);
  }

  usesAll(): void {
    if (this.known !== 7) this.uses(7);
  }

  breakOff(facts: Facts): void {
    this.report(facts);
    this.brokeOff = true;
  }

  /** One by one, so that what comes next may depend on where the machine then stands. */
  protected *steps(steps: Iterable<Step>): Gradual<void> {
    for (const step of steps) {
      const inner = this.step(step);
      if (inner) yield* inner;
      if (this.untilPause < 0) {
        this.untilPause = WORK_BETWEEN_PAUSES;
        yield;
      }
      if (this.brokeOff) return;
    }
  }

  /** Carries out a step; one that holds or stands for others is still to be gone through. */
  protected step(written: Step): Gradual<void> | undefined {
    if (!this.frame.isOpened) this.written = written;
    const syntax = this.values.size === 0 ? written.syntax : substitute(written.syntax, this.values);
    const step = syntax === written.syntax ? written : { ...written, syntax };
    switch (syntax.kind) {
      case 'repeat':
      case 'run':
      case 'multiply':
      case 'divide':
        if (isOpenedOut(syntax)) this.tape.opens(step);
        return carryOutNested(this, step as Step<typeof syntax>);
    }
    if (this.row >= MOST_STEPS) {
      this.breakOff({ code: 'too-long', what: 'steps', limit: MOST_STEPS });
      return undefined;
    }
    const { state } = this;
    beginStep(state);
    this.carryOut(step);
    this.keep(step);
    this.turns += state[TURNS];
    this.untilPause -= 1 + state[TURNS];
    if (this.turns > MOST_TURNS && !this.brokeOff) {
      this.breakOff({ code: 'too-long', what: 'turns', limit: MOST_TURNS });
    }
    if (syntax.kind === 'note' || syntax.kind === 'caution') return undefined;
    this.before = step;
    this.beforeRow = this.row - 1;
    if (syntax.kind !== 'expect' && syntax.kind !== 'ask') this.happened = state[LEVERS];
    return undefined;
  }

  protected keep(step: Step): void {
    this.state[FRAME] = this.frame.id;
    this.tape.keep(step, this.state);
  }

  private carryOut(step: Step): void {
    const { syntax } = step;
    const { state } = this;
    switch (syntax.kind) {
      case 'turn':
        return crankStep(this, syntax);
      case 'shift': {
        hands.shift(this, syntax);
        if (state[POSITION] === 0) this.remember('park');
        return;
      }
      case 'set':
        hands.set(this, syntax.parts);
        return this.clears(REGISTER_BIT.setting);
      case 'expect':
      case 'ask':
        return readStep(this, syntax);
      case 'clear': {
        hands.clear(this, syntax);
        return this.clears(hands.clearedBy(syntax).reduce((bits, r) => bits | REGISTER_BIT[r], 0));
      }
      case 'transfer': {
        hands.transfer(this, syntax);
        if (!has(state, REFUSED)) this.usesRegister(syntax.register);
        return this.clears(REGISTER_BIT[syntax.register] | REGISTER_BIT.setting);
      }
      case 'dial':
        hands.dial(this, syntax);
        return this.clears(REGISTER_BIT.result);
      case 'mode':
        hands.mode(this, syntax.drive === 'subtract');
        return this.remember('drive');
      case 'count':
        hands.countLever(this, syntax.sense === 'minus');
        return this.remember('count');
      case 'auto-clear':
      case 'auto-divide':
        hands.button(this, syntax);
        return this.remember(syntax.kind);
      case 'points':
        return this.placePoints(hands.points(this, syntax));
    }
  }

  private placePoints(registers: readonly Register[]): void {
    for (const register of registers) this.pointsPlaced |= REGISTER_BIT[register];
    if (registers.length === 0 || this.pointsPlaced !== 7) return;
    const { setting, counter, result } = hands.pointsOf(this.state);
    if (result !== setting + counter) this.report({ code: 'points-disagree', setting, counter, result });
  }

  /** These registers hold what the sequence put there; of the result, what went before is closed. */
  private clears(bits: number): void {
    if (has(this.state, REFUSED)) return;
    this.known |= bits;
    if (bits & REGISTER_BIT.result && this.wraps.any) this.wraps.close();
  }

  private remember(what: Switch): void {
    if (has(this.state, REFUSED)) return;
    const { line, syntax } = this.written;
    this.switched.set(what, placeOn(this.section, line, syntax));
  }

  // --- for steps that hold or stand for others ------------------------------------------------------------------

  /** Carries out steps inside a frame; false if it would lie too deep. */
  *inside(step: Step, steps: Iterable<Step>, section: Section, values: Values, round?: number): Gradual<boolean> {
    const outer = this.frame;
    if (outer.depth >= DEEPEST_NESTING) {
      this.breakOff({ code: 'too-long', what: 'nesting', limit: DEEPEST_NESTING });
      return false;
    }
    const id = this.tape.frames.length;
    if (id >= MOST_FRAMES) {
      this.breakOff({ code: 'too-long', what: 'steps', limit: MOST_STEPS });
      return false;
    }
    const isOpened = isOpenedOut(step.syntax);
    const depth = outer.depth + 1;
    this.frame = { parent: outer, step, section, depth, id, isOpened, ...(round !== undefined && { round }) };
    this.tape.frames.push(this.frame);
    const outerValues = this.values;
    const outerStep = this.written;
    this.values = values;
    this.untilPause--;
    yield* this.steps(steps);
    this.values = outerValues;
    this.written = outerStep;
    this.frame = outer;
    return true;
  }

  /** The steps of another sequence. What is noticed in them belongs to the outermost `run`. */
  *insideOther(step: Step, other: SequenceSection, values: Values): Gradual<void> {
    this.running.push(other);
    const isOutermost = this.runStep === undefined;
    if (isOutermost) this.runStep = this.written;
    yield* this.inside(step, other.steps, other, values);
    if (isOutermost) this.runStep = undefined;
    this.running.pop();
  }

  leaveRounds(): void {
    this.tape.leftRounds = true;
  }

  isRunning(sequence: SequenceSection): boolean {
    return this.running.includes(sequence);
  }

  /** A sequence as it is called where the present step is written. */
  sequence(name: string): SequenceSection | undefined {
    return this.order.resolve(name, this.frame.section);
  }

  private noticeEngaged(): void {
    const { state } = this;
    const engaged: ['subtract' | 'minus' | 'auto-clear' | 'auto-divide', Switch, number][] = [
      ['subtract', 'drive', SUBTRACTING],
      ['minus', 'count', COUNT_MINUS],
      ['auto-clear', 'auto-clear', AUTO_CLEAR],
      ['auto-divide', 'auto-divide', AUTO_DIVIDE],
    ];
    const left = engaged.filter(([, , bit]) => has(state, bit));
    if (left.length === 0) return;
    const related = left.flatMap(([, what]) => this.relatedTo(what, 'switched-on'));
    this.notices.note({ step: this.lastStep() }, { code: 'left-engaged', what: left.map(([what]) => what) }, related);
  }

  /** The sequence's own last step. */
  private lastStep(): Step {
    return this.order.section.steps.at(-1) ?? NO_STEP;
  }
}

/** The step stands for others, which are written nowhere. */
const isOpenedOut = ({ kind }: StepSyntax): boolean => kind === 'multiply' || kind === 'divide';

const NO_STEP: Step = {
  line: 0,
  syntax: { kind: 'note', text: { kind: 'text', value: '', raw: '""', from: 0, to: 0 }, from: 0, to: 0 },
};
