/**
 * Published values by planned sequences: reciprocals and their periods, conversion factors there and back, regression
 * coefficients. Every plan is run and must be without a finding.
 */
import { describe, expect, it } from 'vitest';
import { checked, machineText, planFor, stepsOf } from '../planning/planned.js';
import { Exact, NOT_BESIDE, table, tableBeside } from './data.js';

const MACHINES = {
  'a drive lever and a count lever': machineText(
    'setting 11',
    'counter 16',
    'result 20 dials',
    'subtract lever',
    'count lever',
  ),
  'automatic division': machineText(
    'setting 11',
    'counter 16',
    'result 20',
    'subtract half-step',
    'count lever',
    'auto-divide',
  ),
  'a crank that turns both ways': machineText('setting 11', 'counter 16', 'result 20', 'count first'),
};
const machines = Object.entries(MACHINES);

interface Divided {
  readonly quotient: string;
  readonly remainder: string;
}

/** One planned division: its quotient at the marker, and what it leaves. */
function divided(machine: string, over: string, under: string, decimals: number): Divided {
  const plan = planFor(machine, `${over} / ${under}`, { decimals, register: 'counter' });
  const { report, text } = checked(machine, plan);
  expect(report.findings, text).toEqual([]);
  const last = /^expect counter ([\d.]+) result ([\d.]+)$/.exec(stepsOf(plan).at(-1) ?? '');
  if (!last) throw new Error(`no remainder: ${stepsOf(plan).at(-1)}`);
  return { quotient: last[1], remainder: last[2] };
}

/** Decimals of a quotient, so many at a time: what one division leaves is the dividend of the next. */
function decimalsOf(machine: string, over: string, under: string, decimals: number, atATime = 12): string {
  let figures = '';
  let rest = over;
  while (figures.length < decimals) {
    if (new Exact(rest).isZero()) return figures.padEnd(decimals, '0').slice(0, decimals);
    const { quotient, remainder } = divided(machine, rest, under, atATime);
    figures += quotient.split('.')[1];
    rest = new Exact(remainder).times(new Exact(10).pow(atATime)).toFixed();
  }
  return figures.slice(0, decimals);
}

describe.each(machines)('on a machine with %s', (_, machine) => {
  /** Periods read in OEIS A051626, their figures in A036275; that the figures come round again is derived. */
  it.each([
    ['7', '142857'],
    ['17', '0588235294117647'],
    ['19', '052631578947368421'],
    ['29', '0344827586206896551724137931'],
  ])('1/%s has its published period, twice over', (n, period) => {
    expect(decimalsOf(machine, '1', n, 2 * period.length)).toBe(period + period);
  });

  /** Factors read in scipy `scipy/constants/_constants.py` and pint `default_en.txt`; products are derived here. */
  const factors = table('conversion_factors_exact.csv').filter(
    ({ exact_value: value }) => /^\d+(\.\d+)?$/.test(value) && value.replace('.', '').replace(/^0+/, '').length <= 9,
  );
  it('has factors to try', () => expect(factors.length).toBeGreaterThan(15));

  it.each(factors)('$unit there and back', ({ exact_value: factor }) => {
    const there = planFor(machine, `${factor} * 24.5`);
    expect(checked(machine, there).report.findings).toEqual([]);
    const product = new Exact(factor).times('24.5');
    expect(new Exact(there.reading).equals(product)).toBe(true);
    const back = divided(machine, product.toFixed(), factor, 1);
    expect(back.quotient).toBe('24.5');
    expect(new Exact(back.remainder).isZero()).toBe(true);
  });
});

/**
 * Certified coefficients: NIST StRD, read in mathnet/mathnet-numerics `data/NIST/`; the exact sums are derived from the
 * data there. Anscombe's quartet: F. J. Anscombe, The American Statistician 27 (1973) 17–21, data read in stdlib-js/stdlib.
 */
describe('regression', () => {
  const machine = MACHINES['a drive lever and a count lever'];

  it('the slope of Norris to its certified fourteen decimals', ({ skip }) => {
    if (!tableBeside('nist_strd_Norris.csv')) return skip(NOT_BESIDE);
    // Numerator and denominator: 36 Σxy − Σx Σy and 36 Σx² − (Σx)², as planned products and differences.
    const over = planFor(machine, '1058195592 * 36 - 150904 * 151129');
    const under = planFor(machine, '1056355336 * 36 - 150904 ^ 2');
    expect(under.reading).toBe('15256774880');
    expect(over.reading).toBe('15289070696');
    const slope = `1.${decimalsOf(machine, '32295816', '15256774880', 15, 8)}`;
    // Certified 1.00211681802045, to fourteen decimals.
    expect(new Exact(slope).toFixed(14)).toBe('1.00211681802045');
  });

  it('the slope of NoInt2 through nought, exactly 8/11', () => {
    expect(`0.${decimalsOf(machine, '56', '77', 15)}`).toBe('0.727272727272727');
  });

  it.each([
    ['1', '5501 / 11000', '0.500090909090'],
    ['2', '1 / 2', '0.5'],
    ['3', '5497 / 11000', '0.499727272727'],
    ['4', '5499 / 11000', '0.499909090909'],
  ])('the slope of Anscombe’s set %s', (_, expression, figures) => {
    const plan = planFor(machine, expression, { decimals: figures.length - 2, register: 'counter' });
    expect(checked(machine, plan).report.findings).toEqual([]);
    expect(plan.reading).toBe(figures);
  });
});

/** Certified means: NIST StRD univariate, read in mathnet/mathnet-numerics `data/NIST/`; the totals are derived. */
describe('means', () => {
  const machine = MACHINES['automatic division'];
  it.each([
    ['Michelso', '29985.24 / 100', '299.8524'],
    ['NumAcc1', '30000006 / 3', '10000002'],
    ['NumAcc2', '1201.2 / 1001', '1.2'],
    ['NumAcc3', '1001000200.2 / 1001', '1000000.2'],
  ])('the mean of %s', (_, expression, mean) => {
    const plan = planFor(machine, expression);
    expect(checked(machine, plan).report.findings).toEqual([]);
    expect(plan.reading).toBe(mean);
    expect(plan.isExact).toBe(true);
  });

  it.each([
    // num / (n (n − 1)) in units of the data’s decimals: 618024, 6, 1001000, 1001000.
    ['NumAcc1', 'sqrt(6 / (3 * 2))', '1'],
    ['NumAcc2', 'sqrt(1001000 / (1001 * 1000)) / 10', '0.1'],
    ['NumAcc3', 'sqrt(1001000 / (1001 * 1000)) / 10', '0.1'],
  ])('the standard deviation of %s', (_, expression, certified) => {
    const plan = planFor(machine, expression);
    expect(checked(machine, plan).report.findings).toEqual([]);
    expect(new Exact(plan.reading).equals(certified)).toBe(true);
  });

  it('the standard deviation of Michelso to its certified sixteen decimals', ({ skip }) => {
    if (!tableBeside('nist_strd_Michelso.csv')) return skip(NOT_BESIDE);
    // Certified 0.0790105478190518: a hundredth of the root of 618024 / 9900, to ten figures by itself …
    const root = planFor(machine, 'sqrt(618024 / 9900)', { decimals: 7 });
    expect(checked(machine, root).report.findings).toEqual([]);
    expect(root.reading).toBe('7.9010547');
    // … and on from there: what is left, divided by twice the root, is what the root lacks.
    const wide = MACHINES['a drive lever and a count lever'];
    const square = planFor(wide, `${root.reading} ^ 2`);
    const left = new Exact('618024').minus(new Exact(square.reading).times(9900));
    const twice = planFor(wide, `${root.reading} * 19800`);
    for (const plan of [square, twice]) expect(checked(wide, plan).report.findings).toEqual([]);
    const scaled = left.times(10 ** 7).toFixed();
    const lacks = decimalsOf(wide, scaled, new Exact(twice.reading).toFixed(), 8, 4);
    const deviation = new Exact(root.reading).plus(new Exact(`0.${lacks}`).div(10 ** 7)).div(100);
    expect(deviation.toFixed(16)).toBe('0.0790105478190518');
  });
});
