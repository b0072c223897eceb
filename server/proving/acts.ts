/**
 * Where in a course each fault may act: in all other steps a machine that has it does what the sound one does, as long as
 * both stand alike. It may be said of a step that a fault acts there though it changes nothing; never the other way round.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { StepSyntax } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  COUNT_MINUS,
  COUNTER,
  Crank,
  type Fault,
  figureAt,
  has,
  POSITION,
  type Profile,
  RANG,
  REFUSED,
  REGISTER_AT,
  RESULT,
  type Register,
  SETTING,
  type State,
  SUBTRACTING,
  TURNS,
} from '../machine/index.js';
import { clearedBy } from '../sequence/hands.js';
import type { Course } from './course.js';

/** What is kept of a step: places as bits, place 1 the lowest. */
const Kept = {
  /** Result places from which a carry came in turns that add, in those that subtract, and in any. */
  carriedAdding: 0,
  carriedSubtracting: 1,
  carried: 2,
  counterCarried: 3,
  /** Counter places that were turned in, and those with the count lever at minus. */
  counted: 4,
  countedMinus: 5,
  /** Places that were not at 0 when their register was cleared. */
  setting: 6,
  counter: 7,
  result: 8,
  /** Levers that auto-clear put to 0. */
  autoCleared: 9,
  /** Levers that took a figure in a transfer. */
  taken: 10,
  /** The bell rang; 1 or 0. */
  rang: 11,
  /** Turns were made in gear; 1 or 0. */
  turned: 12,
} as const;
const FIELDS = Object.keys(Kept).length;

/** Turns between two pauses. */
const TURNS_BETWEEN_PAUSES = 20_000;

export class Acts {
  private readonly kept: Int32Array;
  private readonly crank: Crank;
  private readonly profile: Profile;
  /** A state that is turned on from row to row. */
  private readonly turned: State;

  private constructor(private readonly course: Course) {
    this.kept = new Int32Array(course.length * FIELDS);
    this.profile = course.run.order.profile;
    this.crank = new Crank(this.profile);
    this.turned = course.pointBefore(0).state.slice();
  }

  static *in(course: Course): Gradual<Acts> {
    const acts = new Acts(course);
    yield* acts.gather();
    return acts;
  }

  /** The first step from `from` on in which a fault may act; as many as there are steps, if there is none. */
  next(fault: Fault, from: number): number {
    const { course, kept } = this;
    const end = course.length;
    const [field, bits] = fieldOf(fault);
    const isOfLever = fault.kind === 'lever-short' || fault.kind === 'lever-dead';
    for (let at = from; at < end; at++) {
      if ((kept[at * FIELDS + field] & bits) === 0) continue;
      if (!isOfLever) return at;
      // Levers move in no step with turns but where auto-clear puts them to 0, which drives nothing.
      const figure = figureAt(course.pointBefore(at).state, SETTING, fault.place);
      if (fault.kind === 'lever-short' ? figure === fault.figure : figure !== 0) return at;
    }
    return end;
  }

  private *gather(): Gradual<void> {
    const { course } = this;
    const { tape } = course.run;
    let untilPause = TURNS_BETWEEN_PAUSES;
    for (let at = 0; at < course.length; at++) {
      for (let row = course.firstRows[at]; row < course.firstRows[at + 1]; row++) {
        const { syntax } = tape.stepAt(row);
        const before = this.turned;
        const after = tape.lookAt(row);
        if (after[TURNS] > 0) this.turn(at, after[TURNS], syntax.kind === 'turn' && syntax.back);
        untilPause -= 1 + after[TURNS];
        if (!has(after, REFUSED)) this.clearing(at, syntax, before, after);
        if (has(after, RANG)) this.keep(at, Kept.rang, 1);
        before.set(after);
      }
      if (untilPause > 0) continue;
      untilPause = TURNS_BETWEEN_PAUSES;
      yield;
    }
  }

  private keep(at: number, field: number, bits: number): void {
    this.kept[at * FIELDS + field] |= bits;
  }

  private turn(at: number, turns: number, back: boolean): void {
    const { turned, crank, profile } = this;
    const last = turned.slice();
    for (let i = 0; i < turns; i++) {
      const position = turned[POSITION];
      if (position === 0) return;
      const adds = has(turned, SUBTRACTING) === back;
      const isMinus = has(turned, COUNT_MINUS);
      if (has(turned, AUTO_CLEAR)) {
        const levers = shown(turned, 'setting', profile);
        this.keep(at, Kept.autoCleared, levers);
        this.keep(at, Kept.setting, levers);
      }
      last.set(turned);
      crank.turn(turned, back);
      this.keep(at, Kept.turned, 1);
      const carries = carried(last, turned, adds, profile.result);
      this.keep(at, Kept.carried, carries);
      this.keep(at, adds ? Kept.carriedAdding : Kept.carriedSubtracting, carries);
      if (position > profile.counter) continue;
      this.keep(at, Kept.counted, 1 << (position - 1));
      if (isMinus) this.keep(at, Kept.countedMinus, 1 << (position - 1));
      this.keep(at, Kept.counterCarried, changed(last, turned, profile.counter) >> 1);
    }
  }

  private clearing(at: number, syntax: StepSyntax, before: State, after: State): void {
    const { profile } = this;
    if (syntax.kind === 'clear') {
      for (const register of clearedBy(syntax)) this.keep(at, Kept[register], shown(before, register, profile));
    } else if (syntax.kind === 'transfer') {
      this.keep(at, Kept[syntax.register], shown(before, syntax.register, profile));
      this.keep(at, Kept.taken, shown(after, 'setting', profile));
    }
  }
}

/** What of a step tells whether a fault may act in it. */
function fieldOf(fault: Fault): readonly [field: number, bits: number] {
  const bit = 'place' in fault ? 1 << (fault.place - 1) : 0;
  switch (fault.kind) {
    case 'lever-short':
    case 'lever-dead':
      return [Kept.turned, 1];
    case 'carry-lost':
      if (fault.register === 'counter') return [Kept.counterCarried, bit];
      return [fault.way === 'add' ? Kept.carriedAdding : Kept.carriedSubtracting, bit];
    case 'carry-stuck':
      return [Kept.carried, bit];
    case 'count-dead':
      return [Kept.counted, bit];
    case 'count-lever-dead':
      return [Kept.countedMinus, -1];
    case 'clear-short':
      return [Kept[fault.register], bit];
    case 'auto-clear-dead':
      return [Kept.autoCleared, bit];
    case 'transfer-dead':
      return [Kept.taken, bit];
    case 'bell-dead':
      return [Kept.rang, 1];
  }
}

/** Places of a register that show something else than 0. */
function shown(state: State, register: Register, profile: Profile): number {
  let bits = 0;
  for (let place = 1; place <= profile[register]; place++) {
    if (figureAt(state, REGISTER_AT[register], place) !== 0) bits |= 1 << (place - 1);
  }
  return bits;
}

/**
 * Result places out of which a carry came in a turn: all that lies to the right of one together shows less than before
 * where something was added, and more where something was taken away.
 */
function carried(before: State, after: State, adds: boolean, places: number): number {
  let bits = 0;
  // How what lies to the right has changed: 1 more, −1 less, 0 not at all. The highest figure that differs decides.
  let change = 0;
  for (let place = 1; place < places; place++) {
    const difference = figureAt(after, RESULT, place) - figureAt(before, RESULT, place);
    if (difference !== 0) change = difference;
    if (change !== 0 && change < 0 === adds) bits |= 1 << (place - 1);
  }
  return bits;
}

/** Counter places that show another figure than before. */
function changed(before: State, after: State, places: number): number {
  let bits = 0;
  for (let place = 1; place <= places; place++) {
    if (figureAt(before, COUNTER, place) !== figureAt(after, COUNTER, place)) bits |= 1 << (place - 1);
  }
  return bits;
}
