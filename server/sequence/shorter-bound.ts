/** What is left to do of an errand costs so much at the least: the search for its cheapest way is led by that. */
import type { Errand, Hands } from './shorter.js';

/** A rank that no way can undercut, from the start on. */
export function leastOf(hands: Hands, errand: Errand): number {
  const { from, driveFrom, multiplier, figures } = errand;
  return figures
    ? atLeastByPlace(hands, errand, from, driveFrom, 0)
    : atLeast(hands, errand, from, driveFrom, multiplier);
}

/**
 * A rank that no way from a state can undercut, with so much left to turn: the fewest turns by any highest place, the
 * shortest walk over those places, the changes of the drive that their signs need.
 */
export function atLeast(hands: Hands, errand: Errand, position: number, drive: number, left: number): number {
  const { to, driveTo, places } = errand;
  const size = Math.abs(left);
  let lowest = Math.min(position, to);
  let highest = Math.max(position, to);
  if (size === 0) return leastWalk(hands, position, to, lowest, highest, drive === driveTo ? 0 : 1);
  if (left < 0 && hands.drive === 'adds') return Number.POSITIVE_INFINITY;
  const straight = changesFor(drive, driveTo, left > 0, left < 0);
  const mixed = changesFor(drive, driveTo, true, true);
  let zeros = 1;
  for (let rest = size; rest % 10 === 0; rest /= 10) zeros++;
  lowest = Math.min(lowest, zeros);
  const above = highest;
  let least = Number.POSITIVE_INFINITY;
  /** Turns in the places below: all one way; with nothing due to the next place; with one due. */
  let sum = 0;
  let none = 0;
  let due = Number.POSITIVE_INFINITY;
  let rest = size;
  for (let place = 1; place <= places; place++) {
    if (place >= above || place === places) {
      highest = Math.max(above, place);
      const oneWay = hands.turn * (sum + rest);
      least = Math.min(least, oneWay + leastWalk(hands, position, to, lowest, highest, straight));
      if (hands.drive !== 'adds') {
        const bothWays = hands.turn * Math.min(none + rest, due + rest + 1);
        least = Math.min(least, bothWays + leastWalk(hands, position, to, lowest, highest, mixed));
      }
    }
    if (rest === 0 && place >= above) break;
    const upper = Math.floor(rest / 10);
    const digit = rest - upper * 10;
    sum += digit;
    const next = Math.min(none + digit, due + digit + 1);
    due = Math.min(none + 10 - digit, due + 9 - digit);
    none = next;
    rest = upper;
  }
  return least;
}

/** Shifts over all positions from the lowest to the highest, and changes of the drive. */
function leastWalk(hands: Hands, from: number, to: number, lowest: number, highest: number, changes: number): number {
  const leftFirst = from - lowest + (highest - to);
  const rightFirst = highest - from + (to - lowest);
  const shifts = highest - lowest + Math.min(leftFirst, rightFirst);
  if (hands.drive === 'lever') return hands.shift * shifts + hands.change * changes;
  // Half a place further on, a half-step machine has changed its drive and its position at once.
  return hands.shift * shifts + (hands.drive === 'halves' && shifts === 0 ? hands.change * changes : 0);
}

/** How often the drive must change from one to the other, if it has to add, subtract or both between. */
function changesFor(from: number, to: number, adds: boolean, subtracts: boolean): number {
  if (adds && subtracts) return from === to ? 2 : 1;
  const needed = adds ? 0 : 1;
  return (from === needed ? 0 : 1) + (to === needed ? 0 : 1);
}

/** The same where every place has turns of its own; `done` has a bit for each place that has got them. */
export function atLeastByPlace(hands: Hands, errand: Errand, position: number, drive: number, done: number): number {
  const { to, driveTo, figures = [] } = errand;
  let lowest = Math.min(position, to);
  let highest = Math.max(position, to);
  let turns = 0;
  let adds = false;
  let subtracts = false;
  for (let i = 0; i < figures.length; i++) {
    if (figures[i] === 0 || done & (1 << i)) continue;
    turns += Math.abs(figures[i]);
    lowest = Math.min(lowest, i + 1);
    highest = Math.max(highest, i + 1);
    if (figures[i] > 0) adds = true;
    else subtracts = true;
  }
  const changes = turns === 0 ? (drive === driveTo ? 0 : 1) : changesFor(drive, driveTo, adds, subtracts);
  return hands.turn * turns + leastWalk(hands, position, to, lowest, highest, changes);
}
