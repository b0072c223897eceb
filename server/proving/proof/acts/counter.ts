/** Acts for the revolution counter and its lever. */
import type { Profile } from '../../../machine/index.js';
import type { Act, Rehearsal } from '../rehearsal.js';
import { countOne, MOST_TURNS_FOR_ONE, subtracts, upTo } from './shared.js';

/** One turn where the counter has not counted yet. */
const countIn =
  (position: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    at.set('1');
    at.add();
    at.look('counter');
  };

/** A turn that counts down, after one that counted up. */
function countDown(at: Rehearsal): void {
  if (subtracts(at.profile)) return at.subtract();
  at.do('count minus');
  at.add();
  at.do('count plus');
}

/** One in a high place of the counter, and one taken from it further right. */
export const borrowInCounter =
  (from: number, position: number): Act =>
  (at) => {
    at.clear('result');
    at.clear('counter');
    at.moveTo(from);
    at.set('1');
    at.add();
    at.moveTo(position);
    countDown(at);
    at.look('counter');
  };

/** Turns until a carry leaves a place of the counter. */
const countOver =
  (position: number, places: number): Act =>
  (at) => {
    at.clear('counter');
    at.clear('result');
    at.moveTo(position);
    // In the result nothing may run over meanwhile.
    at.set('1');
    at.addTimes(10 ** places);
    at.look('counter');
  };

/** Below nothing: remarked by a check, and done only where nothing else catches a fault. */
export const borrowFromNothing =
  (position: number): Act =>
  (at) => {
    at.clear('counter');
    at.clear('result');
    at.moveTo(position);
    at.set('1');
    at.add();
    // Where the first turn says which way counts up, it has to be taken back as well.
    if (at.profile.count === 'first') at.subtract();
    else at.clear('counter');
    countDown(at);
    at.look('counter');
  };

const countLever =
  (position: number): Act =>
  (at) => {
    at.moveTo(position);
    at.clear('result');
    countOne(at, position);
    at.set('1');
    at.do('count minus');
    at.add();
    at.do('count plus');
    at.look('counter');
  };

export function* counterActs(profile: Profile): Generator<Act> {
  const { counter, carriage, count } = profile;
  if (counter === 0) return;
  const last = Math.min(counter, carriage);
  for (const position of upTo(last)) yield countIn(position);
  if (count === 'lever') for (const position of new Set([1, last])) yield countLever(position);
  if (profile.counterCarry !== 'carry') return;
  const countsDown = subtracts(profile) || count === 'lever';
  for (const position of upTo(countsDown ? last - 1 : 0)) yield borrowInCounter(last, position);
  for (let places = 1; 10 ** places <= MOST_TURNS_FOR_ONE; places++) {
    for (const position of upTo(last)) if (position + places <= counter) yield countOver(position, places);
  }
  if (countsDown) yield borrowFromNothing(1);
}
