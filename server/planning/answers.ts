/** What an expression comes to in each case. */
import type Fraction from 'fraction.js';
import { MOST_PLACES } from '../machine/index.js';
import { exactValue } from '../sequence/goals.js';
import { Stuck } from './operator.js';
import type { PlanOrder } from './order.js';

/** The value in every case, if the plan is to serve more than its numbers as they stand. */
export function answersOf({ expression, values }: PlanOrder): Fraction[] {
  if (!hasNames(values)) return [];
  return values.map((one) => {
    const value = exactValue(expression, one, MOST_PLACES);
    if (typeof value === 'string') throw new Stuck({ is: 'no-value', why: value });
    return value.abs();
  });
}

/** The expression names parameters: the plan is to serve more than its numbers as they stand. */
export const hasNames = (values: PlanOrder['values']): boolean => (values[0]?.size ?? 0) > 0;
