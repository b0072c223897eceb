/** Ways that are said without a search, and room that is seen without trying: held against the search and the machine. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  COUNTER,
  Crank,
  DEFAULT_EFFORT,
  fromText,
  newState,
  numberIn,
  POSITION,
  type Profile,
  RESULT,
  SETTING,
  type State,
} from '../../server/machine/index.js';
import { cheapestWay, type Errand, type Hands, handsOf, Move, type Way } from '../../server/sequence/shorter.js';
import { leastOf } from '../../server/sequence/shorter-bound.js';
import { directWay } from '../../server/sequence/shorter-direct.js';
import { hasAmpleRoom, roomAbove, roomBelow } from '../../server/sequence/shorter-room.js';
import { leads, waysOn } from '../../server/sequence/shorter-ways.js';

const machine = (own: Partial<Profile>): Profile => ({
  name: 'stores',
  setting: 2,
  counter: 3,
  counterCarry: 'carry',
  result: 6,
  dials: true,
  carriage: 4,
  subtract: 'reverse',
  count: 'follow',
  park: false,
  bell: false,
  autoClear: false,
  autoDivide: false,
  transferResult: 'none',
  transferCounter: false,
  effort: DEFAULT_EFFORT,
  phrases: {},
  ...own,
});

const errands = fc.record({
  subtract: fc.constantFrom('reverse', 'reverse', 'lever', 'half-step', 'none'),
  effort: fc.record({
    turn: fc.integer({ min: 0, max: 3 }),
    shift: fc.integer({ min: 0, max: 5 }),
    lever: fc.integer({ min: 0, max: 3 }),
  }),
  from: fc.integer({ min: 1, max: 4 }),
  to: fc.integer({ min: 1, max: 4 }),
  drives: fc.tuple(fc.constantFrom(0, 1), fc.constantFrom(0, 1)),
  multiplier: fc.integer({ min: -1_500, max: 1_500 }),
  places: fc.integer({ min: 1, max: 4 }),
  firstTurn: fc.constantFrom(0, 0, 1, -1),
  figures: fc.option(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 4 }), { freq: 3 }),
  lowest: fc.constantFrom(Number.NEGATIVE_INFINITY, -20, 0),
  highest: fc.constantFrom(Number.POSITIVE_INFINITY, 1_600, 100),
});

/** What a way does, move by move. */
function follow(hands: Hands, errand: Errand, { moves, times }: Way) {
  let { from: position, driveFrom: drive }: { from: number; driveFrom: number } = errand;
  let [total, lowest, highest, rank, firstTurn] = [0, 0, 0, 0, 0];
  for (const [i, move] of moves.entries()) {
    for (let n = 0; n < times[i]; n++) {
      if (move === Move.add || move === Move.subtract) {
        const sign = move === Move.add ? 1 : -1;
        expect(position).toBeLessThanOrEqual(errand.places);
        if (hands.drive === 'lever' || hands.drive === 'halves') expect(drive).toBe(sign > 0 ? 0 : 1);
        if (hands.drive === 'adds') expect(sign).toBe(1);
        firstTurn ||= sign;
        total += sign * 10 ** (position - 1);
        rank += hands.turn;
      } else if (move === Move.change) {
        drive = 1 - drive;
        rank += hands.change;
      } else {
        position += move === Move.right || move === Move.halfRight ? 1 : -1;
        rank += hands.shift;
      }
      expect(position).toBeGreaterThanOrEqual(1);
      lowest = Math.min(lowest, total);
      highest = Math.max(highest, total);
    }
  }
  return { position, drive, total, lowest, highest, rank, firstTurn };
}

let direct = 0;

test('a way that is said at once does the errand within its room, and the search finds none that is cheaper', () => {
  fc.assert(
    fc.property(errands, ({ subtract, effort, drives, figures, lowest, highest, ...rest }) => {
      const hands = handsOf(machine({ subtract: subtract as Profile['subtract'], effort }));
      const hasLever = hands.drive === 'lever' || hands.drive === 'halves';
      const [driveFrom, driveTo] = (hasLever ? drives : [0, 0]) as [0 | 1, 0 | 1];
      const given = figures?.slice(0, rest.places);
      const errand: Errand = {
        ...rest,
        firstTurn: rest.firstTurn as Errand['firstTurn'],
        driveFrom,
        driveTo,
        ...(given && { figures: given, multiplier: given.reduce((sum, n, i) => sum + n * 10 ** i, 0) }),
      };
      const way = directWay(hands, errand, leastOf(hands, errand), { lowest, highest });
      if (!way) return;
      direct++;
      const done = follow(hands, errand, way);
      expect(done).toMatchObject({ position: errand.to, drive: driveTo, total: errand.multiplier, rank: way.rank });
      expect([way.lowest, way.highest]).toEqual([done.lowest, done.highest]);
      expect(done.lowest).toBeGreaterThanOrEqual(lowest);
      expect(done.highest).toBeLessThanOrEqual(highest);
      if (errand.firstTurn !== 0) expect(done.firstTurn).toBe(errand.firstTurn);
      const searched = cheapestWay(hands, errand, { lowest, highest });
      if (searched) expect(way.rank).toBeLessThanOrEqual(searched.rank);
    }),
    { numRuns: 3_000 },
  );
  expect(direct).toBeGreaterThan(500);
});

/** After turns of so much in all, each counting for its place from `base` on. */
function turned(state: State, crank: Crank, multiplier: number, base: number): State | undefined {
  const after = state.slice();
  for (const [i, digit] of Array.from(String(Math.abs(multiplier)))
    .reverse()
    .entries()) {
    after[POSITION] = base + 1 + i;
    for (let n = 0; n < Number(digit); n++) if (crank.turn(after, multiplier < 0) !== 0) return undefined;
  }
  return after;
}

let ample = 0;

test('where the figures show that there is room, the way leads there on the machine', () => {
  const registers = fc.record({
    counter: fc.constantFrom(0, 3, 4, 5),
    count: fc.constantFrom('follow', 'lever'),
    reach: fc.constantFrom(undefined, undefined, undefined, 3),
    lever: fc.integer({ min: 1, max: 99 }),
    shows: fc.nat({ max: 99_999 }),
    counted: fc.nat({ max: 999 }),
    base: fc.integer({ min: 0, max: 2 }),
    multiplier: fc.integer({ min: -99, max: 99 }),
    to: fc.integer({ min: 1, max: 2 }),
  });
  fc.assert(
    fc.property(registers, ({ counter, count, reach, lever, shows, counted, base, multiplier, to }) => {
      const own = { counter, count: count as Profile['count'], result: 7, carriage: 5 };
      const profile = machine(reach === undefined ? own : { ...own, reach });
      const state = newState();
      fromText(state, SETTING, String(lever));
      fromText(state, RESULT, String(shows));
      if (counter > 0) fromText(state, COUNTER, String(counted));
      state[POSITION] = base + 1;
      const errand: Errand = { from: 1, to, driveFrom: 0, driveTo: 0, multiplier, places: 3, firstTurn: 0 };
      const around = { profile, state, base, countsUp: true };
      const way = waysOn(profile).of(errand).free;
      if (!way || base + errand.places > Math.min(profile.carriage, counter || 5)) return;
      const crank = new Crank(profile);
      const after = turned(state, crank, multiplier, base);
      if (hasAmpleRoom(around, lever > 9 ? 2 : 1, way)) {
        ample++;
        expect(reach).toBeUndefined();
        expect(roomBelow(around)).toBeGreaterThanOrEqual(-way.lowest);
        expect(roomAbove(around)).toBeGreaterThanOrEqual(way.highest);
        expect(after).toBeDefined();
        if (!after) return;
        after[POSITION] = base + to;
        expect(leads(profile, crank, state, way, after)).toBe(true);
        expect(numberIn(after, profile, 'result')).toBe(BigInt(shows + multiplier * lever * 10 ** base));
      }
    }),
    { numRuns: 3_000 },
  );
  expect(ample).toBeGreaterThan(300);
});
