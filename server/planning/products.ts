/**
 * Sums and products of numbers, worked out into the result register. Intermediate results stay in the machine where
 * they can be passed back to the levers; else they are written down and set again.
 */
import type { Profile } from '../machine/index.js';
import { type Amount, figuresOf, isNegative, NOUGHT, negated, plus, times, unitsAt } from './amount.js';
import { choose, type Way } from './choose.js';
import { type Form, type ProductForm, productForm, type Term, termsIn } from './forms.js';
import { operand } from './operands.js';
import { type Operator, Stuck } from './operator.js';
import { accumulateWhole } from './parts.js';
import { crankOn } from './passing.js';
import { powerWays } from './powers.js';
import { accumulate, naturalDecimals, type SimpleTerm } from './sums.js';
import type { Terms } from './terms.js';

/** Levels of sums within products that are worked out; deeper ones no one would crank. */
const SMALL = 12;

/** Works a form out into the result, which is clear and is left with `decimals` decimals, or as many as it takes. */
export function intoResult(operator: Operator, form: Form, terms: Terms, decimals?: number): Operator {
  return choose(operator, 'form', formWays(operator.profile, form, terms, decimals));
}

function* formWays(profile: Profile, form: Form, terms: Terms, decimals: number | undefined): Generator<Way> {
  const all = termsIn(form);
  const only = all.length === 1 && all[0].sign > 0 ? all[0].form : undefined;
  const isPower = only?.is === 'power' && only.exponent > 2;
  // A power by itself has no parts that could be added up.
  if (!isPower) yield { name: 'accumulate', work: (operator) => accumulated(operator, all, terms, decimals) };
  if (all.some(({ sign, form: { is } }) => sign < 0 && (is === 'product' || is === 'power'))) {
    // A product that is taken away may count the counter down too far, where a single turn does not.
    const work = (operator: Operator) => accumulated(operator, all, terms, decimals, true);
    yield { name: 'products written down', work };
  }
  if (only?.is === 'product' && operatorMayChain(only) && profile.transferResult !== 'none')
    yield* chainWays(only, terms, decimals);
  if (only?.is === 'power') {
    const base = only.base;
    yield* powerWays((operator) => operand(operator, base, terms), only.exponent, decimals);
  }
  const open = only && distributed(only);
  if (open) yield { name: 'distribute', work: (operator) => accumulated(operator, termsIn(open), terms, decimals) };
}

const operatorMayChain = ({ factors }: ProductForm): boolean => factors.length >= 2 && factors.length <= SMALL;

/** Every term as a number or a product of two, with what is more written down first. */
function accumulated(
  operator: Operator,
  all: readonly Term[],
  terms: Terms,
  decimals: number | undefined,
  writesDown = false,
): Operator {
  let at = operator;
  const simple: SimpleTerm[] = [];
  for (const { sign, form } of all) {
    if (form.value.n === 0n) continue;
    const made = sign < 0 && writesDown ? singleTerm(at, sign, form, terms) : simpleTerm(at, sign, form, terms);
    at = made.operator;
    simple.push(made.term);
  }
  at = cleared(at);
  // Those that are added come first, so that nothing goes below zero on the way.
  simple.sort((a, b) => b.sign - a.sign);
  if (simple.length === 0) {
    at.place(0, decimals ?? 0);
    return at;
  }
  const products = simple.filter(({ factors }) => factors.length > 1).length;
  if (products > 1) at.remark({ is: 'sum-of-products', terms: products });
  const sum = total(simple);
  const kept = decimals ?? naturalDecimals(simple);
  // That the sum has room at all says more than the product at which it first runs over.
  if (!isNegative(sum) && sum.decimals <= kept) at.room('result', figuresOf(unitsAt(sum, kept)));
  at.mayOverdraw = isNegative(sum);
  const done = accumulateWhole(at, simple, kept);
  done.mayOverdraw = false;
  return done;
}

/** What terms come to. */
function total(simple: readonly SimpleTerm[]): Amount {
  return simple.reduce((so, { sign, factors: [a, b] }) => {
    const product = b ? times(a.value, b.value) : a.value;
    return plus(so, sign > 0 ? product : negated(product));
  }, NOUGHT);
}

/** Registers at zero, whatever came before. */
function cleared(operator: Operator): Operator {
  const isClear = (['setting', 'counter', 'result'] as const).every((register) => operator.units(register) === 0n);
  if (!isClear || !operator.hasSteps) operator.clearAll();
  return operator;
}

function simpleTerm(
  operator: Operator,
  sign: 1 | -1,
  form: Form,
  terms: Terms,
): { operator: Operator; term: SimpleTerm } {
  const factors =
    form.is === 'product' ? form.factors : form.is === 'power' && form.exponent === 2 ? [form.base, form.base] : [form];
  if (factors.length === 1) return singleTerm(operator, sign, form, terms);
  // All but the last become one number.
  const head = factors.length === 2 ? factors[0] : productForm(factors.slice(0, -1));
  const a = operand(operator, head, terms);
  const b = operand(a.operator, factors[factors.length - 1], terms);
  return { operator: b.operator, term: { sign: (sign * a.sign * b.sign) as 1 | -1, factors: [a.figures, b.figures] } };
}

/** A term as one number. */
function singleTerm(
  operator: Operator,
  sign: 1 | -1,
  form: Form,
  terms: Terms,
): { operator: Operator; term: SimpleTerm } {
  const one = operand(operator, form, terms);
  return { operator: one.operator, term: { sign: (sign * one.sign) as 1 | -1, factors: [one.figures] } };
}

/** A product taken factor by factor, each product passed back to the levers for the next; any of them may come first. */
function* chainWays(form: ProductForm, terms: Terms, decimals: number | undefined): Generator<Way> {
  const { factors } = form;
  if (factors.length === 2 && factors.every(({ is }) => is === 'number')) return;
  const seen = new Set<string>();
  for (const [i, first] of factors.entries()) {
    if (seen.has(first.key)) continue;
    seen.add(first.key);
    const others = factors.filter((_, j) => j !== i);
    yield { name: 'pass back', work: (operator) => passBack(operator, first, others, terms, decimals) };
  }
}

function passBack(
  operator: Operator,
  first: Form,
  others: readonly Form[],
  terms: Terms,
  decimals: number | undefined,
): Operator {
  let at = operator;
  const multipliers = others.map((form) => {
    const made = operand(at, form, terms);
    at = made.operator;
    if (made.sign < 0) throw new Stuck({ is: 'not-met' });
    return made.figures;
  });
  if (first.value.s < 0n) throw new Stuck({ is: 'not-met' });
  // Two numbers make the first product; a sum comes into the result by itself.
  const isNumber = first.is === 'number';
  if (isNumber) {
    const [second] = multipliers;
    at = cleared(at);
    const only = multipliers.length === 1;
    const own = first.figures.value.decimals + second.value.decimals;
    at = accumulate(at, [{ sign: 1, factors: [first.figures, second] }], only ? (decimals ?? own) : own);
  } else at = intoResult(at, first, terms);
  const rest = isNumber ? multipliers.slice(1) : multipliers;
  return rest.reduce((so, by, i) => crankOn(so, by, i === rest.length - 1 ? decimals : undefined), at);
}

/** A product of a number and a sum of numbers, as a sum of products. */
function distributed(form: Form): Form | undefined {
  if (form.is !== 'product' || form.factors.length > 3) return undefined;
  const sum = form.factors.find(({ is }) => is === 'sum');
  if (sum?.is !== 'sum' || sum.terms.length > 6) return undefined;
  const others = form.factors.filter((factor) => factor !== sum);
  if (others.length === 0) return undefined;
  const key = form.key;
  const all = sum.terms.map(({ sign, form: of }): Term => ({ sign, form: productForm([of, ...others]) }));
  return { is: 'sum', terms: all, value: form.value, key: `~${key}`, isInexact: form.isInexact };
}
