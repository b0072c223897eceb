/** Reciprocals by division: the figures in the counter, what is left over in the result. */
import { describe, expect, it } from 'vitest';
import { crank } from './crank.js';
import { table } from './data.js';
import { longDivision } from './hands.js';

/**
 * Periods read in OEIS A051626, the periods' figures in A036275 (the table's 1/7, 1/17, 1/19, 1/29 among them); the
 * decimals are recomputed by long division of whole numbers. Remainders and numbers of turns are derived here.
 */
const rows = table('reciprocals.csv').filter(({ n }) => n !== '1');

/** A machine with a carriage of so many positions and a place to spare, and how it is put to divide. */
const machine = (positions: number, ...lines: string[]): string[] => [
  'setting 4',
  `counter ${positions}`,
  `result ${positions + 3} dials`,
  `carriage ${positions}`,
  ...lines,
];
const AUTOMATIC = ['mode subtract', 'auto-divide on'];
const ways: [string, string[], string[]][] = [
  ['by hand, the crank turned back', ['subtract reverse', 'count first'], []],
  ['by hand, with a drive lever', ['subtract lever', 'count first'], []],
  ['by hand, with a count lever', ['subtract lever', 'count lever'], []],
  ['by hand, the crank lifted', ['subtract lift', 'count first'], []],
  ['by hand, half a step of the carriage', ['subtract half-step', 'count first'], []],
  ['automatically, with a drive lever', ['subtract lever', 'count first', 'park left', 'auto-divide'], AUTOMATIC],
  ['automatically, the crank lifted', ['subtract lift', 'count first', 'park left', 'auto-divide'], AUTOMATIC],
  ['automatically, half a step of the carriage', ['subtract half-step', 'count first', 'auto-divide'], AUTOMATIC],
];

describe.each([3, 6, 8, 10, 13, 17])('a carriage of %i positions', (positions) => {
  it.each(ways)('1/7, 1/17, 1/19, 1/29 %s', (_, lines, before) => {
    for (const n of [7n, 17n, 19n, 29n]) {
      // 10 or 100 stands over the units of the divisor in the leftmost position.
      const at = n < 10n ? positions : positions + 1;
      const dialled = 10n ** BigInt(at - 1);
      const cranked = crank(machine(positions, ...lines), [
        'clear all',
        `dial result 1 at ${at}`,
        `set ${n}`,
        `shift to ${positions}`,
        ...before,
        'divide',
      ]);
      expect(cranked.counter).toBe(dialled / n);
      expect(cranked.result).toBe(dialled % n);
      const row = rows.find((r) => r.n === String(n));
      // The decimals of 1/n, as many as there are noughts behind the one.
      expect(cranked.last.counter.slice(1 - at)).toBe(row?.first_24_decimals_truncated.slice(2, at + 1));
    }
  });
});

describe('going on from the remainder on a machine of 20 places', () => {
  it('goes through the whole table, 1/2 to 1/90', () => {
    expect(rows.map(({ n }) => Number(n))).toEqual(Array.from({ length: 89 }, (_, i) => i + 2));
  });

  it.each([
    ['7', '142857'],
    ['17', '0588235294117647'],
    ['19', '052631578947368421'],
    ['29', '0344827586206896551724137931'],
  ])('1/%s shows its period twice', (n, period) => {
    expect(rows.find((row) => row.n === n)).toMatchObject({ period: String(period.length), repetend: period });
    expect(longDivision(1n, BigInt(n), 2 * period.length)).toBe(`0.${period}${period}`);
  });

  it.each(rows)('1/$n: the figures before the period and the period, $period long', (row) => {
    const { n, period, preperiod_digits, repetend, first_24_decimals_truncated } = row;
    expect(repetend.length).toBe(Number(period));
    const twice = preperiod_digits + repetend + repetend;
    // Where nothing repeats, zeros go on.
    const wanted = period === '0' ? twice.padEnd(24, '0') : twice;
    const decimals = longDivision(1n, BigInt(n), wanted.length);
    expect(decimals).toBe(`0.${wanted}`);
    const shorter = Math.min(decimals.length, first_24_decimals_truncated.length);
    expect(first_24_decimals_truncated.slice(0, shorter)).toBe(decimals.slice(0, shorter));
  });
});

it('a place with the figure q takes q + 1 subtracting turns and one that restores', () => {
  // Derived here: 1/7 in six positions has the figures 1 4 2 8 5 7.
  const { last, effort } = crank(machine(7, 'subtract reverse', 'count first'), [
    'clear all',
    'dial result 1 at 7',
    'set 7',
    'shift to 6',
    'divide',
  ]);
  expect(last.counter).toBe('0142857');
  expect(effort.turns).toBe(1 + 4 + 2 + 8 + 5 + 7 + 2 * 6);
});
