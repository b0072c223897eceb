/**
 * A sum of products as cheaply as it can be cranked: in which order the products are taken, which factor of each is
 * set, and from which end the other is cranked. Where one product leaves the carriage, the next begins.
 */

import { figuresOf } from './amount.js';
import { ENOUGH_TRIED, isBetter } from './choose.js';
import { allWaysToTurn, type Place, type Turned, turnAll, turnedFrom, waysToTurn } from './cranking.js';
import { type Figures, type Operator, Stuck } from './operator.js';

/** A product that is added or taken away, with the ways round that fit the machine. */
export interface Product {
  readonly sign: 1 | -1;
  readonly ways: readonly { readonly set: Figures; readonly by: Figures }[];
}

/** So many products are taken in any order; more of them in the order in which they stand. */
const ANY_ORDER = 4;
/** Of so few products with multipliers so short, all ways of cranking are looked at. */
const FEW = 2;
const SHORT = 4;
/** Arrangements that are kept for each set of products and each place of the carriage, and tried on the machine. */
const MOST_KEPT = 3;
const MOST_CARRIED_OUT = 6;
/** A counter without carry lets few of them pass, so that more are looked at. */
const MORE_FOR_PLAIN = 8;

interface Step {
  readonly set: Figures;
  readonly turned: readonly Turned[];
  readonly sign: 1 | -1;
}
interface Arranged extends Place {
  readonly cost: number;
  readonly steps: readonly Step[];
}

/** Carries out the cheapest arrangement that works; undefined where none of the cheapest few does. */
export function arranged(operator: Operator, products: readonly Product[]): Operator | undefined {
  const more = operator.profile.counterCarry === 'plain' && products.length <= FEW ? MORE_FOR_PLAIN : 1;
  let best: Operator | undefined;
  for (const { steps } of arrangements(operator, products, more * MOST_KEPT).slice(0, more * MOST_CARRIED_OUT)) {
    try {
      const done = steps.reduce(carriedOut, operator.another());
      if (!best || isBetter(done, best)) best = done;
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
    }
  }
  return best;
}

function carriedOut(operator: Operator, { set, turned, sign }: Step): Operator {
  return withCounterFor(operator, (at) => {
    at.set(set);
    return turnAll(at, turned, sign);
  });
}

/**
 * Does it with the counter as it stands; where that would run over or go below zero, with the counter cleared before, which
 * takes no turns, and lets one take its sense anew. Where a lever says which way it counts, that may be put as well.
 */
export function withCounterFor(operator: Operator, work: (at: Operator) => Operator): Operator {
  try {
    return work(operator.another());
  } catch (error) {
    if (!(error instanceof Stuck) || !isOfCounter(error) || operator.units('counter') === 0n) throw error;
    const cleared = operator.another();
    cleared.clear('counter');
    return work(cleared);
  }
}

const isOfCounter = ({ limit }: Stuck): boolean =>
  (limit.is === 'runs-over' || limit.is === 'below-zero') && limit.register === 'counter';

/** All products done, from the carriage as it stands: the cheapest first, levers put back with it. */
function arrangements(operator: Operator, products: readonly Product[], mostKept: number): Arranged[] {
  const { profile, costOfDrive } = operator;
  const machine = { profile, costOfDrive };
  const isShort = products.length <= FEW && operator.search.tried <= ENOUGH_TRIED / 4;
  const isThorough = (by: Figures) => isShort && figuresOf(by.value.units) <= SHORT;
  const turns = (by: Figures, sign: 1 | -1) =>
    isThorough(by) ? allWaysToTurn(operator, by) : waysToTurn(operator, by, sign);
  const all = products.map(({ sign, ways }) =>
    ways.flatMap(({ set, by }) => turns(by, sign).map((turned): Step => ({ set, turned, sign }))),
  );
  let standing = new Map<number, Arranged[]>([
    [0, [{ position: operator.position, subtracts: operator.isSubtracting, cost: 0, steps: [] }]],
  ]);
  for (let done = 0; done < products.length; done++) {
    const next = new Map<number, Arranged[]>();
    for (const [mask, from] of standing) {
      for (const i of candidates(products, mask)) {
        const kept = next.get(mask | (1 << i)) ?? [];
        next.set(mask | (1 << i), kept);
        for (const one of from) {
          for (const step of all[i]) {
            const { position, subtracts, cost } = turnedFrom(machine, one, step.turned, step.sign);
            kept.push({ position, subtracts, cost: one.cost + cost, steps: [...one.steps, step] });
          }
        }
      }
    }
    standing = new Map([...next].map(([mask, kept]) => [mask, fewOf(kept, mostKept)]));
  }
  const atRest = ({ cost, subtracts }: Arranged) => cost + (subtracts ? costOfDrive : 0);
  return [...standing.values()].flat().sort((a, b) => atRest(a) - atRest(b));
}

/** Which products may come next: those that are added before those that are taken away. */
function candidates(products: readonly Product[], mask: number): number[] {
  const left = products.flatMap((_, i) => ((mask >> i) & 1 ? [] : [i]));
  if (products.length > ANY_ORDER) return left.slice(0, 1);
  const added = left.filter((i) => products[i].sign > 0);
  return added.length > 0 ? added : left;
}

/** The cheapest few for each place of the carriage. */
function fewOf(all: readonly Arranged[], most: number): Arranged[] {
  const perPlace = new Map<number, number>();
  return [...all]
    .sort((a, b) => a.cost - b.cost)
    .filter(({ position, subtracts }) => {
      const place = 2 * position + (subtracts ? 1 : 0);
      const before = perPlace.get(place) ?? 0;
      perPlace.set(place, before + 1);
      return before < most;
    });
}
