/** Acts for the clearing of each register, and for the button that clears the levers. */
import type { Profile } from '../../../machine/index.js';
import type { Act, Rehearsal } from '../rehearsal.js';
import { turnFull } from './carry.js';
import { borrowFromNothing } from './counter.js';
import { countFar, countOne, MOST_TURNS_FOR_ONE, subtracts, upTo } from './shared.js';

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
    countFar(at, position, places);
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
