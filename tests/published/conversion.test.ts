/** Exact conversion factors: with the markers placed, the product reads as it should, and divides back. */
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { Exact, table, unitsOf } from './data.js';
import { longDivision } from './hands.js';

/**
 * Factors read in scipy `scipy/constants/_constants.py` and pint `default_en.txt`; the yard of 0.9144 m also in the
 * addendum to NBS Circular 572, the acre in a factbook's appendix on weights and measures. Those of NIST SP 811 are
 * cited from memory, text not seen. What the products and quotients must be is derived here.
 */
const factors = table('conversion_factors_exact.csv');
const ending = factors.filter(({ exact_value }) => !exact_value.includes('…'));
const endless = factors.filter(({ exact_value }) => exact_value.includes('…'));
const decimalsOf = (value: string) => value.split('.')[1]?.length ?? 0;
const spelled = (value: string) => (value.includes('.') ? value : `${value}.0`);

it('has the whole table', () => {
  expect(ending.length).toBe(31);
  expect(endless.map(({ unit }) => unit)).toEqual(['survey foot->m', 'knot->m/s']);
});

describe.each(ending)('$unit', ({ exact_value: factor, exact_fraction: fraction }) => {
  const decimals = Math.max(1, decimalsOf(factor));

  it('24.5 units: the product at the marker', () => {
    const cranked = crank(MACHINES.wide, [
      `goal result = ${factor} * 24.5`,
      `points setting ${decimals} counter 1 result ${decimals + 1}`,
      'clear all',
      `set ${spelled(factor)}`,
      'multiply by 24.5',
    ]);
    expect(cranked.reading('result')).toBe(new Exact(factor).times('24.5').toFixed(decimals + 1));
    expect(cranked.reading('counter')).toBe('24.5');
    expect(cranked.goals.map(({ met }) => met)).toEqual(['exact']);
  });

  it('the product divided by the factor is 24.5 again, with nothing left', () => {
    const product = new Exact(factor).times('24.5').toFixed(decimals + 1);
    const divided = crank(MACHINES.divider, [
      `points setting ${decimals} counter 1 result ${decimals + 1}`,
      'clear all',
      `dial result ${product}`,
      `set ${spelled(factor)}`,
      'shift to 3',
      'divide',
    ]);
    expect(divided.reading('counter')).toBe('24.5');
    expect(divided.result).toBe(0n);
  });

  it('comes out of its fraction by long division', () => {
    const [above, below = '1'] = fraction.split('/').map(BigInt).map(String);
    // One more decimal, to see that it ends.
    const wanted = decimalsOf(factor) + 1;
    expect(longDivision(BigInt(above), BigInt(below), wanted)).toBe(new Exact(factor).toFixed(wanted));
  });
});

it.each(endless)('$unit: 40 decimals of a factor that never ends', ({ exact_value, exact_fraction }) => {
  const [above, below] = exact_fraction.split('/').map(BigInt);
  const cutOff = longDivision(above, below, 40);
  expect(cutOff).toBe(new Exact(String(above)).div(String(below)).toFixed(40, Exact.ROUND_DOWN));
  // The table gives 30 decimals, rounded.
  expect(new Exact(cutOff).toFixed(30)).toBe(exact_value.replace(/….*/, ''));
});

describe('constants of nature that are exact', () => {
  // Both factors read in pint `constants_en.txt`; the products are derived here.
  it.each([
    ['molar gas constant: N_A × k', '6.02214076', '1.380649', '8.31446261815324'],
    ['Faraday constant in units of 10 000 C/mol: N_A × e', '6.02214076', '1.602176634', '9.64853321233100184'],
    ['g_n × 101 325', '9.80665', '101325.0', '993658.81125'],
  ])('%s', (_, a, b, product) => {
    const cranked = crank(MACHINES.wide, [
      `points setting ${decimalsOf(a)} counter ${decimalsOf(b)} result ${decimalsOf(a) + decimalsOf(b)}`,
      'clear all',
      `set ${a}`,
      `multiply by ${b}`,
    ]);
    expect(new Exact(cranked.reading('result')).toFixed()).toBe(product);
    const decimals = decimalsOf(a) + decimalsOf(b);
    expect(cranked.result).toBe(unitsOf(a, decimalsOf(a)) * unitsOf(b, decimalsOf(b)));
    expect(withDecimals(cranked.result, decimals).eq(product)).toBe(true);
  });
});

const withDecimals = (units: bigint, decimals: number) =>
  new Exact(units.toString()).times(new Exact(10).pow(-decimals));
