/** What somebody puts a part of the machine to, as a step of the notation. */
import { describe, expect, test } from 'vitest';
import { print } from '../../grammar/printer.js';
import { run } from '../../server/sequence/run.js';
import { isNotByHand, type Part, readSteps, stepFor } from '../../server/stepping/by-hand.js';
import { orderOf } from '../sequence/faulty.js';
import { cranked } from '../sequence/machines.js';

const done = run(orderOf(cranked('full', 'set 1204\nturn 3')));

function put(part: Part, wanted: string, places?: readonly [string, string]): string {
  const steps = stepFor(part, wanted, done.state, done.order.profile, places);
  return isNotByHand(steps) ? steps.is : steps.map(print).join('; ');
}

describe('a part is put', () => {
  test.each<[Part, string, string]>([
    [{ is: 'register', register: 'setting' }, '0245', 'set 0245'],
    [{ is: 'register', register: 'setting' }, ' 24.5 ', 'set 24.5'],
    [{ is: 'register', register: 'setting' }, '0', 'clear setting'],
    [{ is: 'register', register: 'result' }, "1'000", "dial result 1'000"],
    [{ is: 'register', register: 'result' }, '0.00', 'clear result'],
    [{ is: 'register', register: 'counter' }, '000', 'clear counter'],
    [{ is: 'register', register: 'counter' }, '3', 'counter'],
    [{ is: 'register', register: 'result' }, '-3', 'not-a-number'],
    [{ is: 'wheel', register: 'setting', place: 2 }, '7', 'set 1274'],
    [{ is: 'wheel', register: 'result', place: 8 }, '9', 'dial result 90003612'],
    [{ is: 'wheel', register: 'counter', place: 1 }, '0', 'clear counter'],
    [{ is: 'wheel', register: 'counter', place: 2 }, '0', 'counter'],
    [{ is: 'wheel', register: 'setting', place: 1 }, '12', 'not-a-figure'],
    [{ is: 'position' }, '3', 'shift to 3'],
    [{ is: 'position' }, 'out', 'shift out'],
    [{ is: 'position' }, '0', 'shift out'],
    [{ is: 'position' }, 'left', 'not-a-number'],
    [{ is: 'marker', register: 'result' }, '2', 'points result 2'],
    [{ is: 'drive' }, 'subtract', 'mode subtract'],
    [{ is: 'count' }, 'plus', 'count plus'],
    [{ is: 'auto-clear' }, '1', 'auto-clear on'],
    [{ is: 'auto-divide' }, 'off', 'auto-divide off'],
    [{ is: 'drive' }, 'sideways', 'not-a-place-of'],
  ])('%j to %s: %s', (part, wanted, step) => expect(put(part, wanted)).toBe(step));

  test('by what the reader calls its places', () => {
    expect(put({ is: 'drive' }, 'Subtraktion', ['Addition', 'Subtraktion'])).toBe('mode subtract');
    expect(put({ is: 'position' }, 'außer Eingriff', ['außer Eingriff', ''])).toBe('shift out');
  });
});

test.each([
  ['set 12; turn 2', 'set 12; turn 2'],
  ['expect result 12', 'expect result 12'],
  ['multiply by 3', 'not-single'],
  ['repeat 2 { turn }', 'not-single'],
  ['goal result = 3', 'not-single'],
  ['note "x"', 'not-single'],
  ['machine stores', 'not-a-step'],
  ['sett 3', 'not-a-step'],
  ['turn # once', 'not-a-step'],
  ['', 'not-a-step'],
])('typed: %s', (text, step) => {
  const steps = readSteps(text);
  expect(isNotByHand(steps) ? steps.is : steps.map(print).join('; ')).toBe(step);
});
