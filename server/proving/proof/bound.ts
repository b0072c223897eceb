/**
 * Less effort than this no script can do with that proves the same and that a check passes.
 *
 * Turns: each of the nine figures of the highest lever wants a turn of its own with that lever over a wheel, and each place
 * of the counter a turn in its position; where the highest lever stands past the result, the two can't be the same turn.
 * Shifts: the carriage has to come to the highest position that a place of the counter, or a carry of limited reach, wants,
 * and for the carries of the counter back, or there are ten turns more (`walks`).
 * Levers: whatever has to be switched has to be switched back.
 */
import { type Fault, hasDriveLever, hasHalfSteps, type Profile } from '../../machine/index.js';
import type { Effort } from '../../sequence/effort.js';

/** `isClean` where a check remarks nothing: a counter that may go below zero carries anywhere. */
export function leastEffort(profile: Profile, faults: readonly Fault[], isClean: boolean): Effort {
  const has = (isWanted: (fault: Fault) => boolean): boolean => faults.some(isWanted);
  const places = faults.flatMap((fault) => (fault.kind === 'count-dead' ? [fault.place] : []));
  const figures = new Set(
    faults.flatMap((f) => (f.kind === 'lever-short' && f.place === profile.setting ? [f.figure] : [])),
  ).size;
  const offEnd = places.filter((place) => place + profile.setting - 1 > profile.result).length;
  // Levers that do not clear are seen without a turn, and so is a result that was set by hand.
  const needsTurn = has((f) => f.kind !== 'clear-short' && f.kind !== 'transfer-dead');
  const turns = Math.max(figures + (figures > 0 ? offEnd : 0), places.length, needsTurn ? 1 : 0);
  const carries = faults.flatMap((f) => (f.kind === 'carry-lost' && f.register === 'result' ? [f.place] : []));
  const { reach } = profile;
  const wanted = reach === undefined ? [] : carries.map((place) => place + 2 - reach);
  const shifts = Math.max(0, ...places.map((place) => place - 1), ...wanted.map((position) => position - 1));
  const subtracts = has((f) => f.kind === 'carry-lost' && f.register === 'result' && f.way === 'subtract');
  const drive = subtracts && hasDriveLever(profile) ? 2 : 0;
  const switched =
    (has((f) => f.kind === 'count-lever-dead') ? 2 : 0) + (has((f) => f.kind === 'auto-clear-dead') ? 2 : 0);
  const { turn, shift, lever } = profile.effort;
  // Half a place is moved as a shift or as the drive, whichever counts less.
  const driveCost = drive * (hasHalfSteps(profile) ? Math.min(lever, shift) : lever);
  const switching = { levers: drive + switched, cost: driveCost + lever * switched };
  const ways = isClean ? walks(turns, shifts, places, faults) : [{ turns, shifts }];
  return ways
    .map((walk) => ({
      ...walk,
      levers: switching.levers,
      cost: turn * walk.turns + shift * walk.shifts + switching.cost,
    }))
    .reduce((least, one) => (one.cost < least.cost ? one : least));
}

/**
 * The ways in which the carriage may go about the counter's carries. The first carry out of a place comes either of ten
 * turns in that position and below, counted from 0; or it is a borrow from a place further left, in which a turn was made
 * before: then the carriage has come back over the place's left side. So either it comes back from the furthest place to
 * the first; or it does so only up to some place, at and below which ten turns are made, besides one in each place above.
 */
function walks(
  turns: number,
  shifts: number,
  places: readonly number[],
  faults: readonly Fault[],
): { turns: number; shifts: number }[] {
  const last = Math.max(0, ...places);
  const carried = new Set(
    faults.flatMap((f) => (f.kind === 'carry-lost' && f.register === 'counter' ? [f.place] : [])),
  );
  const below = Array.from({ length: Math.max(0, last - 1) }, (_, i) => i + 1);
  if (last < 2 || places.length < last || below.some((place) => !carried.has(place))) return [{ turns, shifts }];
  const ways = below.map((place) => ({
    turns: Math.max(turns, 10 + last - place),
    shifts: Math.max(shifts, last - 1 + place - 1),
  }));
  return [...ways, { turns, shifts: Math.max(shifts, 2 * (last - 1)) }];
}
