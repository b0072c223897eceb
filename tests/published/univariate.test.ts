/**
 * Certified means and standard deviations, from data cranked in figure by figure.
 *
 * Data and certified values read in mathnet/mathnet-numerics `data/NIST/` (NumAcc1, NumAcc2, NumAcc3, Michelso); the
 * data compared with a second copy in maxblee/clipivot `test_csvs/`. They come from the NIST/ITL Statistical Reference
 * Datasets and are kept beside the checkout, not part of it. The sums are derived here.
 */
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { Exact, NOT_BESIDE, tableBeside, unitsOf } from './data.js';
import { longDivision, rootByOddNumbers, takeAway } from './hands.js';

interface Certified {
  readonly name: string;
  readonly n: number;
  readonly decimals: number;
  readonly sum: bigint;
  readonly squares: bigint;
  /** n · Σx² − (Σx)². */
  readonly num: bigint;
  readonly mean: string;
  readonly deviation: string;
}
const sets: Certified[] = [
  {
    name: 'NumAcc1',
    n: 3,
    decimals: 0,
    sum: 30000006n,
    squares: 300000120000014n,
    num: 6n,
    mean: '10000002',
    deviation: '1',
  },
  {
    name: 'NumAcc2',
    n: 1001,
    decimals: 1,
    sum: 12012n,
    squares: 145144n,
    num: 1001000n,
    mean: '1.2',
    deviation: '0.1',
  },
  {
    name: 'NumAcc3',
    n: 1001,
    decimals: 1,
    sum: 10010002002n,
    squares: 100100040040005004n,
    num: 1001000n,
    mean: '1000000.2',
    deviation: '0.1',
  },
  {
    name: 'Michelso',
    n: 100,
    decimals: 2,
    sum: 2998524n,
    squares: 89911467966n,
    num: 618024n,
    mean: '299.852400000000',
    deviation: '0.0790105478190518',
  },
];

describe.each(sets)('$name', ({ name, n, decimals, sum, squares, num, mean, deviation }) => {
  it('Σx² in the result and Σx in the counter, every datum cranked', ({ skip }) => {
    const rows = tableBeside(`nist_strd_${name}.csv`);
    if (!rows) return skip(NOT_BESIDE);
    const data = rows.map(({ y }) => new Exact(y).toFixed(decimals));
    expect(data.length).toBe(n);
    const exact = data.map((y) => unitsOf(y, decimals));
    const { result, counter, reading } = crank(MACHINES.wide, [
      `points setting ${decimals} counter ${decimals} result ${2 * decimals}`,
      'clear all',
      ...data.flatMap((y) => [`set ${y}`, `multiply by ${y}`, 'shift to 1']),
    ]);
    expect(result).toBe(squares);
    expect(counter).toBe(sum);
    expect(result).toBe(exact.reduce((total, x) => total + x * x, 0n));
    expect(counter).toBe(exact.reduce((total, x) => total + x, 0n));
    const total = new Exact(reading('counter'));
    expect(total.eq(new Exact(String(sum)).div(new Exact(10).pow(decimals)))).toBe(true);
  });

  it('the mean, to every certified figure', () => {
    const certified = mean.split('.')[1]?.length ?? 0;
    // The sum is divided in units of its last decimal: the point moves by so many places.
    const quotient = new Exact(longDivision(sum, BigInt(n), 20)).div(new Exact(10).pow(decimals));
    expect(quotient.toFixed(certified)).toBe(mean);
  });

  it('n Σx² − (Σx)²: products by adding and by subtracting turns', () => {
    // 1001 is ten turns in position 3 and one in position 1, and no turn is made past position 10, so that all levers
    // stay over wheels. Of NumAcc3 the first product has 21 figures: the register goes over its top and comes back.
    const times = n === 1001 ? ['turn', 'shift to 3', 'turn 10'] : [`multiply by ${n}`];
    const cranked = crank(MACHINES.divider, [
      'clear all',
      `set ${squares}`,
      ...times,
      'clear counter',
      'shift to 1',
      `set ${sum}`,
      ...takeAway(sum, 10),
    ]);
    expect(cranked.result).toBe(num);
    expect(cranked.counter, 'the multiplier, counted by back turns').toBe(sum);
    expect(cranked.last.wraps).toBe(0);
    expect(cranked.codes.includes('overflow-restored')).toBe(name === 'NumAcc3');
    expect(num).toBe(BigInt(n) * squares - sum * sum);
  });

  it('the standard deviation, by division and a root by odd numbers', () => {
    const figures = 10;
    const variance = longDivision(num, BigInt(n) * BigInt(n - 1), 18);
    // The whole number of units of the 18th decimal: its root counts units of the ninth.
    const radicand = BigInt(variance.replace('.', ''));
    const { steps } = rootByOddNumbers(radicand, figures);
    const { counter } = crank(MACHINES.divider, steps);
    const shown = new Exact(String(counter)).div(new Exact(10).pow(9 + decimals));
    expect(shown.eq(new Exact(deviation).toDecimalPlaces(9 + decimals, Exact.ROUND_DOWN))).toBe(true);
  });
});

it('Michelso: s² to the certified figures', () => {
  // s is certified to 15 figures; s² is derived from it here and holds to about as many.
  const variance = new Exact(longDivision(618024n, 9900n, 24)).div(10_000);
  expect(variance.sqrt().toSignificantDigits(15).toString()).toBe('0.0790105478190518');
});

it('NumAcc1 less 10 000 000 each: small numbers, the same squares about the mean', ({ skip }) => {
  // Derived here: Σd = 6 and Σd² = 14.
  const rows = tableBeside('nist_strd_NumAcc1.csv');
  if (!rows) return skip(NOT_BESIDE);
  const differences = rows.map(
    ({ y }) => crank(MACHINES.wide, [`set ${y}`, 'turn', 'set 10000000', 'turn back']).result,
  );
  const cranked = crank(
    MACHINES.wide,
    differences.flatMap((d) => [`set ${d}`, `multiply by ${d}`, 'shift to 1']),
  );
  expect(cranked.counter).toBe(6n);
  expect(cranked.result).toBe(14n);
  expect(3n * cranked.result - cranked.counter ** 2n).toBe(6n);
});
