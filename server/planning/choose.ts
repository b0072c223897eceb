/** Several ways are tried, and the one with the least effort is taken. */

import { Operator, Stuck } from './operator.js';
import type { Alternative, Limit, Reason, Topic } from './order.js';

/** A way of doing something: it hands the machine on as it leaves it, or ends as `Stuck`. */
export interface Way {
  /** As an explanation names it; ways of one name are told as one, by the best of them. */
  readonly name: string;
  readonly work: (operator: Operator) => Operator;
  /** It is taken wherever it can be done, whatever others cost. */
  readonly isPreferred?: boolean;
}

/** Fewer numbers to write down first, then less effort, levers put back with it, then fewer lines. */
export function isBetter(a: Operator, b: Operator): boolean {
  if (a.written !== b.written) return a.written < b.written;
  const [cost, other] = [a.costAtRest, b.costAtRest];
  if (cost !== other) return cost < other;
  return a.lineCount < b.lineCount;
}

/** Ways tried in one plan before it is content with what it finds first: some ten milliseconds. */
export const ENOUGH_TRIED = 600;

/** Ways that are tried at the most, before what stands in the way is told. */
export const MOST_TRIED = 2_500;

/** One more is tried, unless it has been enough: then `Stuck` with what stands in the way as far as is known. */
function tryOne({ search }: Operator, nearest: Limit | undefined): void {
  if (search.tried >= MOST_TRIED) throw new Stuck(nearest ?? { is: 'not-met' });
  search.tried++;
}

/** Does the work in the best of several ways, and keeps what was decided. `Stuck` if none of them can be done. */
export function choose(operator: Operator, about: Topic, ways: Iterable<Way>): Operator {
  const tried = new Map<string, { done?: Operator; limit?: Limit }>();
  let best: Operator | undefined;
  let chosen = '';
  let nearest: Limit | undefined;
  const { search } = operator;
  let isSettled = false;
  for (const { name, work, isPreferred = false } of ways) {
    // Where much has been tried already, the first way that can be done will do.
    if (best && search.tried > ENOUGH_TRIED) break;
    tryOne(operator, nearest);
    const so = tried.get(name) ?? {};
    tried.set(name, so);
    try {
      const done = work(operator.another());
      if (!so.done || isBetter(done, so.done)) so.done = done;
      if (!isSettled && (!best || isPreferred || isBetter(done, best))) {
        isSettled = isPreferred;
        best = done;
        chosen = name;
      }
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      so.limit ??= error.limit;
      nearest = nearer(nearest, error.limit);
    }
  }
  if (!best) throw new Stuck(nearest ?? { is: 'not-met' });
  if (tried.size > 1) {
    const alternatives = [...tried].map(([way, { done, limit }]): Alternative => {
      if (!done) return { way, isChosen: false, ...(limit && { limit }) };
      return {
        way,
        cost: done.costAtRest - operator.costAtRest,
        written: done.written - operator.written,
        isChosen: way === chosen,
      };
    });
    best.decide({ about, alternatives, why: isSettled ? 'by-itself' : reasonFor(alternatives) });
  }
  return best;
}

/** Why the chosen one is the best of several. */
function reasonFor(alternatives: readonly Alternative[]): Reason {
  const done = alternatives.filter(({ cost }) => cost !== undefined);
  const chosen = done.find(({ isChosen }) => isChosen);
  const others = done.filter(({ isChosen }) => !isChosen);
  if (!chosen || others.length === 0) return 'only';
  if (others.every(({ written = 0 }) => written > (chosen.written ?? 0))) return 'written';
  return others.some(({ cost, written }) => cost === chosen.cost && written === chosen.written) ? 'steps' : 'effort';
}

/** Of two limits the one that was missed by less; of equals the one that is known already. */
export const nearer = (known: Limit | undefined, limit: Limit): Limit =>
  known === undefined || missOf(limit) < missOf(known) ? limit : known;

/** How far a limit was missed: what says most comes first. */
function missOf(limit: Limit): number {
  switch (limit.is) {
    case 'no-value':
      return 0;
    case 'places':
      return limit.needs - limit.has;
    case 'cannot-subtract':
    case 'no-counter':
      return 30;
    case 'not-met':
      return 100;
    default:
      return 50;
  }
}

/** The best of several attempts at the same thing, too much alike to tell of. `Stuck` if none comes off. */
export function bestOf(operator: Operator, works: Iterable<(operator: Operator) => Operator>): Operator {
  let best: Operator | undefined;
  let nearest: Limit | undefined;
  for (const work of works) {
    if (best && operator.search.tried > ENOUGH_TRIED) break;
    tryOne(operator, nearest);
    try {
      const done = work(operator.another());
      if (!best || isBetter(done, best)) best = done;
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      nearest = nearer(nearest, error.limit);
    }
  }
  if (!best) throw new Stuck(nearest ?? { is: 'not-met' });
  return best;
}

/** The first attempt that comes off. `Stuck` with the limit that was missed by least if none does. */
export function firstOf(operator: Operator, works: Iterable<(operator: Operator) => Operator>): Operator {
  let nearest: Limit | undefined;
  for (const work of works) {
    tryOne(operator, nearest);
    try {
      return work(operator.another());
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      nearest = nearer(nearest, error.limit);
    }
  }
  throw new Stuck(nearest ?? { is: 'not-met' });
}

/** Does it, or gives nothing where it can't be done. */
export function attempt(work: () => Operator): Operator | Limit {
  try {
    return work();
  } catch (error) {
    if (error instanceof Stuck) return error.limit;
    throw error;
  }
}

export const isDone = (outcome: Operator | Limit): outcome is Operator => outcome instanceof Operator;
