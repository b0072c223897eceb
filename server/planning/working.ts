/** The work itself, from cleared registers to the answer in the register where it is wanted. */
import Fraction from 'fraction.js';
import { unitsTowards } from '../sequence/goals.js';
import { type Amount, amount, decimalsOf, fractionOf, tenTo } from './amount.js';
import { answersOf } from './answers.js';
import { rootDecimalsToTry } from './attempts.js';
import { nearer } from './choose.js';
import { deliver } from './deliver.js';
import {
  endsByItself,
  type Form,
  numberForm,
  opposite,
  type Quotient,
  roundsOnTheWay,
  valueOfQuotient,
} from './forms.js';
import { type Operator, Stuck } from './operator.js';
import type { Limit, PlanOrder } from './order.js';
import { intoResult } from './products.js';
import { quotientIntoCounter } from './quotients.js';
import { extractRoot } from './roots.js';
import { SKILLS } from './skills.js';
import type { Terms } from './terms.js';

/** The register in which the answer stands. */
export const registerOf = (operator: Operator): 'counter' | 'result' => operator.answer ?? 'result';

/** The work itself, to the register where the answer is wanted. */
export function worked(order: PlanOrder, start: Operator, quotient: Quotient, decimals: number): Operator {
  const isNegative = valueOfQuotient(quotient).s < 0n;
  if (order.profile.counter === 0 && (order.register === 'counter' || !endsByItself(quotient))) {
    throw new Stuck({ is: 'no-counter' });
  }
  if (endsByItself(quotient)) {
    const over = order.isRounded ? withHalfUnit(quotient.over, decimals) : quotient.over;
    // What goes below zero in the counter is worked out without its sign: a result below zero can't be read off.
    const isTurned = isNegative && order.register === 'counter';
    const done = intoResult(start, isTurned ? opposite(over) : over, termsFor(order, 0, undefined));
    done.answer = 'result';
    return ended(deliver(done, order.register, isTurned ? -1 : 1));
  }
  const over = isNegative ? opposite(quotient.over) : quotient.over;
  const value = valueOfQuotient(quotient).abs();
  if (!roundsOnTheWay(quotient))
    return ended(inexact(order, start, { over, under: quotient.under }, decimals, 0, isNegative));
  let nearest: Limit = { is: 'not-met' };
  for (const rootDecimals of rootDecimalsToTry(order, decimals)) {
    try {
      const done = inexact(order, start, { over, under: quotient.under }, decimals, rootDecimals, isNegative);
      if (isWithinAUnit(done, isNegative ? value.neg() : value)) return ended(done);
      const copied = fairCopy(done, value, decimals, isNegative, order.register);
      if (copied) return ended(copied);
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      nearest = nearer(nearest, error.limit);
    }
  }
  throw new Stuck(nearest.is === 'not-met' ? tooFewDecimals(order, decimals) : nearest);
}

/**
 * Numbers on the way need a decimal more than the answer and a place before their point; where that is not enough for
 * the answer to come out right, a place more than there is.
 */
function tooFewDecimals({ profile: { counter, carriage } }: PlanOrder, decimals: number): Limit {
  const has = Math.min(counter, carriage);
  const needs = Math.max(decimals + 2, has + 1);
  return { is: 'places', register: counter <= carriage ? 'counter' : 'carriage', has, needs };
}

function termsFor(order: PlanOrder, rootDecimals: number, kept: number | undefined): Terms {
  return {
    skills: SKILLS,
    kept,
    rootDecimals,
    method: order.method,
    roundsQuotient: order.isRounded === true,
    answers: answersOf(order),
  };
}

/** A quotient, a root or what contains one, positive; then with its sign to the register where it is wanted. */
function inexact(
  order: PlanOrder,
  start: Operator,
  { over, under }: Quotient,
  decimals: number,
  rootDecimals: number,
  isNegative: boolean,
): Operator {
  const isInexact = over.isInexact || under?.isInexact;
  const terms = termsFor(order, rootDecimals, isInexact ? rootDecimals : undefined);
  const wanted = order.register ?? (isNegative ? 'result' : undefined);
  const done = brought(start, { over, under }, terms, decimals);
  done.answer = under || over.is === 'root' ? 'counter' : 'result';
  return deliver(done, wanted, isNegative ? -1 : 1);
}

/** A quotient or a root into the counter, anything else into the result. */
function brought(start: Operator, { over, under }: Quotient, terms: Terms, decimals: number): Operator {
  if (under) return quotientIntoCounter(start, over, under, terms, decimals);
  if (over.is === 'root') return extractRoot(start, over.of, { ...terms, roundsQuotient: false }, decimals);
  return intoResult(start, over, terms);
}

/** Half a unit of the last decimal that is to be kept, so that the decimals behind it can simply be dropped. */
export function withHalfUnit(over: Form, decimals: number): Form {
  const has = decimalsOf(over.value) ?? 0;
  if (has <= decimals || over.value.s < 0n) return over;
  const half = numberForm({ value: amount(5n, decimals + 1) });
  const terms = over.is === 'sum' ? over.terms : [{ sign: 1 as const, form: over }];
  return {
    is: 'sum',
    terms: [{ sign: 1, form: half }, ...terms],
    value: over.value.add(half.value),
    key: `${over.key}+half`,
    isInexact: false,
  };
}

/** Levers back as they were found. */
function ended(operator: Operator): Operator {
  operator.atRest();
  return operator;
}

function isWithinAUnit(operator: Operator, value: Fraction): boolean {
  const reading = signedReading(operator, value);
  return isNearerThanAUnit(fractionOf(reading), value, operator.points[registerOf(operator)]);
}

/** Decimals of a unit in which a value may be wrong that is known through its roots alone. */
const SURE = 12;

/** Less than one unit of so many decimals away, however a root in the value is cut off. */
const isNearerThanAUnit = (reading: Fraction, value: Fraction, decimals: number): boolean =>
  reading
    .sub(value)
    .abs()
    .compare(new Fraction(tenTo(SURE) - 1n, tenTo(decimals + SURE))) < 0;

/** What the answer's register reads, a complement as the number below zero that it stands for. */
export function signedReading(operator: Operator, value: Fraction): Amount {
  const register = registerOf(operator);
  const units = unitsTowards(value, operator.state, operator.profile, register);
  return amount(units, operator.points[register]);
}

/** An answer of which not every figure is certain is set once more, with those that are. */
function fairCopy(
  operator: Operator,
  value: Fraction,
  decimals: number,
  isNegative: boolean,
  wanted: 'counter' | 'result' | undefined,
): Operator | undefined {
  const reading = fractionOf(signedReading(operator, isNegative ? value.neg() : value)).abs();
  const scaled = reading.mul(new Fraction(tenTo(decimals))).round();
  const copy = amount(scaled.n, decimals);
  if (copy.units === 0n || !isNearerThanAUnit(fractionOf(copy), value, decimals)) return undefined;
  const done = operator.another();
  done.expect(registerOf(done));
  done.remark({ is: 'fair-copy', decimals });
  return deliver(done, wanted ?? 'result', isNegative ? -1 : 1, copy);
}
