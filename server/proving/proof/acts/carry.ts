/** Acts for the tens carry of the result, and for the bell, which rings when a carry leaves it. */
import type { Profile } from '../../../machine/index.js';
import type { Act, Rehearsal } from '../rehearsal.js';
import { countOne, hasCounted, MOST_TURNS_FOR_ONE, subtracts, upTo } from './shared.js';

/** The last place that a carry is delivered to in a position. */
const topIn = ({ result, reach }: Profile, position: number): number =>
  reach === undefined ? result : Math.min(result, position + reach - 1);

/** With nothing in the result, one is taken away and given back: every carry that is delivered from here, both ways. */
const borrowFromZero =
  (position: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    countOne(at, position);
    at.set('1');
    at.subtract();
    at.add();
    at.look('result', 'counter');
  };

/** The same, and once more down to nines in every place, which are then cleared. */
const borrowAndClearResult =
  (position: number): Act =>
  (at) => {
    borrowFromZero(position)(at);
    at.subtract();
    at.clear('result');
    at.look('result');
  };

/** The other way about, with the wheels set by hand. */
const dialNines =
  (position: number, end: number, then: 'back' | 'again'): Act =>
  (at) => {
    at.moveTo(position);
    const figures = '9'.repeat(end - position + 1);
    at.do(`dial result ${figures}${position === 1 ? '' : ` at ${position}`}`);
    at.set('1');
    at.add();
    if (then === 'back') at.subtract();
    else at.add();
    at.look('result', 'counter');
  };

/** A one in some place, by a lever; one is taken from it further right, and given back. */
const pile =
  (position: number, top: number): Act =>
  (at) => {
    const { carriage, setting, counter } = at.profile;
    at.clear('result');
    // As near to where the machine stands as the lever reaches, and where the turn is counted.
    const highest = Math.min(top, carriage, counter === 0 ? carriage : counter);
    const from = Math.max(Math.max(1, top - setting + 1), Math.min(highest, at.position));
    at.moveTo(from);
    at.set('1', top - from + 1);
    at.add();
    at.moveTo(position);
    countOneBeside(at, position);
    at.set('1');
    at.subtract();
    at.add();
    at.look('result', 'counter');
  };

/** The same where the result must not be lost: an adding turn first, which the subtracting one takes back. */
function countOneBeside(at: Rehearsal, position: number): void {
  if (hasCounted(at, position)) return;
  at.set('1');
  at.add();
}

/**
 * Nines on the levers, and one more: carries out of every place under them. A carry that sticks shows in the turn after,
 * be it back or on.
 */
const ninesAndOne =
  (position: number, levers: number, then: 'back' | 'again' | 'nothing'): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    at.set('9'.repeat(levers));
    at.add();
    at.set('1');
    at.add();
    if (then === 'back') at.subtract();
    if (then === 'again') at.add();
    at.look('result', 'counter');
  };

/** The result is turned full up to a place to the left of all levers, and one more carries out of it. */
export const turnFull =
  (place: number): Act =>
  (at) => {
    const { setting, carriage } = at.profile;
    const extra = place - (carriage + setting - 1);
    const step = 10n ** BigInt(setting) - 1n;
    const full = 10n ** BigInt(setting + extra) - 1n;
    const turns = Number(full / step);
    const rest = full % step;
    at.clear('result');
    at.clear('counter');
    at.moveTo(carriage);
    at.set('9'.repeat(setting));
    at.addTimes(turns, at.profile.counter > 0 ? '; clear counter' : '');
    if (rest > 0n) {
      at.set(String(rest));
      at.add();
    }
    at.set('1');
    at.clear('counter');
    at.add();
    at.add();
    at.look('result');
  };

export function* carryActs(profile: Profile): Generator<Act> {
  const { carriage, result, setting } = profile;
  for (const position of upTo(carriage)) {
    const top = topIn(profile, position);
    if (subtracts(profile)) {
      yield borrowFromZero(position);
      yield borrowAndClearResult(position);
    }
    for (const isBoth of subtracts(profile) ? [true, false] : [false]) {
      if (profile.dials && top > position) yield dialNines(position, top - 1, isBoth ? 'back' : 'again');
      if (profile.dials && top === result) yield dialNines(position, top, isBoth ? 'back' : 'again');
      for (const levers of new Set([Math.min(setting, top - position), Math.min(setting, top - position + 1)])) {
        if (levers > 0) yield ninesAndOne(position, levers, isBoth ? 'back' : 'nothing');
        if (levers > 0 && !isBoth) yield ninesAndOne(position, levers, 'again');
      }
    }
    const place = Math.min(top, carriage + setting - 1);
    for (let from = place; subtracts(profile) && from > position && from > place - 2; from--)
      yield pile(position, from);
  }
  if (subtracts(profile) || profile.dials) return;
  for (let extra = 1; 10 ** extra <= MOST_TURNS_FOR_ONE; extra++) {
    if (carriage + setting - 1 + extra <= result) yield turnFull(carriage + setting - 1 + extra);
  }
}

/** A nine under the highest wheel that a lever reaches, twice. */
const runOver =
  (position: number): Act =>
  (at) => {
    const { setting, result } = at.profile;
    const lever = Math.min(setting, result - position + 1);
    at.clear('result');
    at.moveTo(position);
    at.set('9', lever);
    at.add();
    at.add();
  };

export function* bellActs(profile: Profile): Generator<Act> {
  for (const position of upTo(profile.carriage)) yield runOver(position);
  yield* carryActs(profile);
}
