/** Powers, by products of powers that are there already. */
import { type Amount, amount, figuresOf, plainText, unitsAt } from './amount.js';
import { attempt, isBetter, isDone, nearer, type Way } from './choose.js';
import { crank } from './cranking.js';
import { type Figures, type Operator, Stuck } from './operator.js';
import type { Limit } from './order.js';
import { accumulateWhole } from './parts.js';
import { crankOn } from './passing.js';
import type { Operand } from './terms.js';

/** Exponents from 1 up, each the one before and an earlier one added; the last is the power that is wanted. */
export type Chain = readonly number[];

/** The highest exponent that is worked out; higher powers no register holds. */
export const HIGHEST_POWER = 70;
/** Shortest chains that are tried for one exponent. */
const MOST_CHAINS = 30;

/**
 * Ways to bring a power of 2…70 into the result, with exactly `decimals` decimals or as many as it takes, from registers
 * in any state. `base` gives the number, and may work it out and write it down first. Every product is passed back to
 * the levers and cranked on; where that can't be done, it is written down and set again.
 */
export function* powerWays(base: (operator: Operator) => Operand, exponent: number, decimals?: number): Generator<Way> {
  if (exponent < 2 || exponent > HIGHEST_POWER) return;
  const repeated = Array.from({ length: exponent }, (_, i) => i + 1);
  yield { name: 'repeated', work: (operator) => climb(operator, base, repeated, decimals) };
  // Up to the third power there is no other chain.
  if (exponent <= 3) return;
  for (const chain of shortestChains(exponent)) {
    yield { name: 'shortest chain', work: (operator) => climb(operator, base, chain, decimals) };
  }
}

// --- chains -----------------------------------------------------------------------------------------------------

const known = new Map<number, readonly Chain[]>();

/**
 * Addition chains of least length for 1…70, those with the fewest numbers to write down first and among these those
 * that crank the shortest numbers; thirty at most. Every sum takes in the power before it, which is in the machine: for
 * exponents of this size no chain without that is shorter.
 */
export function shortestChains(exponent: number): readonly Chain[] {
  const ready = known.get(exponent);
  if (ready) return ready;
  const found: Chain[] = [];
  for (let products = 0; found.length === 0; products++) lengthen([1], products, exponent, found);
  const chains = found
    .map((chain) => ({ chain, written: notedIn(chain).size, cranked: cranked(chain) }))
    .sort((a, b) => a.written - b.written || a.cranked - b.cranked)
    .slice(0, MOST_CHAINS)
    .map(({ chain }) => chain);
  known.set(exponent, chains);
  return chains;
}

/** Goes on with a chain that may have so many products more, to all that end at the exponent. */
function lengthen(chain: Chain, products: number, exponent: number, found: Chain[]): void {
  const last = chain[chain.length - 1];
  if (products === 0) {
    if (last === exponent) found.push(chain);
    return;
  }
  // Doubling each time is the fastest way up.
  if (last * 2 ** products < exponent) return;
  for (const other of chain)
    if (last + other <= exponent) lengthen([...chain, last + other], products - 1, exponent, found);
}

/** The power by which the one before is multiplied to get the `i`th. */
const multiplierOf = (chain: Chain, i: number): number => chain[i] - chain[i - 1];

/** The powers that are cranked after they have left the levers, so that somebody has to write them down. */
function notedIn(chain: Chain): Set<number> {
  const noted = new Set<number>();
  for (let i = 1; i < chain.length; i++) {
    const by = multiplierOf(chain, i);
    if (by !== 1 && by !== chain[i - 1]) noted.add(by);
  }
  return noted;
}

/** Exponents of all that is cranked: figures that are cranked go up with them. */
const cranked = (chain: Chain): number => chain.reduce((sum, _, i) => (i === 0 ? 0 : sum + multiplierOf(chain, i)), 0);

// --- at the machine ---------------------------------------------------------------------------------------------

function climb(
  operator: Operator,
  base: (operator: Operator) => Operand,
  chain: Chain,
  decimals: number | undefined,
): Operator {
  const exponent = chain[chain.length - 1];
  const begun = base(operator);
  const { figures, sign } = begun;
  // The result of an odd power would stand below zero, which is for the sum to say that it stands in.
  if (sign < 0 && exponent % 2 === 1) throw new Stuck({ is: 'below-zero', register: 'result' });
  room(begun.operator, figures.value, exponent, decimals);
  const onTheWay = chain.slice(1, -1);
  if (onTheWay.length > 0) {
    begun.operator.remark({ is: 'power', base: plainText(figures.value), exponent, chain: onTheWay });
  }
  clearAll(begun.operator);
  const noted = notedIn(chain);
  const paper = new Map([[1, figures]]);
  const at = (i: number) => (i === chain.length - 1 ? decimals : undefined);
  let done = multiply(begun.operator, figures, figures, at(1));
  for (let i = 2; i < chain.length; i++) {
    const step = { from: chain[i - 1], by: multiplierOf(chain, i), isNoted: noted.has(chain[i - 1]) };
    done = goOn(done, step, paper, at(i));
  }
  return done;
}

/** That the power has room in the result, which says more than the product at which it first runs over. */
function room(operator: Operator, base: Amount, exponent: number, decimals: number | undefined): void {
  const power = amount(base.units ** BigInt(exponent), base.decimals * exponent);
  if (decimals !== undefined && decimals < power.decimals) throw new Stuck({ is: 'not-met' });
  operator.room('result', figuresOf(unitsAt(power, decimals ?? power.decimals)));
}

/** Registers at zero; nothing to do where the last step has just brought them there. */
function clearAll(operator: Operator): void {
  const last = operator.lines.findLast((line) => 'step' in line);
  if (last?.step !== 'clear all') operator.clearAll();
}

interface Product {
  /** The power that stands in the result, and the one that it is multiplied by. */
  readonly from: number;
  readonly by: number;
  /** It is needed once more when it has left the levers. */
  readonly isNoted: boolean;
}

/** From one power to the next: passed back to the levers where that goes, else written down and set. */
function goOn(
  operator: Operator,
  { from, by, isNoted }: Product,
  paper: Map<number, Figures>,
  decimals: number | undefined,
): Operator {
  const standing: Figures = { value: operator.reading('result') };
  const isNamed = paper.get(1)?.name !== undefined;
  if (isNoted) {
    noteDown(operator, standing);
    paper.set(from, standing);
  }
  const other = by === from ? standing : paper.get(by);
  // A power of a parameter is another number in every case.
  if (!other || (isNamed && by !== 1)) throw new Stuck({ is: 'parameters' });
  const passed = attempt(() => crankOn(operator.another(), other, decimals));
  if (isDone(passed) || isNamed) return orStuck(passed);
  const again = operator.another();
  if (!isNoted) noteDown(again, standing);
  again.expect('result');
  clearAll(again);
  const natural = standing.value.decimals + other.value.decimals;
  const factors = [standing, other] as const;
  const ways = [
    passed,
    attempt(() => multiply(again.another(), standing, other, decimals)),
    attempt(() => multiply(again.another(), other, standing, decimals)),
  ];
  if (ways.some(isDone)) return best(ways);
  return best([...ways, attempt(() => accumulateWhole(again, [{ sign: 1, factors }], decimals ?? natural))]);
}

function noteDown(operator: Operator, { value }: Figures): void {
  operator.writeDown('result', value);
}

/** A product in the cleared machine, with as many decimals as it takes or as many as are wanted. */
function multiply(operator: Operator, set: Figures, by: Figures, decimals: number | undefined): Operator {
  const natural = set.value.decimals + by.value.decimals;
  const spare = (decimals ?? natural) - natural;
  if (spare < 0) throw new Stuck({ is: 'not-met' });
  // Decimals that are wanted beyond those stand behind either number.
  const tries = Array.from({ length: spare + 1 }, (_, more) =>
    attempt(() => {
      const at = operator.another();
      at.place(set.value.decimals + more, by.value.decimals + spare - more);
      at.set(set);
      return crank(at, by, 1);
    }),
  );
  return best(tries);
}

function best(tries: readonly (Operator | Limit)[]): Operator {
  return orStuck(
    tries.reduce((kept, tried) => {
      if (!isDone(tried)) return isDone(kept) ? kept : nearer(kept, tried);
      return isDone(kept) && !isBetter(tried, kept) ? kept : tried;
    }),
  );
}

function orStuck(outcome: Operator | Limit): Operator {
  if (isDone(outcome)) return outcome;
  throw new Stuck(outcome);
}
