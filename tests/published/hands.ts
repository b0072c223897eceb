/** Steps of the notation as an operator would go through them, written out as text. */
import { crank, MACHINES } from './crank.js';

/** Turns and shifts for signed figures of a multiplier, units first, from position 1; negative figures turn back. */
export function signedTurns(figures: readonly number[]): string[] {
  const steps: string[] = [];
  for (const [place, figure] of figures.entries()) {
    if (figure === 0) continue;
    steps.push(`shift to ${place + 1}`, `turn ${figure < 0 ? 'back ' : ''}${Math.abs(figure)}`);
  }
  return steps;
}

/** The figures of a whole number, units first. */
export const figuresOf = (n: bigint | number | string): number[] => Array.from(String(n), Number).reverse();

/**
 * Takes the product of the setting and a number away from the result: each figure by so many back turns. Figures
 * above the position `highest` are turned there, ten turns for one.
 */
export function takeAway(n: bigint, highest = 20): string[] {
  const figures = figuresOf(n);
  for (let above = figures.length; above > highest; above--) figures[above - 2] += 10 * (figures.pop() ?? 0);
  return [...signedTurns(figures.map((f) => -f)), 'shift to 1'];
}

/** One division on 20 places: `dividend` dialled with its units in place `at`, carriage from position `at` down. */
function divideOnce(dividend: bigint, divisor: bigint, from: number, at: number): [bigint, bigint] {
  const { counter, result } = crank(MACHINES.divider, [
    'clear all',
    `dial result ${dividend} at ${at}`,
    `set ${divisor}`,
    `shift to ${from}`,
    'divide',
  ]);
  return [counter, result];
}

/**
 * Divides and then goes on from each remainder, dialled anew as high as it goes: the whole quotient, and so many
 * decimals of it, cut off.
 */
export function longDivision(dividend: bigint, divisor: bigint, decimals: number): string {
  const length = String(divisor).length;
  const from = Math.min(Math.max(1, String(dividend).length - length + 1), 20);
  let [quotient, remainder] = divideOnce(dividend, divisor, from, 1);
  const whole = quotient;
  let figures = '';
  const chunk = 20 - length;
  while (figures.length < decimals) {
    [quotient, remainder] = divideOnce(remainder, divisor, chunk, chunk + 1);
    figures += String(quotient).padStart(chunk, '0');
  }
  return decimals === 0 ? String(whole) : `${whole}.${figures.slice(0, decimals)}`;
}

export interface OddRoot {
  readonly steps: string[];
  /** How many turns must make the result go below zero: one for each figure of the root. */
  readonly overdraws: number;
}

/**
 * A root by odd numbers: the radicand is dialled, and for each figure of the root 1, 3, 5 … behind twice the root so
 * far is taken away until the result goes below zero; one turn back restores it, the carriage goes one place to the
 * left. The odd number stands on the levers one place lower for each figure, so that the counter shows the root.
 */
export function rootByOddNumbers(radicand: bigint, figures: number): OddRoot {
  const steps = ['clear all', `dial result ${radicand}`, `shift to ${figures}`];
  let rest = radicand;
  let root = 0n;
  for (let k = figures - 1; k >= 0; k--) {
    const weight = 100n ** BigInt(k);
    let odd = 20n * root + 1n;
    root *= 10n;
    for (; ; odd += 2n) {
      steps.push(`set ${odd} at ${k + 1}`, 'turn back');
      if (odd * weight > rest) break;
      rest -= odd * weight;
      root++;
    }
    steps.push('turn');
    if (k > 0) steps.push('shift left');
  }
  return { steps, overdraws: figures };
}
