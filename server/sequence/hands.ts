/** What an operator does by hand: levers, wheels, buttons, markers, carriage. One function a step. */
import type {
  Argument,
  ClearStep,
  DialStep,
  NumberSyntax,
  Part,
  PointsStep,
  ShiftStep,
  SwitchStep,
  TransferStep,
} from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  type Crank,
  clearRegister,
  fromText,
  has,
  hasDriveLever,
  hasHalfSteps,
  leftmost,
  type Moved,
  NEGATIVE,
  numberIn,
  POSITION,
  type Profile,
  pointOf,
  put,
  putPoint,
  REFUSED,
  REGISTERS,
  RESTORING,
  RESULT,
  type Register,
  SETTING,
  type State,
  setDrive,
  shiftBy,
  shiftHalf,
  shiftOut,
  shiftTo,
  showsZero,
  textOf,
} from '../machine/index.js';
import type { Device, Facts } from './findings.js';
import { alignedDigits, decimalText, wholeOf } from './readings.js';

/** What the hands work on, and where they say what they noticed. */
export interface Workplace {
  readonly profile: Profile;
  readonly state: State;
  readonly crank: Crank;
  /** Carriage positions moved and levers moved by hand so far. */
  shifts: number;
  leversMoved: number;
  report(facts: Facts): void;
}

/** Reports and marks the step as one that moved nothing. */
export function refuse(at: Workplace, facts: Facts): void {
  put(at.state, REFUSED, true);
  at.report(facts);
}

export function refuseDevice(at: Workplace, device: Device): void {
  refuse(at, { code: 'not-on-this-machine', device, machine: at.profile.name });
}

/** A number, or undefined (and the step refused) where a parameter has no value. */
export function numberOf(at: Workplace, argument: Argument): NumberSyntax | undefined {
  if (argument.kind === 'number') return argument;
  put(at.state, REFUSED, true);
  return undefined;
}

/** A count within a range, or undefined and the step refused. */
export function countOf(
  at: Workplace,
  argument: Argument | undefined,
  lowest: number,
  highest: number,
): number | undefined {
  if (argument === undefined) return 1;
  const number = numberOf(at, argument);
  if (!number) return undefined;
  const whole = wholeOf(number);
  if (whole !== undefined && whole >= lowest && whole <= highest) return whole;
  const why = number.isValue
    ? ({ is: 'not-whole', number: number.text } as const)
    : ({ is: 'out-of-range', number: number.text, lowest, highest } as const);
  refuse(at, { code: 'wrong-arguments', why });
  return undefined;
}

/** The digits of a part and its units' place, or undefined and the step refused. */
function placedDigits(
  at: Workplace,
  part: Part,
  register: 'setting' | 'result',
): { digits: string; place: number } | undefined {
  const number = numberOf(at, part.figures);
  if (!number) return undefined;
  const places = at.profile[register];
  if (number.isValue && part.at) {
    refuse(at, { code: 'wrong-arguments', why: { is: 'value-with-at', number: number.text } });
    return undefined;
  }
  const atNumber = part.at ? numberOf(at, part.at) : undefined;
  if (part.at && !atNumber) return undefined;
  const place = atNumber ? wholeOf(atNumber) : 1;
  if (place === undefined || place < 1 || place > places) {
    refuse(at, { code: 'no-such-place', register, place: atNumber?.text ?? '', places });
    return undefined;
  }
  const marker = pointOf(at.state, register);
  const digits = alignedDigits(number, marker);
  if (digits === undefined) {
    refuse(at, { code: 'too-many-decimals', register, number: number.text, marker });
    return undefined;
  }
  if (digits.length + place - 1 > places) {
    const code = register === 'setting' ? 'setting-too-long' : 'dial-too-long';
    refuse(at, { code, figures: number.text, at: place, places });
    return undefined;
  }
  return { digits, place };
}

export function set(at: Workplace, parts: readonly Part[]): void {
  const levers: string[] = Array(at.profile.setting).fill('');
  for (const part of parts) {
    const placed = placedDigits(at, part, 'setting');
    if (!placed) return;
    for (let i = 0; i < placed.digits.length; i++) {
      const lever = placed.place - 1 + i;
      if (levers[lever] !== '') return refuse(at, { code: 'places-overlap', place: lever + 1 });
      levers[lever] = placed.digits[placed.digits.length - 1 - i];
    }
  }
  fromText(
    at.state,
    SETTING,
    levers
      .map((figure) => figure || '0')
      .reverse()
      .join(''),
  );
}

export function dial(at: Workplace, step: DialStep): void {
  if (!at.profile.dials) return refuseDevice(at, 'dial');
  const placed = placedDigits(at, step.part, 'result');
  if (!placed) return;
  clearRegister(at.state, 'result');
  fromText(at.state, RESULT, placed.digits + '0'.repeat(placed.place - 1));
}

/** The registers that a step names. */
export const clearedBy = (step: ClearStep): readonly Register[] => (step.all ? REGISTERS : step.registers);

export function clear(at: Workplace, step: ClearStep): void {
  if (at.profile.counter === 0 && step.registers.includes('counter')) return refuseDevice(at, 'counter');
  for (const register of clearedBy(step)) at.crank.clear(at.state, register);
}

export function transfer(at: Workplace, step: TransferStep): void {
  const { state, profile } = at;
  const { register } = step;
  const isFromResult = register === 'result';
  if (isFromResult ? profile.transferResult === 'none' : !profile.transferCounter) {
    return refuseDevice(at, `transfer ${register}`);
  }
  const position = state[POSITION];
  if (isFromResult && (position === 0 || (profile.transferResult === 'at 1' && position !== 1))) {
    return refuse(at, { code: 'transfer-position', position });
  }
  if (!showsZero(state, 'setting')) {
    return refuse(at, { code: 'transfer-onto-setting', setting: textOf(state, profile, 'setting') });
  }
  const below = isFromResult ? position - 1 : 0;
  const figures = textOf(state, profile, register).replaceAll('-', '');
  const end = figures.length - below;
  const window = figures.slice(Math.max(0, end - profile.setting), Math.max(0, end));
  const lost = figures.slice(0, Math.max(0, end - profile.setting)) + figures.slice(Math.max(0, end));
  // A lever has no sign: what a negative figure of a signed counter means is lost as well.
  const losesSigns = !isFromResult && state[NEGATIVE] !== 0;
  if (losesSigns || /[1-9]/.test(lost)) at.report({ code: 'transfer-loses-digits', register, reading: figures });
  at.crank.take(state, window);
  at.crank.clear(state, register);
}

export function mode(at: Workplace, subtracting: boolean): void {
  if (!hasDriveLever(at.profile)) return refuseDevice(at, 'mode');
  if (setDrive(at.state, subtracting)) at.leversMoved++;
}

export function countLever(at: Workplace, minus: boolean): void {
  if (at.profile.count !== 'lever') return refuseDevice(at, 'count');
  moveLever(at, COUNT_MINUS, minus);
}

export function button(at: Workplace, step: SwitchStep): void {
  const isThere = step.kind === 'auto-clear' ? at.profile.autoClear : at.profile.autoDivide;
  if (!isThere) return refuseDevice(at, step.kind);
  moveLever(at, step.kind === 'auto-clear' ? AUTO_CLEAR : AUTO_DIVIDE, step.on);
  if (step.kind === 'auto-divide') put(at.state, RESTORING, false);
}

function moveLever(at: Workplace, bit: number, on: boolean): void {
  if (has(at.state, bit) === on) return;
  put(at.state, bit, on);
  at.leversMoved++;
}

/** All markers that are named, or none of them. Returns the registers whose markers were placed. */
export function points(at: Workplace, step: PointsStep): readonly Register[] {
  const wanted: [Register, number][] = [];
  for (const { register, decimals } of step.items) {
    const number = numberOf(at, decimals);
    if (!number) return [];
    const places = at.profile[register];
    if (places === 0) {
      refuseDevice(at, 'counter');
      return [];
    }
    const whole = wholeOf(number);
    if (whole === undefined || whole > places) {
      refuse(at, { code: 'no-such-place', register, place: number.text, places, isDecimals: true });
      return [];
    }
    wanted.push([register, whole]);
  }
  for (const [register, decimals] of wanted) putPoint(at.state, register, decimals);
  return wanted.map(([register]) => register);
}

export function shift(at: Workplace, step: ShiftStep): void {
  const { state, profile } = at;
  if (step.half && !hasHalfSteps(profile)) return refuseDevice(at, 'half steps');
  if (step.way === 'out') {
    if (leftmost(profile) !== 0) return refuseDevice(at, 'shift out');
    return move(at, shiftOut(state), step);
  }
  if (step.half) return move(at, shiftHalf(state, profile, step.way === 'right' ? 1 : -1), step);
  const highest = Number.MAX_SAFE_INTEGER;
  const count = countOf(at, step.count, 0, highest);
  if (count === undefined) return;
  if (step.way === 'to') return move(at, shiftTo(state, profile, count), step);
  move(at, shiftBy(state, profile, step.way === 'right' ? count : -count), step);
}

function move(at: Workplace, moved: Moved, step: ShiftStep): void {
  at.shifts += moved.shifts;
  if (!moved.end) return;
  if (moved.shifts === 0) put(at.state, REFUSED, true);
  const wanted = step.count?.kind === 'number' ? step.count.text : '';
  at.report({
    code: 'carriage-end',
    at: at.state[POSITION],
    positions: at.profile.carriage,
    wanted: step.way === 'to' ? wanted : '',
  });
}

/** The decimals of each register. */
export const pointsOf = (state: State): Record<Register, number> => ({
  setting: pointOf(state, 'setting'),
  counter: pointOf(state, 'counter'),
  result: pointOf(state, 'result'),
});

/** A register's reading at its marker, without leading zeros. */
export const readingOf = (state: State, profile: Profile, register: Register): string =>
  decimalText(numberIn(state, profile, register), pointOf(state, register));
