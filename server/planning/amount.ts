/** Exact decimal numbers, as registers hold them. */
import Fraction from 'fraction.js';
import type { NumberSyntax } from '../../grammar/tree.js';
import { decimalText } from '../sequence/readings.js';

/** `units` of the last of so many decimals; never with zeros at the end behind the point. */
export interface Amount {
  readonly units: bigint;
  readonly decimals: number;
}

export const NOUGHT: Amount = { units: 0n, decimals: 0 };
export const ONE: Amount = { units: 1n, decimals: 0 };

/** Without zeros at the end behind the point. */
export function amount(units: bigint, decimals: number): Amount {
  let left = units;
  let places = decimals;
  while (places > 0 && left % 10n === 0n) {
    left /= 10n;
    places--;
  }
  return { units: left, decimals: places };
}

export const amountOf = (number: NumberSyntax): Amount => amount(BigInt(number.figures), number.decimals);

export const tenTo = (exponent: number): bigint => 10n ** BigInt(exponent);

/** In units of so many decimals, which must be no fewer than it has. */
export const unitsAt = ({ units, decimals }: Amount, at: number): bigint => units * tenTo(at - decimals);

export const times = (a: Amount, b: Amount): Amount => amount(a.units * b.units, a.decimals + b.decimals);

export function plus(a: Amount, b: Amount): Amount {
  const at = Math.max(a.decimals, b.decimals);
  return amount(unitsAt(a, at) + unitsAt(b, at), at);
}

export const negated = ({ units, decimals }: Amount): Amount => ({ units: -units, decimals });
export const isNegative = ({ units }: Amount): boolean => units < 0n;

export const fractionOf = ({ units, decimals }: Amount): Fraction => new Fraction(units, tenTo(decimals));

/** A fraction cut off behind so many decimals, towards zero. */
export const cutOff = (value: Fraction, decimals: number): Amount =>
  amount((value.s * value.n * tenTo(decimals)) / value.d, decimals);

/** A fraction at so many decimals, the nearest one; half a unit goes up. */
export function rounded(value: Fraction, decimals: number): Amount {
  const doubled = (2n * value.n * tenTo(decimals)) / value.d;
  return amount(value.s * ((doubled + 1n) / 2n), decimals);
}

/** Decimals of a fraction that ends, or undefined. */
export function decimalsOf(value: Fraction): number | undefined {
  let rest = value.d;
  let twos = 0;
  let fives = 0;
  while (rest % 2n === 0n) {
    rest /= 2n;
    twos++;
  }
  while (rest % 5n === 0n) {
    rest /= 5n;
    fives++;
  }
  return rest === 1n ? Math.max(twos, fives) : undefined;
}

/** Figures of a whole number; 1 for nought. */
export const figuresOf = (units: bigint): number => (units < 0n ? -units : units).toString().length;

/** As it is written for a register whose marker stands at so many decimals. */
export function textAt(value: Amount, marker: number): string {
  if (marker === 0) return value.units.toString();
  const decimals = Math.max(1, value.decimals);
  return decimalText(unitsAt(value, decimals), decimals);
}

/** As it is written where no marker matters. */
export const plainText = ({ units, decimals }: Amount): string => decimalText(units, decimals);

/** A fraction as an amount, where it ends. */
export function exactAmount(value: Fraction): Amount | undefined {
  const decimals = decimalsOf(value);
  return decimals === undefined ? undefined : amount((value.s * value.n * tenTo(decimals)) / value.d, decimals);
}
