/** Goals: what a register must show at the end, by exact arithmetic. */
import Fraction from 'fraction.js';
import type { Expression, GoalLine, NumberSyntax } from '../../grammar/tree.js';
import { hasSignedWheels, numberIn, type Profile, pointOf, type Register, type State } from '../machine/index.js';
import type { GoalMet, GoalProblem } from './findings.js';
import { decimalText } from './readings.js';
import type { Values } from './substitute.js';

/** Figures that a number may have on the way. */
const MOST_FIGURES = 2_000;
const MOST_POWER = 1_000;
/** Decimals beyond the marker to which a root that does not come out even is taken. */
const ROOT_GUARD = 20;
/** Decimals beyond the marker that are shown of a goal that does not end. */
const SHOWN_GUARD = 4;

export interface GoalResult {
  readonly register: Register;
  /** The value as text; one that does not end is cut off some places behind the marker. */
  readonly goal: string;
  /** The register's reading at its marker. */
  readonly reading: string;
  /** How the reading meets the goal, or undefined if it is missed. */
  readonly met?: GoalMet;
}

class NoValue extends Error {
  constructor(readonly problem: GoalProblem) {
    super(problem);
  }
}

/** Compares the reading with the goal; what has no value is said instead. */
export function judgeGoal(goal: GoalLine, values: Values, state: State, profile: Profile): GoalResult | GoalProblem {
  const { register, expression } = goal;
  const marker = pointOf(state, register);
  const value = exactValue(expression, values, marker);
  if (typeof value === 'string') return value;
  const reading = unitsTowards(value, state, profile, register);
  const units = value.mul(new Fraction(10n ** BigInt(marker)));
  const met = meets(units, reading);
  return { register, goal: valueText(value, marker), reading: decimalText(reading, marker), ...(met && { met }) };
}

/** What a register counts for where a value is wanted: of a negative one it shows the complement. */
export function unitsTowards(value: Fraction, state: State, profile: Profile, register: Register): bigint {
  const units = numberIn(state, profile, register);
  const isComplement = value.s < 0n && units > 0n && !hasSignedWheels(profile, register);
  return isComplement ? units - 10n ** BigInt(profile[register]) : units;
}

/** Within one unit of the last decimal; cut off is said first, for a reading that is rounded down is cut off as well. */
function meets(units: Fraction, reading: bigint): GoalMet | undefined {
  const difference = units.sub(new Fraction(reading));
  if (difference.n === 0n) return 'exact';
  if (difference.abs().compare(1) >= 0) return undefined;
  const towardsZero = units.s < 0n ? units.ceil() : units.floor();
  return towardsZero.equals(new Fraction(reading)) ? 'cut off' : 'rounded';
}

/**
 * The value of an expression: exact, or with a root that does not come out even cut off at so many decimals and some
 * more. What has no value is said instead.
 */
export function exactValue(expression: Expression, values: Values, decimals: number): Fraction | GoalProblem {
  try {
    return evaluate(expression, values, decimals);
  } catch (error) {
    if (error instanceof NoValue) return error.problem;
    throw error;
  }
}

/** A value as text; one that does not end is cut off some places behind the marker. */
export function valueText(value: Fraction, marker: number): string {
  let decimals = 0;
  let denominator = value.d;
  for (const factor of [10n, 5n, 2n]) {
    while (denominator % factor === 0n && decimals < marker + ROOT_GUARD) {
      denominator /= factor;
      decimals++;
    }
  }
  const shown = denominator === 1n ? decimals : marker + SHOWN_GUARD;
  const units = (value.s * value.n * 10n ** BigInt(shown)) / value.d;
  const text = decimalText(units, shown);
  return shown > 0 ? text.replace(/\.?0+$/, '') : text;
}

/** Arithmetic on a number of the notation. */
function fractionOf(number: NumberSyntax): Fraction {
  return new Fraction(BigInt(number.figures), 10n ** BigInt(number.decimals));
}

function evaluate(expression: Expression, values: Values, marker: number): Fraction {
  const value = (e: Expression): Fraction => evaluate(e, values, marker);
  switch (expression.kind) {
    case 'number':
      return sized(fractionOf(expression));
    case 'name': {
      const number = values.get(expression.name);
      if (!number) throw new NoValue('unknown-name');
      return fractionOf(number);
    }
    case 'group':
      return value(expression.of);
    case 'negative':
      return value(expression.of).neg();
    case 'sqrt':
      return root(value(expression.of), marker + ROOT_GUARD);
    case 'binary': {
      const left = value(expression.left);
      const right = value(expression.right);
      switch (expression.operator) {
        case '+':
          return sized(left.add(right));
        case '-':
          return sized(left.sub(right));
        case '*':
          return sized(left.mul(right));
        case '/':
          if (right.n === 0n) throw new NoValue('divides-by-zero');
          return sized(left.div(right));
        case '^':
          return power(left, right);
      }
    }
  }
}

function sized(value: Fraction): Fraction {
  if (bits(value) > MOST_FIGURES * 3.33) throw new NoValue('too-large');
  return value;
}

const bits = (value: Fraction): number => Math.max(value.n.toString(16).length, value.d.toString(16).length) * 4;

function power(base: Fraction, exponent: Fraction): Fraction {
  if (exponent.d !== 1n) throw new NoValue('power-not-whole');
  if (base.n === 0n && exponent.s < 0n) throw new NoValue('divides-by-zero');
  const isTrivial = base.d === 1n && base.n <= 1n;
  if (exponent.n > BigInt(MOST_POWER) && !isTrivial) throw new NoValue('too-large');
  if (!isTrivial && bits(base) * Number(exponent.n) > MOST_FIGURES * 4) throw new NoValue('too-large');
  const isOdd = exponent.n % 2n === 1n;
  if (isTrivial) return base.n === 0n && exponent.n > 0n ? base : new Fraction(base.s < 0n && isOdd ? -1 : 1);
  const times = exponent.n;
  const raised = new Fraction((base.s < 0n && isOdd ? -1n : 1n) * base.n ** times, base.d ** times);
  return exponent.s < 0n ? raised.inverse() : raised;
}

/** The square root, exact where it comes out even, else cut off at so many decimals. */
function root(value: Fraction, decimals: number): Fraction {
  if (value.s < 0n && value.n !== 0n) throw new NoValue('root-of-negative');
  const n = wholeRoot(value.n);
  const d = wholeRoot(value.d);
  if (n * n === value.n && d * d === value.d) return new Fraction(n, d);
  const scale = 10n ** BigInt(decimals);
  return new Fraction(wholeRoot((value.n * scale * scale) / value.d), scale);
}

/** The largest whole number whose square is no larger (Newton's iteration from above). */
function wholeRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let guess = 1n << BigInt(Math.ceil(n.toString(16).length * 2) + 1);
  for (;;) {
    const next = (guess + n / guess) >> 1n;
    if (next >= guess) return guess;
    guess = next;
  }
}
