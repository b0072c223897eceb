/** Linear interpolation as one sum of two products; the weights add up to one in the counter. */
import type { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { Exact } from './data.js';

/** (1 − p) · f0 + p · f1, accumulated without clearing. */
function between(p: Decimal, f0: string, f1: string) {
  const decimals = p.decimalPlaces();
  const weights = [new Exact(1).minus(p), p].map((w) => w.toFixed(Math.max(1, decimals)));
  const tabular = new Exact(f0).decimalPlaces();
  return crank(MACHINES.wide, [
    `points setting ${tabular} counter ${Math.max(1, decimals)} result ${tabular + Math.max(1, decimals)}`,
    'clear all',
    `set ${f0}`,
    `multiply by ${weights[0]}`,
    'shift to 1',
    `set ${f1}`,
    `multiply by ${weights[1]}`,
  ]);
}

describe('0.473 × 0.897174302 + 0.527 × 0.898237113', () => {
  // Pure arithmetic, derived here. A handbook works a like example; its entries, from memory, were not seen and differ
  // in the last place from the recomputed ones below, so that they are not quoted as its.
  const { reading, counter, effort, steps } = between(new Exact('0.527'), '0.897174302', '0.898237113');

  it('the sum, all twelve decimals', () => {
    expect(reading('result')).toBe('0.897734403397');
  });
  it('the counter shows that the weights add up to one', () => {
    expect(reading('counter')).toBe('1.000');
    expect(counter).toBe(1000n);
  });
  it('a turn for every unit of every figure', () => {
    expect(effort.turns).toBe(4 + 7 + 3 + 5 + 2 + 7);
    expect(steps.some(({ bell }) => bell)).toBe(false);
  });
});

describe('x eˣ E₁(x) at 7.9527', () => {
  /** By its continued fraction, from the bottom up. */
  function recomputed(x: Decimal): Decimal {
    let below = new Exact(0);
    for (let k = 200; k >= 1; k--) below = new Exact(k * k).div(x.plus(2 * k + 1).minus(below));
    return x.div(x.plus(1).minus(below));
  }
  // Recomputed, derived here.
  const entries: readonly (readonly [string, string])[] = [
    ['7.8', '0.896088736'],
    ['7.9', '0.897174303'],
    ['8.0', '0.898237114'],
    ['8.1', '0.899277887'],
  ];

  it('the entries to nine decimals', () => {
    for (const [x, entry] of entries) expect(recomputed(new Exact(x)).toFixed(9)).toBe(entry);
    expect(recomputed(new Exact('7.9527')).toFixed(9)).toBe('0.897737194');
  });

  it('linear, then less a quarter of p (1 − p) of the second differences', () => {
    const [before, f0, f1, after] = entries.map(([, entry]) => entry);
    const linear = between(new Exact('0.527'), f0, f1);
    expect(linear.reading('counter')).toBe('1.000');
    const exact = new Exact(f0).times('0.473').plus(new Exact(f1).times('0.527'));
    expect(linear.reading('result')).toBe(exact.toFixed(12));
    // The two second differences together: before + after − f0 − f1, below zero, so that it is taken away turned about.
    const { result } = crank(MACHINES.wide, [
      'points setting 9 counter 0 result 9',
      'clear all',
      ...[f0, f1].flatMap((f) => [`set ${f}`, 'turn']),
      ...[before, after].flatMap((f) => [`set ${f}`, 'turn back']),
    ]);
    expect(result).toBe(44794n);
    // 0.473 × 0.527 / 4 = 0.06231775, onto the linear sum.
    const corrected = crank(MACHINES.wide, [
      'points setting 9 counter 8 result 17',
      'clear all',
      `dial result ${linear.reading('result')}`,
      'set 0.000044794',
      'multiply by 0.06231775',
    ]);
    const error = new Exact(corrected.reading('result')).minus(recomputed(new Exact('7.9527'))).abs();
    expect(error.lt('0.000000002')).toBe(true);
    expect(exact.minus('0.897737194').abs().gt('0.000002')).toBe(true);
  });
});

it('the weights add up to one for every thousandth', () => {
  // Derived here.
  for (let thousandths = 0; thousandths <= 1000; thousandths += 37) {
    const p = new Exact(thousandths).div(1000);
    const { reading } = between(p, '0.301029996', '0.477121255');
    expect(new Exact(reading('counter')).eq(1)).toBe(true);
    const exact = new Exact('0.301029996').times(new Exact(1).minus(p)).plus(new Exact('0.477121255').times(p));
    expect(new Exact(reading('result')).eq(exact)).toBe(true);
  }
});
