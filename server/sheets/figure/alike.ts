/** Whether two drawings of a machine would be the same. */
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  LEVERS,
  POINTS,
  POSITION,
  type State,
  SUBTRACTING,
} from '../../machine/index.js';

const SEEN_LEVERS = SUBTRACTING | COUNT_MINUS | AUTO_CLEAR | AUTO_DIVIDE;

/** Whether a machine looks the same in two states: registers, carriage, levers and buttons, markers. */
export function looksAlike(one: State, other: State, { whereverTheCarriage = false } = {}): boolean {
  if (((one[LEVERS] ^ other[LEVERS]) & SEEN_LEVERS) !== 0) return false;
  // Registers, signs and the carriage stand before the levers.
  const isSame = (number: number, i: number): boolean => number === other[i] || (whereverTheCarriage && i === POSITION);
  return one.subarray(0, LEVERS).every(isSame) && one[POINTS] === other[POINTS];
}
