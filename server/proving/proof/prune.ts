/** A script is made no longer than it has to be: steps that can go, go; and of the readings those that are needed stay. */
import { finish, type Gradual } from '../../../grammar/gradual.js';
import { AUTO_CLEAR, AUTO_DIVIDE, COUNT_MINUS, type Fault, type Profile, SUBTRACTING } from '../../machine/index.js';
import { checkAlone } from '../../sequence/check.js';
import { stepsSection } from '../hand.js';
import { inNines, turns } from '../turn-steps.js';
import type { Line } from './rehearsal.js';
import { isAtRest, isCaughtBy, partingReadings, type Replay, replaySound } from './replay.js';
import { writtenLines } from './written.js';

/** A line with the part of the script in which it stands. */
export interface Placed {
  readonly line: Line;
  readonly group: number;
  /** Lines of one act have one number. */
  readonly act: number;
}

export interface Pruning {
  readonly profile: Profile;
  readonly faults: readonly Fault[];
  /** What a check may remark, as bits of `Noticed`. */
  readonly borne: number;
}

const linesOf = (placed: readonly Placed[]): Line[] => placed.map(({ line }) => line);

/** Without every step that is not needed: the dearest first. */
export function* withoutNeedless(placed: readonly Placed[], pruning: Pruning): Gradual<readonly Placed[]> {
  // The faults that caught a shortened script out are tried first the next time.
  const order = [...pruning.faults];
  let kept = placed;
  for (const remove of [wholeAct, turnsWithSetting, single]) {
    for (let i = kept.length - 1; i >= 0; i--) {
      const length = remove(kept, i);
      if (length === 0) continue;
      yield;
      const without = merged([...kept.slice(0, i), ...kept.slice(i + length)]);
      const isShorter = stillProves(without, pruning, order);
      if (!isShorter) continue;
      kept = without;
      i = Math.min(i, kept.length);
    }
  }
  return kept;
}

/** All that one act brought, counted from its first line. */
function wholeAct(placed: readonly Placed[], i: number): number {
  const { act } = placed[i];
  if (i === 0 || placed[i - 1].act === act) return 0;
  const end = placed.findIndex((one, k) => k > i && one.act !== act);
  return (end < 0 ? placed.length : end) - i;
}

/** A `set` with the turn behind it, and what is read there. */
function turnsWithSetting(placed: readonly Placed[], i: number): number {
  const step = stepAt(placed, i);
  if (!step?.startsWith('set ')) return 0;
  return stepAt(placed, i + 1)?.startsWith('turn') ? 2 : 0;
}

/** One step by itself; looks are seen to later. A turn for which levers were set stays with them. */
function single(placed: readonly Placed[], i: number): number {
  const step = stepAt(placed, i);
  const isOfSetting = stepAt(placed, i - 1)?.startsWith('set ') === true && step?.startsWith('turn') === true;
  return step === undefined || i === 0 || isOfSetting ? 0 : 1;
}

const stepAt = (placed: readonly Placed[], i: number): string | undefined => {
  const line = placed[i]?.line;
  return line && 'step' in line ? line.step : undefined;
};

/** Of shifts that now stand one behind the other the last counts; what is looked at twice is looked at once. */
function merged(placed: readonly Placed[]): readonly Placed[] {
  const found: Placed[] = [];
  for (const one of placed) {
    const last = found.at(-1);
    if (last && 'looks' in last.line && 'looks' in one.line) {
      const looks = [...new Set([...last.line.looks, ...one.line.looks])];
      found[found.length - 1] = { ...last, line: { looks } };
      continue;
    }
    if (isShift(last?.line) && isShift(one.line)) found.pop();
    found.push(one);
  }
  return found;
}

const isShift = (line: Line | undefined): boolean =>
  line !== undefined && 'step' in line && line.step.startsWith('shift');

function stillProves(placed: readonly Placed[], { profile, borne }: Pruning, order: Fault[]): boolean {
  const lines = linesOf(placed);
  const replay = replaySound(profile, lines, borne);
  if (!replay || !isAtRest(replay, SUBTRACTING | COUNT_MINUS | AUTO_CLEAR | AUTO_DIVIDE)) return false;
  for (const [i, fault] of order.entries()) {
    if (isCaughtBy(profile, lines, fault, replay.shown)) continue;
    order.splice(i, 1);
    order.unshift(fault);
    return false;
  }
  return true;
}

/** The fewest readings that still catch every fault, as far as taking the best one each time finds them. */
export function withFewReadings(placed: readonly Placed[], { profile, faults, borne }: Pruning): readonly Placed[] {
  const lines = linesOf(placed);
  const replay = replaySound(profile, lines, borne) as Replay;
  const needed = new Set<string>();
  const shows = new Map<string, Set<Fault>>();
  for (const fault of faults) {
    for (const reading of partingReadings(profile, lines, fault, replay.shown)) {
      const caught = shows.get(reading) ?? new Set();
      shows.set(reading, caught.add(fault));
    }
  }
  const left = new Set(faults);
  const take = (reading: string) => {
    needed.add(reading);
    for (const fault of shows.get(reading) ?? []) left.delete(fault);
  };
  for (const reading of events(lines)) take(reading);
  while (left.size > 0) {
    let best: string | undefined;
    let most = 0;
    for (const [reading, caught] of shows) {
      let gain = 0;
      for (const fault of caught) if (left.has(fault)) gain++;
      // Among equals the later one: what is read there has come through more.
      if (gain >= most && gain > 0) [best, most] = [reading, gain];
    }
    if (best === undefined) break;
    take(best);
  }
  let look = -1;
  const kept = placed.flatMap((one): Placed[] => {
    const { line } = one;
    if (!('looks' in line)) return [one];
    look++;
    const looks = line.looks.filter((_, k) => needed.has(`${look} ${k}`));
    return looks.length > 0 ? [{ ...one, line: { looks } }] : [];
  });
  return merged(kept);
}

/**
 * What a check calls needlessly long is made as short as it says, where the script then still proves the same. Else it is
 * turns that take one another back and that nobody reads between: there somebody reads the result.
 */
export function withNothingNeedless(placed: readonly Placed[], pruning: Pruning): readonly Placed[] {
  const { profile, faults, borne } = pruning;
  let kept = placed;
  for (let round = 0; round < 2 * placed.length; round++) {
    const lines = linesOf(kept);
    const { shown } = replaySound(profile, lines, borne) as Replay;
    const { findings } = finish(checkAlone(stepsSection(writtenLines(lines, shown)), profile));
    const needless = findings.find(({ facts }) => facts.code === 'shorter-sequence');
    if (needless?.facts.code !== 'shorter-sequence') return kept;
    const { count, steps } = needless.facts;
    // The header is line 0.
    const first = needless.at.line - 1;
    const shorter = steps.flatMap(withoutManyTurns).map((step): Placed => ({ ...kept[first], line: { step } }));
    const replaced = [...kept.slice(0, first), ...shorter, ...kept.slice(first + count)];
    if (stillProves(replaced, pruning, [...faults])) {
      kept = replaced;
      continue;
    }
    const turns = turnsUnread(kept, first, first + count);
    const turn = turns[Math.floor(turns.length / 2)];
    if (turn === undefined) return kept;
    const look: Placed = { ...kept[turn], line: { looks: ['result'] } };
    kept = [...kept.slice(0, turn + 1), look, ...kept.slice(turn + 1)];
  }
  return kept;
}

/** More turns than nine in one step would be remarked in their turn. */
function withoutManyTurns(step: string): string[] {
  const turn = /^(?<turn>turn(?: back)?) (?<count>\d+)$/.exec(step)?.groups;
  if (!turn) return [step];
  const { nines, rest } = inNines(Number(turn.count), turn.turn);
  return [...Array.from({ length: nines }, () => turns(9, turn.turn)), ...rest];
}

/** Where a row of lines has a turn with another step behind it. */
function turnsUnread(placed: readonly Placed[], from: number, to: number): number[] {
  const found: number[] = [];
  for (let i = from; i < to - 1; i++) {
    if (stepAt(placed, i)?.startsWith('turn') && stepAt(placed, i + 1) !== undefined) found.push(i);
  }
  return found;
}

/** Of a look that excuses an overflow or overdraw, the bell or the event has to stay. */
function events(lines: readonly Line[]): string[] {
  const looks = lines.flatMap((line) => ('looks' in line ? [line.looks] : []));
  return looks.flatMap((wanted, look) => {
    const bell = wanted.indexOf('bell');
    const event = bell >= 0 ? bell : wanted.findIndex((what) => what === 'overflow' || what === 'overdraw');
    return event < 0 ? [] : [`${look} ${event}`];
  });
}
