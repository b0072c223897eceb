/** Goals: exact, cut off, rounded, missed, below zero, and without any value. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectMarked } from '../marked.js';
import { cranked } from './machines.js';

/** A goal and what the result shows: its digits and decimals. */
function goal(expression: string, digits: string, decimals = 0, mark = '') {
  const checked = expectMarked(
    cranked('full', `  goal result = ${expression} ${mark}\n  points result ${decimals}\n  dial result ${digits}`),
  );
  return { result: checked.report.sequences[0].runs[0].goals[0], message: checked.findings[0]?.message };
}
const missed = (expression: string, digits: string, decimals = 0) =>
  goal(expression, digits, decimals, '#! goal-missed');

describe('met', () => {
  test.each([
    ['2 + 3 * 4', '14', 0, 'exact'],
    ['(2 + 3) * 4', '20', 0, 'exact'],
    ['2 - 3 - 4 + 10', '5', 0, 'exact'],
    ['100 / 10 / 5', '2', 0, 'exact'],
    ['2 ^ 3 ^ 2', '512', 0, 'exact'],
    ['-3 ^ 2 + 10', '1', 0, 'exact'],
    ['2 ^ -2', '25', 2, 'exact'],
    ['0 ^ 0', '1', 0, 'exact'],
    ['sqrt(144)', '12', 0, 'exact'],
    ['sqrt(2.25)', '15', 1, 'exact'],
    ['32.5 * 14.6', '47450', 2, 'exact'],
    ['2 / 3', '66', 2, 'cut off'],
    ['2 / 3', '67', 2, 'rounded'],
    ['1 / 3', '33', 2, 'cut off'],
    ['1 / 3', '34', 2, 'rounded'],
    ['sqrt(2)', '14142', 4, 'cut off'],
    ['sqrt(2)', '14143', 4, 'rounded'],
    ['0.5', '0', 0, 'cut off'],
    ['0.5', '1', 0, 'rounded'],
    ['-5', '99999995', 0, 'exact'],
    ['-5.5', '99999995', 0, 'cut off'],
    ['-5.5', '99999994', 0, 'rounded'],
    ['-0.4', '0', 0, 'cut off'],
    ['5 - 5', '0', 0, 'exact'],
  ])('%s by %s with %i decimals: %s', (expression, digits, decimals, met) => {
    expect(goal(expression, digits, decimals).result.met).toBe(met);
  });

  test('what it says for other programs', () => {
    expect(goal('32.5 * 14.6', '47450', 2).result).toEqual({
      register: 'result',
      goal: '474.5',
      reading: '474.50',
      met: 'exact',
    });
  });
});

describe('missed', () => {
  test.each([
    ['5', '6', 0],
    ['5', '4', 0],
    ['2 / 3', '65', 2],
    ['2 / 3', '68', 2],
    ['5', '99999995', 0],
    ['-5', '5', 0],
    ['-5', '99999996', 0],
    ['32.5 * 14.6', '47450', 1],
  ])('%s by %s with %i decimals', (expression, digits, decimals) => {
    expect(missed(expression, digits, decimals).result.met).toBeUndefined();
  });
  test('it says both', () => {
    expect(missed('32.5 * 14.6', '4746', 1).message).toBe('The result should show 474.5 at the end, and shows 474.6.');
    expect(missed('1 / 3', '5').message).toContain('0.3333');
  });
});

describe('without a value', () => {
  test.each([
    ['1 / 0', 'divides by zero'],
    ['0 ^ -1', 'divides by zero'],
    ['1 / (2 - 2)', 'divides by zero'],
    ['sqrt(-1)', 'square root of a negative'],
    ['sqrt(2 - 3)', 'square root of a negative'],
    ['9 ^ 9 ^ 9', 'more figures'],
    ['9 ^ -9 ^ 9', 'more figures'],
    ['2 ^ 0.5', 'whole number'],
    ['(1 / 3) ^ 5000', 'more figures'],
  ])('%s', (expression, words) => {
    const { result, message } = missed(expression, '0');
    expect(result).toBeUndefined();
    expect(message).toContain(words);
  });
  test('an unknown parameter is told as such and not as missed', () => {
    expectMarked(cranked('full', '  goal result = pots * 2 #! unknown-name'));
  });
});

describe('other registers and complements', () => {
  test('counter and setting', () => {
    expectMarked(cranked('reverse', '  goal counter = 3\n  goal setting = 5 - 1 #! goal-missed\n  set 5\n  turn 3'));
  });
  test('a signed counter shows what is below zero', () => {
    const steps = '  goal counter = 8 - 10\n  set 1\n  turn\n  turn back 3 #! result-overdraw\n  expect result -2';
    expectMarked(cranked('signed', steps));
  });
});

test('a whole-numbered value is met by itself and missed one unit off', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9_999 }), fc.integer({ min: 1, max: 9_999 }), (a, b) => {
      const product = a * b;
      expect(goal(`${a} * ${b}`, String(product)).result.met).toBe('exact');
      expect(missed(`${a} * ${b}`, String(product + 1)).result.met).toBeUndefined();
      const [quotient, isEven] = [Math.floor(a / b), a % b === 0];
      expect(goal(`${a} / ${b}`, String(quotient)).result.met).toBe(isEven ? 'exact' : 'cut off');
      if (!isEven) expect(goal(`${a} / ${b}`, String(quotient + 1)).result.met).toBe('rounded');
    }),
    { numRuns: 100 },
  );
});
