/**
 * The cheapest turns and shifts for a multiplier, in any order, from where the machine stands to where it is to stand.
 *
 * A search from state to state: where the carriage and the drive stand, and the turns made so far, each counting for
 * its place. What is left to do has a cost that can't be undercut, found figure by figure (`atLeast`); the search goes
 * on where done and left together are least, so that it mostly walks straight to the end.
 *
 * Invariant: a search ends: after so many states it gives up, and nothing is told.
 */
import { hasDriveLever, hasHalfSteps, type Profile } from '../machine/index.js';
import { atLeast, atLeastByPlace } from './shorter-bound.js';
import { MOST_STATES, MOST_TOTAL, Reached } from './shorter-states.js';

/** How a machine is cranked, as far as the costs of turns and shifts depend on it. */
export interface Hands {
  /** `both`: the crank turns both ways; `halves`: a lever that is the carriage's half place. */
  readonly drive: 'both' | 'adds' | 'lever' | 'halves';
  readonly turn: number;
  readonly shift: number;
  /** A change of the drive in place. */
  readonly change: number;
  /** That change is a half shift rather than a step of the lever, because it costs less. */
  readonly changesByHalf: boolean;
}

/**
 * What is to be done. Positions and places count from any place that is low enough; a turn in place k counts for
 * 10^(k − 1).
 */
export interface Errand {
  readonly from: number;
  readonly to: number;
  /** 1 where the drive stands at subtract. */
  readonly driveFrom: 0 | 1;
  readonly driveTo: 0 | 1;
  /** Adding less subtracting turns, each times its place. */
  readonly multiplier: number;
  /** Turns can be made in places 1 … this one. */
  readonly places: number;
  /** The turns that each place must get, units first, where they may not be made up for in another one. */
  readonly figures?: readonly number[];
  /** The first turn of all has to go this way; 0 where that does not matter. */
  readonly firstTurn: 1 | -1 | 0;
}

/** The turns made so far may never count for less or more than this. */
export interface Room {
  readonly lowest: number;
  readonly highest: number;
}

export const Move = { add: 0, subtract: 1, right: 2, left: 3, change: 4, halfRight: 5, halfLeft: 6 } as const;
export type Move = (typeof Move)[keyof typeof Move];

/** A way to do an errand: each move so many times, and then the next. */
export interface Way {
  readonly moves: readonly Move[];
  readonly times: readonly number[];
  /** By the machine's effort, and among equals with the fewest turns, then the fewest moves: to be compared alone. */
  readonly rank: number;
  /** What the turns come to on the way is never less or more than this: 0 or below, 0 or above. */
  readonly lowest: number;
  readonly highest: number;
}

/** A cost is so much in a rank; what is below decides between equal costs. */
export const RANK = 65_536;
const rankOfTurn = (cost: number) => cost * RANK + 16;
const rankOfMove = (cost: number) => cost * RANK + 1;

/** Places that a multiplier may span, so that all sums of turns are exact in a number. */
export const MOST_SPAN = 14;
/** One search is over before the next begins: nothing in it pauses. */
const REACHED = new Reached();
export const POWERS: readonly number[] = Array.from({ length: MOST_SPAN + 2 }, (_, i) => 10 ** i);

export function handsOf(profile: Profile): Hands {
  const { effort, subtract } = profile;
  const halves = hasHalfSteps(profile);
  const changesByHalf = halves && effort.shift < effort.lever;
  const drive = halves ? 'halves' : hasDriveLever(profile) ? 'lever' : subtract === 'none' ? 'adds' : 'both';
  return {
    drive,
    turn: rankOfTurn(effort.turn),
    shift: rankOfMove(effort.shift),
    change: rankOfMove(changesByHalf ? effort.shift : effort.lever),
    changesByHalf,
  };
}

/**
 * The cheapest way within some room; undefined if there is none. Of a long multiplier there are so many ways that a
 * search may give up; then a way is found that is cheap, and perhaps not the cheapest.
 */
export function cheapestWay(hands: Hands, errand: Errand, room: Room): Way | undefined {
  return search(hands, errand, room, 1) ?? search(hands, errand, room, HASTE);
}

/** What is left weighs so much more than what has been done, where a search makes haste to its end. */
const HASTE = 1.5;

function search(hands: Hands, errand: Errand, room: Room, haste: number): Way | undefined {
  const way = new Search(hands, errand, room, haste).run();
  REACHED.clear();
  return way;
}

class Search {
  private readonly end: number;

  constructor(
    private readonly hands: Hands,
    private readonly errand: Errand,
    private readonly room: Room,
    private readonly haste: number,
  ) {
    const { from, to, places } = errand;
    this.end = Math.max(from, to, places);
  }

  run(): Way | undefined {
    const { from, to, driveFrom, driveTo, multiplier, firstTurn, figures } = this.errand;
    this.come(nodeOf(from, driveFrom, firstTurn === 0 ? 0 : 1), 0, 0, 0, -1, Move.add, 0);
    const goal = nodeOf(to, driveTo, 0);
    const allDone = figures ? figures.reduce((bits, n, i) => (n === 0 ? bits : bits | (1 << i)), 0) : 0;
    for (let looked = 0; looked < MOST_STATES && !REACHED.isDone; looked++) {
      const at = REACHED.next();
      if (at < 0) continue;
      const isThere = REACHED.nodes[at] === goal && REACHED.totals[at] === multiplier;
      if (isThere && REACHED.dones[at] === allDone) return wayTo(at);
      this.goOn(at);
    }
    return undefined;
  }

  /** All that may be done next, but not to take back what was done last. */
  private goOn(at: number): void {
    const { hands, end } = this;
    const node = REACHED.nodes[at];
    const last = REACHED.made[at];
    const position = node >> 2;
    const drive = (node >> 1) & 1;
    const total = REACHED.totals[at];
    const rank = REACHED.ranks[at];
    const done = REACHED.dones[at];
    if (position < end && last !== Move.left) {
      this.come(node + 4, total, rank + hands.shift, done, at, Move.right, 1);
    }
    if (position > 1 && last !== Move.right) {
      this.come(node - 4, total, rank + hands.shift, done, at, Move.left, 1);
    }
    if (hands.drive === 'lever' || hands.drive === 'halves') {
      this.come(node ^ 2, total, rank + hands.change, done, at, Move.change, 1);
    }
    if (hands.drive === 'halves') {
      if (drive === 1 && position < end) {
        this.come((node + 4) ^ 2, total, rank + hands.shift, done, at, Move.halfRight, 1);
      }
      if (drive === 0 && position > 1) {
        this.come((node - 4) ^ 2, total, rank + hands.shift, done, at, Move.halfLeft, 1);
      }
    }
    // Of equals the last is looked at first: to turn before going on.
    if (position > this.errand.places) return;
    // What a turn has done is not undone, but for the first that only gives the counter its sense.
    const mayUndo = at === 0 || this.errand.firstTurn !== 0;
    if (hands.drive === 'both' ? mayUndo || last !== Move.subtract : drive === 0) this.turn(at, 1);
    if (hands.drive === 'both' ? mayUndo || last !== Move.add : drive === 1) this.turn(at, -1);
  }

  private turn(at: number, sign: 1 | -1): void {
    const { hands, errand, room } = this;
    const node = REACHED.nodes[at];
    const place = node >> 2;
    if ((node & 1) === 1 && sign !== errand.firstTurn) return;
    let times = 1;
    let done = REACHED.dones[at];
    if (errand.figures) {
      const figure = errand.figures[place - 1] ?? 0;
      const bit = 1 << (place - 1);
      if (figure * sign <= 0 || done & bit) return;
      times = Math.abs(figure);
      done |= bit;
    }
    const total = REACHED.totals[at] + sign * times * POWERS[place - 1];
    if (total < room.lowest || total > room.highest || Math.abs(total) > MOST_TOTAL) return;
    const move = sign > 0 ? Move.add : Move.subtract;
    this.come(node & ~1, total, REACHED.ranks[at] + hands.turn * times, done, at, move, times);
  }

  private come(
    node: number,
    total: number,
    rank: number,
    done: number,
    before: number,
    move: Move,
    times: number,
  ): void {
    const { hands, errand } = this;
    if (!REACHED.isCheaper(node, total, rank)) return;
    const position = node >> 2;
    const drive = (node >> 1) & 1;
    const left = errand.figures
      ? atLeastByPlace(hands, errand, position, drive, done)
      : atLeast(hands, errand, position, drive, errand.multiplier - total);
    if (left === Number.POSITIVE_INFINITY) return;
    REACHED.add(node, total, rank, rank + this.haste * left, done, before, move, times);
  }
}

function wayTo(last: number): Way {
  const moves: Move[] = [];
  const times: number[] = [];
  let lowest = 0;
  let highest = 0;
  for (let at = last; REACHED.befores[at] >= 0; at = REACHED.befores[at]) {
    const move = REACHED.made[at] as Move;
    lowest = Math.min(lowest, REACHED.totals[at]);
    highest = Math.max(highest, REACHED.totals[at]);
    const latest = moves.length - 1;
    if (moves[latest] === move && move < Move.change) times[latest] += REACHED.times[at];
    else {
      moves.push(move);
      times.push(REACHED.times[at]);
    }
  }
  return { moves: moves.reverse(), times: times.reverse(), rank: REACHED.ranks[last], lowest, highest };
}

/** Position, drive, and whether the first turn is still to come where its way matters. */
const nodeOf = (position: number, drive: number, isFirst: number): number => position * 4 + drive * 2 + isFirst;
