/** Rounding by a half unit set beforehand: the wheels kept read the rounded value, the rest are not looked at. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { crank, MACHINES, withPoint } from './crank.js';
import { Exact, table } from './data.js';

const DECIMALS = 12;
const pointed = (value: Decimal) => (value.decimalPlaces() === 0 ? value.toFixed(1) : value.toFixed());

/** The wheels down to the unit's, after a half unit was dialled and the value added to it. */
function kept(value: Decimal, unit: Decimal): string {
  const { last } = crank(MACHINES.wide, [
    `points setting ${DECIMALS} counter 0 result ${DECIMALS}`,
    'clear all',
    `dial result ${pointed(unit.div(2))}`,
    `set ${pointed(value)}`,
    'turn',
  ]);
  const places = unit.decimalPlaces();
  return withPoint(last.result.slice(0, last.result.length - DECIMALS + places), places);
}

/**
 * Half up read in quantize.decTest and CICC data book 2.05; half even at second hand in examples of IS 2:1960; those of
 * ISO 80000-1 Annex B from memory, text not seen. Which case is which stands in the table's last column. That the half
 * unit rounds half up is derived here; the practice itself is common, no source.
 */
const cases = table('rounding_cases.csv').map((row) => ({
  ...row,
  value: new Exact(row.value),
  unit: new Exact(row.unit),
  rule: row.rule,
  expected: row.expected,
}));
const positive = cases.filter(({ value }) => value.gt(0));

it('goes through the whole table', () => {
  expect(cases.length).toBe(32);
  expect(positive.length).toBe(31);
});

describe('half up', () => {
  it.each(positive.filter(({ rule }) => rule !== 'half_even'))('$value to $unit is $expected', (row) => {
    expect(kept(row.value, row.unit)).toBe(row.expected);
  });

  it('9.9999 carries through the nines', () => {
    // Read in quantize.decTest.
    const { last } = crank(MACHINES.wide, [
      'points setting 4 counter 0 result 4',
      'clear all',
      'dial result 0.005',
      'set 9.9999',
      'turn',
    ]);
    expect(last.result).toBe('00000000000000100049');
    expect(withPoint(last.result.slice(0, -2), 2)).toBe('10.00');
  });

  it('never in stages: 12.2496 to a tenth is 12.2, by way of 12.25 it would be 12.3', () => {
    // The rule from memory (ISO 80000-1 Annex B, text not seen); the example derived here.
    expect(kept(new Exact('12.2496'), new Exact('0.1'))).toBe('12.2');
    const staged = kept(new Exact('12.2496'), new Exact('0.01'));
    expect(staged).toBe('12.25');
    expect(kept(new Exact(staged), new Exact('0.1'))).toBe('12.3');
  });
});

describe('half even', () => {
  const isTie = ({ value, unit }: { value: Decimal; unit: Decimal }) => value.mod(unit).eq(unit.div(2));
  it.each(positive.filter(({ rule }) => rule === 'half_even'))('$value to $unit', (row) => {
    const shown = kept(row.value, row.unit);
    const up = row.value.div(row.unit).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).times(row.unit);
    expect(new Exact(shown).eq(up)).toBe(true);
    // Only a tie whose kept figure is even comes out one unit higher than by the rule of the even figure.
    const isHigher = !new Exact(shown).eq(row.expected);
    const lower = new Exact(row.expected).div(row.unit);
    expect(isHigher).toBe(isTie(row) && lower.mod(2).eq(0) && lower.times(row.unit).lt(row.value));
  });
});

describe('complements', () => {
  /** What the wheels kept read as: below zero where the register stands at a complement. */
  function keptBelowZero(value: Decimal, unit: Decimal): Decimal {
    const { last } = crank(
      MACHINES.wide,
      [
        `points setting ${DECIMALS} counter 0 result ${DECIMALS}`,
        'clear all',
        `dial result ${pointed(unit.div(2))}`,
        `set ${pointed(value.abs())}`,
        'turn back',
      ],
      ['counter-underflow', 'result-overdraw'],
    );
    const places = unit.decimalPlaces();
    const figures = last.result.slice(0, last.result.length - DECIMALS + places);
    const units = BigInt(figures) - (last.wraps < 0 ? 10n ** BigInt(figures.length) : 0n);
    return new Exact(String(units)).times(unit);
  }

  // Derived here: with a half unit a complement's tie goes towards plus infinity, where half up goes away from zero.
  it.each([
    ['-2.5', '1'],
    ['-3.5', '1'],
    ['-0.5', '1'],
    ['-12.25', '0.1'],
    ['-12.35', '0.1'],
    ['-0.005', '0.01'],
  ])('the tie %s to %s', (text, unitText) => {
    const [value, unit] = [new Exact(text), new Exact(unitText)];
    const read = keptBelowZero(value, unit);
    const inUnits = value.div(unit);
    expect(read.div(unit).eq(inUnits.toDecimalPlaces(0, Decimal.ROUND_HALF_CEIL))).toBe(true);
    expect(read.minus(inUnits.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).times(unit)).eq(unit)).toBe(true);
  });

  it('−0.5 by half up is −1 (read in quantize.decTest); the register reads 0', () => {
    expect(cases.find(({ value }) => value.eq('-0.5'))?.expected).toBe('-1');
    expect(keptBelowZero(new Exact('-0.5'), new Exact(1)).toNumber()).toBe(0);
  });

  it.each(positive.filter(({ value, unit }) => !value.mod(unit).eq(unit.div(2))))(
    '−$value to $unit, no tie: the same figures as without the sign',
    ({ value, unit }) => {
      const rounded = value.div(unit).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).times(unit);
      expect(keptBelowZero(value.neg(), unit).eq(rounded.neg())).toBe(true);
    },
  );
});

describe('a product rounded as it grows', () => {
  // Derived here.
  it.each([
    ['24.75', '17.35'],
    ['3.65', '2.10'],
    ['99.99', '99.95'],
    ['0.05', '0.10'],
  ])('%s × %s to two decimals', (a, b) => {
    const { last, reading } = crank(MACHINES.wide, [
      'points setting 2 counter 2 result 4',
      'clear all',
      'dial result 0.005',
      `set ${a}`,
      `multiply by ${b}`,
    ]);
    const exact = new Exact(a).times(b);
    expect(withPoint(last.result.slice(0, -2), 2)).toBe(exact.toFixed(2, Decimal.ROUND_HALF_UP));
    expect(new Exact(reading('result')).minus('0.005').eq(exact)).toBe(true);
  });
});
