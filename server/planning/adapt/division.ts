/** `multiply` and `divide`, and automatic division: as they stand, by hand, opened out, or by building up. */
import { print } from '../../../grammar/printer.js';
import type { Argument, DivideStep, MultiplyStep, NumberSyntax, StepSyntax, TurnStep } from '../../../grammar/tree.js';
import { AUTO_DIVIDE, has, hasDriveLever, POSITION, pointOf, SUBTRACTING } from '../../machine/index.js';
import { alignedDigits } from '../../sequence/readings.js';
import { enterRest } from './entering.js';
import { digitString, loweredNumber } from './numbers.js';
import { crank, settingAt, turnText } from './turning.js';
import { countSign, type Occurrence } from './walk.js';
import {
  asRead,
  isMinus,
  isSubtracting,
  positionAt,
  refuse,
  type Spot,
  shifts,
  spotAfter,
  spotBefore,
  type Way,
} from './way.js';

export function carryMultiply(way: Way, o: Occurrence): string[] {
  const written = o.step.syntax as MultiplyStep;
  const isShort = written.short && way.keepsShort && way.to.subtract !== 'none';
  const by = multiplier(way, o, written.by);
  if (o.first === o.end) return by ? [print({ ...written, by, short: isShort })] : [];
  // The limits on the way are those of the single steps.
  const opened = written.short ? [] : openedRows(way, o);
  const standsSo = has(o.before, SUBTRACTING) === isSubtracting(way, o.before);
  if (!by || !standsSo) return written.short ? openedRows(way, o) : opened;
  const text = print({ ...written, by, short: isShort });
  // Where a short cut ends depends on the machine.
  const end = written.short ? [`shift to ${positionAt(way, spotAfter(o))}`] : [];
  return [...(isShort === written.short ? countedAs(way, o, text) : [text]), ...end];
}

/** The multiplier as it is written on the new machine; undefined where its single steps have to be. */
function multiplier(way: Way, o: Occurrence, by: Argument): Argument | undefined {
  const { counter } = way.moved;
  if (way.to.counter === 0 && isValued(o, by))
    return by.kind === 'name' ? undefined : alignedTo(by, pointOf(o.before, 'counter'));
  if (counter === 0) return by;
  const isValue = by.kind === 'number' ? by.isValue : true;
  if (o.before[POSITION] !== 1 || !isValue) return undefined;
  return by.kind === 'number' ? loweredNumber(by, pointOf(o.before, 'counter') - counter) : by;
}

/** A number with a point, whether it is written or comes by a parameter. */
const isValued = (o: Occurrence, by: Argument): boolean =>
  (by.kind === 'number' ? by : o.run.run.order.values.get(by.name))?.isValue ?? false;

/** Without a counter there is no marker to align a number to: its figures as they are turned. */
const alignedTo = (by: NumberSyntax, marker: number): NumberSyntax =>
  digitString(alignedDigits(by, marker) ?? by.figures);

/** One step for several turns: with the levers for counting around it. */
function countedAs(way: Way, o: Occurrence, text: string): string[] {
  const row = firstTurn(o);
  if (row === undefined) return [text];
  const step = o.run.stepAt(row) as TurnStep;
  const around = crank(way, { walk: o.run, row, line: o.step.line, step, write: () => TURN });
  return around.filter((line) => !line.startsWith('mode ')).map((line) => (line === TURN ? text : line));
}
const TURN = 'turn\0';

function firstTurn(o: Occurrence): number | undefined {
  for (let row = o.first; row < o.end; row++) if (o.run.stepAt(row).kind === 'turn') return row;
  return undefined;
}

/** The single steps that it stood for. */
function openedRows(way: Way, o: Occurrence): string[] {
  const lines: string[] = [];
  const line = o.step.line;
  for (let row = o.first; row < o.end; row++) {
    const step = o.run.stepAt(row);
    const spot: Spot = { walk: o.run, row, line };
    if (step.kind === 'turn') lines.push(...crank(way, { ...spot, step, write: (back) => print({ ...step, back }) }));
    const from = positionAt(way, spot);
    const to = positionAt(way, { ...spot, row: row + 1 });
    lines.push(...shifts(from, to));
  }
  return lines;
}

/** `divide`, or `turn until stop` with automatic division on. */
export function carryDivide(way: Way, o: Occurrence): string[] {
  const isAutomatic = has(o.before, AUTO_DIVIDE);
  const written = o.step.syntax as DivideStep | TurnStep;
  const line = o.step.line;
  const from = o.before[POSITION];
  if (from === 0) return refuse({ kind: 'device', line, device: 'auto-divide' });
  const last = isAutomatic ? o.after[POSITION] + 1 : o.after[POSITION];
  if (last <= way.moved.counter) {
    refuse({ kind: 'limit', line, limit: 'carriage', has: way.to.carriage, needs: from });
  }
  if (way.to.subtract === 'none') return buildUp(way, o, last);
  const start = firstTurn(o);
  if (start === undefined) return [print(written)];
  if (isAutomatic && way.to.autoDivide) {
    const step: TurnStep = { kind: 'turn', back: false, from: 0, to: 0 };
    const text = print(
      way.moved.counter > 0 && written.kind === 'divide'
        ? { ...written, downTo: digitString(String(last - way.moved.counter)) }
        : written,
    );
    return crank(way, { ...spotBefore(o), step, write: () => text });
  }
  const needsCount = way.to.counter > 0 && way.from.counter > 0 && way.liveness.get(o.run)?.counter(o.end);
  const counts = needsCount ? subtractionSign(way, o, start) : 0;
  const back = shifts(last - way.moved.counter, positionAt(way, spotAfter(o)));
  const own = written.kind === 'divide' ? { ...written, short: written.short && way.keepsShort } : undefined;
  const downTo = last - way.moved.counter;
  const text = own && way.moved.counter === 0 ? print(own) : downTo === 1 ? 'divide' : `divide to ${downTo}`;
  switch (way.to.count) {
    case 'follow':
      if (counts > 0) return buildUp(way, o, last);
      return [text, ...back];
    case 'lever':
      if (counts >= 0) return [text, ...back];
      return [...openedDivision(way, o, last), ...back];
    case 'first': {
      if (counts === 0) return [text, ...back];
      const around = crank(way, {
        walk: o.run,
        row: start,
        line,
        step: o.run.stepAt(start) as TurnStep,
        write: () => TURN,
      });
      const lines = around.map((made) => (made === TURN ? text : made));
      // The drive is moved by the division itself; only what primes the counter stays around it.
      const at = lines.indexOf(text);
      const before = lines.slice(0, at).filter((_, i, all) => !(i === all.length - 1 && all[i] === 'mode subtract'));
      return [...before, text, ...back];
    }
  }
}

/** How the old machine counts the subtracting turns of a division. */
const subtractionSign = (way: Way, o: Occurrence, start: number): 1 | -1 =>
  countSign(way.from, o.run.stateBefore(start), false);

/** The single turns of a division, whatever the figures are. */
function openedDivision(way: Way, o: Occurrence, last: number): string[] {
  const lines: string[] = [];
  const stands = isSubtracting(way, o.before) ? 'subtract' : 'add';
  for (let position = positionAt(way, spotBefore(o)); position >= last - way.moved.counter; position--) {
    lines.push(
      ...(hasDriveLever(way.to) ? ['mode subtract', 'turn until overdraw', 'mode add'] : ['turn back until overdraw']),
    );
    lines.push('turn');
    if (position > last - way.moved.counter) lines.push('shift left');
  }
  if (stands === 'subtract' && hasDriveLever(way.to)) lines.push('mode subtract');
  const wasMinus = isMinus(way, o.before);
  return wasMinus ? ['count plus', ...lines, 'count minus'] : lines;
}

/**
 * The quotient's figures, turned forwards: the result builds up to the dividend as far as it goes, and what is left of
 * it is entered at the end.
 */
function buildUp(way: Way, o: Occurrence, last: number): string[] {
  const line = o.step.line;
  const { result: dividend } = o.run.totalsBefore(o.first);
  const { result: rest } = o.run.totalsBefore(o.end);
  const spot = spotBefore(o);
  const divisor = settingAt(way, spot);
  const scale = 10n ** BigInt(way.moved.setting + way.moved.counter);
  const device =
    way.to.subtract === 'none'
      ? ({ kind: 'device', line, device: 'subtract' } as const)
      : ({ kind: 'counting', line } as const);
  if (divisor === 0n || dividend < 0n || rest < 0n || dividend % scale !== 0n || rest % scale !== 0n)
    return refuse(device);
  const [from, to] = [positionAt(way, spot), last - way.moved.counter];
  if (from > way.to.carriage) refuse({ kind: 'limit', line, limit: 'carriage', has: way.to.carriage, needs: from });
  const quotient = (dividend - rest) / scale / divisor;
  if (way.to.count === 'lever' && isMinus(way, o.before)) return refuse({ kind: 'counting', line });
  const start = firstTurn(o);
  if (start !== undefined && way.liveness.get(o.run)?.counter(o.end) && subtractionSign(way, o, start) < 0)
    return refuse(device);
  const subtracts = isSubtracting(way, o.before);
  const { before } = o;
  const lines = [`note ${JSON.stringify(way.notes.buildUp(asRead(way, dividend / scale, before)))}`, 'clear result'];
  if (subtracts) lines.push('mode add');
  for (let position = from; position >= to; position--) {
    const above =
      position === from ? quotient / 10n ** BigInt(position - 1) : (quotient / 10n ** BigInt(position - 1)) % 10n;
    if (above > 999n) return refuse(device);
    if (above > 0n) lines.push(turnText(false, Number(above)));
    if (position > to) lines.push('shift left');
  }
  if (subtracts) lines.push('mode subtract');
  lines.push('clear result');
  lines.push(...enterRest(way, spotAfter(o), rest / scale, { position: to, counted: quotient }));
  return [...lines, ...shifts(to, positionAt(way, spotAfter(o)))];
}

/** Whether a step divides: `divide`, or turns that automatic division makes. */
export function divides(step: StepSyntax, o: Occurrence): boolean {
  if (step.kind === 'divide') return true;
  return step.kind === 'turn' && has(o.before, AUTO_DIVIDE) && o.before[POSITION] > 0;
}
