/**
 * The short ways of `multiply` and `divide`: with the least effort by turns both ways, and without restoring.
 *
 * Invariant: levers are left as they were found.
 */
import type { Step } from '../../grammar/tree.js';
import {
  COUNT_MINUS,
  cheapestCranking,
  has,
  hasDriveLever,
  hasHalfSteps,
  Noticed,
  POSITION,
  type Profile,
  SENSE_ADD,
  SENSE_SUBTRACT,
  type State,
  SUBTRACTING,
  textOf,
} from '../machine/index.js';
import type { DivisionStart } from './expand.js';
import type { Facts } from './findings.js';
import { countStep, halfShiftStep, modeStep, shiftStep, turnStep, turnUntil } from './made.js';
import type { Runner } from './run.js';

/** A machine as it stands. */
export interface Machine {
  readonly state: State;
  readonly profile: Profile;
}

/** More adding turns than this are not tried to make an overdraw good. */
const MOST_TURNS = 1_000;
/** The most that one `turn` step may count. */
const MOST_COUNTED_TURNS = 999;

/**
 * Signed figures of a multiplier, units first: the cheapest from where the machine stands. One figure more than the
 * multiplier has is used only where there is room for it.
 */
export function shortFigures(multiplier: string, { state, profile }: Machine): readonly number[] {
  const untaken = profile.count === 'first' && !has(state, SENSE_ADD | SENSE_SUBTRACT);
  const cranking = cheapestCranking({
    multiplier: BigInt(multiplier),
    profile,
    subtracting: has(state, SUBTRACTING),
    most: Math.max(multiplier.length, positionsLeft(state, profile)),
    bothWays: profile.subtract !== 'none',
    forwardFirst: untaken && profile.counter > 0,
  });
  return cranking?.figures ?? [];
}

/** Positions from the present one on in which a turn is counted and no lever figure is lost off the result's end. */
function positionsLeft(state: State, profile: Profile): number {
  const highestLever = textOf(state, profile, 'setting').replace(/^0+/, '').length;
  const driven = profile.result - Math.max(highestLever, 1) + 1;
  const counted = profile.counter > 0 ? profile.counter : driven;
  return Math.min(profile.carriage, driven, counted) - state[POSITION] + 1;
}

/** The steps for signed figures, units first from the present position. Figures below 0 are turned the other way. */
export function* crankFigures(at: Step, figures: readonly number[], { state, profile }: Machine): Iterable<Step> {
  const isReversing = profile.subtract === 'reverse';
  const wasSubtracting = has(state, SUBTRACTING);
  let subtracting = wasSubtracting;
  let due = 0;
  for (const figure of figures) {
    if (figure !== 0) {
      const wanted = hasDriveLever(profile) && figure < 0 ? !wasSubtracting : wasSubtracting;
      yield* way(at, profile, due, subtracting, wanted);
      yield turnStep(at, isReversing && figure < 0, Math.abs(figure));
      subtracting = wanted;
      due = 0;
    }
    due++;
  }
}

/**
 * The cheapest way to a position so far to the right (below 0: to the left), and from one place of the drive to the
 * other. Half a place to the right of where it subtracts in a position, a half-step machine adds in the next one.
 */
function* way(at: Step, profile: Profile, positions: number, from: boolean, to: boolean): Iterable<Step> {
  const { shift, lever } = profile.effort;
  const halves = 2 * positions + (to ? 1 : 0) - (from ? 1 : 0);
  const whole = Math.trunc(halves / 2);
  const byHalf = (Math.abs(whole) + 1) * shift;
  const byLever = Math.abs(positions) * shift + lever;
  const goesByHalf =
    hasHalfSteps(profile) && from !== to && (whole !== positions ? byHalf <= byLever : byHalf < byLever);
  const moved = goesByHalf ? whole : positions;
  if (moved !== 0) yield shiftStep(at, moved > 0 ? 'right' : 'left', Math.abs(moved));
  if (from === to) return;
  yield goesByHalf ? halfShiftStep(at, halves > 0 ? 'right' : 'left') : modeStep(at, to);
}

/**
 * Division by hand without restoring: subtract until the result is overdrawn, shift left, add until that is made good,
 * shift left, by turns. If the last position ends overdrawn, one turn there restores it.
 */
export function* divideShort(runner: Runner, at: Step, { position, to }: DivisionStart): Iterable<Step> {
  const { state, profile } = runner;
  const byLever = hasDriveLever(profile);
  const wasSubtracting = has(state, SUBTRACTING);
  const movesCount = profile.count === 'lever' && !has(state, COUNT_MINUS);
  let subtracting = wasSubtracting;
  function* stand(left: number, wanted: boolean): Iterable<Step> {
    if (byLever) yield* way(at, profile, -left, subtracting, wanted);
    else if (left > 0) yield shiftStep(at, 'left', left);
    subtracting = byLever && wanted;
  }
  if (movesCount) yield countStep(at, true);
  let overdrawn = false;
  for (let p = position; p >= to; p--) {
    yield* stand(p < position ? 1 : 0, !overdrawn);
    if (overdrawn) yield* makeGood(runner, at);
    else yield turnUntil(at, !byLever, 'overdraw');
    overdrawn = !overdrawn;
  }
  if (overdrawn) {
    yield* stand(0, false);
    yield turnStep(at, false, 1);
  }
  yield* stand(0, wasSubtracting);
  if (movesCount) yield countStep(at, false);
}

/** Adding turns up to the one in which the result comes back over zero: as many as the machine at hand takes. */
function* makeGood(runner: Runner, at: Step): Iterable<Step> {
  const trial = runner.state.slice();
  let turns = 0;
  let isGood = false;
  while (!isGood && turns < MOST_TURNS) {
    isGood = (runner.crank.turn(trial, false) & Noticed.overflow) !== 0;
    turns++;
  }
  const counted = Math.min(turns, MOST_COUNTED_TURNS);
  yield turnStep(at, false, counted);
  if (turns > counted) yield turnStep(at, false, turns - counted);
  if (!isGood) runner.breakOff({ code: 'never-overdraws', why: 'stays-below' });
}

/**
 * How a counter with a carry goes past its ends while short figures are made: below zero with a turn the other way and
 * back with a later one is the way of working, and only what stays is told.
 */
export class CounterBalance {
  private balance = 0;
  private turn = 0;

  /** `before`: turns of the run before the step. */
  constructor(private readonly before: number) {}

  /** Past the top (+1) or below zero (−1), in a turn counted from the start of the run. */
  add(past: 1 | -1, turn: number): void {
    this.balance += past;
    if (this.balance === past) this.turn = turn - this.before;
  }

  /** What is to be told of a counter with so many places. */
  passed(places: number): Facts | undefined {
    if (this.balance === 0) return undefined;
    const code = this.balance > 0 ? 'counter-overflow' : 'counter-underflow';
    return { code, turn: this.turn, times: Math.abs(this.balance), places };
  }
}
