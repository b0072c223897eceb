/** Turns of the crank as they are written. */
import { hasDriveLever, type Profile } from '../machine/index.js';

/** More turns than this in one step are remarked by a check. */
const MOST_IN_A_STEP = 9;

/** So many turns in one step; `turn` may be `turn back`. */
export const turns = (times: number, turn = 'turn'): string => (times === 1 ? turn : `${turn} ${times}`);

/** The same in steps of no more than nine turns. */
export function inNines(times: number, turn = 'turn'): { readonly nines: number; readonly rest: readonly string[] } {
  const rest = times % MOST_IN_A_STEP;
  return { nines: Math.floor(times / MOST_IN_A_STEP), rest: rest === 0 ? [] : [turns(rest, turn)] };
}

/** Turns that subtract, and what brings them about; none on a machine that only adds. */
export function subtracting(profile: Profile, times = 1): string[] {
  if (profile.subtract === 'none') return [];
  return hasDriveLever(profile) ? ['mode subtract', turns(times)] : [turns(times, 'turn back')];
}

/** Turns that add, on a machine that may stand at subtract. */
export const adding = (profile: Profile, times = 1): string[] =>
  hasDriveLever(profile) ? ['mode add', turns(times)] : [turns(times)];
