/**
 * Certified regression coefficients, from sums cranked figure by figure.
 *
 * Norris and NoInt2: data and certified values read in mathnet/mathnet-numerics `data/NIST/`; Norris compared with
 * scipy `nist_linregress/Norris.dat`, NoInt2 with xKDR/NISTTests.jl. Anscombe's quartet: data read in stdlib-js/stdlib
 * `anscombes-quartet/data/data.csv`; F. J. Anscombe, The American Statistician 27 (1973) 17–21. All are kept beside
 * the checkout, not part of it. Sums, exact coefficients and split registers are derived here.
 */
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { Exact, NOT_BESIDE, type Row, tableBeside, unitsOf } from './data.js';
import { figuresOf, longDivision, signedTurns, takeAway } from './hands.js';

type Pair = readonly [x: bigint, y: bigint];
const pairsOf = (rows: readonly Row[], x: string, y: string, xDecimals: number, yDecimals: number): Pair[] =>
  rows.map((row) => [unitsOf(row[x], xDecimals), unitsOf(row[y], yDecimals)]);

/** Cranks a product for every pair without clearing: the result and the uncleared counter. */
function accumulate(pairs: readonly Pair[], set: (p: Pair) => string, by: (p: Pair) => bigint) {
  const steps = pairs.flatMap((pair) => [`set ${set(pair)}`, `multiply by ${by(pair)}`, 'shift to 1']);
  return crank(MACHINES.wide, ['clear all', ...steps]);
}

/** a · b − c · d on the machine, where it is not below zero. */
function difference(a: bigint, b: bigint, c: bigint, d: bigint): bigint {
  const cranked = crank(MACHINES.divider, [
    'clear all',
    `set ${a}`,
    ...signedTurns(figuresOf(b)),
    'clear counter',
    `set ${c}`,
    ...takeAway(d),
  ]);
  expect(cranked.last.wraps).toBe(0);
  return cranked.result;
}

describe('Norris', () => {
  const rows = tableBeside('nist_strd_Norris.csv');
  const pairs = rows ? pairsOf(rows, 'x', 'y', 1, 1) : [];
  const sums = { x: 150904n, y: 151129n, xx: 1056355336n, xy: 1058195592n, yy: 1060041815n };

  it('the five sums', ({ skip }) => {
    if (!rows) return skip(NOT_BESIDE);
    expect(pairs.length).toBe(36);
    const squares = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([x]) => x,
    );
    expect([squares.counter, squares.result]).toEqual([sums.x, sums.xx]);
    const products = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([, y]) => y,
    );
    expect([products.counter, products.result]).toEqual([sums.y, sums.xy]);
    const others = accumulate(
      pairs,
      ([, y]) => `${y}`,
      ([, y]) => y,
    );
    expect([others.counter, others.result]).toEqual([sums.y, sums.yy]);
    const total = (of: (p: Pair) => bigint) => pairs.reduce((sum, pair) => sum + of(pair), 0n);
    expect(sums).toEqual({
      x: total(([x]) => x),
      y: total(([, y]) => y),
      xx: total(([x]) => x * x),
      xy: total(([x, y]) => x * y),
      yy: total(([, y]) => y * y),
    });
  });

  it('Σx² and Σxy in one register, x and y on the levers together', ({ skip }) => {
    if (!rows) return skip(NOT_BESIDE);
    const { result, counter } = accumulate(
      pairs,
      ([x, y]) => `${x} at 11 and ${y} at 1`,
      ([x]) => x,
    );
    expect(result).toBe(10563553361058195592n);
    expect(counter).toBe(sums.x);
  });

  const above = 15289070696n;
  const below = 15256774880n;

  it('n Σxy − Σx Σy and n Σx² − (Σx)²', () => {
    expect(difference(sums.xy, 36n, sums.x, sums.y)).toBe(above);
    expect(difference(sums.xx, 36n, sums.x, sums.x)).toBe(below);
  });

  it('the slope to the certified figures', () => {
    const slope = new Exact(longDivision(above, below, 18));
    expect(slope.toSignificantDigits(15).toString()).toBe('1.00211681802045');
  });

  it('a machine of 20 places shows the first ten figures of the slope in one division', () => {
    const { last } = crank(MACHINES.divider, [
      'points setting 0 counter 9 result 9',
      'clear all',
      `dial result ${above}.0`,
      `set ${below}`,
      'shift to 10',
      'divide',
    ]);
    expect(last.counter.slice(-10)).toBe('1002116818');
    expect(BigInt(last.result)).toBe((above * 10n ** 9n) % below);
  });

  it('the intercept to the certified figures; it is below zero and first shows as a complement', () => {
    const { result, last } = crank(
      MACHINES.divider,
      [
        'clear all',
        `set ${sums.xx}`,
        ...signedTurns(figuresOf(sums.y)),
        'clear counter',
        `set ${sums.xy}`,
        ...takeAway(sums.x),
      ],
      ['result-overdraw'],
    );
    expect(last.wraps).toBe(-1);
    expect(last.result.startsWith('9999')).toBe(true);
    const negative = difference(sums.xy, sums.x, sums.xx, sums.y);
    expect(result).toBe(10n ** 20n - negative);
    // In units of a tenth: the data have one decimal.
    const intercept = new Exact(longDivision(negative, below, 18)).div(-10);
    expect(intercept.toSignificantDigits(15).toString()).toBe('-0.262323073774029');
  });
});

describe('NoInt2', () => {
  it('sums, one by one and in one split register', ({ skip }) => {
    const rows = tableBeside('nist_strd_NoInt2.csv');
    if (!rows) return skip(NOT_BESIDE);
    const pairs = pairsOf(rows, 'x', 'y', 0, 0);
    const squares = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([x]) => x,
    );
    expect([squares.counter, squares.result]).toEqual([15n, 77n]);
    const products = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([, y]) => y,
    );
    expect([products.counter, products.result]).toEqual([11n, 56n]);
    const split = accumulate(
      pairs,
      ([x, y]) => `${x} at 4 and ${y} at 1`,
      ([x, y]) => 1000n * x + y,
    );
    // 77 | 2 · 56 | 41 in the result, 15 | 11 in the counter.
    expect(split.result).toBe(77112041n);
    expect(split.counter).toBe(15011n);
  });

  it('the slope of the line through the origin, 8/11, to the certified figures', () => {
    expect(new Exact(longDivision(56n, 77n, 18)).toFixed(15)).toBe('0.727272727272727');
    expect(longDivision(8n, 11n, 18)).toBe(longDivision(56n, 77n, 18));
  });
});

describe('Anscombe’s quartet', () => {
  const below = 1210n;
  const exact = [
    { set: 1, y: 8251n, xy: 79760n, slope: [5501n, 11000n], intercept: [33001n, 11000n] },
    { set: 2, y: 8251n, xy: 79759n, slope: [1n, 2n], intercept: [3301n, 1100n] },
    { set: 3, y: 8250n, xy: 79747n, slope: [5497n, 11000n], intercept: [33027n, 11000n] },
    { set: 4, y: 8251n, xy: 79758n, slope: [5499n, 11000n], intercept: [33019n, 11000n] },
  ] as const;

  it.for(exact)('set $set: sums', ({ set, y, xy }, { skip }) => {
    const rows = tableBeside('anscombe_quartet.csv');
    if (!rows) return skip(NOT_BESIDE);
    const pairs = pairsOf(rows, `x${set}`, `y${set}`, 0, 2);
    expect(pairs.length).toBe(11);
    const squares = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([x]) => x,
    );
    expect([squares.counter, squares.result]).toEqual([99n, 1001n]);
    const products = accumulate(
      pairs,
      ([x]) => `${x}`,
      ([, b]) => b,
    );
    expect([products.counter, products.result]).toEqual([y, xy]);
  });

  it.each(exact)('set $set: the line', ({ y, xy, slope, intercept }) => {
    const decimals = 20;
    const twoMore = (quotient: string) => new Exact(quotient).div(100).toFixed(decimals);
    expect(difference(1001n, 11n, 99n, 99n)).toBe(below);
    const b1 = longDivision(difference(xy, 11n, 99n, y), below, decimals - 2);
    expect(twoMore(b1)).toBe(cutOff(slope, decimals));
    const b0 = longDivision(difference(1001n, y, 99n, xy), below, decimals - 2);
    expect(twoMore(b0)).toBe(cutOff(intercept, decimals));
    // As published, rounded: y = 3 + 0.5 x; read at second hand.
    expect(new Exact(twoMore(b1)).toFixed(1)).toBe('0.5');
    expect(new Exact(twoMore(b0)).toFixed(1)).toBe('3.0');
  });
});

/** A fraction's decimals by whole-number arithmetic, the rest cut off. */
function cutOff([above, below]: readonly [bigint, bigint], decimals: number): string {
  const units = ((above * 10n ** BigInt(decimals)) / below).toString().padStart(decimals + 1, '0');
  return `${units.slice(0, -decimals)}.${units.slice(-decimals)}`;
}
