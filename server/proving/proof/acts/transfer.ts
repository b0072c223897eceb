/** Acts for back transfer. */
import type { Profile } from '../../../machine/index.js';
import type { Act } from '../rehearsal.js';
import { borrowInCounter } from './counter.js';
import { countFar, MOST_TURNS_FOR_ONE, upTo } from './shared.js';

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
    countFar(at, position, places);
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
