/** The crank of a machine that has a fault. */
import type { Fault } from './fault.js';
import { add, cutAbove, type Figures, figureAt, LIMBS, putFigure, subtract } from './figures.js';
import type { Profile } from './profile.js';
import { CARRY_STUCK, COUNTER, has, put, REGISTER_AT, RESULT, type Register, SETTING, type State } from './state.js';
import { Crank, ONES } from './turn.js';

/** The crank of a machine, with at most one fault. */
export function crankWith(profile: Profile, fault: Fault | undefined): Crank {
  return fault === undefined ? new Crank(profile) : new FaultyCrank(profile, fault);
}

/**
 * The sound crank, and what each kind of fault changes in it.
 *
 * Invariant: what a fault remembers stands in the state (CARRY_STUCK), so that a run can be taken up from any state.
 * Invariant: it is one class for all kinds. With a class for each, whatever they share with the sound crank would have
 * to find out in every turn which of ten it is working for, and the sound one would take four times as long.
 */
class FaultyCrank extends Crank {
  private readonly place: number;
  /** What is driven, parted behind the fault's place. */
  private readonly low: Figures = new Int32Array(LIMBS);
  private readonly high: Figures = new Int32Array(LIMBS);

  constructor(
    profile: Profile,
    private readonly fault: Fault,
  ) {
    super(withoutDevice(profile, fault));
    this.place = 'place' in fault ? fault.place : 0;
  }

  override clear(state: State, register: Register): void {
    const { fault, place } = this;
    const at = REGISTER_AT[register];
    const isShort = fault.kind === 'clear-short' && fault.register === register && figureAt(state, at, place) !== 0;
    super.clear(state, register);
    if (isShort) putFigure(state, at, place, 1);
  }

  override take(state: State, figures: string): void {
    super.take(state, figures);
    if (this.fault.kind === 'transfer-dead') putFigure(state, SETTING, this.place, 0);
  }

  protected override autoClear(state: State): void {
    const { place } = this;
    const isLeft = this.fault.kind === 'auto-clear-dead';
    const figure = isLeft ? figureAt(state, SETTING, place) : 0;
    super.autoClear(state);
    if (isLeft) putFigure(state, SETTING, place, figure);
  }

  /** A lever that drives less than it shows: one less where it stands at a figure, or nothing at all. */
  protected override engage(state: Figures, position: number): void {
    const { fault, place, low: levers } = this;
    if (fault.kind !== 'lever-short' && fault.kind !== 'lever-dead') return super.engage(state, position);
    for (let i = 0; i < LIMBS; i++) levers[i] = state[SETTING + i];
    if (fault.kind === 'lever-dead') putFigure(levers, 0, place, 0);
    else if (figureAt(levers, 0, place) === fault.figure) putFigure(levers, 0, place, fault.figure - 1);
    super.engage(levers, position);
  }

  /** A stuck carry comes after the turn's own motion, in every turn after the one in which it was first delivered. */
  protected override drive(state: State, position: number, adds: boolean): number {
    const { place } = this;
    const isStuck = has(state, CARRY_STUCK);
    const noticed = super.drive(state, position, adds);
    const top = this.top(position);
    // A carry of limited reach goes to the places to the left of the position.
    const first = this.profile.reach === undefined ? 1 : position;
    if (!isStuck || place < first || place >= top) return noticed;
    return this.deliver(state, adds, top) ? noticed | this.leave(state, adds, top) : noticed;
  }

  protected override move(state: State, adds: boolean, top: number): boolean {
    const { fault, place, low, high, driven } = this;
    const isOfCarry = (fault.kind === 'carry-lost' && fault.register === 'result') || fault.kind === 'carry-stuck';
    // Where the carry does not reach past the place, there is nothing that could be delivered.
    if (!isOfCarry || place >= top) return super.move(state, adds, top);
    for (let i = 0; i < LIMBS; i++) low[i] = driven[i];
    cutAbove(low, 0, place);
    for (let i = 0; i < LIMBS; i++) high[i] = driven[i] - low[i];
    const isDue = enter(state, RESULT, low, adds, place);
    const leaves = enter(state, RESULT, high, adds, top);
    if (!isDue || (fault.kind === 'carry-lost' && adds === (fault.way === 'add'))) return leaves;
    if (fault.kind === 'carry-stuck') put(state, CARRY_STUCK, true);
    return this.deliver(state, adds, top) || leaves;
  }

  /** One unit enters the place above the fault's and goes on from there like any carry; true if one leaves `top`. */
  private deliver(state: State, adds: boolean, top: number): boolean {
    return enter(state, RESULT, ONES[this.place], adds, top);
  }

  protected override count(state: State, position: number, adds: boolean): number {
    const { fault, place } = this;
    if (fault.kind === 'count-dead' && position === place) {
      // A `first` counter takes its sense all the same.
      this.countsUp(state, adds);
      return 0;
    }
    if (fault.kind === 'carry-lost' && fault.register === 'counter' && position <= place) {
      enter(state, COUNTER, ONES[position - 1], this.countsUp(state, adds), place);
      return 0;
    }
    return super.count(state, position, adds);
  }
}

/** Where a fault is as if the machine had not got a device, it has not got it. */
function withoutDevice(profile: Profile, { kind }: Fault): Profile {
  if (kind === 'bell-dead') return { ...profile, bell: false };
  return kind === 'count-lever-dead' && profile.count === 'lever' ? { ...profile, count: 'follow' } : profile;
}

const enter = (state: State, at: number, figures: Figures, adds: boolean, top: number): boolean =>
  adds ? add(state, at, figures, top) : subtract(state, at, figures, top);
