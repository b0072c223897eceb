/**
 * Less effort than this no script can do with that proves the same and that a check passes.
 *
 * Turns: each of the nine figures of the highest lever wants a turn of its own with that lever over a wheel, and each place
 * of the counter a turn in its position; where the highest lever stands past the result, the two can't be the same turn.
 * Shifts: the carriage has to come to the highest position that a place of the counter, or a carry of limited reach, wants.
 * Levers: whatever has to be switched has to be switched back.
 */
import { type Fault, hasDriveLever, hasHalfSteps, type Profile } from '../../machine/index.js';
import type { Effort } from '../../sequence/run.js';

export function leastEffort(profile: Profile, faults: readonly Fault[]): Effort {
  const has = (isWanted: (fault: Fault) => boolean): boolean => faults.some(isWanted);
  const places = faults.flatMap((fault) => (fault.kind === 'count-dead' ? [fault.place] : []));
  const figures = new Set(
    faults.flatMap((f) => (f.kind === 'lever-short' && f.place === profile.setting ? [f.figure] : [])),
  ).size;
  const offEnd = places.filter((place) => place + profile.setting - 1 > profile.result).length;
  const others = faults.length > 0 && has(({ kind }) => kind !== 'clear-short') ? 1 : 0;
  const turns = Math.max(figures + (figures > 0 ? offEnd : 0), places.length, others);
  const carries = faults.flatMap((f) => (f.kind === 'carry-lost' && f.register === 'result' ? [f.place] : []));
  const { reach } = profile;
  const wanted = reach === undefined ? [] : carries.map((place) => place + 2 - reach);
  const shifts = Math.max(0, ...places.map((place) => place - 1), ...wanted.map((position) => position - 1));
  const subtracts = has((f) => f.kind === 'carry-lost' && f.register === 'result' && f.way === 'subtract');
  const isHalf = hasHalfSteps(profile);
  const drive = subtracts && hasDriveLever(profile) ? 2 : 0;
  const switched =
    (has((f) => f.kind === 'count-lever-dead') ? 2 : 0) + (has((f) => f.kind === 'auto-clear-dead') ? 2 : 0);
  const { turn, shift, lever } = profile.effort;
  // Half a place is moved as a shift or as the drive, whichever counts less.
  const driveCost = drive * (isHalf ? Math.min(lever, shift) : lever);
  const cost = turn * turns + shift * shifts + driveCost + lever * switched;
  return { turns, shifts, levers: drive + switched, cost };
}
