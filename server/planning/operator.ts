/**
 * Somebody at the machine, who does steps and writes them down.
 *
 * Invariant: every step is done on the mechanism itself, so that readings and events are the machine's own. What a plan
 * must not have, such as a lost figure or a counter that runs over, ends the attempt as `Stuck` with the limit that was met.
 */
import {
  AUTO_DIVIDE,
  beginStep,
  COUNT_MINUS,
  Crank,
  clearRegister,
  fromText,
  has,
  hasDriveLever,
  hasHalfSteps,
  NEGATIVE,
  Noticed,
  newState,
  numberIn,
  POSITION,
  type Profile,
  pointOf,
  put,
  putPoint,
  RESTORING,
  RESULT,
  type Register,
  SETTING,
  type State,
  SUBTRACTING,
  setDrive,
  shiftHalf,
  shiftOut,
  shiftTo,
  textOf,
  WRAPS,
} from '../machine/index.js';
import { costOf, type Effort } from '../sequence/effort.js';
import { decimalText } from '../sequence/readings.js';
import { type Amount, amount, figuresOf, tenTo, textAt, unitsAt } from './amount.js';
import { Logbook } from './logbook.js';
import type { Limit } from './order.js';

/** An attempt that can't be carried through: thrown by the thousand, so that it is no error with a trace of calls. */
export class Stuck {
  constructor(readonly limit: Limit) {}
}

/** A number that somebody sets or cranks: as written on paper, or a parameter of the sequence. */
export interface Figures {
  readonly value: Amount;
  /** The parameter's name, where it is one, and whether its number is written without a point. */
  readonly name?: string;
  readonly isDigits?: boolean;
}

/** Whether half a shift on the way, rather than a change of the drive where it stands, costs no more. */
export function isByHalves(profile: Profile, positions: number, halves: number): boolean {
  const { shift, lever } = profile.effort;
  if (!hasHalfSteps(profile) || halves % 2 === 0) return false;
  return shift * Math.ceil(Math.abs(halves) / 2) <= lever + shift * Math.abs(positions);
}

type Points = { readonly setting: number; readonly counter: number; readonly result: number };
const TURNS_TO_OVERDRAW = 1_000;

export class Operator extends Logbook {
  readonly state: State;
  /** The sum that is being made ends below zero, so that an overdraw on the way is no slip. */
  mayOverdraw = false;
  /** In which register the answer stands, once there is one. */
  answer: 'counter' | 'result' | undefined;
  /** A parameter has been cranked: where the carriage stands depends on how many figures it has in each case. */
  private isAdrift = false;
  private readonly crank: Crank;

  constructor(
    readonly profile: Profile,
    from?: Operator,
  ) {
    super(from);
    this.state = from ? from.state.slice() : newState();
    // The crank keeps nothing but a memory of what it did last: it serves all who try something.
    this.crank = from ? from.crank : new Crank(profile);
    if (!from) return;
    this.answer = from.answer;
    this.mayOverdraw = from.mayOverdraw;
    this.isAdrift = from.isAdrift;
  }

  /** Another who stands where this one does, and may try something. */
  another(): Operator {
    return new Operator(this.profile, this);
  }

  get cost(): number {
    return costOf(this.profile, this);
  }

  /** What a change of the drive costs: on a half-step machine half a shift may do it. */
  get costOfDrive(): number {
    const { shift, lever } = this.profile.effort;
    if (!hasDriveLever(this.profile)) return 0;
    return hasHalfSteps(this.profile) ? Math.min(shift, lever) : lever;
  }

  /** What it has cost when the levers have been put back as they were found. */
  get costAtRest(): number {
    const back = (this.isSubtracting ? this.costOfDrive : 0) + (this.isCountMinus ? this.profile.effort.lever : 0);
    return this.cost + back;
  }

  get effort(): Effort {
    const { turns, shifts, levers, cost } = this;
    return { turns, shifts, levers, cost };
  }

  get position(): number {
    return this.state[POSITION];
  }

  get points(): Points {
    const { state } = this;
    return { setting: pointOf(state, 'setting'), counter: pointOf(state, 'counter'), result: pointOf(state, 'result') };
  }

  get isSubtracting(): boolean {
    return has(this.state, SUBTRACTING);
  }

  /** What a register reads as a whole number, markers aside. */
  units(register: Register): bigint {
    return numberIn(this.state, this.profile, register);
  }

  /** What a register reads at its marker. */
  reading(register: Register): Amount {
    return amount(this.units(register), pointOf(this.state, register));
  }

  private write(step: string): void {
    this.log({ step });
    beginStep(this.state);
  }

  clear(...registers: Register[]): void {
    const { profile, state } = this;
    const there = registers.filter((register) => profile[register] > 0);
    if (there.length === 0) return;
    const all = there.length === 3 || (there.length === 2 && profile.counter === 0);
    this.write(all ? 'clear all' : `clear ${there.join(' ')}`);
    for (const register of there) clearRegister(state, register);
  }

  /** All registers that the machine has. */
  clearAll(): void {
    this.clear('setting', 'counter', 'result');
  }

  /** Puts the markers of setting, counter and result; result is the sum of the other two. */
  place(setting: number, counter: number): void {
    const { profile, state } = this;
    const result = setting + counter;
    this.room('setting', setting);
    if (profile.counter > 0) this.room('counter', counter);
    this.room('result', result);
    const now = this.points;
    if (now.setting === setting && now.counter === counter && now.result === result) return;
    const middle = profile.counter > 0 ? ` counter ${counter}` : '';
    this.write(`points setting ${setting}${middle} result ${result}`);
    putPoint(state, 'setting', setting);
    if (profile.counter > 0) putPoint(state, 'counter', counter);
    putPoint(state, 'result', result);
  }

  /** That a register or the carriage has so many places. */
  room(register: Register | 'carriage', needs: number): void {
    const has = this.profile[register];
    if (needs > has) throw new Stuck({ is: 'places', register, has, needs });
  }

  /** Sets a number at the setting's marker. */
  set(figures: Figures): void {
    const { state } = this;
    const text = this.aligned('setting', figures);
    this.write(`set ${text.written}`);
    fromText(state, SETTING, text.digits);
  }

  /** Sets digits with their units in a place, markers aside. */
  setDigits(digits: bigint, at: number): void {
    this.room('setting', figuresOf(digits) + at - 1);
    this.write(at === 1 ? `set ${digits}` : `set ${digits} at ${at}`);
    fromText(this.state, SETTING, digits.toString() + '0'.repeat(at - 1));
  }

  /** Sets the wheels of the result by hand. */
  dial(figures: Figures): void {
    const { state } = this;
    const text = this.aligned('result', figures);
    this.write(`dial result ${text.written}`);
    clearRegister(state, 'result');
    fromText(state, RESULT, text.digits);
  }

  private aligned(
    register: 'setting' | 'result',
    { value, name, isDigits }: Figures,
  ): { written: string; digits: string } {
    const marker = pointOf(this.state, register);
    if (value.decimals > marker) throw new Stuck(this.tooFew(register, value, marker));
    const units = unitsAt(value, marker);
    this.room(register, figuresOf(units));
    const at = marker > 0 && isDigits ? ` at ${marker + 1}` : '';
    return { written: name === undefined ? textAt(value, marker) : `${name}${at}`, digits: units.toString() };
  }

  private tooFew(register: Register, value: Amount, marker: number): Limit {
    const needs = this.profile[register] + value.decimals - marker;
    return { is: 'places', register, has: this.profile[register], needs };
  }

  shiftTo(position: number): void {
    const { state, profile } = this;
    if (position === state[POSITION] && !this.isAdrift) return;
    if (position > profile.carriage)
      throw new Stuck({ is: 'places', register: 'carriage', has: profile.carriage, needs: position });
    const by = position - state[POSITION];
    const count = Math.abs(by) === 1 ? '' : ` ${Math.abs(by)}`;
    this.write(this.isAdrift ? `shift to ${position}` : `shift ${by > 0 ? 'right' : 'left'}${count}`);
    this.isAdrift = false;
    this.shifts += shiftTo(state, profile, position).shifts;
  }

  /** Brings carriage and drive where the next turn is made; on a half-step machine half a shift may be saved. */
  goTo(position: number, subtracting: boolean): void {
    const { state, profile } = this;
    const positions = position - state[POSITION];
    const halves = 2 * positions + Number(subtracting) - Number(has(state, SUBTRACTING));
    const isInGear = state[POSITION] > 0 && position <= profile.carriage && !this.isAdrift;
    if (!isInGear || !isByHalves(profile, positions, halves)) return this.shiftTo(position);
    this.write(`shift ${halves > 0 ? 'right' : 'left'} half`);
    this.shifts += shiftHalf(state, profile, halves > 0 ? 1 : -1).shifts;
    this.shiftTo(position);
  }

  shiftOut(): void {
    this.write('shift out');
    this.shifts += shiftOut(this.state).shifts;
  }

  /** Puts the drive lever; on a half-step machine half a shift does it, where that is less work. */
  drive(subtracting: boolean): void {
    const { state, profile } = this;
    if (has(state, SUBTRACTING) === subtracting) return;
    if (!hasDriveLever(profile)) throw new Stuck({ is: 'cannot-subtract' });
    const { shift, lever } = profile.effort;
    if (hasHalfSteps(profile) && shift <= lever && state[POSITION] > 0) {
      this.write(`shift ${subtracting ? 'right' : 'left'} half`);
      this.shifts += shiftHalf(state, profile, subtracting ? 1 : -1).shifts;
      return;
    }
    this.write(`mode ${subtracting ? 'subtract' : 'add'}`);
    if (setDrive(state, subtracting)) this.levers++;
  }

  get isCountMinus(): boolean {
    return has(this.state, COUNT_MINUS);
  }

  /** The result shows the complement of a number below zero. */
  get isBelowZero(): boolean {
    return this.state[WRAPS] < 0;
  }

  /** Drive and count lever as they are found at the start. */
  atRest(): void {
    if (hasDriveLever(this.profile)) this.drive(false);
    if (this.profile.count === 'lever') this.countLever(false);
  }

  /** Whether the machine can turn so that it subtracts. */
  get canSubtract(): boolean {
    return this.profile.subtract !== 'none';
  }

  countLever(minus: boolean): void {
    const { state } = this;
    if (has(state, COUNT_MINUS) === minus) return;
    this.write(`count ${minus ? 'minus' : 'plus'}`);
    put(state, COUNT_MINUS, minus);
    this.levers++;
  }

  autoDivide(on: boolean): void {
    const { state } = this;
    this.write(`auto-divide ${on ? 'on' : 'off'}`);
    put(state, AUTO_DIVIDE, on);
    put(state, RESTORING, false);
    this.levers++;
  }

  /** Puts the drive as it must stand, and tells whether the crank goes backwards. */
  private ready(adds: boolean): boolean {
    if (hasDriveLever(this.profile)) this.drive(!adds);
    else if (!adds && !this.canSubtract) throw new Stuck({ is: 'cannot-subtract' });
    return !hasDriveLever(this.profile) && !adds;
  }

  /**
   * Turns the crank. What wraps the result is expected, and said so, if it is the event that is named; a turn that
   * `restores` makes an overdraw good.
   */
  turn(count: number, adds: boolean, wraps?: 'overflow' | 'overdraw' | 'restores'): void {
    if (count === 0) return;
    const back = this.ready(adds);
    this.write(`turn${back ? ' back' : ''}${count === 1 ? '' : ` ${count}`}`);
    let seen = 0;
    for (let i = 0; i < count; i++) {
      this.turns++;
      seen |= this.crank.turn(this.state, back);
    }
    this.settle(seen, wraps);
  }

  /** Subtracts until the result goes below zero. */
  turnUntilOverdraw(): void {
    const back = this.ready(false);
    this.write(`turn${back ? ' back' : ''} until overdraw`);
    let seen = 0;
    for (let i = 0; i < TURNS_TO_OVERDRAW && (seen & Noticed.overdraw) === 0; i++) {
      this.turns++;
      seen |= this.crank.turn(this.state, back);
    }
    this.settle(seen, 'overdraw');
  }

  /** Lets automatic division run down to position 1 and out of gear. */
  turnUntilStop(): void {
    this.write('turn until stop');
    let seen = 0;
    for (let i = 0; i < TURNS_TO_OVERDRAW && this.state[POSITION] > 0; i++) {
      this.turns++;
      seen |= this.crank.turn(this.state, false);
    }
    if (this.state[POSITION] > 0) throw new Stuck({ is: 'not-met' });
    this.settle(seen & ~(Noticed.overdraw | Noticed.overflow | Noticed.idle));
  }

  private settle(seen: number, wraps?: 'overflow' | 'overdraw' | 'restores'): void {
    const { profile } = this;
    const stuck = (limit: Limit) => {
      throw new Stuck(limit);
    };
    const more = (register: Register): Limit => ({
      is: 'places',
      register,
      has: profile[register],
      needs: profile[register] + 1,
    });
    if (seen & Noticed.carryShort) stuck({ is: 'reach', places: profile.reach ?? 0 });
    if (seen & Noticed.digitsOffEnd) stuck(more('result'));
    if (seen & Noticed.notCounted)
      stuck({ is: 'places', register: 'counter', has: profile.counter, needs: this.position });
    if (seen & Noticed.counterOverflow) stuck({ is: 'runs-over', register: 'counter' });
    if (seen & Noticed.counterUnderflow) stuck({ is: 'below-zero', register: 'counter' });
    if (seen & (Noticed.parked | Noticed.idle | Noticed.divideInAddMode)) stuck({ is: 'not-met' });
    if (seen & Noticed.overflow && wraps !== 'overflow' && wraps !== 'restores')
      stuck({ is: 'runs-over', register: 'result' });
    if (seen & Noticed.overdraw && wraps !== 'overdraw' && !this.mayOverdraw)
      stuck({ is: 'below-zero', register: 'result' });
    if (wraps === 'overflow' && seen & Noticed.overflow) this.log({ step: 'expect overflow' });
    if (seen & Noticed.overdraw) this.log({ step: 'expect overdraw' });
  }

  /** Passes the result back to the levers; from position 1 if the machine wants it or nothing else is said. */
  transferResult(position = 1): void {
    const { state, profile } = this;
    if (profile.transferResult === 'none' || (profile.transferResult === 'at 1' && position !== 1))
      throw new Stuck({ is: 'not-met' });
    this.shiftTo(position);
    if (this.units('setting') !== 0n) this.clear('setting');
    const units = this.units('result');
    if (units % tenTo(position - 1) !== 0n) throw new Stuck({ is: 'not-met' });
    const moved = units / tenTo(position - 1);
    this.room('setting', figuresOf(moved));
    this.write('transfer result');
    fromText(state, SETTING, moved.toString());
    clearRegister(state, 'result');
  }

  transferCounter(): void {
    const { state, profile } = this;
    if (!profile.transferCounter || state[NEGATIVE] !== 0) throw new Stuck({ is: 'not-met' });
    if (this.units('setting') !== 0n) this.clear('setting');
    const units = this.units('counter');
    this.room('setting', figuresOf(units));
    this.write('transfer counter');
    fromText(state, SETTING, units.toString());
    clearRegister(state, 'counter');
  }

  /** `multiply by` a parameter, from where the carriage stands. */
  multiplyBy({ value, name, isDigits }: Figures): void {
    const counter = isDigits ? 0 : this.points.counter;
    const figures = unitsAt(value, counter).toString();
    if (name === undefined || value.units <= 0n) throw new Stuck({ is: 'parameters' });
    this.ready(true);
    const from = this.position;
    this.write(`multiply by ${name}`);
    const written = this.steps;
    let last = from;
    for (const [i, figure] of [...figures].reverse().entries()) {
      if (figure === '0') continue;
      this.shiftTo(from + i);
      last = from + i;
      this.turn(Number(figure), true);
    }
    // The single steps are what the line stands for.
    this.steps = written;
    this.state[POSITION] = last;
    this.isAdrift = true;
  }

  /** Says what registers must read now. A register that shows a complement is told by its figures. */
  expect(...registers: Register[]): void {
    const { state, profile } = this;
    const items = registers.flatMap((register) => {
      if (profile[register] === 0) return [];
      const marker = pointOf(state, register);
      const units = numberIn(state, profile, register);
      const text = decimalText(units, marker);
      return [`${register} ${text}`];
    });
    const before = this.steps.newest;
    const said = before && 'step' in before && before.step.startsWith('expect ') ? `${before.step} ` : '';
    // What was said right before need not be said again.
    const news = items.filter((item) => !said.includes(` ${item} `));
    if (news.length > 0) this.log({ step: `expect ${news.join(' ')}` });
  }

  /** A register's figures, highest place first. */
  figures(register: Register): string {
    return textOf(this.state, this.profile, register);
  }
}
