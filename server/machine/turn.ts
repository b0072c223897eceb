/** One turn of the crank. */
import {
  add,
  cutAbove,
  exceeds,
  type Figures,
  figureAt,
  fromText,
  isZero,
  LIMBS,
  moveUp,
  putFigure,
  subtract,
} from './figures.js';
import type { Profile } from './profile.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  COUNTER,
  clearRegister,
  LEVERS,
  NEGATIVE,
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  put,
  RANG,
  RESTORING,
  RESULT,
  type Register,
  SENSE_ADD,
  SENSE_SUBTRACT,
  SETTING,
  type State,
  SUBTRACTING,
  TURNS,
  WRAPS,
} from './state.js';

/** What is noticed in a turn, one bit each. */
export const Noticed = {
  /** The carriage is out of gear: nothing moved. */
  parked: 1,
  /** A lever figure had no result wheel and was lost. */
  digitsOffEnd: 2,
  /** A carry was due past the reach of the tens carry and was lost. */
  carryShort: 4,
  overflow: 8,
  overdraw: 16,
  /** The counter has no place where the carriage stands. */
  notCounted: 32,
  counterOverflow: 64,
  counterUnderflow: 128,
  /** Automatic division made an adding turn with no overdraw to restore. */
  divideInAddMode: 256,
  /** All levers stood at zero. */
  idle: 512,
} as const;

/** One in a place: ONES[place − 1]. */
export const ONES: readonly Figures[] = Array.from({ length: 21 }, (_, i) => {
  const one = new Int32Array(LIMBS);
  putFigure(one, 0, i + 1, 1);
  return one;
});

/**
 * The crank and what it drives, with what clears registers and takes them over into the levers. It keeps no state of
 * its own but a memory of what the levers drive where.
 *
 * Invariant: this is the sound machine. What a fault changes is overridden in faulty.ts, so that a turn here asks after none.
 */
export class Crank {
  /** What the levers drive from the present position, by result places. */
  protected readonly driven: Figures = new Int32Array(LIMBS);
  private isIdle = true;
  private losesFigures = false;
  private readonly rememberedSetting: Figures = new Int32Array(LIMBS);
  private rememberedPosition = 0;

  constructor(protected readonly profile: Profile) {}

  /** Turns once, backwards if told (on a crank that turns both ways), and says what was noticed. */
  turn(state: State, back: boolean): number {
    state[TURNS]++;
    const position = state[POSITION];
    if (position === 0) return Noticed.parked;
    const adds = ((state[LEVERS] & SUBTRACTING) !== 0) === back;
    this.engage(state, position);
    let noticed = this.isIdle ? Noticed.idle : 0;
    if (this.losesFigures) noticed |= Noticed.digitsOffEnd;
    noticed |= this.drive(state, position, adds) | this.count(state, position, adds);
    if ((state[LEVERS] & AUTO_CLEAR) !== 0) this.autoClear(state);
    if ((state[LEVERS] & AUTO_DIVIDE) !== 0) noticed |= this.divide(state, adds, (noticed & Noticed.overdraw) !== 0);
    return noticed;
  }

  /** Clears a register, whoever does it: by hand, in a transfer, or the machine itself after a turn. */
  clear(state: State, register: Register): void {
    clearRegister(state, register);
  }

  /** The levers, which stand at zero, take figures in a back transfer, the highest first. */
  take(state: State, figures: string): void {
    fromText(state, SETTING, figures);
  }

  protected autoClear(state: State): void {
    this.clear(state, 'setting');
  }

  /** Lever i drives result place position + i − 1. `levers` holds their figures from SETTING on. */
  protected engage(levers: Figures, position: number): void {
    const known = this.rememberedSetting;
    if (
      position === this.rememberedPosition &&
      levers[SETTING] === known[0] &&
      levers[SETTING + 1] === known[1] &&
      levers[SETTING + 2] === known[2]
    ) {
      return;
    }
    this.rememberedPosition = position;
    for (let i = 0; i < LIMBS; i++) known[i] = levers[SETTING + i];
    const wheels = this.profile.result - position + 1;
    this.isIdle = isZero(known, 0);
    this.losesFigures = exceeds(known, 0, wheels);
    const kept = this.losesFigures ? known.slice() : known;
    if (this.losesFigures) cutAbove(kept, 0, wheels);
    moveUp(kept, 0, position - 1, this.driven);
  }

  /** The result takes the figures, and carries ripple from the units up, as far as they reach. */
  protected drive(state: State, position: number, adds: boolean): number {
    const top = this.top(position);
    return this.move(state, adds, top) ? this.leave(state, adds, top) : 0;
  }

  /** The last place that a carry is delivered to. */
  protected top(position: number): number {
    const { result, reach } = this.profile;
    return reach === undefined ? result : Math.min(result, position + reach - 1);
  }

  /** The wheels move, carries going no further than `top`. Returns whether one was due out of there. */
  protected move(state: State, adds: boolean, top: number): boolean {
    return adds ? add(state, RESULT, this.driven, top) : subtract(state, RESULT, this.driven, top);
  }

  /** A carry is due out of `top`: past the reach it is lost, past the register it is an overflow or an overdraw. */
  protected leave(state: State, adds: boolean, top: number): number {
    if (top < this.profile.result) return Noticed.carryShort;
    state[LEVERS] |= (this.profile.bell ? RANG : 0) | (adds ? OVERFLOWED : OVERDRAWN);
    state[WRAPS] += adds ? 1 : -1;
    return adds ? Noticed.overflow : Noticed.overdraw;
  }

  protected count(state: State, position: number, adds: boolean): number {
    const { counter, counterCarry } = this.profile;
    const up = this.countsUp(state, adds);
    if (position > counter) return counter === 0 ? 0 : Noticed.notCounted;
    if (counterCarry === 'carry') {
      if (up) return add(state, COUNTER, ONES[position - 1], counter) ? Noticed.counterOverflow : 0;
      return subtract(state, COUNTER, ONES[position - 1], counter) ? Noticed.counterUnderflow : 0;
    }
    return counterCarry === 'plain' ? countPlain(state, position, up) : countSigned(state, position, up);
  }

  protected countsUp(state: State, adds: boolean): boolean {
    switch (this.profile.count) {
      case 'follow':
        return adds;
      case 'lever':
        return adds !== ((state[LEVERS] & COUNT_MINUS) !== 0);
      case 'first': {
        if ((state[LEVERS] & (SENSE_ADD | SENSE_SUBTRACT)) === 0) put(state, adds ? SENSE_ADD : SENSE_SUBTRACT, true);
        return adds === ((state[LEVERS] & SENSE_ADD) !== 0);
      }
    }
  }

  /** Automatic division: an overdraw puts the drive to add, the restoring turn moves the carriage on. */
  private divide(state: State, adds: boolean, overdrew: boolean): number {
    if (!adds) {
      if (overdrew) state[LEVERS] = (state[LEVERS] & ~SUBTRACTING) | RESTORING;
      return 0;
    }
    const restored = (state[LEVERS] & RESTORING) !== 0;
    state[LEVERS] = (state[LEVERS] & ~RESTORING) | SUBTRACTING;
    state[POSITION]--;
    return restored ? 0 : Noticed.divideInAddMode;
  }
}

/** A wheel by itself: 9 → 0 and 0 → 9. */
function countPlain(state: State, place: number, up: boolean): number {
  const figure = figureAt(state, COUNTER, place);
  putFigure(state, COUNTER, place, (figure + (up ? 1 : 9)) % 10);
  if (up) return figure === 9 ? Noticed.counterOverflow : 0;
  return figure === 0 ? Noticed.counterUnderflow : 0;
}

/** A wheel that shows −9 … 9; passing either end it goes to 0. */
function countSigned(state: State, place: number, up: boolean): number {
  const bit = 1 << (place - 1);
  const figure = figureAt(state, COUNTER, place) * ((state[NEGATIVE] & bit) !== 0 ? -1 : 1);
  const next = figure + (up ? 1 : -1);
  const passes = Math.abs(next) > 9;
  putFigure(state, COUNTER, place, passes ? 0 : Math.abs(next));
  state[NEGATIVE] = next < 0 && !passes ? state[NEGATIVE] | bit : state[NEGATIVE] & ~bit;
  return passes ? Noticed.counterOverflow : 0;
}
