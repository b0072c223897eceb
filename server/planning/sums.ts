/** Products added up in the result register: factors on the levers, multipliers on the crank. */
import type { Profile } from '../machine/index.js';
import { type Amount, figuresOf, ONE, plainText, tenTo, unitsAt } from './amount.js';
import { arranged, type Product, withCounterFor } from './arranging.js';
import { attempt, choose, ENOUGH_TRIED, isBetter, isDone, nearer, type Way } from './choose.js';
import { crank } from './cranking.js';
import { type Figures, type Operator, Stuck } from './operator.js';
import type { Limit } from './order.js';

/** A number, or a product of two, that is added or subtracted. */
export interface SimpleTerm {
  readonly sign: 1 | -1;
  readonly factors: readonly [Figures] | readonly [Figures, Figures];
}

const UNIT: Figures = { value: ONE };
/** Sums of more terms are taken as they stand. */
const MOST_ARRANGED = 16;
const decimalsOfTerm = ({ factors }: SimpleTerm): number => factors.reduce((sum, { value }) => sum + value.decimals, 0);

/** Decimals of a sum when every product keeps all of its own. */
export const naturalDecimals = (terms: readonly SimpleTerm[]): number => Math.max(0, ...terms.map(decimalsOfTerm));

/**
 * Adds terms to what the result holds, with so many decimals in the result. Markers stand for all terms alike where
 * that is possible, or each for itself, if that is allowed and less work; which factor is set and which is cranked is
 * chosen term by term.
 */
export function accumulate(
  operator: Operator,
  terms: readonly SimpleTerm[],
  decimals: number,
  mayMovePoints = false,
): Operator {
  if (naturalDecimals(terms) > decimals) throw new Stuck({ is: 'not-met' });
  return choose(operator, 'layout', layouts(operator.profile, terms, decimals, mayMovePoints));
}

/** Markers that leave room for every term, one way round or the other; `Stuck` where there are none. */
function layouts(profile: Profile, terms: readonly SimpleTerm[], decimals: number, mayMovePoints: boolean): Way[] {
  const ways: Way[] = [];
  let nearest: Limit | undefined;
  for (let counter = 0; counter <= decimals; counter++) {
    const setting = decimals - counter;
    const limit = firstFound(terms, (term) => misfit(profile, term, setting, counter));
    if (limit) {
      nearest = nearer(nearest, limit);
      continue;
    }
    ways.push({
      name: `points ${setting} ${counter} ${decimals}`,
      work: (operator) => {
        operator.place(setting, counter);
        return addAll(operator, terms);
      },
    });
  }
  if (ways.length > 0 && !mayMovePoints) return ways;
  const apart = terms.map((term) => markersFor(profile, term, decimals));
  if (terms.length < 2 || apart.some((markers) => markers.length === 0)) {
    if (ways.length > 0) return ways;
    throw new Stuck(nearest ?? { is: 'not-met' });
  }
  const work = (operator: Operator) => terms.reduce((at, term, i) => addApart(at, term, apart[i], decimals), operator);
  return [...ways, { name: 'points each', work }];
}

/** Adds terms one by one, each as it is best by itself, or as they are best taken together. */
function addAll(operator: Operator, terms: readonly SimpleTerm[]): Operator {
  if (terms.length === 1) return addTerm(operator, terms[0], true);
  const oneByOne = attempt(() => terms.reduce((at, term) => addTerm(at, term), operator.another()));
  const together = isArrangeable(operator, terms) ? arranged(operator, productsOf(operator, terms)) : undefined;
  if (together && (!isDone(oneByOne) || isBetter(together, oneByOne))) return together;
  if (!isDone(oneByOne)) throw new Stuck(oneByOne);
  return oneByOne;
}

/** Parameters are other numbers in every case, and complements are put together from parts of their own. */
const isArrangeable = ({ canSubtract, search }: Operator, terms: readonly SimpleTerm[]): boolean =>
  search.tried <= ENOUGH_TRIED &&
  terms.length <= MOST_ARRANGED &&
  terms.every(({ sign, factors }) => (canSubtract || sign > 0) && factors.every(({ name }) => name === undefined));

const productsOf = ({ profile, points }: Operator, terms: readonly SimpleTerm[]): Product[] =>
  terms.map(({ sign, factors: [first, second = UNIT] }) => {
    const ways = [{ set: first, by: second }, ...(second === first ? [] : [{ set: second, by: first }])];
    const fitting = ways.filter(({ set, by }) => !misfitOf(profile, set, by, points.setting, points.counter));
    return { sign, ways: fitting };
  });

const firstFound = <T, U>(all: readonly T[], find: (one: T) => U | undefined): U | undefined => {
  for (const one of all) {
    const found = find(one);
    if (found !== undefined) return found;
  }
  return undefined;
};

/** What a term lacks at these markers, whichever factor is set; one that may go by its complement lacks nothing. */
function misfit(
  profile: Profile,
  { sign, factors: [first, second = UNIT] }: SimpleTerm,
  setting: number,
  counter: number,
) {
  const limit = misfitOf(profile, first, second, setting, counter);
  if (!limit || sign < 0) return undefined;
  const other = misfitOf(profile, second, first, setting, counter);
  return other && nearer(limit, other);
}

function misfitOf(profile: Profile, set: Figures, by: Figures, setting: number, counter: number): Limit | undefined {
  const lacks = (register: 'setting' | 'counter' | 'carriage', needs: number): Limit | undefined => {
    const has = profile[register];
    return needs > has ? { is: 'places', register, has, needs } : undefined;
  };
  const levers = figuresOf(set.value.units) + Math.abs(setting - set.value.decimals);
  const turned = figuresOf(by.value.units) + Math.abs(counter - by.value.decimals);
  const isAligned = set.value.decimals <= setting && by.value.decimals <= counter;
  return (
    lacks('setting', Math.max(setting, levers)) ??
    (profile.counter > 0 ? lacks('counter', Math.max(counter, turned)) : undefined) ??
    lacks('carriage', turned) ??
    (isAligned ? undefined : { is: 'not-met' })
  );
}

/** Where the marker of the counter may stand for a term by itself. */
const markersFor = (profile: Profile, term: SimpleTerm, decimals: number): number[] =>
  Array.from({ length: decimals + 1 }, (_, counter) => counter).filter(
    (counter) => !misfit(profile, term, decimals - counter, counter),
  );

/** A term with markers of its own. */
function addApart(operator: Operator, term: SimpleTerm, markers: readonly number[], decimals: number): Operator {
  const ways = markers.map((counter): Way => {
    return {
      name: `${counter}`,
      work: (at) => {
        at.place(decimals - counter, counter);
        return addTerm(at, term);
      },
    };
  });
  return quietly(operator, ways);
}

/**
 * The better of the two factors to set. A term is taken away by its complement on a machine that only adds, and where
 * nothing else will do.
 */
function addTerm(operator: Operator, { sign, factors }: SimpleTerm, isAlone = false): Operator {
  const [first, second = UNIT] = factors;
  const { setting, counter } = operator.points;
  const fits = (set: Figures, by: Figures) => !misfitOf(operator.profile, set, by, setting, counter);
  const ways: Way[] = [];
  const way = (set: Figures, by: Figures): Way => {
    return {
      name: `set ${figuresText(set)} crank ${figuresText(by)}`,
      work: (at) => withCounterFor(at, (one) => setAndCrank(one, set, by, sign)),
    };
  };
  if (fits(first, second)) ways.push(way(first, second));
  if (fits(second, first) && second !== first) ways.push(way(second, first));
  // Of one product it is worth telling which factor is set; of many it is not.
  if (sign > 0) return isAlone && factors.length === 2 ? choose(operator, 'product', ways) : quietly(operator, ways);
  const byComplement = () => addComplement(operator.another(), first, second);
  if (!operator.canSubtract) return byComplement();
  try {
    return quietly(operator, ways);
  } catch (error) {
    if (!(error instanceof Stuck)) throw error;
    const outcome = attempt(byComplement);
    if (isDone(outcome)) return outcome;
    throw error;
  }
}

const figuresText = ({ value, name }: Figures): string => name ?? plainText(value);

function setAndCrank(operator: Operator, set: Figures, by: Figures, sign: 1 | -1): Operator {
  operator.set(set);
  return crank(operator, by, sign);
}

/** What is chosen here is too small to tell of. */
function quietly(operator: Operator, ways: readonly Way[]): Operator {
  const done = choose(operator, 'layout', ways);
  done.decidedAs(operator);
  return done;
}

/**
 * A machine that only adds takes away a number by adding its complement, in every place of the result: what runs over
 * at the top is the one that the complement had too much.
 */
export function addComplement(operator: Operator, first: Figures, second: Figures = UNIT): Operator {
  const isUnit = (figures: Figures) => figures.name === undefined && same(figures.value, ONE);
  if (!isUnit(first) && !isUnit(second)) throw new Stuck({ is: 'cannot-subtract' });
  const { value } = isUnit(second) ? first : second;
  const { profile, points } = operator;
  const units = unitsAt(value, points.result);
  operator.room('result', figuresOf(units));
  const figures = (tenTo(profile.result) - units).toString().padStart(profile.result, '0');
  const below = Math.min(
    profile.setting,
    profile.carriage - 1,
    profile.counter > 0 ? profile.counter - 1 : profile.carriage,
  );
  const upper = profile.result - below;
  operator.room('setting', upper);
  operator.remark({ is: 'complement', of: plainText(value) });
  const low = BigInt(figures.slice(upper));
  if (below > 0 && low > 0n) {
    operator.setDigits(low, 1);
    operator.shiftTo(1);
    operator.turn(1, true, 'overflow');
  }
  const high = BigInt(figures.slice(0, upper));
  if (high > 0n) {
    operator.setDigits(high, 1);
    operator.shiftTo(below + 1);
    operator.turn(1, true, 'overflow');
  }
  return operator;
}

const same = (a: Amount, b: Amount): boolean => a.units === b.units && a.decimals === b.decimals;
