/** What holds all through a plan, and what its parts hand to one another. */
import type Fraction from 'fraction.js';
import type { Form, Quotient } from './forms.js';
import type { Figures, Operator } from './operator.js';
import type { Method } from './order.js';

/** A form that has been worked out, or only looked up, so that it can be set or cranked. */
export interface Operand {
  readonly operator: Operator;
  readonly figures: Figures;
  readonly sign: 1 | -1;
}

/**
 * How parts of an expression are worked out. Sums stand on products, products on roots, roots on quotients, and those on
 * sums again: each is handed in, so that no file needs another in a circle.
 */
export interface Skills {
  /** A sum or product into the result. */
  readonly sum: (operator: Operator, form: Form, terms: Terms) => Operator;
  /** A root into the counter, cut off at so many decimals. */
  readonly root: (operator: Operator, of: Quotient, terms: Terms, decimals: number) => Operator;
  /** A quotient into the counter, cut off at so many decimals. */
  readonly quotient: (operator: Operator, over: Form, under: Form, terms: Terms, decimals: number) => Operator;
}

/** What holds all through a plan. */
export interface Terms {
  readonly skills: Skills;
  /** Decimals to which numbers that are written down are rounded; all of them, if undefined. */
  readonly kept: number | undefined;
  /** Decimals of roots on the way. */
  readonly rootDecimals: number;
  readonly method: Method | undefined;
  /** The quotient is rounded: half a unit of its last decimal is added to the dividend beforehand. */
  readonly roundsQuotient: boolean;
  /** The answer with each case's values, where the plan is to serve more than one; else empty. */
  readonly answers: readonly Fraction[];
}
