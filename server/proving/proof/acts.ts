/** What can be tried for each part of a machine: short rows of steps and looks from where the machine happens to stand. */
import { COUNTER, figureAt, isZero, type Profile } from '../../machine/index.js';
import type { Act, Rehearsal } from './rehearsal.js';

/** So many turns for one thing a person may be asked for: a quarter of an hour at the crank. */
export const MOST_TURNS_FOR_ONE = 1_000;

const upTo = (last: number): number[] => Array.from({ length: Math.max(0, last) }, (_, i) => i + 1);

/** The last place that a carry is delivered to in a position. */
const topIn = ({ result, reach }: Profile, position: number): number =>
  reach === undefined ? result : Math.min(result, position + reach - 1);

const subtracts = ({ subtract }: Profile): boolean => subtract !== 'none';

/** The counter shows something, so that a turn may be counted back. */
const hasCounted = ({ sound, profile }: Rehearsal, position: number): boolean =>
  profile.counter === 0 ||
  (profile.counterCarry === 'carry' ? !isZero(sound.state, COUNTER) : figureAt(sound.state, COUNTER, position) > 0);

/** One more is counted, if the counter shows nothing that could be counted back. */
function countOne(at: Rehearsal, position: number): void {
  if (hasCounted(at, position)) return;
  at.set('1');
  at.add();
  at.clear('result');
}

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
const turnFull =
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

/** Acts for the tens carry of the result, and for the bell, which rings when a carry leaves it. */
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
const borrowInCounter =
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
const borrowFromNothing =
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

/** Everything is brought away from 0, by turning in one position after the other, and cleared. */
const fillAndClear =
  (first: number, last: number, by: number): Act =>
  (at) => {
    const { setting, result } = at.profile;
    at.clear('result');
    for (let position = first; position <= last; position += by) {
      at.moveTo(position);
      at.set('1'.repeat(Math.min(setting, result - position + 1)));
      at.add();
    }
    clearAll(at);
  };

function clearAll(at: Rehearsal): void {
  at.do('clear all');
  at.look('setting', 'counter', 'result');
}

/** The result is full of nines after a borrow from nothing, and the levers are set. */
const borrowAndClear =
  (position: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    countOne(at, position);
    at.set('1');
    at.subtract();
    at.set('1'.repeat(at.profile.setting));
    clearAll(at);
  };

const dialAndClear: Act = (at) => {
  at.do(`dial result ${'9'.repeat(at.profile.result)}`);
  at.set('1'.repeat(at.profile.setting));
  clearAll(at);
};

const setAndClear: Act = (at) => {
  at.set('1'.repeat(at.profile.setting));
  clearAll(at);
};

/** The counter with something in the places to the left of the carriage. */
const overAndClear =
  (position: number, places: number): Act =>
  (at) => {
    at.clear('result');
    at.clear('counter');
    at.moveTo(position);
    at.set('1');
    at.addTimes(10 ** places);
    clearAll(at);
  };

const fullAndClear =
  (place: number): Act =>
  (at) => {
    turnFull(place)(at);
    clearAll(at);
  };

const nothingAndClear =
  (position: number): Act =>
  (at) => {
    borrowFromNothing(position)(at);
    clearAll(at);
  };

const pressAutoClear =
  (position: number): Act =>
  (at) => {
    const { setting, result } = at.profile;
    at.clear('result');
    at.moveTo(position);
    at.do('auto-clear on');
    at.set('1'.repeat(Math.min(setting, result - position + 1)));
    at.add();
    at.look('setting');
    at.do('auto-clear off');
  };

export function* clearingActs(profile: Profile): Generator<Act> {
  const { carriage, counter, setting, result } = profile;
  yield clearAll;
  yield setAndClear;
  if (profile.dials) yield dialAndClear;
  for (const position of upTo(carriage)) {
    if (subtracts(profile)) yield borrowAndClear(position);
    if (profile.autoClear) yield pressAutoClear(position);
  }
  const last = counter === 0 ? carriage : Math.min(counter, carriage);
  for (const end of new Set([last, carriage])) {
    for (const by of new Set([1, setting])) yield fillAndClear(1, end, by);
    for (const first of upTo(end)) yield fillAndClear(first, first, 1);
  }
  for (let places = 1; 10 ** places <= MOST_TURNS_FOR_ONE; places++) {
    if (profile.counterCarry === 'carry' && last + places <= counter) yield overAndClear(last, places);
    const place = carriage + setting - 2 + places;
    if (place < result && !subtracts(profile) && !profile.dials && place >= carriage + setting - 1)
      yield fullAndClear(place);
  }
  if (counter > 0 && (subtracts(profile) || profile.count === 'lever')) yield nothingAndClear(1);
}

const transferResult =
  (position: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    at.set('1'.repeat(at.profile.setting));
    at.add();
    at.clear('setting');
    at.do('transfer result');
    at.look('setting', 'result');
  };

const transferCounter =
  (first: number, last: number): Act =>
  (at) => {
    at.clear('counter');
    at.clear('result');
    at.set('1');
    for (let position = first; position <= last; position++) {
      at.moveTo(position);
      at.add();
    }
    at.clear('setting');
    at.do('transfer counter');
    at.look('setting', 'counter');
  };

/** The counter as full as a borrow leaves it. */
const transferBorrowed =
  (from: number): Act =>
  (at) => {
    borrowInCounter(from, 1)(at);
    at.clear('setting');
    at.do('transfer counter');
    at.look('setting', 'counter');
  };

const transferOver =
  (position: number, places: number): Act =>
  (at) => {
    at.clear('result');
    at.clear('counter');
    at.moveTo(position);
    at.set('1');
    at.addTimes(10 ** places);
    at.clear('setting');
    at.do('transfer counter');
    at.look('setting', 'counter');
  };

export function* transferActs(profile: Profile): Generator<Act> {
  const { carriage, counter, setting, result } = profile;
  if (profile.transferResult !== 'none') {
    for (const position of upTo(profile.transferResult === 'at 1' ? 1 : Math.min(carriage, result - setting + 1))) {
      yield transferResult(position);
    }
  }
  if (!profile.transferCounter) return;
  const last = Math.min(counter, carriage, setting);
  for (const first of upTo(last)) yield transferCounter(first, last);
  for (const from of upTo(Math.min(counter, carriage)).slice(1)) yield transferBorrowed(from);
  for (let places = 1; 10 ** places <= MOST_TURNS_FOR_ONE; places++) {
    if (profile.counterCarry === 'carry' && last + places <= Math.min(counter, setting))
      yield transferOver(last, places);
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

const leverAt =
  (position: number, figure: number, lever: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    at.set(String(figure), lever);
    at.add();
    at.look('result');
  };

/** For what the pass over all levers leaves, on a machine on which it can't be done. */
export function* leverActs(profile: Profile): Generator<Act> {
  for (const lever of upTo(profile.setting)) {
    for (const figure of upTo(9)) yield leverAt(1, figure, lever);
  }
}
