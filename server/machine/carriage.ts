/** The carriage, moved by hand. Position 0 is out of gear. */
import { hasHalfSteps, leftmost, type Profile } from './profile.js';
import { has, POSITION, put, RESTORING, type State, SUBTRACTING } from './state.js';

export interface Moved {
  /** Positions moved by hand; half a place counts as one. */
  readonly shifts: number;
  /** The carriage came to its end, or the place does not exist. */
  readonly end: boolean;
}

/** Moves so many whole positions, to the end of its way at most. */
export function shiftBy(state: State, profile: Profile, positions: number): Moved {
  const from = state[POSITION];
  const wanted = from + positions;
  const to = Math.max(leftmost(profile), Math.min(profile.carriage, wanted));
  state[POSITION] = to;
  return { shifts: Math.abs(to - from), end: to !== wanted };
}

/** Moves to a position 1 … carriage; to any other it does not move. */
export function shiftTo(state: State, profile: Profile, position: number): Moved {
  if (position < 1 || position > profile.carriage) return { shifts: 0, end: true };
  const shifts = Math.abs(position - state[POSITION]);
  state[POSITION] = position;
  return { shifts, end: false };
}

/** Out of gear, one place to the left of position 1. */
export function shiftOut(state: State): Moved {
  const shifts = state[POSITION];
  state[POSITION] = 0;
  return { shifts, end: false };
}

/**
 * Half a place. In half places, x = 2p adds in position p, x = 2p + 1 subtracts there, and x = 1 is out of gear; the
 * drive goes with the carriage.
 */
export function shiftHalf(state: State, profile: Profile, way: 1 | -1): Moved {
  if (!hasHalfSteps(profile)) return { shifts: 0, end: true };
  const from = state[POSITION] === 0 ? 1 : 2 * state[POSITION] + (has(state, SUBTRACTING) ? 1 : 0);
  const to = from + way;
  if (to < 1 || to > 2 * profile.carriage + 1) return { shifts: 0, end: true };
  state[POSITION] = to >> 1;
  if (to > 1) setDrive(state, (to & 1) === 1);
  return { shifts: 1, end: false };
}

/** Moves the drive lever (on a half-step machine in gear: the carriage by half a place). Returns whether it moved. */
export function setDrive(state: State, subtracting: boolean): boolean {
  const moves = has(state, SUBTRACTING) !== subtracting;
  put(state, SUBTRACTING, subtracting);
  if (moves) put(state, RESTORING, false);
  return moves;
}
