/** Square roots, figure by figure in the counter. */
import { figuresOf } from './amount.js';
import { choose, type Way } from './choose.js';
import type { Quotient } from './forms.js';
import { type Operator, Stuck } from './operator.js';
import { byAverage } from './roots/average.js';
import { byOddNumbers } from './roots/odd-numbers.js';
import { fresh, type RootOrder, rootOrder } from './roots/radicand.js';
import type { Terms } from './terms.js';

/** The ways there are, the one that needs the least thinking first: of two that are alike in all else it is taken. */
const WAYS = {
  'odd-numbers': (operator: Operator, order: RootOrder) => byOddNumbers(operator, order, 1n),
  'five-fold': (operator: Operator, order: RootOrder) => byOddNumbers(operator, order, 5n),
  'divide-and-average': byAverage,
} as const;

/**
 * Brings the square root into the counter, cut off at so many decimals, from registers in whatever state. The markers
 * are left so that the counter has these decimals and the result those of setting and counter together.
 *
 * If the terms name one of the ways, no other is tried. `Stuck` with the limit that was missed by least where none can
 * be done, or `root-of-negative`. By dividing and averaging the last figure may be one too high, where nothing better
 * is to be had.
 */
export function extractRoot(operator: Operator, of: Quotient, terms: Terms, decimals: number): Operator {
  const order = rootOrder(of, terms, decimals);
  if (operator.profile.counter === 0) throw new Stuck({ is: 'no-counter' });
  // The same for all ways, and so seen before any is tried.
  operator.room('counter', Math.max(decimals, order.root === 0n ? 0 : figuresOf(order.root)));
  operator.room('carriage', figuresOf(order.root));
  if (order.value.n === 0n) return rootOfZero(operator.another(), decimals);
  const all = Object.entries(WAYS).map(([name, way]): Way => ({ name, work: (at) => way(at, order) }));
  const wanted = all.filter(({ name }) => name === terms.method);
  return choose(operator, 'root', wanted.length > 0 ? wanted : all);
}

function rootOfZero(operator: Operator, decimals: number): Operator {
  fresh(operator);
  operator.place(decimals, decimals);
  operator.expect('counter', 'result');
  return operator;
}
