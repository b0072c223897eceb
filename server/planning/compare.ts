/** The same work on several machines: which can, and which gives most for least. */
import type { Profile } from '../machine/index.js';
import { isRefused, type Planned, type PlanOrder } from './order.js';
import { plan } from './plan.js';

/** What is asked of each machine. */
export type ComparedOrder = Omit<PlanOrder, 'profile'>;

export interface Compared {
  readonly machine: Profile;
  readonly planned: Planned;
}

/** Plans the work on each machine, best first. */
export function compare(order: ComparedOrder, machines: readonly Profile[], watch?: Watch): Compared[] {
  const compared = machines.map((machine, i) => {
    watch?.(i, machines.length);
    return { machine, planned: plan({ ...order, profile: machine }) };
  });
  return ranked(compared);
}

/** Told how many machines are done, of how many. */
export type Watch = (done: number, all: number) => void;

/**
 * Exact answers first; then those that end too early, more figures first; then machines that can't. Among equals fewer
 * numbers to note down come first, then less effort, as in a plan itself; after that they stay in the order given.
 */
export const ranked = (compared: readonly Compared[]): Compared[] =>
  [...compared].sort(({ planned: a }, { planned: b }) => {
    if (isRefused(a) || isRefused(b)) return Number(isRefused(a)) - Number(isRefused(b));
    if (a.isExact !== b.isExact) return a.isExact ? -1 : 1;
    // Exact answers are the same number, however many noughts one register shows behind it.
    const figures = a.isExact ? 0 : b.figures - a.figures;
    return figures || a.written - b.written || a.effort.cost - b.effort.cost;
  });
