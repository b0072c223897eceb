/** What may be asked of a machine that stands still. */
import { describe, expect, test } from 'vitest';
import { numberSyntax } from '../../server/sequence/made.js';
import { run } from '../../server/sequence/run.js';
import { isSlip, isSo, readCondition, readQuestion, type Scene } from '../../server/stepping/conditions.js';
import { orderOf } from '../sequence/faulty.js';
import { cranked, type MachineName } from '../sequence/machines.js';

const values = new Map([
  ['rows', numberSyntax(12)],
  ['wraps', numberSyntax(5)],
]);

/** Where a machine stands after some steps. */
function sceneAfter(steps: string, on: MachineName = 'full'): Scene {
  const done = run(orderOf(cranked(on, steps)));
  return { state: done.state, profile: done.order.profile, values };
}
const scene = sceneAfter('points setting 1 result 2\nset 12.5\nshift right\nturn 3');

function so(text: string, at = scene): boolean | string {
  const read = readCondition(text, at.profile, at.values.keys());
  return isSlip(read) ? read.is : isSo(read, at);
}

describe('conditions', () => {
  test.each([
    ['result = 37.5', true],
    ['result == 37.50', true],
    ['result != 37.5', false],
    ['result > 37.4 and result < 37.6', true],
    ['result >= 38 or result <= 37', false],
    ['(result = 1 or setting = 12.5) and counter = 30', true],
    ['position = 2', true],
    ['setting at 2 = 2', true],
    ['(setting at 1 + setting at 3) * 2 = 12', true],
    ['rows * 3 + 1.5 = result', true],
    ['sqrt(rows * 3) = 6', true],
    ['result ≥ 37.5', true],
    ['result ≠ 37.5', false],
    // A parameter is nearer than what the machine has.
    ['wraps = 5', true],
    ['1 / 0 = 1', false],
    ['((result)) > (3)', true],
  ])('%s', (text, is) => expect(so(text)).toBe(is));

  test.each([
    ['', 'empty'],
    ['  ', 'empty'],
    ['result', 'not-compared'],
    ['rows and result = 3', 'not-compared'],
    ['result =', 'not-read'],
    ['= 3', 'not-read'],
    ['1 < 2 < 3', 'not-read'],
    ['result = 3 and', 'not-read'],
    ['result = 3; turn', 'not-read'],
    ['result = 3 # so', 'not-read'],
    ['(result = 3', 'not-read'],
    ['result.5 = 3', 'not-read'],
    ['row = 3', 'unknown-name'],
    ['result-3 = 0', 'unknown-name'],
    ['setting at 5 = 3', 'no-such-place'],
    ['setting at 0 = 3', 'no-such-place'],
    [`result = ${'1'.repeat(2_000)}`, 'not-read'],
  ])('%s is none: %s', (text, is) => expect(so(text)).toBe(is));

  test('a register that the machine has not is no name', () => {
    expect(so('counter = 0', sceneAfter('set 1', 'adder'))).toBe('unknown-name');
  });

  test('a signed counter reads the sum of its wheels, a wheel what it shows', () => {
    const signed = sceneAfter('turn 2\nshift right\nturn back 3', 'signed');
    expect(so('counter = -28', signed)).toBe(true);
    expect(so('counter at 2 = -3', signed)).toBe(true);
  });

  test('the nearest name is offered', () => {
    expect(readQuestion('resutl', scene.profile, ['rows'])).toMatchObject({ name: 'resutl', nearest: 'result' });
    expect(readQuestion('postion', scene.profile, [])).toMatchObject({ nearest: 'position' });
  });
});
