/** Products with many figures, decimals, powers by back transfer, and turns for a multiplier. */
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { table } from './data.js';
import { signedTurns } from './hands.js';

const product = (set: bigint | string, by: bigint | string, points = 'points setting 0') =>
  crank(MACHINES.wide, [points, 'clear all', `set ${set}`, `multiply by ${by}`]);

it('654 321²', () => {
  // 4.28135971E+11 to nine figures read in mulx054 (multiply.decTest); the exact square derived here.
  const { result } = product(654321n, 654321n);
  expect(result).toBe(428135971041n);
  expect(String(result).slice(0, 9)).toBe('428135971');
});

describe('squares of ones', () => {
  // Read in OEIS A002477. From ten ones on the carries run.
  const rows = table('oeis_values.csv').filter(({ oeis }) => oeis === 'A002477');
  it('has ten of them', () => {
    expect(rows.map(({ value }) => value)).toEqual(
      expect.arrayContaining(['12345678987654321', '1234567900987654321']),
    );
    expect(rows.length).toBe(10);
  });
  it.each(rows)('$quantity', ({ quantity, value }) => {
    const ones = quantity.replace(/\D*(1+)\D*2$/, '$1');
    const { result, counter, effort } = product(ones, ones);
    expect(String(result)).toBe(value);
    expect(String(counter)).toBe(ones);
    expect(effort.turns).toBe(ones.length);
  });
});

describe('decimals of factors add up to decimals of the product', () => {
  it('5.09 × 7.1', () => {
    // 36.139 read in mulx010 (multiply.decTest).
    expect(product('5.09', '7.1', 'points setting 2 counter 1 result 3').reading('result')).toBe('36.139');
  });
  it('1.23456789 × 1.00000000', () => {
    // 1.23456789 to nine figures read in mulx013 (multiply.decTest); sixteen decimals derived here.
    const shown = product('1.23456789', '1.00000000', 'points setting 8 counter 8 result 16');
    expect(shown.reading('result')).toBe('1.2345678900000000');
    expect(shown.effort.turns).toBe(1);
  });
});

describe('29¹⁹', () => {
  /** Multiplies by 29 again and again, the product carried back to the levers each time. */
  const power = (n: number) =>
    crank(MACHINES.wide, [
      'clear all',
      'set 29',
      `repeat ${n - 1} { multiply by 29; shift to 1; clear setting; transfer result; clear counter }`,
    ]).setting;

  it('the chain, as far as 20 places hold it', () => {
    // Derived here: 29¹³ has 20 figures, 29¹⁴ has 21. A handbook has an example of this kind, from memory, text not seen.
    for (let n = 2; n <= 13; n++) expect(power(n)).toBe(29n ** BigInt(n));
    expect(String(power(13)).length).toBe(20);
    expect(() => power(14)).toThrow(/digits-off-end|result-overflow/);
  });

  it('all 28 figures, 29¹⁰ times 29⁹ in halves of eight figures', () => {
    const half = 10n ** 8n;
    const [a, b] = [power(10), power(9)];
    const [low, high] = [a % half, a / half];
    const [lowB, highB] = [b % half, b / half];
    /** Adds products onto what was carried from the half below. */
    const add = (carried: bigint, ...factors: [bigint, bigint][]) =>
      crank(MACHINES.wide, [
        'clear all',
        `dial result ${carried}`,
        ...factors.flatMap(([set, by]) => [`set ${set}`, `multiply by ${by}`, 'shift to 1']),
      ]).result;
    const first = add(0n, [low, lowB]);
    const second = add(first / half, [high, lowB], [low, highB]);
    const third = add(second / half, [high, highB]);
    const figures = [third, second % half, first % half].map((part, i) => String(part).padStart(i === 0 ? 1 : 8, '0'));
    expect(figures.join('')).toBe('6103261246589991489578849669');
    expect(BigInt(figures.join(''))).toBe(29n ** 19n);
  });
});

describe('turns for a multiplier', () => {
  it('621 takes nine', () => {
    // Read in an old encyclopaedia's entry “Calculating machines”: nine turns to multiply by 621.
    for (const set of [1n, 37n, 999_999n]) {
      const { effort, result, counter } = product(set, 621n);
      expect(effort.turns).toBe(9);
      expect(effort.shifts).toBe(2);
      expect([result, counter]).toEqual([set * 621n, 621n]);
    }
  });

  it('999 takes 27, as 1000 less 1 it takes two', () => {
    // Derived here.
    expect(product(4567n, 999n).effort.turns).toBe(27);
    const short = crank(MACHINES.wide, ['clear all', 'set 4567', 'shift to 4', 'turn', 'shift to 1', 'turn back']);
    expect([short.result, short.counter, short.effort.turns]).toEqual([4567n * 999n, 999n, 2]);
  });

  const rows = table('multiplier_turns.csv');
  it.each(rows)('$multiplier: $plain figure by figure, $shortcut by the short cut, $minimal at least', (row) => {
    // Derived here; no published table was found.
    const set = 7_654_321n;
    const plain = product(set, row.multiplier);
    expect(plain.effort.turns).toBe(Number(row.plain));
    expect(plain.result).toBe(set * BigInt(row.multiplier));
    for (const [turns, digits] of [
      [row.shortcut, row.shortcut_digits],
      [row.minimal, row.minimal_digits],
    ]) {
      const figures = digits.split(' ').map(Number).reverse();
      const short = crank(
        MACHINES.wide,
        ['clear all', `set ${set}`, ...signedTurns(figures), 'shift to 1'],
        // Units first, a negative figure takes both registers below zero, and a later one brings them back over the top.
        ['counter-underflow', 'counter-overflow'],
      );
      expect(short.effort.turns).toBe(Number(turns));
      expect(short.result).toBe(set * BigInt(row.multiplier));
      expect(short.counter).toBe(BigInt(row.multiplier));
      expect(short.last.wraps).toBe(0);
    }
  });
});
