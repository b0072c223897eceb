/** The crank, turned for every figure of a multiplier: which figures, and from which end. */
import { cheapestCranking, hasDriveLever } from '../machine/index.js';
import { unitsAt } from './amount.js';
import { type Figures, type Operator, Stuck } from './operator.js';

/** A figure that is turned: positive ones in the sense of the multiplier, in a position of the carriage. */
interface Turned {
  readonly position: number;
  readonly figure: number;
}

/**
 * Cranks a multiplier with what stands on the levers. Its units are turned where the counter's marker stands. The
 * result takes the product, added or subtracted. It goes from whichever end is nearer, or from the top, if told to.
 */
export function crank(operator: Operator, by: Figures, sign: 1 | -1, fromTop = false): Operator {
  if (by.name !== undefined) return crankParameter(operator, by, sign);
  const units = unitsAt(by.value, markerFor(operator, by));
  const orders = ordersOf(operator, units, sign, fromTop);
  let limit: Stuck | undefined;
  for (const { turned } of orders) {
    try {
      const done = operator.another();
      for (const { position, figure } of turned) {
        done.shiftTo(position);
        done.turn(Math.abs(figure), figure > 0 === sign > 0);
      }
      return done;
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      limit ??= error;
    }
  }
  throw limit ?? new Stuck({ is: 'not-met' });
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

/** The figures as written and the cheapest signed ones, each from the units up and from the top down; cheapest first. */
function ordersOf(
  operator: Operator,
  units: bigint,
  sign: 1 | -1,
  fromTop: boolean,
): { turned: Turned[]; cost: number }[] {
  const { profile } = operator;
  const written = [...units.toString()].reverse().map(Number);
  const kinds = [written];
  if (operator.canSubtract && (profile.counter === 0 || profile.counterCarry !== 'plain')) {
    const most = Math.min(profile.carriage, profile.counter || profile.carriage);
    const subtracting = hasDriveLever(profile) && sign < 0;
    const least = cheapestCranking({ multiplier: units, profile, subtracting, most, bothWays: true });
    if (least?.figures.some((figure) => figure < 0)) kinds.push([...least.figures]);
  }
  const orders = kinds.flatMap((figures) => {
    const up = figures.flatMap((figure, i) => (figure === 0 ? [] : [{ position: i + 1, figure }]));
    const down = [...up].reverse();
    return fromTop ? [down] : [up, down];
  });
  return orders.map((turned) => ({ turned, cost: costOf(operator, turned, sign) })).sort((a, b) => a.cost - b.cost);
}

function costOf({ profile, position, isSubtracting }: Operator, turned: readonly Turned[], sign: 1 | -1): number {
  const { turn, shift, lever } = profile.effort;
  const change = !hasDriveLever(profile) ? 0 : profile.subtract === 'half-step' ? Math.min(shift, lever) : lever;
  let cost = 0;
  let at = position;
  let subtracts = isSubtracting;
  for (const one of turned) {
    const wanted = one.figure > 0 !== sign > 0;
    cost += turn * Math.abs(one.figure) + shift * Math.abs(one.position - at) + (wanted === subtracts ? 0 : change);
    at = one.position;
    subtracts = wanted;
  }
  return cost;
}
