/** What an operator has done, and what that counts for by a machine's own `effort` line. */
import type { Profile } from '../machine/index.js';

/** Turns of the crank, positions the carriage was moved by hand, levers and buttons that were moved. */
export interface Deeds {
  readonly turns: number;
  readonly shifts: number;
  readonly levers: number;
}

export interface Effort extends Deeds {
  readonly cost: number;
}

export function costOf({ effort }: Pick<Profile, 'effort'>, { turns, shifts, levers }: Deeds): number {
  return effort.turn * turns + effort.shift * shifts + effort.lever * levers;
}

export const effortOf = (profile: Pick<Profile, 'effort'>, { turns, shifts, levers }: Deeds): Effort => ({
  turns,
  shifts,
  levers,
  cost: costOf(profile, { turns, shifts, levers }),
});
