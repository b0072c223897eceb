/**
 * Certified means, deviations and coefficients from lists that were planned and then carried out, row by row.
 *
 * NumAcc1, NumAcc2, NumAcc3, Michelso, Norris and NoInt2: data and certified values read in mathnet/mathnet-numerics
 * `data/NIST/`; they come from the NIST/ITL Statistical Reference Datasets. Anscombe's quartet: data read in
 * stdlib-js/stdlib `anscombes-quartet/data/data.csv`; F. J. Anscombe, The American Statistician 27 (1973) 17–21. All are
 * kept beside the checkout, not part of it. Sums and split registers are derived here.
 */
import type { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { isListRefused, type ListPlan, planList } from '../../server/planning/lists.js';
import { type CarriedOut, carryOut, profileOf } from '../planning/carried-out.js';
import { Exact, NOT_BESIDE, type Row, tableBeside } from './data.js';

/** 20 places, so that the figures of the published examples go in. */
const WIDE = ['setting 20', 'counter 20', 'result 20', 'carriage 20'];

interface Carried extends CarriedOut {
  readonly plan: ListPlan;
  readonly result: string;
  readonly counter: string;
  readonly sum: (name: string) => Decimal;
}

/** Plans the sums, carries them out and wants nothing found. */
function carried(rows: readonly Row[], expression: string, machine: readonly string[] = WIDE): Carried {
  const columns = Object.keys(rows[0]);
  const table = { columns, rows: rows.map((row) => columns.map((column) => row[column])) };
  const plan = planList({ expression, table, profile: profileOf(machine) });
  if (isListRefused(plan)) throw new Error(JSON.stringify(plan.refused));
  const out = carryOut(machine, plan.lines, plan.goals);
  expect(out.found).toEqual([]);
  expect(out.traced.goals.map(({ met }) => met)).toEqual(plan.goals.map(() => 'exact'));
  const last = out.traced.steps[out.traced.steps.length - 1];
  const sum = (name: string) => new Exact(plan.sums.find((one) => one.name === name)?.value ?? Number.NaN);
  return { ...out, plan, sum, result: last.result, counter: last.counter };
}

describe.each([
  { name: 'NumAcc1', n: 3, decimals: 0, sum: 30000006n, squares: 300000120000014n, mean: '10000002', deviation: '1' },
  { name: 'NumAcc2', n: 1001, decimals: 1, sum: 12012n, squares: 145144n, mean: '1.2', deviation: '0.1' },
  {
    name: 'NumAcc3',
    n: 1001,
    decimals: 1,
    sum: 10010002002n,
    squares: 100100040040005004n,
    mean: '1000000.2',
    deviation: '0.1',
  },
  {
    name: 'Michelso',
    n: 100,
    decimals: 2,
    sum: 2998524n,
    squares: 89911467966n,
    mean: '299.852400000000',
    deviation: '0.0790105478190518',
  },
])('$name', ({ name, n, decimals, sum, squares, mean, deviation }) => {
  it('Σy² in the result while Σy adds up in the counter; mean and deviation from them', ({ skip }) => {
    const rows = tableBeside(`nist_strd_${name}.csv`);
    if (!rows) return skip(NOT_BESIDE);
    const { plan, result, counter, sum: total } = carried(rows, 'sum(y), sum(y^2)');
    expect(plan.passes.length).toBe(1);
    expect(plan.sums.at(-1)).toEqual({ name: 'n', value: `${n}` });
    expect(BigInt(counter)).toBe(sum);
    expect(BigInt(result)).toBe(squares);
    const unit = new Exact(10).pow(-decimals);
    expect(total('y').eq(unit.mul(`${sum}`))).toBe(true);
    expect(total('y^2').eq(unit.mul(unit).mul(`${squares}`))).toBe(true);
    // From the sums by exact arithmetic.
    expect(
      total('y')
        .div(n)
        .toFixed(mean.split('.')[1]?.length ?? 0),
    ).toBe(mean);
    const variance = total('y^2')
      .mul(n)
      .sub(total('y').pow(2))
      .div(n * (n - 1));
    expect(variance.sqrt().toFixed(deviation.split('.')[1]?.length ?? 0)).toBe(deviation);
  });
});

describe('Norris', () => {
  it('all five sums, in two passes', ({ skip }) => {
    const rows = tableBeside('nist_strd_Norris.csv');
    if (!rows) return skip(NOT_BESIDE);
    const { plan, sum } = carried(rows, 'sum(x), sum(y), sum(x^2), sum(x*y), sum(y^2)');
    expect(plan.sums).toEqual([
      { name: 'x', value: '15090.4' },
      { name: 'y', value: '15112.9' },
      { name: 'x^2', value: '10563553.36' },
      { name: 'x*y', value: '10581955.92' },
      { name: 'y^2', value: '10600418.15' },
      { name: 'n', value: '36' },
    ]);
    expect(plan.passes.length).toBe(2);
    const slope = sum('x*y')
      .mul(36)
      .sub(sum('x').mul(sum('y')))
      .div(sum('x^2').mul(36).sub(sum('x').pow(2)));
    expect(slope.toSignificantDigits(15).toString()).toBe('1.00211681802045');
    const intercept = sum('y')
      .sub(slope.mul(sum('x')))
      .div(36);
    expect(intercept.toSignificantDigits(15).toString()).toBe('-0.262323073774029');
  });

  it('Σx² and Σxy fill a result of twenty places', ({ skip }) => {
    const rows = tableBeside('nist_strd_Norris.csv');
    if (!rows) return skip(NOT_BESIDE);
    const { plan, result, counter } = carried(rows, 'sum(x), sum(x^2), sum(x*y)');
    expect(plan.passes.length).toBe(1);
    expect(result).toBe('10563553361058195592');
    expect(BigInt(counter)).toBe(150904n);
    expect(plan.passes[0].standings).toEqual([
      { register: 'result', from: 1, to: 10, sum: 'x*y', times: 1, decimals: 2 },
      { register: 'result', from: 11, to: 20, sum: 'x^2', times: 1, decimals: 2 },
      { register: 'counter', from: 1, to: 6, sum: 'x', times: 1, decimals: 1 },
    ]);
  });

  it('the square of both side by side has thirty places and is not tried', ({ skip }) => {
    const rows = tableBeside('nist_strd_Norris.csv');
    if (!rows) return skip(NOT_BESIDE);
    expect(carried(rows, 'sum(x^2), sum(x*y), sum(y^2)').plan.passes.length).toBe(2);
  });
});

describe('NoInt2', () => {
  it('Σ(1000x + y)² has all three sums', ({ skip }) => {
    const rows = tableBeside('nist_strd_NoInt2.csv');
    if (!rows) return skip(NOT_BESIDE);
    const asked = 'sum(x^2), sum(x*y), sum(y^2)';
    // Where nothing is subtracted both orders cost alike, and the columns stand as they are named.
    const { plan, result, counter, sum } = carried(rows, asked, [...WIDE, 'subtract none']);
    expect(plan.passes.length).toBe(1);
    expect(BigInt(result)).toBe(77112041n);
    expect(BigInt(counter)).toBe(15011n);
    // Here 1000y + x is the cheaper one.
    expect(BigInt(carried(rows, asked).result)).toBe(41112077n);
    // The slope through the origin is 8/11.
    expect(sum('x*y').div(sum('x^2')).toFixed(15)).toBe('0.727272727272727');
  });
});

describe('Anscombe’s quartet', () => {
  it.for([
    { set: 1, y: '82.51', xy: '797.6' },
    { set: 2, y: '82.51', xy: '797.59' },
    { set: 3, y: '82.5', xy: '797.47' },
    { set: 4, y: '82.51', xy: '797.58' },
  ])('set $set', ({ set, y, xy }, { skip }) => {
    const rows = tableBeside('anscombe_quartet.csv');
    if (!rows) return skip(NOT_BESIDE);
    const [a, b] = [`x${set}`, `y${set}`];
    const { plan, sum } = carried(rows, `sum(${a}), sum(${b}), sum(${a}^2), sum(${a}*${b})`);
    expect(plan.sums.map(({ value }) => value)).toEqual(['99', y, '1001', xy, '11']);
    const slope = sum(`${a}*${b}`)
      .mul(11)
      .sub(sum(a).mul(sum(b)))
      .div(1210);
    // As published, rounded: y = 3 + 0.5 x.
    expect(slope.toFixed(1)).toBe('0.5');
    expect(sum(b).sub(slope.mul(99)).div(11).toFixed(1)).toBe('3.0');
  });
});
