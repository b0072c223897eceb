/** The cheapest figures of a multiplier, against a search through everything that a hand could do. */
import { describe, expect, test } from 'vitest';
import {
  type Cranking,
  type CrankingOrder,
  cheapestCranking,
  type EffortWeights,
  type SubtractWay,
} from '../../server/machine/index.js';
import { table } from '../published/data.js';
import { profileWith } from './bench.js';

interface Hand {
  readonly subtract: SubtractWay;
  readonly effort: EffortWeights;
  /** The drive stands at subtract at the start. */
  readonly subtracting: boolean;
}
/** Effort, turns and positions with a turn. */
type Work = readonly [cost: number, turns: number, places: number];

/**
 * What it takes to bring the carriage so many positions to the right and the drive from one place to another: every way
 * through half places (even ones add, odd ones subtract) or, with a lever, through positions and its two places.
 */
function walk({ subtract, effort: { shift, lever } }: Hand, positions: number, from: number, to: number): number {
  const goal = 2 * positions + to;
  const known = new Map([[from, 0]]);
  const open = [from];
  for (let at = open.shift(); at !== undefined; at = open.shift()) {
    const moves: [number, number][] = [
      [at + 2, shift],
      [at - 2, shift],
      [at % 2 === 0 ? at + 1 : at - 1, subtract === 'reverse' ? 0 : lever],
    ];
    if (subtract === 'half-step') moves.push([at + 1, shift], [at - 1, shift]);
    for (const [next, work] of moves) {
      const total = (known.get(at) ?? 0) + work;
      if (next < 0 || next > goal + 3 || total >= (known.get(next) ?? Number.POSITIVE_INFINITY)) continue;
      known.set(next, total);
      open.push(next);
    }
  }
  return known.get(goal) ?? Number.NaN;
}

const less = (a: Work, b: Work): boolean => (a[0] - b[0] || a[1] - b[1] || a[2] - b[2]) < 0;

/**
 * The least work for a multiplier: in the position of its lowest figure that is not 0 any turns that leave a number of
 * tens, and so on with these. What is left to do depends on the number left, on the drive and, where there is a limit,
 * on the positions left.
 */
class Search {
  private readonly known = new Map<number, Work>();
  private readonly ways: number[] = [];

  constructor(
    private readonly hand: Hand,
    private readonly limits: { most?: number; bothWays?: boolean; forwardFirst?: boolean } = {},
  ) {}

  least(multiplier: number): Work | undefined {
    const { most = 99, forwardFirst = false } = this.limits;
    return this.from(multiplier, 0, this.hand.subtracting ? 1 : 0, most, forwardFirst);
  }

  /** From a turn made just now (`moved` 1: the figures that are left begin one position further on). */
  private from(left: number, moved: number, drive: number, room: number, onlyForward: boolean): Work | undefined {
    if (left === 0) return [0, 0, 0];
    const hasLimit = this.limits.most !== undefined || onlyForward;
    const key = 4 * left + 2 * moved + drive;
    const known = hasLimit ? undefined : this.known.get(key);
    if (known) return known;
    let positions = moved;
    let due = left;
    let roomHere = room - 1;
    for (; due % 10 === 0; due /= 10) {
      positions++;
      roomHere--;
    }
    if (roomHere < 0) return undefined;
    const { effort, subtracting } = this.hand;
    const { bothWays = true } = this.limits;
    let best: Work | undefined;
    for (let figure = bothWays && !onlyForward ? -9 : 1; figure <= 9; figure++) {
      if ((due - figure) % 10 !== 0) continue;
      const there = figure > 0 === subtracting ? 1 : 0;
      const above = this.from((due - figure) / 10, 1, there, roomHere, false);
      if (!above) continue;
      const turns = Math.abs(figure);
      const cost = this.way(positions, drive, there) + effort.turn * turns + above[0];
      const work: Work = [cost, turns + above[1], 1 + above[2]];
      if (!best || less(work, best)) best = work;
    }
    if (best && !hasLimit) this.known.set(key, best);
    return best;
  }

  private way(positions: number, from: number, to: number): number {
    const key = 4 * positions + 2 * from + to;
    this.ways[key] ??= walk(this.hand, positions, from, to);
    return this.ways[key];
  }
}

const WEIGHTS: readonly EffortWeights[] = [
  { turn: 1, shift: 1, lever: 2 },
  { turn: 1, shift: 0, lever: 0 },
  { turn: 3, shift: 1, lever: 2 },
  { turn: 1, shift: 5, lever: 0 },
  { turn: 0, shift: 1, lever: 1 },
];
const DRIVES: readonly [SubtractWay, boolean][] = [
  ['reverse', false],
  ['lever', false],
  ['lever', true],
  ['lift', false],
  ['half-step', false],
  ['half-step', true],
];
const order = (multiplier: number | bigint, hand: Hand, more: Partial<CrankingOrder> = {}): CrankingOrder => ({
  multiplier: BigInt(multiplier),
  profile: profileWith({ subtract: hand.subtract, effort: hand.effort }),
  subtracting: hand.subtracting,
  most: 20,
  bothWays: true,
  ...more,
});

/** Whether these figures are the multiplier, and their work is what is said of them. */
function isTrue({ figures, cost, turns, places }: Cranking, multiplier: number, hand: Hand, ways: number[]): boolean {
  let value = 0;
  let work = 0;
  let made = 0;
  let used = 0;
  let due = 0;
  let drive = hand.subtracting ? 1 : 0;
  for (let i = 0; i < figures.length; i++, due++) {
    const figure = figures[i];
    value += figure * 10 ** i;
    if (figure === 0) continue;
    const there = figure > 0 === hand.subtracting ? 1 : 0;
    const key = 4 * due + 2 * drive + there;
    ways[key] ??= walk(hand, due, drive, there);
    work += ways[key] + hand.effort.turn * Math.abs(figure);
    made += Math.abs(figure);
    used++;
    drive = there;
    due = 0;
  }
  const isLast = figures.length === 0 || figures[figures.length - 1] !== 0;
  return value === multiplier && work === cost && made === turns && used === places && isLast;
}

const named = ({ turn, shift, lever }: EffortWeights) => `turn ${turn} shift ${shift} lever ${lever}`;

describe.each(DRIVES)('subtract %s, at subtract: %s', (subtract, subtracting) => {
  test.each(WEIGHTS.map((effort) => [named(effort), effort] as const))('%s', (_, effort) => {
    const hand = { subtract, subtracting, effort };
    const search = new Search(hand);
    const ways: number[] = [];
    const wrong: number[] = [];
    const asked = order(0, hand);
    for (let n = 0; n < 100_000; n++) {
      const cranking = cheapestCranking({ ...asked, multiplier: BigInt(n) });
      const [cost, turns, places] = search.least(n) ?? [];
      const isLeast = cranking?.cost === cost && cranking?.turns === turns && cranking?.places === places;
      if (!cranking || !isLeast || !isTrue(cranking, n, hand, ways)) wrong.push(n);
    }
    expect(wrong.slice(0, 20)).toEqual([]);
  });
});

describe('limits', () => {
  const limited: [string, Partial<CrankingOrder>][] = [
    ['no figure more than it has', {}],
    ['only forward', { bothWays: false }],
    ['the first turn forward', { forwardFirst: true, most: 20 }],
  ];
  test.each(limited)('%s', (_, limits) => {
    for (const [subtract, subtracting] of DRIVES) {
      const hand = { subtract, subtracting, effort: WEIGHTS[0] };
      for (let n = 0; n < 3_000; n++) {
        const most = limits.most ?? (n === 0 ? 0 : String(n).length);
        const cranking = cheapestCranking(order(n, hand, { ...limits, most }));
        const work = new Search(hand, { ...limits, most }).least(n);
        expect(cranking && [cranking.cost, cranking.turns, cranking.places], `${n}`).toEqual(work);
        expect(cranking?.figures.length).toBeLessThanOrEqual(most);
        if (limits.bothWays === false) expect(cranking?.figures.every((figure) => figure >= 0)).toBe(true);
        if (limits.forwardFirst) expect(cranking?.figures.find((figure) => figure !== 0) ?? 1).toBeGreaterThan(0);
      }
    }
  });
  test('what has more figures than there is room for', () => {
    const hand: Hand = { subtract: 'reverse', subtracting: false, effort: WEIGHTS[0] };
    expect(cheapestCranking(order(1_000, hand, { most: 3 }))).toBeUndefined();
    expect(cheapestCranking(order(1, hand, { most: 0 }))).toBeUndefined();
    expect(cheapestCranking(order(0, hand, { most: 0 }))).toEqual({ figures: [], cost: 0, turns: 0, places: 0 });
    expect(cheapestCranking(order(999, hand, { most: 3 }))?.figures).toEqual([9, 9, 9]);
  });
});

describe('long multipliers', () => {
  const hand: Hand = { subtract: 'lever', subtracting: false, effort: { turn: 1_000_000, shift: 999_999, lever: 1 } };

  test('nineteen nines are one more less one, at any effort', () => {
    const shifts = 19 * 999_999;
    expect(cheapestCranking(order(10n ** 19n - 1n, hand))).toEqual({
      figures: [-1, ...Array(18).fill(0), 1],
      cost: 2 * 1_000_000 + shifts + 2,
      turns: 2,
      places: 2,
    });
    // With a nine in the highest place there is, nothing can be made one more.
    expect(cheapestCranking(order(10n ** 20n - 1n, hand))?.figures).toEqual(Array(20).fill(9));
  });
});

describe('among equals', () => {
  const hand = (effort: EffortWeights): Hand => ({ subtract: 'reverse', subtracting: false, effort });

  test('the fewest turns', () => {
    // 8, or 10 − 2 with a shift that takes as much as the five turns that it saves.
    expect(cheapestCranking(order(8, hand({ turn: 1, shift: 5, lever: 2 })))?.figures).toEqual([-2, 1]);
  });
  test('then the fewest positions with a turn', () => {
    // 95 as 100 − 5, not as 9 · 10 + 5 turned 1 − 1 + 5: six turns against seven; 5 as it is, not as 10 − 5.
    expect(cheapestCranking(order(95, hand({ turn: 1, shift: 0, lever: 0 })))?.figures).toEqual([-5, 0, 1]);
    expect(cheapestCranking(order(5, hand({ turn: 0, shift: 0, lever: 0 })))?.figures).toEqual([5]);
  });
});

describe('the table of turns', () => {
  test.each(table('multiplier_turns.csv'))(
    '$multiplier takes $minimal at the least',
    ({ multiplier, minimal, plain }) => {
      // Derived, not published.
      const hand: Hand = { subtract: 'reverse', subtracting: false, effort: { turn: 1, shift: 0, lever: 0 } };
      expect(cheapestCranking(order(BigInt(multiplier), hand))?.turns).toBe(Number(minimal));
      expect(cheapestCranking(order(BigInt(multiplier), hand, { bothWays: false }))?.turns).toBe(Number(plain));
    },
  );
});
