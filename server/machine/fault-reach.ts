/**
 * Whether any sequence can bring a machine to where a fault acts. A wheel to the left of all that the carriage brings
 * the levers to, say, may never move.
 */
import type { Fault } from './fault.js';
import type { Profile } from './profile.js';

/** Turns that a sequence may have at the most: what takes more is out of reach. */
export const MOST_TURNS = 1_000_000;
/** So many places more than the levers have, these turns fill with all levers at 9. */
const PLACES_BY_TURNING = 5;

/** Whether a fault that the machine can have may ever act; if not, it is listed and counted apart. */
export function isWithinReach(fault: Fault, profile: Profile): boolean {
  switch (fault.kind) {
    case 'carry-lost':
      if (fault.register === 'counter') return counterCarries(fault.place, profile);
      return delivers(fault.place, profile) && (fault.way === 'subtract' || carries(fault.place, profile));
    case 'carry-stuck':
      return delivers(fault.place, profile) && (profile.subtract !== 'none' || carries(fault.place, profile));
    case 'count-dead':
      return fault.place <= profile.carriage;
    case 'count-lever-dead':
      return profile.counter > 0;
    case 'clear-short':
      return fault.register === 'setting' || leavesZero(fault.register, fault.place, profile);
    case 'transfer-dead':
      return (
        (profile.transferResult !== 'none' && leavesZero('result', fault.place, profile)) ||
        (profile.transferCounter && fault.place <= profile.counter && leavesZero('counter', fault.place, profile))
      );
    case 'bell-dead':
      return wraps(profile);
    default:
      return true;
  }
}

/** In some position that a carry out of the result place can come from, it is delivered to the next place. */
function delivers(place: number, { carriage, reach }: Profile): boolean {
  return reach === undefined || place <= Math.min(place, carriage) + reach - 2;
}

/** Turns that add bring about a carry out of the result place; those that subtract borrow from 0 out of every place. */
const carries = (place: number, profile: Profile): boolean =>
  profile.dials || profile.subtract !== 'none' || place < profile.carriage + profile.setting + PLACES_BY_TURNING;

/** A carry can come out of the register's last place. */
function wraps(profile: Profile): boolean {
  const { result, carriage, reach } = profile;
  return (reach === undefined || carriage + reach - 1 >= result) && carries(result, profile);
}

/** The counter's place carries: it is turned in, or the turns carry so far, or counting down borrows from 0. */
function counterCarries(place: number, { carriage, subtract, count }: Profile): boolean {
  const countsDown = subtract !== 'none' || count === 'lever';
  return countsDown || place <= carriage + PLACES_BY_TURNING;
}

/** The wheel can come to show something else than 0. */
function leavesZero(register: 'counter' | 'result', place: number, profile: Profile): boolean {
  if (register === 'counter') {
    return place <= profile.carriage || (profile.counterCarry === 'carry' && counterCarries(place - 1, profile));
  }
  if (profile.dials || place < profile.carriage + profile.setting) return true;
  return delivers(place - 1, profile) && carries(place - 1, profile);
}
