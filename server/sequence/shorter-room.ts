/** How far turns may take the result, and a counter with carry, from what they show. */
import { COUNTER, exceeds, numberIn, type Profile, RESULT, type State, showsZero } from '../machine/index.js';
import type { WrittenWay } from './shorter-ways.js';

/** Registers before the turns, on which place 1 of an errand is one place above `base`. */
export interface Registers {
  readonly profile: Profile;
  readonly state: State;
  readonly base: number;
  /** Adding turns are counted up. */
  readonly countsUp: boolean;
}

/** So much less than nothing the turns may come to before a register passes an end. The levers must not stand at zero. */
export function roomBelow({ profile, state, base, countsUp }: Registers): number {
  if (showsZero(state, 'result')) return 0;
  const room = numberIn(state, profile, 'result') / stepOf(state, profile, base);
  return Number(hasCarry(profile) ? least(room, roomOfCounter(state, profile, base, !countsUp)) : room);
}

/** So much more than nothing, likewise. */
export function roomAbove({ profile, state, base, countsUp }: Registers): number {
  const room = (highestOf(profile.result) - numberIn(state, profile, 'result')) / stepOf(state, profile, base);
  return Number(hasCarry(profile) ? least(room, roomOfCounter(state, profile, base, countsUp)) : room);
}

function roomOfCounter(state: State, profile: Profile, base: number, isUp: boolean): bigint {
  const counted = numberIn(state, profile, 'counter');
  return (isUp ? highestOf(profile.counter) - counted : counted) / 10n ** BigInt(base);
}

const stepOf = (state: State, profile: Profile, base: number): bigint =>
  numberIn(state, profile, 'setting') * 10n ** BigInt(base);
const highestOf = (places: number): bigint => 10n ** BigInt(places) - 1n;
const least = (a: bigint, b: bigint): bigint => (a < b ? a : b);
const hasCarry = ({ counter, counterCarry }: Profile): boolean => counter > 0 && counterCarry === 'carry';

/**
 * Whether the numbers of figures show that there is room for a way. Then it ends with the very sums: no carry is lost,
 * and no wheel passes an end. False where that is not certain, and on a machine on which more than the sums counts: one
 * whose carries have a reach, one whose counter has no carry.
 */
export function hasAmpleRoom({ profile, state, base, countsUp }: Registers, lever: number, way: WrittenWay): boolean {
  if (profile.reach !== undefined) return false;
  const { figuresBelow: down, figuresAbove: up } = way;
  if (!isAmple(state, RESULT, profile.result, lever + base, down, up)) return false;
  if (profile.counter === 0) return true;
  if (profile.counterCarry !== 'carry') return false;
  return isAmple(state, COUNTER, profile.counter, base, countsUp ? down : up, countsUp ? up : down);
}

/**
 * What is added has so many figures, moved up by some places, and so has what is taken away: the first needs a place
 * more than it has, the second something in the register above its own.
 */
function isAmple(state: State, register: number, places: number, moved: number, down: number, up: number): boolean {
  if (Math.max(down, up) + moved >= places) return false;
  return (down === 0 || exceeds(state, register, moved + down)) && (up === 0 || !exceeds(state, register, places - 1));
}
