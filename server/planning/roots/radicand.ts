/** What the root is taken of: its value, and how it comes into the result or onto paper. */
import Fraction from 'fraction.js';
import { has, REGISTERS, SENSE_ADD, SENSE_SUBTRACT, showsZero } from '../../machine/index.js';
import { exactValue } from '../../sequence/goals.js';
import { amount, cutOff, decimalsOf, figuresOf, fractionOf, tenTo } from '../amount.js';
import { bestOf, nearer } from '../choose.js';
import { type Form, type NumberForm, numberForm, productForm, type Quotient, valueOfQuotient } from '../forms.js';
import { operand } from '../operands.js';
import { type Operator, Stuck } from '../operator.js';
import type { Limit } from '../order.js';
import { intoResult } from '../products.js';
import { quotientIntoCounter } from '../quotients.js';
import type { Terms } from '../terms.js';

/** A root that is to be taken. */
export interface RootOrder {
  readonly of: Quotient;
  readonly terms: Terms;
  /** Decimals that the root is to have in the counter, 0…20. */
  readonly decimals: number;
  /** What it is taken of: 0 or more, exact, or with roots inside it known to some forty decimals. */
  readonly value: Fraction;
  /** The root cut off, in units of its last decimal. */
  readonly root: bigint;
}

/** The order with what follows from it. `Stuck` where there is no root. */
export function rootOrder(of: Quotient, terms: Terms, decimals: number): RootOrder {
  const value = valueOfQuotient(of);
  if (value.compare(0) < 0) throw new Stuck({ is: 'no-value', why: 'root-of-negative' });
  // The figures of the root are the steps: they are right for one number alone.
  if (terms.answers.length > 0) throw new Stuck({ is: 'parameters' });
  // Half units belong to a quotient that is the answer, not to one on the way here.
  return { of, terms: { ...terms, roundsQuotient: false }, decimals, value, root: rootOf(value, decimals) };
}

/** The root of a fraction of 0 or more, cut off, in units of so many decimals. */
export function rootOf(value: Fraction, decimals: number): bigint {
  const whole = cutOff(value, 2 * decimals);
  const units = whole.units * tenTo(2 * decimals - whole.decimals);
  const at = { from: 0, to: 0 };
  const number = { kind: 'number', text: `${units}`, figures: `${units}`, isValue: false, decimals: 0, ...at } as const;
  const root = exactValue({ kind: 'sqrt', of: number, ...at }, new Map(), 0);
  if (typeof root === 'string') throw new Stuck({ is: 'no-value', why: root });
  return root.floor().n;
}

/** Whether a reading, in units of so many decimals, is less than one unit away from the root. */
export function isWithinAUnit(units: bigint, { value, decimals }: RootOrder): boolean {
  // In whole numbers: value · 10^(2 · decimals) between two squares, both sides times its denominator.
  const square = value.n * tenTo(2 * decimals);
  const isAbove = units === 0n || square > (units - 1n) ** 2n * value.d;
  return isAbove && square < (units + 1n) ** 2n * value.d;
}

/** Whether a root that was cut off is right: exactly, unless what it is taken of has a root that is cut off itself. */
export function isRight(units: bigint, order: RootOrder): boolean {
  if (units === order.root) return true;
  const { over, under } = order.of;
  return (over.isInexact || under?.isInexact === true) && isWithinAUnit(units, order);
}

/** Levers at rest and every register at zero, the counter ready to take its sense anew. */
export function fresh(operator: Operator): void {
  operator.atRest();
  const isZero = REGISTERS.every((register) => showsZero(operator.state, register)) && !hasCounted(operator);
  const wasCleared = () => operator.lines.some((line) => 'step' in line && line.step === 'clear all');
  if (!isZero || !wasCleared()) operator.clearAll();
}

/** The radicand as it goes into the machine, once what has to be written down for it has been. */
export interface Radicand {
  readonly operator: Operator;
  readonly form: Form;
}

/** Ways to have the radicand for the result: as it stands in the expression, or as a number worked out before. */
export function* radicandsFor({ of: { over, under }, terms, decimals }: RootOrder) {
  if (!under) {
    yield (operator: Operator): Radicand => ({ operator, form: over });
    if (over.is === 'number' && over.figures.value.decimals <= 2 * decimals) return;
  }
  yield (operator: Operator): Radicand => {
    const known = onPaper(operator, { of: { over, under }, terms, decimals });
    // Figures behind the last pair have no part in the root.
    return { operator: known.operator, form: cutForm(known.form, 2 * decimals) };
  };
}

export function cutForm(form: NumberForm, decimals: number): NumberForm {
  const { value } = form.figures;
  return value.decimals <= decimals ? form : numberForm({ value: cutOff(fractionOf(value), decimals) });
}

/** The radicand as a number on paper: as it is written, or worked out, read and written down. */
export function onPaper(
  operator: Operator,
  { of: { over, under }, terms, decimals }: Pick<RootOrder, 'of' | 'terms' | 'decimals'>,
): { readonly operator: Operator; readonly form: NumberForm } {
  if (under) return quotientOnPaper(operator, over, under, terms, decimals);
  if (over.is === 'number') return { operator, form: over };
  const { operator: done, figures } = operand(operator, over, terms);
  return { operator: done, form: numberForm(figures) };
}

/**
 * The quotient to twice as many decimals as the root is to have, or to as many as the machine has room for: fewer will
 * mostly do, and whether they do is seen by the root.
 */
function quotientOnPaper(operator: Operator, over: Form, under: Form, terms: Terms, decimals: number) {
  const value = over.value.div(under.value);
  const key = `${over.key}/${under.key}`;
  const known = operator.noted(key);
  if (known) return { operator, form: numberForm({ value: known }) };
  const whole = figuresOf(value.floor().n);
  const wanted = Math.min(2 * decimals, decimalsOf(value) ?? 2 * decimals);
  const root = rootOf(value, decimals);
  let nearest: Limit = { is: 'places', register: 'counter', has: operator.profile.counter, needs: whole + wanted };
  for (let at = Math.min(wanted, operator.profile.counter - whole); at >= Math.min(decimals, wanted); at--) {
    if (rootOf(fractionOf(cutOff(value, at)), decimals) !== root) continue;
    try {
      const done = quotientIntoCounter(operator.another(), over, under, terms, at);
      const reading = done.reading('counter');
      if (reading.units === 0n) throw new Stuck({ is: 'not-met' });
      done.writeDown('counter', reading, key);
      return { operator: done, form: numberForm({ value: reading }) };
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      nearest = nearer(nearest, error.limit);
    }
  }
  throw new Stuck(nearest);
}

/** Decimals that the result has to have at the least, so that the form goes in whole. */
export function decimalsIn({ operator, form }: Radicand, terms: Terms): number {
  if (form.is === 'number') return form.figures.value.decimals;
  return intoResult(operator.another(), form, terms).points.result;
}

/**
 * Brings a form, so many times, into the result and leaves the counter clear and the markers of setting and counter
 * where they are told.
 */
export function enter(
  { operator, form }: Radicand,
  times: bigint,
  terms: Terms,
  markers: { readonly setting: number; readonly counter: number },
): Operator {
  const { setting, counter } = markers;
  const units = form.value.mul(new Fraction(times * tenTo(setting + counter))).floor().n;
  operator.room('setting', setting);
  operator.room('result', Math.max(setting + counter, figuresOf(units)));
  const factor = numberForm({ value: amount(times, 0) });
  const forms = times === 1n ? [form] : [productForm([factor, form])];
  if (times > 1n && form.is === 'number') {
    const { units, decimals } = form.figures.value;
    forms.unshift(numberForm({ value: amount(times * units, decimals) }));
  }
  return bestOf(
    operator,
    forms.map((one) => (at) => {
      fresh(at);
      if (one.is === 'number' && at.profile.dials) {
        at.place(setting, counter);
        at.dial(one.figures);
        return at;
      }
      const done = intoResult(at, one, terms, setting + counter);
      if (hasCounted(done)) done.clear('counter');
      done.place(setting, counter);
      return done;
    }),
  );
}

const hasCounted = ({ state }: Operator): boolean =>
  !showsZero(state, 'counter') || has(state, SENSE_ADD | SENSE_SUBTRACT);
