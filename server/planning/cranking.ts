/** The crank, turned for every figure of a multiplier: which figures, and from which end. */
import { cheapestCranking, hasDriveLever } from '../machine/index.js';
import { unitsAt } from './amount.js';
import { type Figures, isByHalves, type Operator, Stuck } from './operator.js';

/** A figure that is turned: positive ones in the sense of the multiplier, in a position of the carriage. */
export interface Turned {
  readonly position: number;
  readonly figure: number;
}

/** Where the carriage stands, and whether the drive subtracts. */
export interface Place {
  readonly position: number;
  readonly subtracts: boolean;
}

/**
 * Cranks a multiplier with what stands on the levers. Its units are turned where the counter's marker stands. The
 * result takes the product, added or subtracted. It goes from whichever end is nearer, or from the top, if told to.
 */
export function crank(operator: Operator, by: Figures, sign: 1 | -1, fromTop = false): Operator {
  if (by.name !== undefined) return crankParameter(operator, by, sign);
  const from: Place = { position: operator.position, subtracts: operator.isSubtracting };
  const orders = waysToTurn(operator, by, sign, fromTop)
    .map((turned) => ({ turned, cost: turnedFrom(operator, from, turned, sign).costAtRest }))
    .sort((a, b) => a.cost - b.cost);
  let limit: Stuck | undefined;
  for (const { turned } of orders) {
    try {
      return turnAll(operator.another(), turned, sign);
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      limit ??= error;
    }
  }
  throw limit ?? new Stuck({ is: 'not-met' });
}

/** Makes the turns in this order. */
export function turnAll(operator: Operator, turned: readonly Turned[], sign: 1 | -1): Operator {
  for (const { position, figure } of turned) {
    const adds = figure > 0 === sign > 0;
    operator.goTo(position, !adds);
    operator.turn(Math.abs(figure), adds);
  }
  return operator;
}

function markerFor(operator: Operator, { value }: Figures): number {
  const marker = operator.points.counter;
  if (operator.profile.counter > 0) {
    if (value.decimals <= marker) return marker;
    const needs = operator.profile.counter + value.decimals - marker;
    throw new Stuck({ is: 'places', register: 'counter', has: operator.profile.counter, needs });
  }
  // Without a counter the result's marker tells where the units are.
  const place = operator.points.result - operator.points.setting;
  if (value.decimals > place) throw new Stuck({ is: 'not-met' });
  return place;
}

function crankParameter(operator: Operator, by: Figures, sign: 1 | -1): Operator {
  const done = operator.another();
  if (sign < 0) throw new Stuck({ is: 'parameters' });
  done.shiftTo(by.isDigits ? done.points.counter + 1 : 1);
  done.multiplyBy(by);
  return done;
}

/** The figures as written and the cheapest signed ones, each from the units up and from the top down. */
export function waysToTurn(operator: Operator, by: Figures, sign: 1 | -1, fromTop = false): Turned[][] {
  const { profile } = operator;
  const units = unitsAt(by.value, markerFor(operator, by));
  const kinds = [figuresAsWritten(units)];
  if (operator.canSubtract && (profile.counter === 0 || profile.counterCarry !== 'plain')) {
    const most = Math.min(profile.carriage, profile.counter || profile.carriage);
    const subtracting = hasDriveLever(profile) && sign < 0;
    const least = cheapestCranking({ multiplier: units, profile, subtracting, most, bothWays: true });
    if (least?.figures.some((figure) => figure < 0)) kinds.push([...least.figures]);
  }
  return kinds.flatMap((figures) => (fromTop ? [fromUnits(figures).reverse()] : bothEnds(figures)));
}

/** Every mix of figures as they are and as their complement to ten: what is dear by itself may lead on better. */
export function allWaysToTurn(operator: Operator, by: Figures): Turned[][] {
  const { profile } = operator;
  const figures = figuresAsWritten(unitsAt(by.value, markerFor(operator, by)));
  const most = Math.min(profile.carriage, profile.counter || profile.carriage);
  let all: { made: number[]; due: number }[] = [{ made: [], due: 0 }];
  for (const figure of figures) {
    all = all.flatMap(({ made, due }) => {
      const now = figure + due;
      const asIs = { made: [...made, now % 10], due: now === 10 ? 1 : 0 };
      return now % 10 === 0 || !operator.canSubtract ? [asIs] : [asIs, { made: [...made, now - 10], due: 1 }];
    });
  }
  return all
    .map(({ made, due }) => (due > 0 ? [...made, due] : made))
    .filter(({ length }) => length <= most)
    .flatMap(bothEnds);
}

const figuresAsWritten = (units: bigint): number[] => [...units.toString()].reverse().map(Number);

const fromUnits = (figures: readonly number[]): Turned[] =>
  figures.flatMap((figure, i) => (figure === 0 ? [] : [{ position: i + 1, figure }]));

const bothEnds = (figures: readonly number[]): Turned[][] => [fromUnits(figures), fromUnits(figures).reverse()];

/** Where turns lead and what they cost, by themselves and with the drive put back to add. */
export function turnedFrom(
  { profile, costOfDrive }: Pick<Operator, 'profile' | 'costOfDrive'>,
  from: Place,
  turned: readonly Turned[],
  sign: 1 | -1,
): Place & { readonly cost: number; readonly costAtRest: number } {
  const { turn, shift } = profile.effort;
  let cost = 0;
  let { position, subtracts } = from;
  for (const one of turned) {
    const wanted = one.figure > 0 !== sign > 0;
    const positions = one.position - position;
    const halves = 2 * positions + Number(wanted) - Number(subtracts);
    const drive = wanted === subtracts ? 0 : costOfDrive;
    const moves = isByHalves(profile, positions, halves)
      ? shift * Math.ceil(Math.abs(halves) / 2)
      : shift * Math.abs(positions) + drive;
    cost += turn * Math.abs(one.figure) + moves;
    position = one.position;
    subtracts = wanted;
  }
  return { position, subtracts, cost, costAtRest: cost + (subtracts ? costOfDrive : 0) };
}
