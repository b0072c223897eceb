/** A `turn` step: so many turns of the crank, and what was noticed in them. */
import type { TurnStep } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  has,
  Noticed,
  POSITION,
  put,
  REFUSED,
  SUBTRACTING,
  TURNS,
  WRAPS,
} from '../machine/index.js';
import type { Facts } from './findings.js';
import { countOf, refuse } from './hands.js';
import type { Runner } from './run.js';

/** Turns in one step, where no number is given. */
const MOST_TURNS_IN_A_STEP = 1_000;
const MOST_COUNTED_TURNS = 999;
/** More turns than this on one place are better made by a shift. */
const MANY_TURNS = 9;

interface Tallied {
  /** The first turn in which it was noticed, from 1, and the position in which that was made. */
  readonly first: number;
  readonly position: number;
  times: number;
}
const NEVER: Tallied = { first: 0, position: 0, times: 0 };

/** How often each thing was noticed in a step, and in which turn first. */
class Tally {
  seen = 0;
  /** Made only when there is something to tally: most steps notice nothing. */
  private tallied: Map<number, Tallied> | undefined;

  add(noticed: number, turn: number, position: number): void {
    this.seen |= noticed;
    this.tallied ??= new Map();
    for (let bit = 1; bit <= noticed; bit <<= 1) {
      if ((noticed & bit) === 0) continue;
      const entry = this.tallied.get(bit);
      if (entry) entry.times++;
      else this.tallied.set(bit, { first: turn, position, times: 1 });
    }
  }
  of(bit: number): Tallied {
    return this.tallied?.get(bit) ?? NEVER;
  }
}

export function crankStep(runner: Runner, step: TurnStep): void {
  const { state, profile } = runner;
  if (step.back && profile.subtract !== 'reverse') {
    return refuse(runner, { code: 'one-way-crank', machine: profile.name, subtracts: profile.subtract !== 'none' });
  }
  const adds = has(state, SUBTRACTING) === step.back;
  if (step.until === 'overdraw' && state[POSITION] === 0) {
    put(state, REFUSED, true);
    return noticeParked(runner, 1);
  }
  if (step.until === 'overdraw' && adds) return refuse(runner, { code: 'never-overdraws', why: 'adds' });
  if (step.until === 'stop' && !has(state, AUTO_DIVIDE)) return refuse(runner, { code: 'never-stops', why: 'off' });
  if (step.until === 'overdraw') return turnUntilOverdraw(runner, step);
  if (step.until === 'stop') return turnUntilStop(runner, step);
  const count = step.count === undefined ? 1 : countOf(runner, step.count, 0, MOST_COUNTED_TURNS);
  if (count === undefined) return;
  crankWhile(runner, step, () => state[TURNS] < count);
  // A short division may need ten to make good an overdraw; one more would be a shift.
  if (count > MANY_TURNS + (runner.isOpened ? 1 : 0)) runner.report({ code: 'many-turns', times: count });
}

function turnUntilOverdraw(runner: Runner, step: TurnStep): void {
  const { state } = runner;
  const isDone = ({ seen }: Tally) => (seen & Noticed.overdraw) !== 0;
  const tally = crankWhile(runner, step, (t) => !isDone(t) && state[TURNS] < MOST_TURNS_IN_A_STEP);
  // The last turn is the overdraw itself.
  const turns = state[TURNS];
  if (turns > MANY_TURNS + 1 && !has(state, AUTO_DIVIDE)) runner.report({ code: 'many-turns', times: turns });
  if (!isDone(tally)) runner.breakOff({ code: 'never-overdraws', why: 'too-many' });
}

function turnUntilStop(runner: Runner, step: TurnStep): void {
  const { state, stopsBelow } = runner;
  crankWhile(runner, step, () => state[POSITION] >= stopsBelow && state[TURNS] < MOST_TURNS_IN_A_STEP);
  if (state[POSITION] >= stopsBelow) runner.breakOff({ code: 'never-stops', why: 'too-many' });
}

/** Turns as long as it is told to, and reports what was noticed. */
function crankWhile(runner: Runner, step: TurnStep, goesOn: (tally: Tally) => boolean): Tally {
  const { state, crank } = runner;
  const wraps = state[WRAPS];
  const wasAutomatic = has(state, AUTO_DIVIDE);
  const tally = new Tally();
  if (state[POSITION] !== 0 && goesOn(tally)) runner.usesAll();
  while (goesOn(tally)) {
    const position = state[POSITION];
    const noticed = crank.turn(state, step.back);
    if (noticed !== 0) tally.add(noticed, state[TURNS], position);
  }
  if (tally.seen !== 0) reportTally(runner, tally);
  if (state[TURNS] > 1) noticeAutoClear(runner, tally);
  settleWraps(runner, wraps, wasAutomatic, tally);
  return tally;
}

/** An auto-clear turn leaves the levers at zero for the next one. */
function noticeAutoClear(runner: Runner, tally: Tally): void {
  if (!has(runner.state, AUTO_CLEAR)) return;
  const turns = runner.state[TURNS];
  if (turns - tally.of(Noticed.parked).times > 1) {
    runner.report({ code: 'auto-clear-repeat', times: turns }, runner.relatedTo('auto-clear', 'switched-on'));
  }
}

function reportTally(runner: Runner, tally: Tally): void {
  const when = (bit: number, facts: (tallied: Tallied) => Facts) => {
    if (tally.seen & bit) runner.report(facts(tally.of(bit)));
  };
  if (tally.seen & Noticed.parked) noticeParked(runner, tally.of(Noticed.parked).times);
  const { result, counter, counterCarry, reach = 0 } = runner.profile;
  when(Noticed.digitsOffEnd, ({ times, position }) => ({ code: 'digits-off-end', times, position, places: result }));
  when(Noticed.carryShort, ({ first, times, position }) => {
    return { code: 'carry-short', turn: first, times, place: position + reach - 1 };
  });
  const counted =
    (code: 'counter-overflow' | 'counter-underflow') =>
    ({ first, times, position }: Tallied) => {
      const wheel = counterCarry === 'carry' ? {} : { wheel: position };
      return { code, turn: first, times, places: counter, ...wheel } as const;
    };
  const { counterBalance, turns } = runner;
  if (counterBalance) {
    if (tally.seen & Noticed.counterOverflow) counterBalance.add(1, turns + tally.of(Noticed.counterOverflow).first);
    if (tally.seen & Noticed.counterUnderflow) counterBalance.add(-1, turns + tally.of(Noticed.counterUnderflow).first);
  } else {
    when(Noticed.counterOverflow, counted('counter-overflow'));
    when(Noticed.counterUnderflow, counted('counter-underflow'));
  }
  when(Noticed.notCounted, ({ times, position }) => ({ code: 'turn-not-counted', times, position, places: counter }));
  when(Noticed.divideInAddMode, ({ times }) => ({ code: 'divide-in-add-mode', times }));
  if (!has(runner.state, AUTO_DIVIDE)) when(Noticed.idle, ({ times }) => ({ code: 'idle-turn', times }));
}

/** A turn out of gear is no mistake where the step before expects the carriage to be there. */
function noticeParked(runner: Runner, times: number): void {
  const before = runner.before?.syntax;
  if (before?.kind === 'expect' && before.items.some((item) => item.kind === 'parked')) return;
  runner.report({ code: 'carriage-parked', times }, runner.relatedTo('park', 'out-of-gear'));
}

/** In automatic division, overdraws and overflows are its way of working. */
function settleWraps(runner: Runner, before: number, wasAutomatic: boolean, tally: Tally): void {
  const wraps = runner.state[WRAPS];
  if (runner.wraps.any) runner.wraps.settle(wraps);
  if (wasAutomatic || Math.abs(wraps) <= Math.abs(before)) return;
  const bit = wraps > before ? Noticed.overflow : Noticed.overdraw;
  const { first, times } = tally.of(bit);
  const code = wraps > before ? 'result-overflow' : 'result-overdraw';
  // Where a step stands for others, the number of the turn in one of them would mislead.
  const turn = runner.isOpened ? 0 : first;
  const facts = { code, turn, times, places: runner.profile.result } as const;
  runner.wraps.add({ row: runner.row, before, facts, report: runner.reportLater() });
}
