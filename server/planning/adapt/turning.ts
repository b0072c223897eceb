/** Turns of the crank on the new machine: which way it turns, how it is counted, and the levers for both. */
import { print } from '../../../grammar/printer.js';
import type { TurnStep } from '../../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  has,
  hasDriveLever,
  numberIn,
  POSITION,
  SUBTRACTING,
  TURNS,
} from '../../machine/index.js';
import { argumentsOf } from '../../sequence/substitute.js';
import type { Stretch } from './building.js';
import { enterRest } from './entering.js';
import { isAdding } from './liveness.js';
import { countSign, type Occurrence } from './walk.js';
import {
  asRead,
  isMinus,
  isSubtracting,
  lowered,
  movedOf,
  placesOf,
  positionAt,
  refuse,
  type Spot,
  type Way,
} from './way.js';

/** A turn step of the old run, by its row. */
export interface Turning extends Spot {
  readonly step: TurnStep;
  /** As it is to be written, given whether the crank turns back. */
  readonly write: (back: boolean) => string;
}

/** One turn step. In automatic division the machine's own turns are meant, beginning with one that subtracts. */
export function carryTurn(way: Way, o: Occurrence): string[] {
  const step = o.step.syntax as TurnStep;
  const write = (back: boolean) => print({ ...step, back });
  const turning = { walk: o.run, row: o.first, line: o.step.line, step, write };
  const before = o.before;
  if (before[POSITION] === 0) return positionAt(way, turning) === 0 ? [print({ ...step, back: false })] : [];
  const clears = has(before, AUTO_CLEAR) && !way.to.autoClear;
  if (!clears || step.until) return crank(way, turning);
  // A button cleared the levers after the first of these turns.
  const times = o.after[TURNS];
  const isCounted = step.count !== undefined && argumentsOf(step).some(({ kind }) => kind === 'name');
  if (isCounted) refuse({ kind: 'varies', line: o.step.line, what: 'turns' });
  const needsClear = way.liveness.get(o.run)?.setting(o.end) || times > 1;
  const turns = (n: number) => crank(way, { ...turning, write: (back) => turnText(back, n) });
  const first = turns(Math.min(times, 1));
  const clearing = needsClear && numberIn(before, way.from, 'setting') !== 0n ? ['clear setting'] : [];
  return [...first, ...clearing, ...(times > 1 ? turns(times - 1) : [])];
}

export const turnText = (back: boolean, times: number): string =>
  `turn${back ? ' back' : ''}${times === 1 ? '' : ` ${times}`}`;

/** Turns in the sense of a row of the old run, with what the levers need before and after. */
export function crank(way: Way, turning: Turning): string[] {
  const { walk, row, step } = turning;
  refuseBeyond(way, turning);
  const isAutomatic = has(walk.stateBefore(row), AUTO_DIVIDE);
  const adds = isAutomatic ? false : isAdding(walk, row, step.back);
  const stretch = way.building?.get(walk)?.at(row);
  if (stretch) return buildUp(way, turning, adds, stretch);
  if (!adds && way.to.subtract === 'none') return addComplement(way, turning);
  const core = isAutomatic && way.to.autoDivide ? [turning.write(false)] : driven(way, turning, adds);
  return counted(way, turning, core, adds);
}

/** The other way round: what was taken off is added, and at the end the result is brought to what is left. */
function buildUp(way: Way, turning: Turning, adds: boolean, { first, last, from, divides }: Stretch): string[] {
  const { walk, row, line, step } = turning;
  const scale = 10n ** BigInt(movedOf(way, 'result'));
  const dividend = asRead(way, from / scale, walk.stateBefore(row));
  const note = `note ${JSON.stringify(way.notes.buildUp(dividend))}`;
  const begin = row === first ? [note, 'clear result'] : [];
  const times = way.building?.get(walk)?.turns(row, step);
  const write = times === undefined ? turning.write : (back: boolean) => turnText(back, times);
  const core = times === 0 ? [] : driven(way, { ...turning, write }, !adds);
  const turns = times === 0 ? [] : counted(way, turning, core, !adds);
  if (row !== last) return [...begin, ...turns];
  const rest = walk.totalsBefore(row + 1);
  if (rest.result < 0n || rest.result % scale !== 0n) refuse({ kind: 'counting', line });
  // What is left of a dividend can be written in; the answer of a subtraction is to come out by itself.
  const isNeeded = way.liveness.get(walk)?.result(row + 1) ?? true;
  if (rest.result !== 0n && isNeeded && !divides) refuse({ kind: 'counting', line });
  const after = { walk, row: row + 1, line };
  const entry = { position: positionAt(way, turning), counted: rest.counter };
  const left = isNeeded ? enterRest(way, after, rest.result / scale, entry) : [];
  return [...begin, ...turns, 'clear result', ...left];
}

/** With the drive lever put over for the turns, where it does not stand so. */
function driven(way: Way, { walk, row, write }: Turning, adds: boolean): string[] {
  if (!hasDriveLever(way.to)) return [write(!adds)];
  const stands = isSubtracting(way, walk.stateBefore(row));
  if (stands === !adds) return [write(false)];
  return [`mode ${adds ? 'add' : 'subtract'}`, write(false), `mode ${adds ? 'subtract' : 'add'}`];
}

const isLive = (way: Way, { walk, row }: Spot): boolean => way.liveness.get(walk)?.counter(row + 1) ?? true;

/** With what makes the counter count these turns as they were counted, if that matters. */
function counted(way: Way, turning: Turning, core: string[], adds: boolean): string[] {
  const { walk, row, line, step } = turning;
  if (way.from.counter === 0 || way.to.counter === 0 || !isLive(way, turning)) return core;
  const before = walk.stateBefore(row);
  const isAutomatic = has(before, AUTO_DIVIDE);
  const counts = countSign(way.from, before, isAutomatic ? false : has(before, SUBTRACTING) === step.back);
  const sign = adds ? 1 : -1;
  switch (way.to.count) {
    case 'follow':
      return counts === sign ? core : refuse({ kind: 'counting', line });
    case 'lever': {
      const stands = isMinus(way, before);
      const needs = counts !== sign;
      if (stands === needs) return core;
      return [`count ${needs ? 'minus' : 'plus'}`, ...core, `count ${needs ? 'plus' : 'minus'}`];
    }
    case 'first': {
      const stretch = way.liveness.get(walk)?.stretch(row);
      if (!stretch?.sense) return refuse({ kind: 'counting', line });
      const isPrimed = stretch.firstRow !== row || stretch.first === 1;
      return isPrimed ? core : [...primed(way, turning, stretch.sense), ...core];
    }
  }
}

/** The first turn after clearing fixes the sense: one the one way and one the other leave nothing else behind. */
function primed(way: Way, { walk, row, line }: Spot, sense: 1 | -1): string[] {
  if (way.to.subtract === 'none') return refuse({ kind: 'counting', line });
  const note = `note ${JSON.stringify(way.notes.sense)}`;
  if (!hasDriveLever(way.to)) return sense > 0 ? [note, 'turn', 'turn back'] : [note, 'turn back', 'turn'];
  const stands = isSubtracting(way, walk.stateBefore(row)) ? 'subtract' : 'add';
  const [first, then] = sense > 0 ? ['add', 'subtract'] : ['subtract', 'add'];
  return [note, `mode ${first}`, 'turn', `mode ${then}`, 'turn', `mode ${stands}`];
}

/** Subtracting on a machine that only adds: the complement, up to the top of the result. */
function addComplement(way: Way, turning: Turning): string[] {
  const { walk, row, line, step } = turning;
  if (step.until || has(walk.stateBefore(row), AUTO_DIVIDE)) refuse({ kind: 'device', line, device: 'subtract' });
  if (way.to.counter > 0 && way.from.counter > 0 && isLive(way, turning)) {
    const counts = countSign(way.from, walk.stateBefore(row), has(walk.stateBefore(row), SUBTRACTING) === step.back);
    if (counts < 0) refuse({ kind: 'counting', line });
  }
  const setting = settingAt(way, turning);
  if (setting === 0n) return [turning.write(false)];
  const needs = way.to.result - positionAt(way, turning) + 1;
  if (needs > way.to.setting) refuse({ kind: 'complement-levers', line, has: way.to.setting, needs });
  way.byComplement = true;
  const complement = 10n ** BigInt(needs) - setting;
  const isUsedLater = way.liveness.get(walk)?.setting(row + 1) ?? true;
  return [`set ${complement}`, turning.write(false), ...(isUsedLater ? [`set ${setting}`] : [])];
}

/** What the new machine's levers stand at; below a complement, what is subtracted by it. */
export function settingAt(way: Way, { walk, row, line }: Spot): bigint {
  let value = numberIn(walk.stateBefore(row), way.from, 'setting');
  if (walk.complementTurns.has(row)) {
    const whole = 10n ** BigInt(way.from.result - walk.stateBefore(row)[POSITION] + 1);
    value = whole - value;
  }
  return (
    lowered(value, way.moved.setting) ??
    refuse({ kind: 'limit', line, limit: 'setting', has: way.to.setting, needs: placesOf(value) })
  );
}

/** What a turn at this place takes, and whether the new machine has it. */
function refuseBeyond(way: Way, spot: Turning): void {
  const { walk, row, line } = spot;
  const { to, from } = way;
  const position = walk.stateBefore(row)[POSITION];
  if (position <= way.moved.counter) {
    refuse({ kind: 'limit', line, limit: 'carriage', has: to.carriage, needs: position + way.moved.counter });
  }
  const here = positionAt(way, spot);
  if (here > to.carriage) refuse({ kind: 'limit', line, limit: 'carriage', has: to.carriage, needs: here });
  const totals = walk.totalsBefore(row + 1);
  const result = lowered(totals.result, movedOf(way, 'result')) ?? totals.result;
  // A register that shows a complement, or runs over, is judged by trying it out.
  const fitsThere = result >= 0n && placesOf(totals.result) <= from.result;
  if (fitsThere && placesOf(result) > to.result) {
    refuse({ kind: 'limit', line, limit: 'result', has: to.result, needs: placesOf(result) });
  }
  if (to.counter === 0 || !isLive(way, spot)) return;
  const counter = lowered(totals.counter, way.moved.counter) ?? totals.counter;
  const needs = Math.max(counter < 0n ? 0 : placesOf(counter), position <= from.counter ? here : 0);
  if (needs > to.counter) refuse({ kind: 'limit', line, limit: 'counter', has: to.counter, needs });
}
