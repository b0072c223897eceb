/**
 * An expression in the form in which a machine works it out: one division at the end, at the most, and everything else
 * sums and products of numbers and roots.
 */
import Fraction from 'fraction.js';
import type { Expression } from '../../grammar/tree.js';
import { exactValue } from '../sequence/goals.js';
import type { Values } from '../sequence/substitute.js';
import { amountOf, fractionOf, ONE, tenTo, unitsAt } from './amount.js';
import { type Figures, Stuck } from './operator.js';

/** Decimals to which roots, and what is made of them, are known here: twice as many as a register has places. */
const ROOT_DECIMALS = 40;
/** Products of more factors than that are powers that no register holds. */
const MOST_FACTORS = 70;

interface Valued {
  /** Exact, or with roots known to some forty decimals. */
  readonly value: Fraction;
  /** The same text means the same number. */
  readonly key: string;
  /** A root in it, or a quotient, can only be known to so many decimals. */
  readonly isInexact: boolean;
}
export interface Term {
  readonly sign: 1 | -1;
  readonly form: Form;
}
export type NumberForm = Valued & { readonly is: 'number'; readonly figures: Figures };
export type SumForm = Valued & { readonly is: 'sum'; readonly terms: readonly Term[] };
export type ProductForm = Valued & { readonly is: 'product'; readonly factors: readonly Form[] };
export type PowerForm = Valued & { readonly is: 'power'; readonly base: Form; readonly exponent: number };
export type RootForm = Valued & { readonly is: 'root'; readonly of: Quotient };
/** A division on the way, of which the quotient is written down. */
export type QuotientForm = Valued & {
  readonly is: 'quotient';
  readonly of: Required<Quotient> & { readonly under: Form };
};
export type Form = NumberForm | SumForm | ProductForm | PowerForm | RootForm | QuotientForm;

/** `over` divided by `under`; nothing is divided where that is missing. */
export interface Quotient {
  readonly over: Form;
  readonly under?: Form | undefined;
}

/**
 * Brings an expression into that form; what has no value ends as `Stuck`. Told to divide on the way, it leaves divisions
 * within sums and products where they are.
 */
export function formOf(expression: Expression, cases: readonly Values[], dividesOnTheWay = false): Quotient {
  const values = cases[0] ?? new Map();
  // Says at once what has no value, before powers are multiplied out.
  const value = exactValue(expression, values, ROOT_DECIMALS);
  if (typeof value === 'string') throw new Stuck({ is: 'no-value', why: value });
  return quotientOf(expression, { values, cases }, dividesOnTheWay);
}

export const valueOfQuotient = ({ over, under }: Quotient): Fraction =>
  under ? over.value.div(under.value) : over.value;

function quotientOf(expression: Expression, values: Named, onTheWay: boolean): Quotient {
  const part = (of: Expression) => quotientOf(of, values, onTheWay);
  const whole = (of: Expression) => (onTheWay ? { over: wholeForm(part(of)) } : part(of));
  switch (expression.kind) {
    case 'number':
      return { over: numberForm({ value: amountOf(expression) }) };
    case 'name': {
      return { over: numberForm(parameter(expression.name, values)) };
    }
    case 'group':
      return part(expression.of);
    case 'negative':
      return negative(whole(expression.of));
    case 'sqrt':
      return { over: rootForm(part(expression.of)) };
    case 'binary': {
      const left = whole(expression.left);
      const right = whole(expression.right);
      switch (expression.operator) {
        case '+':
          return added(left, right);
        case '-':
          return added(left, negative(right));
        case '*':
          return multiplied(left, right);
        case '/':
          return multiplied(left, { over: right.under ?? numberForm({ value: ONE }), under: right.over });
        case '^':
          return raised(left, valueOfQuotient(right));
      }
    }
  }
}

/** The values of the names: the defaults, and all cases with them. */
interface Named {
  readonly values: Values;
  readonly cases: readonly Values[];
}

/** A parameter has its default's value, and as many decimals as any of its cases. */
function parameter(name: string, { values, cases }: Named): Figures {
  const number = values.get(name);
  if (!number) throw new Stuck({ is: 'no-value', why: 'unknown-name' });
  const all = cases.flatMap((one) => one.get(name) ?? []);
  if (all.some(({ isValue }) => isValue !== number.isValue)) throw new Stuck({ is: 'parameters' });
  const decimals = Math.max(...all.map((one) => amountOf(one).decimals));
  return { value: { units: unitsAt(amountOf(number), decimals), decimals }, name, isDigits: !number.isValue };
}

export function numberForm(figures: Figures): NumberForm {
  const { value, name } = figures;
  const key = name ?? `${value.units}e-${value.decimals}`;
  return { is: 'number', figures, value: fractionOf(value), key, isInexact: false };
}

/** What rests on roots is cut off where they are: figures that nobody knows would only make it long. */
function known(value: Fraction, isInexact: boolean): Fraction {
  if (!isInexact) return value;
  const unit = tenTo(ROOT_DECIMALS);
  return new Fraction((value.s * value.n * unit) / value.d, unit);
}

function sumForm(terms: readonly Term[]): Form {
  if (terms.length === 1 && terms[0].sign === 1) return terms[0].form;
  const isInexact = terms.some(({ form }) => form.isInexact);
  const sum = terms.reduce((so, { sign, form }) => so.add(form.value.mul(sign)), new Fraction(0));
  const key = `(${terms.map(({ sign, form }) => (sign > 0 ? '+' : '-') + form.key).join('')})`;
  return { is: 'sum', terms, value: known(sum, isInexact), key, isInexact };
}

export function productForm(factors: readonly Form[]): Form {
  const flat = factors
    .flatMap((form) => (form.is === 'product' ? form.factors : [form]))
    .filter((form) => !isOne(form));
  if (flat.length === 0) return numberForm({ value: ONE });
  if (flat.length === 1) return flat[0];
  if (flat.length > MOST_FACTORS) throw new Stuck({ is: 'no-value', why: 'too-large' });
  const isInexact = flat.some((form) => form.isInexact);
  const value = known(
    flat.reduce((product, form) => product.mul(form.value), new Fraction(1)),
    isInexact,
  );
  return {
    is: 'product',
    factors: flat,
    value,
    key: flat.map(({ key }) => key).join('*'),
    isInexact,
  };
}

const isOne = (form: Form): boolean => form.is === 'number' && form.figures.name === undefined && form.value.equals(1);

/** A quotient as a single form. */
function wholeForm({ over, under }: Quotient): Form {
  if (!under) return over;
  const value = known(over.value.div(under.value), over.isInexact || under.isInexact);
  if (value.s >= 0n)
    return { is: 'quotient', of: { over, under }, value, key: `(${over.key}/${under.key})`, isInexact: true };
  return sumForm([{ sign: -1, form: wholeForm({ over: opposite(over), under }) }]);
}

function rootForm(of: Quotient): Form {
  const value = exactValue(
    { kind: 'sqrt', of: numberExpression(valueOfQuotient(of)), from: 0, to: 0 },
    new Map(),
    ROOT_DECIMALS,
  );
  if (typeof value === 'string') throw new Stuck({ is: 'no-value', why: value });
  return { is: 'root', of, value, key: `sqrt(${of.over.key}/${of.under?.key ?? ''})`, isInexact: true };
}

/** A product with one root in it, as a single root: its other factors go under the root squared. */
export function underOneRoot({ over, under }: Quotient): Quotient | undefined {
  if (under || over.is !== 'product') return undefined;
  const root = over.factors.find(({ is }) => is === 'root');
  const others = over.factors.filter((factor) => factor !== root);
  if (root?.is !== 'root' || root.of.under || root.of.over.isInexact) return undefined;
  if (others.some(({ isInexact }) => isInexact)) return undefined;
  return { over: rootForm({ over: productForm([root.of.over, ...others, ...others]) }) };
}

/** A fraction as an expression. */
function numberExpression(value: Fraction): Expression {
  const whole = (n: bigint): Expression => ({
    kind: 'number',
    text: `${n}`,
    figures: `${n}`,
    isValue: false,
    decimals: 0,
    from: 0,
    to: 0,
  });
  const over = whole(value.n);
  const left: Expression = value.s < 0n ? { kind: 'negative', of: over, from: 0, to: 0 } : over;
  return { kind: 'binary', operator: '/', left, right: whole(value.d), from: 0, to: 0 };
}

const termsOf = (form: Form): readonly Term[] => (form.is === 'sum' ? form.terms : [{ sign: 1, form }]);

/** The other sign. */
export const opposite = (form: Form): Form =>
  sumForm(termsOf(form).map(({ sign, form: of }) => ({ sign: sign > 0 ? -1 : 1, form: of })));

const negative = ({ over, under }: Quotient): Quotient => ({ over: opposite(over), under });

function added(left: Quotient, right: Quotient): Quotient {
  if (left.under?.key === right.under?.key) {
    return { over: sumForm([...termsOf(left.over), ...termsOf(right.over)]), under: left.under };
  }
  const a = scaled(left.over, right.under);
  const b = scaled(right.over, left.under);
  const under = productForm([left.under, right.under].filter((form) => form !== undefined));
  return { over: sumForm([...termsOf(a), ...termsOf(b)]), under };
}

/** Every term of a form, multiplied. */
function scaled(form: Form, by: Form | undefined): Form {
  if (!by) return form;
  return sumForm(termsOf(form).map(({ sign, form: of }) => ({ sign, form: productForm([of, by]) })));
}

function multiplied(left: Quotient, right: Quotient): Quotient {
  const over = signed([left.over, right.over]);
  if (!left.under && !right.under) return { over };
  const under = signed([left.under, right.under].filter((form) => form !== undefined));
  // The divisor is to be positive.
  return under.value.s < 0n ? { over: opposite(over), under: opposite(under) } : { over, under };
}

/** A product with its sign before it: every factor is positive. */
function signed(factors: readonly Form[]): Form {
  let sign: 1 | -1 = 1;
  const bare = factors.map((form) => {
    if (form.value.s >= 0n) return form;
    sign = sign > 0 ? -1 : 1;
    return opposite(form);
  });
  return sumForm([{ sign, form: productForm(bare) }]);
}

function raised({ over, under }: Quotient, exponent: Fraction): Quotient {
  const times = Number(exponent.n);
  if (times === 0) return { over: numberForm({ value: ONE }) };
  const top = power(over, times);
  const bottom = under && power(under, times);
  return exponent.s > 0n
    ? { over: top, under: bottom }
    : multiplied({ over: bottom ?? numberForm({ value: ONE }) }, { over: numberForm({ value: ONE }), under: top });
}

function power(base: Form, exponent: number): Form {
  if (exponent === 1 || isOne(base)) return base;
  if (exponent > MOST_FACTORS) throw new Stuck({ is: 'no-value', why: 'too-large' });
  if (base.is === 'root' && exponent % 2 === 0 && !base.of.under) return power(base.of.over, exponent / 2);
  const positive = base.value.s < 0n ? opposite(base) : base;
  const raisedValue = new Fraction(positive.value.n ** BigInt(exponent), positive.value.d ** BigInt(exponent));
  const value = known(raisedValue, base.isInexact);
  const raisedForm: Form = {
    is: 'power',
    base: positive,
    exponent,
    value,
    key: `${positive.key}^${exponent}`,
    isInexact: base.isInexact,
  };
  return base.value.s < 0n && exponent % 2 === 1 ? sumForm([{ sign: -1, form: raisedForm }]) : raisedForm;
}

/** The terms of a form that is added up. */
export const termsIn = termsOf;

/** A root, or a quotient on the way, makes the whole inexact. */
export const hasRoots = ({ over, under }: Quotient): boolean => over.isInexact || under?.isInexact === true;

/** Whether something is divided, in the end or on the way. */
export const hasDivision = ({ over, under }: Quotient): boolean =>
  under !== undefined || partsOf(over).some(hasDivision);

/** Whether a root is taken, in the end or on the way. */
export const hasRoot = ({ over, under }: Quotient): boolean =>
  [over, ...(under ? [under] : [])].some((form) => form.is === 'root' || partsOf(form).some(hasRoot));

function partsOf(form: Form): Quotient[] {
  switch (form.is) {
    case 'number':
      return [];
    case 'sum':
      return form.terms.map((term) => ({ over: term.form }));
    case 'product':
      return form.factors.map((over) => ({ over }));
    case 'power':
      return [{ over: form.base }];
    case 'root':
    case 'quotient':
      return [form.of];
  }
}

/** Whether the answer comes out exactly, however it is worked out. */
export const endsByItself = ({ over, under }: Quotient): boolean => !under && !over.isInexact;

/** Roots or quotients have to be written down, rounded, before the last division or root. */
export function roundsOnTheWay({ over, under }: Quotient): boolean {
  if (over.is === 'root' && !under) return hasRoots(over.of);
  return hasRoots({ over, under });
}
