/** Numbers of the notation and readings of registers, aligned to decimal markers. */
import type { NumberSyntax } from '../../grammar/tree.js';
import { figuresIn } from '../machine/index.js';

/** The digits of a number for a register with so many decimals, or undefined if it has more than that. */
export function alignedDigits(number: NumberSyntax, marker: number): string | undefined {
  if (!number.isValue) return number.figures;
  if (number.decimals > marker) return undefined;
  return withoutLeadingZeros(number.figures + '0'.repeat(marker - number.decimals));
}

/** Places that a digit string takes; a value takes those of its figures alone. */
export const withoutLeadingZeros = (digits: string): string => digits.replace(/^0+(?=.)/, '');

/** A number of units of the last decimal, as it is written: 47450 with 2 decimals is `474.50`. */
export function decimalText(units: bigint, decimals: number): string {
  const digits = (units < 0n ? -units : units).toString().padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  return (units < 0n ? '-' : '') + (decimals > 0 ? `${whole}.${digits.slice(-decimals)}` : whole);
}

/** Single wheels of a register from the first that is not at zero, a negative figure with a minus: `3 0 −2`. */
export const wheelsText = (text: string): string =>
  figuresIn(text)
    .join(' ')
    .replace(/^(?:0 )+/, '')
    .replaceAll('-', '−');

/** A whole number written in a step, or undefined where it has a point or is beyond counting. */
export const wholeOf = (number: NumberSyntax): number | undefined =>
  number.isValue || number.figures.length > 15 ? undefined : Number(number.figures);
