/**
 * The cheapest way to crank a multiplier: signed figures, 98 as 100 less 2, by what a turn, a shift and a lever cost on
 * the machine.
 *
 * From the units up there are two ways on at each place: the figure as it is, or its complement to ten turned the
 * other way and one more at the next place. What the places above cost depends on nothing but whether there is one more
 * to turn and where the drive stands, so the least is known place by place from the top down.
 */
import { hasHalfSteps, type Profile } from './profile.js';

/** Signed figures −9 … 9 of a multiplier, units first; the last is not 0. */
export interface Cranking {
  readonly figures: readonly number[];
  /** By the machine's effort: its turns, shifts and moves of the drive lever. */
  readonly cost: number;
  readonly turns: number;
  /** Positions with a turn. */
  readonly places: number;
}

export interface CrankingOrder {
  /** 0 or more. */
  readonly multiplier: bigint;
  readonly profile: Profile;
  /** The drive stands at subtract at the start, and is left so: figures above 0 subtract. */
  readonly subtracting: boolean;
  /** Figures that may be used at most, 0 … 20, counted from the units: positions up to the carriage's end, for instance. */
  readonly most: number;
  /** Turns the other way are allowed at all; else only figures 0 … 9. */
  readonly bothWays: boolean;
  /** The first turn of all must not be one the other way: a counter that has not taken its sense takes it from there. */
  readonly forwardFirst?: boolean;
}

/**
 * The figures that cost the least, made units first from the present position, the carriage going one way and stopping
 * where the last turn is made. Among equals those with the fewest turns, then with the fewest positions that have a
 * turn, then with the figure that is turned forward at the first place that differs.
 *
 * Undefined if the multiplier has more than `most` figures.
 */
export function cheapestCranking(order: CrankingOrder): Cranking | undefined {
  const { multiplier, most, bothWays, forwardFirst = false } = order;
  const digits = multiplier === 0n ? '' : String(multiplier);
  const length = digits.length;
  if (length > most) return undefined;
  const { turn, change, shift } = weighed(order);
  /** The least from a place on, by place, by the one more that is due and by where the drive stands (1: the other way). */
  const least = new Float64Array(4 * (length + 1));
  // One more above the highest figure is one turn forward there, if there is such a place.
  least[4 * length + 2] = length < most ? turn + PLACE : Number.POSITIVE_INFINITY;
  least[4 * length + 3] = least[4 * length + 2] + change;
  /** Where no turn may go the other way. */
  const onlyForward = forwardFirst ? length - 1 - lastFigure(digits) : -1;

  /** From the figure made at a place with the drive where it now stands: the least for all that lies above. */
  const onward = (place: number, due: number, drive: number): number => {
    if (place + 1 === length && due === 0) return 0;
    const next = 4 * (place + 1) + 2 * due;
    return Math.min(shift[drive][0] + least[next], shift[drive][1] + least[next + 1]);
  };
  const forward = (place: number, figure: number, drive: number): number =>
    (drive === 0 ? 0 : change) + figure * turn + PLACE + onward(place, 0, 0);
  const backward = (place: number, figure: number, drive: number): number =>
    bothWays && place !== onlyForward
      ? (drive === 1 ? 0 : change) + (10 - figure) * turn + PLACE + onward(place, 1, 1)
      : Number.POSITIVE_INFINITY;

  for (let place = length - 1; place >= 0; place--) {
    const digit = digits.charCodeAt(length - 1 - place) - ZERO;
    for (let due = 0; due < 2; due++) {
      const figure = digit + due;
      for (let drive = 0; drive < 2; drive++) {
        least[4 * place + 2 * due + drive] =
          figure % 10 === 0
            ? onward(place, figure === 10 ? 1 : 0, drive)
            : Math.min(forward(place, figure, drive), backward(place, figure, drive));
      }
    }
  }

  const figures: number[] = [];
  let turns = 0;
  let places = 0;
  let due = 0;
  let drive = 0;
  for (let place = 0; place < length; place++) {
    let figure = digits.charCodeAt(length - 1 - place) - ZERO + due;
    if (figure % 10 === 0) {
      due = figure === 10 ? 1 : 0;
      figure = 0;
    } else {
      due = forward(place, figure, drive) <= backward(place, figure, drive) ? 0 : 1;
      figure -= 10 * due;
      drive = due;
      turns += Math.abs(figure);
      places++;
    }
    figures.push(figure);
    // Over a place without a turn the drive may change on the way, where that is cheaper.
    if (place + 1 === length) break;
    const next = 4 * (place + 1) + 2 * due;
    if (shift[drive][1 - drive] + least[next + 1 - drive] < shift[drive][drive] + least[next + drive])
      drive = 1 - drive;
  }
  if (due === 1) figures.push(1);
  return { figures, cost: Math.floor(least[0] / RANK), turns: turns + due, places: places + due };
}

const ZERO = 48;
/**
 * Effort, turns and places with a turn are compared as one number: 20 figures have at most 180 turns, so that the lower
 * ranks never reach the next one.
 */
const PLACE = 1;
const TURN = 32;
const RANK = 8_192;

/** What the machine's own hand needs at the least: a turn, a change of the drive in place, a shift by the drive before and after. */
function weighed({ profile, subtracting }: CrankingOrder) {
  const { effort, subtract } = profile;
  const turn = effort.turn * RANK + TURN;
  const step = effort.shift * RANK;
  const lever = effort.lever * RANK;
  const halves = hasHalfSteps(profile);
  const change = subtract === 'reverse' || subtract === 'none' ? 0 : halves ? Math.min(step, lever) : lever;
  // Half a place to the right of where it subtracts, a half-step machine adds in the next position.
  const toAdd = halves ? step : step + change;
  const toSubtract = step + change;
  const [away, home] = subtracting ? [toAdd, toSubtract] : [toSubtract, toAdd];
  return { turn, change, shift: [[step, away] as const, [home, step] as const] as const };
}

/** Where the last figure that is not 0 stands in a text of digits. */
function lastFigure(digits: string): number {
  let at = digits.length - 1;
  while (digits.charCodeAt(at) === ZERO) at--;
  return at;
}
