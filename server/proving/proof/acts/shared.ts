/** What acts for several parts of a machine have in common. */
import { COUNTER, figureAt, isZero, type Profile } from '../../../machine/index.js';
import type { Rehearsal } from '../rehearsal.js';

/** So many turns for one thing a person may be asked for: a quarter of an hour at the crank. */
export const MOST_TURNS_FOR_ONE = 1_000;

export const upTo = (last: number): number[] => Array.from({ length: Math.max(0, last) }, (_, i) => i + 1);

export const subtracts = ({ subtract }: Profile): boolean => subtract !== 'none';

/** The counter shows something, so that a turn may be counted back. */
export const hasCounted = ({ sound, profile }: Rehearsal, position: number): boolean =>
  profile.counter === 0 ||
  (profile.counterCarry === 'carry' ? !isZero(sound.state, COUNTER) : figureAt(sound.state, COUNTER, position) > 0);

/** One more is counted, if the counter shows nothing that could be counted back. */
export function countOne(at: Rehearsal, position: number): void {
  if (hasCounted(at, position)) return;
  at.set('1');
  at.add();
  at.clear('result');
}

/** Turns in one position until the counter, cleared before, shows a one so many places to the left. */
export function countFar(at: Rehearsal, position: number, places: number): void {
  at.clear('result');
  at.clear('counter');
  at.moveTo(position);
  at.set('1');
  at.addTimes(10 ** places);
}
