/** From an expression to the steps that work it out on a machine with the least effort. */
import Fraction from 'fraction.js';
import { printExpression } from '../../grammar/printer.js';
import { exactValue } from '../sequence/goals.js';
import { type Amount, amount, decimalsOf, figuresOf, fractionOf, plainText, tenTo } from './amount.js';
import { attempt, isDone, missOf } from './choose.js';
import { deliver } from './deliver.js';
import { type Form, formOf, numberForm, opposite, type Quotient, underOneRoot, valueOfQuotient } from './forms.js';
import { Operator, Stuck } from './operator.js';
import {
  isRefused,
  type Limit,
  type Method,
  type Plan,
  type Planned,
  type PlanOrder,
  type Refusal,
  type WayOut,
} from './order.js';
import { intoResult } from './products.js';
import { quotientIntoCounter } from './quotients.js';
import { extractRoot } from './roots.js';
import { SKILLS } from './skills.js';
import type { Terms } from './terms.js';
import { proved } from './verify.js';

/** Roots and quotients on the way are taken to so many more decimals than the answer, until it comes out right. */
const GUARDS = [1, 4];
/** And to so many fewer than the counter has places. */
const FROM_THE_TOP = [4, 2, 1];
/** Ways that are tried at the most, before what stands in the way is told. */
const MOST_TRIED = 3_000;
/** Steps that say what a register reads. */
const READS = /^expect (?:setting|counter|result)/;
/** No register has more. */
const MOST_DECIMALS = 20;

/**
 * Plans the steps. The lines that come out, run on the machine, meet the goal without a finding; where no way is found,
 * the limit that stands in the way of the nearest one is told.
 */
export function plan(order: PlanOrder): Planned {
  let nearest: Refusal | undefined;
  for (const form of formsOf(order)) {
    if ('is' in form) return { refused: form };
    const planned = planFor(order, form);
    if (!isRefused(planned)) return planned;
    nearest ??= planned;
  }
  const { method } = order;
  if (method !== undefined && nearest?.refused.is === 'not-met') return { refused: { is: 'method', method } };
  return nearest ?? { refused: { is: 'not-met' } };
}

/** The forms in which the expression may be worked out, the one with the least to write down first. */
function* formsOf(order: PlanOrder): Generator<Quotient | Limit> {
  const plain = formed(order, false);
  if ('is' in plain) return yield plain;
  const merged = underOneRoot(plain);
  if (merged) yield merged;
  yield plain;
  const divided = formed(order, true);
  // That is of use only where it differs.
  if ('is' in divided || isAlgebraic(divided)) yield divided;
}

function formed(order: PlanOrder, dividesOnTheWay: boolean): Quotient | Limit {
  try {
    return formOf(order.expression, order.values, dividesOnTheWay);
  } catch (error) {
    if (error instanceof Stuck) return error.limit;
    throw error;
  }
}

function planFor(order: PlanOrder, quotient: Quotient): Planned {
  let nearest: Limit | undefined;
  const start = new Operator(order.profile);
  for (const { decimals, method } of attemptsAt(order, quotient)) {
    if (nearest && start.search.tried > MOST_TRIED) break;
    const tried = { ...order, method };
    const outcome = attempt(() => worked(tried, start, quotient, decimals));
    const planned = isDone(outcome) ? asPlan(tried, quotient, outcome) : undefined;
    if (planned) return planned;
    const limit: Limit = isDone(outcome) ? { is: hasNames(order.values) ? 'parameters' : 'not-met' } : outcome;
    if (!nearest || missOf(limit) < missOf(nearest)) nearest = limit;
  }
  return refusal(order, quotient, nearest ?? roomFor(order, quotient, valueOfQuotient(quotient).abs()).limit);
}

/** Decimals to aim at, the most wished for first; a quotient that can't be had by dividing is built up after that. */
function attemptsAt(order: PlanOrder, quotient: Quotient): { decimals: number; method: Method | undefined }[] {
  const { method } = order;
  const all = decimalsToTry(order, quotient).map((decimals) => ({ decimals, method }));
  if (method !== undefined || !quotient.under) return all;
  return [...all, ...all.map(({ decimals }) => ({ decimals, method: 'building-up' as const }))];
}

/** Whether the answer comes out exactly, however it is worked out. */
const endsByItself = ({ over, under }: Quotient): boolean => !under && !over.isInexact;

/** The decimals to aim at, the most wished for first. A sum of products has the decimals that it has. */
function decimalsToTry(order: PlanOrder, quotient: Quotient): number[] {
  const value = largest(order, quotient);
  if (endsByItself(quotient)) return [order.decimals ?? 0];
  if (order.decimals !== undefined) return [order.decimals];
  return wishes(order, quotient, value).filter((decimals) => value.n * tenTo(decimals) >= value.d || value.n === 0n);
}

/** The value that takes the most room: that of one of the cases, where there are some. */
function largest(order: PlanOrder, quotient: Quotient): Fraction {
  const own = valueOfQuotient(quotient).abs();
  return answersOf(order).reduce((most, one) => (one.compare(most) > 0 ? one : most), own);
}

function wishes(order: PlanOrder, quotient: Quotient, value: Fraction): number[] {
  const ends = decimalsOf(value);
  const room = roomFor(order, quotient, value).decimals;
  if (ends !== undefined && ends <= room) return downFrom(ends);
  // Where numbers on the way are rounded, each attempt is long: a few will do.
  if (!roundsOnTheWay(quotient) || room < 0) return downFrom(room);
  return [...new Set([room, Math.ceil((room * 2) / 3), Math.ceil(room / 3), 0])];
}

const downFrom = (most: number): number[] =>
  Array.from({ length: Math.max(0, most) + 1 }, (_, i) => most - i).filter((one) => one >= 0);

/**
 * The most decimals for which the counter and the carriage have positions and the dividend has room, below 0 if there
 * are not even enough for whole numbers, and what bounds them.
 */
function roomFor(
  { profile }: PlanOrder,
  { over, under }: Quotient,
  value: Fraction,
): { decimals: number; limit: Limit } {
  const { counter, carriage, result } = profile;
  const whole = value.floor().n;
  // A quotient below one has its first figure behind the point, where fewer positions are needed.
  const figures = whole > 0n ? figuresOf(whole) : -leadingZeros(value);
  const bound = (register: 'counter' | 'carriage' | 'result', has: number, needs: number) => {
    return { decimals: has - needs, limit: { is: 'places', register, has, needs } as const };
  };
  const bounds = [
    bound('carriage', carriage, figures),
    bound('counter', counter || MOST_DECIMALS, Math.max(0, figures)),
  ];
  const dividend = under ? over.value.abs().floor().n : 0n;
  if (dividend > 0n) bounds.push(bound('result', result, figuresOf(dividend)));
  return bounds.reduce((least, one) => (one.decimals < least.decimals ? one : least), {
    decimals: MOST_DECIMALS,
    limit: { is: 'not-met' } as Limit,
  });
}

/** Noughts behind the point before the first figure of a value below one. */
function leadingZeros({ n, d }: Fraction): number {
  let zeros = Math.max(0, d.toString().length - n.toString().length - 1);
  while (zeros < MOST_DECIMALS && n !== 0n && n * tenTo(zeros + 1) < d) zeros++;
  return Math.min(zeros, MOST_DECIMALS);
}

/** Roots or quotients have to be written down, rounded, before the last division or root. */
function roundsOnTheWay({ over, under }: Quotient): boolean {
  if (over.is === 'root' && !under) return isAlgebraic(over.of);
  return isAlgebraic({ over, under });
}

const isAlgebraic = ({ over, under }: Quotient): boolean => over.isInexact || under?.isInexact === true;

const registerOf = (operator: Operator): 'counter' | 'result' => operator.answer ?? 'result';

/** The work itself, to the register where the answer is wanted. */
function worked(order: PlanOrder, start: Operator, quotient: Quotient, decimals: number): Operator {
  const isNegative = valueOfQuotient(quotient).s < 0n;
  if (endsByItself(quotient)) {
    const over = order.isRounded ? withHalfUnit(quotient.over, decimals) : quotient.over;
    const done = intoResult(start, over, termsFor(order, 0, undefined));
    done.answer = 'result';
    return ended(deliver(done, order.register, 1));
  }
  if (order.profile.counter === 0 && order.register === 'counter') throw new Stuck({ is: 'no-counter' });
  const over = isNegative ? opposite(quotient.over) : quotient.over;
  const value = valueOfQuotient(quotient).abs();
  if (!roundsOnTheWay(quotient))
    return ended(inexact(order, start, { over, under: quotient.under }, decimals, 0, isNegative));
  let last: Stuck = new Stuck({ is: 'not-met' });
  for (const rootDecimals of rootDecimalsToTry(order, decimals)) {
    try {
      const done = inexact(order, start, { over, under: quotient.under }, decimals, rootDecimals, isNegative);
      if (isWithinAUnit(done, isNegative ? value.neg() : value)) return ended(done);
      const copied = fairCopy(done, value, decimals, isNegative, order.register);
      if (copied) return ended(copied);
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      last = missOf(error.limit) < missOf(last.limit) ? error : last;
    }
  }
  throw last;
}

function rootDecimalsToTry({ profile }: PlanOrder, decimals: number): number[] {
  const most = Math.min(profile.counter, profile.carriage);
  const all = [...GUARDS.map((more) => decimals + more), ...FROM_THE_TOP.map((fewer) => most - fewer)];
  return [...new Set(all.filter((one) => one > decimals && one < most))].sort((a, b) => a - b);
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

/** The value in every case, if the plan is to serve more than its numbers as they stand. */
function answersOf({ expression, values }: PlanOrder): Fraction[] {
  if (!hasNames(values)) return [];
  return values.map((one) => {
    const value = exactValue(expression, one, MOST_DECIMALS);
    if (typeof value === 'string') throw new Stuck({ is: 'no-value', why: value });
    return value.abs();
  });
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
  if (under) {
    const done = quotientIntoCounter(start, over, under, terms, decimals);
    done.answer = 'counter';
    return deliver(done, wanted, isNegative ? -1 : 1);
  }
  if (over.is === 'root') {
    const done = extractRoot(start, over.of, { ...terms, roundsQuotient: false }, decimals);
    done.answer = 'counter';
    return deliver(done, wanted, isNegative ? -1 : 1);
  }
  const done = intoResult(start, over, terms);
  done.answer = 'result';
  return deliver(done, wanted, isNegative ? -1 : 1);
}

/** Half a unit of the last decimal that is to be kept, so that the decimals behind it can simply be dropped. */
function withHalfUnit(over: Form, decimals: number): Form {
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
  const unit = new Fraction(1n, tenTo(operator.points[registerOf(operator)]));
  return fractionOf(reading).sub(value).abs().compare(unit) < 0;
}

function signedReading(operator: Operator, value: Fraction): Amount {
  const register = registerOf(operator);
  let units = operator.units(register);
  const isComplement =
    value.s < 0n && units > 0n && !(register === 'counter' && operator.profile.counterCarry === 'signed');
  if (isComplement) units -= tenTo(operator.profile[register]);
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
  const isNear =
    fractionOf(copy)
      .sub(value)
      .abs()
      .compare(new Fraction(1n, tenTo(decimals))) < 0;
  if (!isNear || copy.units === 0n) return undefined;
  const done = operator.another();
  done.expect(registerOf(done));
  done.remark({ is: 'fair-copy', decimals });
  return deliver(done, wanted ?? 'result', isNegative ? -1 : 1, copy);
}

function asPlan(order: PlanOrder, quotient: Quotient, operator: Operator): Plan | undefined {
  const register = registerOf(operator);
  const last = operator.another();
  last.expect(register);
  const said = last.lines;
  // Readings hold for one set of numbers alone.
  const lines = hasNames(order.values) ? said.filter((line) => !('step' in line) || !READS.test(line.step)) : said;
  const half = order.isRounded && endsByItself(quotient) ? withHalfUnit(quotient.over, order.decimals ?? 0) : undefined;
  const isHalfAdded = half !== undefined && half !== quotient.over;
  const expression = printExpression(order.expression);
  const goal = isHalfAdded ? `${expression} + ${plainText(amount(5n, (order.decimals ?? 0) + 1))}` : expression;
  const value = isHalfAdded ? half.value : valueOfQuotient(quotient);
  const reading = signedReading(operator, value);
  const decimals = operator.points[register];
  const text = plainText({ units: reading.units * tenTo(decimals - reading.decimals), decimals });
  const sound = proved(order, { lines, goal: { register, expression: goal } });
  if (!sound) return undefined;
  return {
    lines: sound.lines,
    register,
    decimals,
    reading: text,
    figures: text.replace(/^[-0.]+|\./g, '').length || 1,
    isExact: fractionOf(reading).equals(value),
    effort: sound.effort,
    written: operator.written,
    decisions: operator.decisions,
    goal,
  };
}

const hasNames = (values: PlanOrder['values']): boolean => (values[0]?.size ?? 0) > 0;

/** Says what would do instead, where that is known: fewer decimals, or a number in two parts. */
function refusal(order: PlanOrder, quotient: Quotient, refused: Limit): Refusal {
  const { decimals } = order;
  const start = new Operator(order.profile);
  if (decimals !== undefined && decimals > 0 && !endsByItself(quotient)) {
    for (let fewer = decimals - 1; fewer >= 0; fewer--) {
      const outcome = attempt(() => worked(order, start, quotient, fewer));
      if (isDone(outcome)) return { refused, wayOut: { is: 'fewer-decimals', decimals: fewer } };
    }
  }
  const wayOut =
    refused.is === 'places' && refused.register === 'setting' ? split(quotient, order.profile.setting) : undefined;
  return { refused, ...(wayOut && { wayOut }) };
}

/** The first number that is too long for the levers, in two parts. */
function split({ over, under }: Quotient, levers: number): WayOut | undefined {
  const numbers = [...numbersIn(over), ...(under ? numbersIn(under) : [])];
  const long = numbers.find(({ units }) => figuresOf(units) > levers);
  if (!long) return undefined;
  const low = tenTo(Math.ceil(figuresOf(long.units) / 2));
  const part = (units: bigint) => plainText(amount(units, long.decimals));
  return {
    is: 'split',
    number: plainText(long),
    parts: [part(long.units - (long.units % low)), part(long.units % low)],
  };
}

function numbersIn(form: Form): Amount[] {
  switch (form.is) {
    case 'number':
      return [form.figures.value];
    case 'sum':
      return form.terms.flatMap(({ form: of }) => numbersIn(of));
    case 'product':
      return form.factors.flatMap(numbersIn);
    case 'power':
      return numbersIn(form.base);
    case 'root':
    case 'quotient':
      return [...numbersIn(form.of.over), ...(form.of.under ? numbersIn(form.of.under) : [])];
  }
}
