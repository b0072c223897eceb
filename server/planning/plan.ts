/** From an expression to the steps that work it out on a machine with the least effort. */
import { printExpression } from '../../grammar/printer.js';
import { amount, fractionOf, plainText, tenTo } from './amount.js';
import { hasNames } from './answers.js';
import { attemptsAt, limitOf } from './attempts.js';
import { attempt, isDone, MOST_TRIED, nearer } from './choose.js';
import {
  endsByItself,
  formOf,
  hasDivision,
  hasRoot,
  hasRoots,
  type Quotient,
  underOneRoot,
  valueOfQuotient,
} from './forms.js';
import { Operator, Stuck } from './operator.js';
import {
  isRefused,
  isRootMethod,
  type Limit,
  type Method,
  type Plan,
  type Planned,
  type PlanOrder,
  type Refusal,
} from './order.js';
import { refusal } from './refusal.js';
import { proved } from './verify.js';
import { registerOf, signedReading, withHalfUnit, worked } from './working.js';

/** Steps that say what a register reads. */
const READS = /^expect (?:setting|counter|result)/;

/**
 * Plans the steps. The lines that come out, run on the machine, meet the goal without a finding; where no way is found,
 * the limit that stands in the way of the nearest one is told.
 */
export function plan(order: PlanOrder): Planned {
  const { method } = order;
  let nearest: Refusal | undefined;
  for (const { form, part } of formsOf(order)) {
    if ('is' in form) return { refused: form };
    // A division on the way may be gone where all is brought to one.
    if (method !== undefined && !isOfUse(method, form)) {
      nearest ??= { refused: { is: 'nothing-for-method', method } };
      continue;
    }
    const planned = planFor(order, form, part);
    if (!isRefused(planned)) return planned;
    if (!nearest || nearest.refused.is === 'nothing-for-method') nearest = planned;
  }
  if (method !== undefined && nearest?.refused.is === 'not-met') return { refused: { is: 'method', method } };
  return nearest ?? { refused: { is: 'not-met' } };
}

/** There is a division to be done, or a root to be taken, in the way that is asked for. */
const isOfUse = (method: Method, form: Quotient): boolean => (isRootMethod(method) ? hasRoot(form) : hasDivision(form));

/** A form in which the expression may be worked out, and which attempts at it are to be made. */
interface Try {
  readonly form: Quotient | Limit;
  readonly part: 'all' | 'upper' | 'lower';
}

/**
 * The forms to try, the one with the least to write down first. All under one root there may be room for fewer decimals
 * than with a root on the way: what is much below the wish comes last.
 */
function* formsOf(order: PlanOrder): Generator<Try> {
  const plain = formed(order, false);
  if ('is' in plain) return yield { form: plain, part: 'all' };
  const merged = underOneRoot(plain);
  if (merged) yield { form: merged, part: 'upper' };
  yield { form: plain, part: 'all' };
  const divided = formed(order, true);
  // That is of use only where it differs.
  if ('is' in divided || hasRoots(divided)) yield { form: divided, part: 'all' };
  if (merged) yield { form: merged, part: 'lower' };
}

function formed(order: PlanOrder, dividesOnTheWay: boolean): Quotient | Limit {
  try {
    return formOf(order.expression, order.values, dividesOnTheWay);
  } catch (error) {
    if (error instanceof Stuck) return error.limit;
    throw error;
  }
}

function planFor(order: PlanOrder, quotient: Quotient, part: Try['part']): Planned {
  let nearest: Limit | undefined;
  const start = new Operator(order.profile);
  const attempts = attemptsAt(order, quotient);
  const upper = Math.ceil(attempts.length / 3);
  const from = part === 'lower' ? upper : 0;
  for (const { decimals, method } of attempts.slice(from, part === 'upper' ? upper : undefined)) {
    if (nearest && start.search.tried >= MOST_TRIED) break;
    const tried = { ...order, method };
    const outcome = attempt(() => worked(tried, start, quotient, decimals));
    const planned = isDone(outcome) ? asPlan(tried, quotient, outcome) : undefined;
    if (planned) return planned;
    const limit: Limit = isDone(outcome) ? { is: hasNames(order.values) ? 'parameters' : 'not-met' } : outcome;
    nearest = nearer(nearest, limit);
  }
  return refusal(order, quotient, nearest ?? limitOf(order, quotient));
}

/** The work as a plan, if it holds when it is run. */
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
