/**
 * Ways that can be said at once: the figures of a multiplier that take the fewest turns, made on the shortest walk over
 * their places. Where that costs no more than the least there can be, nothing has to be searched.
 *
 * Invariant: what is returned has exactly the rank that no way can undercut, so that it is one of the cheapest.
 */
import { type Errand, type Hands, MOST_SPAN, Move, POWERS, type Room, type Way } from './shorter.js';

/** With longer rows of turns nothing is said here. */
const MOST_TURNS_IN_A_PLACE = 999;

// Made once, and good until the next way is asked for.
const FIGURES = new Float64Array(MOST_SPAN + 2);
/** The fewest turns in the places below this one, with nothing and with one more due to it. */
const NONE = new Float64Array(MOST_SPAN + 2);
const DUE = new Float64Array(MOST_SPAN + 2);
const NEVER = Number.POSITIVE_INFINITY;

/**
 * A cheapest way within some room, where `least` is a rank that none can undercut. Undefined where it takes a search:
 * where the drive has to change between turns, or where the room is too small for the turns in this order.
 */
export function directWay(hands: Hands, errand: Errand, least: number, room: Room): Way | undefined {
  if (least === NEVER) return undefined;
  FIGURES.fill(0);
  if (!(errand.figures ? takeFigures(errand) : chooseFigures(hands, errand, least))) return undefined;
  let low = Math.min(errand.from, errand.to);
  let high = Math.max(errand.from, errand.to);
  let signs = 0;
  for (let place = 1; place <= errand.places; place++) {
    const figure = FIGURES[place];
    if (figure === 0) continue;
    if (Math.abs(figure) > MOST_TURNS_IN_A_PLACE) return undefined;
    if (place < low) low = place;
    if (place > high) high = place;
    signs |= figure > 0 ? ADDS : SUBTRACTS;
  }
  const isMixed = signs === (ADDS | SUBTRACTS);
  const hasLever = hands.drive === 'lever' || hands.drive === 'halves';
  if ((isMixed && hasLever) || (hands.drive === 'adds' && signs !== ADDS && signs !== 0)) return undefined;
  const drive = hasLever && signs !== 0 ? (signs === ADDS ? 0 : 1) : errand.driveFrom;
  // One kind of turns is made as early as can be, the other as late: the total goes the one way as far as it may.
  for (const early of isMixed ? [ADDS, SUBTRACTS] : [signs]) {
    for (const first of [low, high]) {
      const walk = new Walk(hands, errand, first, low + high - first, early, drive);
      const isFit = walk.lowest >= room.lowest && walk.highest <= room.highest;
      if (walk.rank <= least && isFit && walk.beginsWith(errand.firstTurn)) return walk;
    }
  }
  return undefined;
}

const ADDS = 1;
const SUBTRACTS = 2;

/** The turns that each place must get; false if there is one in which none can be made. */
function takeFigures({ figures = [], places }: Errand): boolean {
  for (let i = 0; i < figures.length; i++) {
    if (figures[i] !== 0 && i >= places) return false;
    FIGURES[i + 1] = figures[i];
  }
  return true;
}

/**
 * The figures with the fewest turns, up to the lowest place with which the least can be had; false if there is none. A
 * place has its figure as it is, or the complement to ten the other way and one more in the place above.
 */
function chooseFigures(hands: Hands, { multiplier, places, from, to }: Errand, least: number): boolean {
  const size = Math.abs(multiplier);
  if (size === 0) return true;
  const bothWays = hands.drive === 'both';
  let zeros = 1;
  for (let rest = size; rest % 10 === 0; rest /= 10) zeros++;
  const low = Math.min(from, to, zeros);
  NONE[1] = 0;
  DUE[1] = NEVER;
  let rest = size;
  for (let place = 1; place <= places; place++) {
    const high = Math.max(from, to, place);
    const shifts = high - low + Math.min(from - low + high - to, high - from + to - low);
    const turns = Math.min(NONE[place], DUE[place] + 1) + rest;
    if (hands.turn * turns + hands.shift * shifts <= least) {
      putFigures(size, multiplier < 0 ? -1 : 1, place, rest);
      return true;
    }
    const digit = rest % 10;
    rest = Math.floor(rest / 10);
    NONE[place + 1] = Math.min(NONE[place] + digit, DUE[place] + digit + 1);
    DUE[place + 1] = bothWays ? Math.min(NONE[place] + 10 - digit, DUE[place] + 9 - digit) : NEVER;
  }
  return false;
}

/** The figures that were counted, from the highest place down; `rest` is what is left to it with nothing due. */
function putFigures(size: number, sign: 1 | -1, highest: number, rest: number): void {
  let due = DUE[highest] + 1 < NONE[highest] ? 1 : 0;
  FIGURES[highest] = sign * (rest + due);
  for (let place = highest - 1; place >= 1; place--) {
    const figure = (Math.floor(size / POWERS[place - 1]) % 10) - 10 * due;
    due = DUE[place] + Math.abs(figure + 1) < NONE[place] + Math.abs(figure) ? 1 : 0;
    FIGURES[place] = sign * (figure + due);
  }
}

/** From where the carriage stands to one end of the places, over all of them to the other, and to where it is to stand. */
class Walk implements Way {
  readonly moves: Move[] = [];
  readonly times: number[] = [];
  rank = 0;
  lowest = 0;
  highest = 0;
  private total = 0;
  private firstTurn: 1 | -1 | 0 = 0;
  private position: number;
  /** A bit for each place that has got its turns. */
  private done = 0;

  constructor(
    private readonly hands: Hands,
    { from, to, driveFrom, driveTo }: Errand,
    first: number,
    last: number,
    private readonly early: number,
    drive: number,
  ) {
    this.position = from;
    if (drive !== driveFrom) this.add(Move.change, 1, hands.change);
    this.goTo(first, 1, MOST_SPAN);
    this.goTo(last, Math.min(last, to), Math.max(last, to));
    this.goTo(to, 1, 0);
    if (drive !== driveTo) this.add(Move.change, 1, hands.change);
  }

  beginsWith(turn: Errand['firstTurn']): boolean {
    return turn === 0 || turn === this.firstTurn;
  }

  /** On to a position. The carriage comes again to the places from one to another: there late turns may wait. */
  private goTo(target: number, againFrom: number, againTo: number): void {
    for (;;) {
      const { position } = this;
      this.turn(position, position >= againFrom && position <= againTo);
      if (position === target) return;
      const isRight = position < target;
      this.add(isRight ? Move.right : Move.left, 1, this.hands.shift);
      this.position += isRight ? 1 : -1;
    }
  }

  private turn(place: number, comesAgain: boolean): void {
    const figure = FIGURES[place];
    if (figure === 0 || this.done & (1 << place)) return;
    const sign = figure > 0 ? 1 : -1;
    if (comesAgain && this.early !== (sign > 0 ? ADDS : SUBTRACTS)) return;
    this.done |= 1 << place;
    if (this.firstTurn === 0) this.firstTurn = sign;
    this.total += figure * POWERS[place - 1];
    if (this.total < this.lowest) this.lowest = this.total;
    if (this.total > this.highest) this.highest = this.total;
    this.add(sign > 0 ? Move.add : Move.subtract, Math.abs(figure), this.hands.turn);
  }

  private add(move: Move, times: number, rank: number): void {
    const { moves, times: counts } = this;
    const last = moves.length - 1;
    if (moves[last] === move && move !== Move.change) counts[last] += times;
    else {
      moves.push(move);
      counts.push(times);
    }
    this.rank += times * rank;
  }
}
