/** One step, carried over: the steps that do the same on the new machine. */
import { print } from '../../../grammar/printer.js';
import type { ClearStep, ShiftStep } from '../../../grammar/tree.js';
import { hasDriveLever, POSITION } from '../../machine/index.js';
import { wholeOf } from '../../sequence/readings.js';
import { carryDivide, carryMultiply, divides } from './division.js';
import { carryDial, carryTransfer } from './entering.js';
import { type Difference, Refusal } from './facts.js';
import { carryPoints, carrySet } from './numbers.js';
import { carryAsk, carryExpect } from './reading.js';
import { carryTurn } from './turning.js';
import type { Occurrence } from './walk.js';
import { isSubtracting, positionAt, refuse, shifts, spotAfter, spotBefore, type Way } from './way.js';

export interface Carried {
  readonly lines: readonly string[];
  readonly differences: readonly Difference[];
}

/** The steps in place of one, and readings that had to be left out; throws a `Refusal` where nothing would do. */
export function carryStep(way: Way, o: Occurrence): Carried {
  const { syntax } = o.step;
  if (syntax.kind === 'expect') return carryExpect(way, o);
  return { lines: linesFor(way, o), differences: [] };
}

function linesFor(way: Way, o: Occurrence): string[] {
  const { syntax, line } = o.step;
  const { to } = way;
  const own = print(syntax);
  if (divides(syntax, o)) {
    const isWhole = syntax.kind === 'divide' || (syntax.kind === 'turn' && syntax.until === 'stop');
    if (isWhole) return carryDivide(way, o);
    return to.autoDivide ? [own] : refuse({ kind: 'device', line, device: 'auto-divide' });
  }
  switch (syntax.kind) {
    case 'set':
      return carrySet(way, o);
    case 'turn':
      return carryTurn(way, o);
    case 'shift':
      return carryShift(way, o, syntax);
    case 'clear':
      return carryClear(way, syntax);
    case 'points':
      return carryPoints(way, o);
    case 'dial':
      return carryDial(way, o);
    case 'transfer':
      return carryTransfer(way, o);
    case 'mode':
      return hasDriveLever(to) ? [own] : [];
    case 'count':
      return to.count === 'lever' ? [own] : [];
    case 'auto-clear':
      return to.autoClear ? [own] : [];
    case 'auto-divide':
      return to.autoDivide ? [own] : [];
    case 'multiply':
      return carryMultiply(way, o);
    case 'ask':
      return carryAsk(way, o);
    case 'run':
      return carryRun(way, o, syntax.name.name);
    default:
      return [own];
  }
}

function carryShift(way: Way, o: Occurrence, step: ShiftStep): string[] {
  const { to } = way;
  const { line } = o.step;
  const [from, end] = [positionAt(way, spotBefore(o)), positionAt(way, spotAfter(o))];
  if (end > to.carriage) refuse({ kind: 'limit', line, limit: 'carriage', has: to.carriage, needs: end });
  const drive = isSubtracting(way, o.after);
  const moves = drive !== isSubtracting(way, o.before) ? [`mode ${drive ? 'subtract' : 'add'}`] : [];
  const own = print(step);
  const [wasFrom, wasEnd] = [o.before[POSITION], o.after[POSITION]];
  if (step.half) {
    if (to.subtract === 'half-step' && from === wasFrom && end === wasEnd) return [own];
    return [...shifts(from, end), ...moves];
  }
  if (step.way === 'to') {
    const isSame = step.count?.kind === 'name' ? end === wasEnd : step.count && wholeOf(step.count) === end;
    return isSame ? [own] : [`shift to ${end}`];
  }
  const isSame = end - from === wasEnd - wasFrom && (step.way !== 'out' || end === 0);
  return isSame ? [own] : shifts(from, end);
}

function carryClear(way: Way, step: ClearStep): string[] {
  if (way.to.counter > 0 || !step.registers.includes('counter')) return [print(step)];
  const registers = step.registers.filter((register) => register !== 'counter');
  return registers.length > 0 ? [print({ ...step, registers })] : [];
}

/** The steps of another sequence are written there for all that run it: they have to do as they are. */
function carryRun(way: Way, o: Occurrence, name: string): string[] {
  const refused = () => refuse({ kind: 'run', line: o.step.line, name });
  for (const inner of o.inside ?? []) {
    try {
      const { lines, differences } = carryStep(way, inner);
      const isSame = lines.length === 1 && lines[0] === print(inner.step.syntax) && differences.length === 0;
      if (!isSame) return refused();
    } catch (error) {
      if (error instanceof Refusal) return refused();
      throw error;
    }
  }
  return [print(o.step.syntax)];
}
