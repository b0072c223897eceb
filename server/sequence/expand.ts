/** `multiply` and `divide`, opened out into the single steps that they stand for. */
import type { NumberSyntax, Step, StepSyntax } from '../../grammar/tree.js';
import {
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasDriveLever,
  POSITION,
  type Profile,
  pointOf,
  SENSE_ADD,
  type State,
  SUBTRACTING,
} from '../machine/index.js';
import type { Facts } from './findings.js';
import { alignedDigits, withoutLeadingZeros } from './readings.js';

export type Opened = { readonly steps: readonly Step[] } | { readonly refused: Facts };

/**
 * Turns and shifts for the figures of a number, units first, from the position in which the carriage stands. Zeros are
 * shifted over, and the carriage stays where the last turn was made.
 */
export function openMultiply(at: Step, by: NumberSyntax, state: State, profile: Profile): Opened {
  const marker = pointOf(state, 'counter');
  const digits = alignedDigits(by, marker);
  if (digits === undefined) {
    return { refused: { code: 'too-many-decimals', register: 'counter', number: by.text, marker } };
  }
  const figures = withoutLeadingZeros(digits);
  const position = state[POSITION];
  if (position === 0) return { refused: { code: 'carriage-parked', times: 0 } };
  const last = position + figures.length - 1;
  if (figures !== '0' && last > profile.carriage) {
    return { refused: { code: 'carriage-end', at: position, positions: profile.carriage, wanted: String(last) } };
  }
  const steps: Step[] = [];
  let due = 0;
  for (const figure of Array.from(figures).reverse()) {
    if (figure !== '0') {
      if (due > 0) steps.push(made(at, shiftOf('right', due)));
      steps.push(made(at, turnOf(false, Number(figure))));
      due = 0;
    }
    due++;
  }
  return { steps };
}

/** What `divide` needs to know of the machine before it starts. */
export interface DivisionStart {
  readonly position: number;
  readonly to: number;
  readonly state: State;
  readonly profile: Profile;
}

/**
 * By hand: in each position turn until overdraw, restore by one turn, shift left. The levers that it needs are moved
 * and left as they were found.
 */
export function openDivide(at: Step, { position, to, state, profile }: DivisionStart): Opened {
  if (profile.subtract === 'none') {
    return { refused: { code: 'not-on-this-machine', device: 'subtract', machine: profile.name } };
  }
  const byLever = hasDriveLever(profile);
  const wasSubtracting = has(state, SUBTRACTING);
  const wasMinus = has(state, COUNT_MINUS);
  const movesCount = profile.count === 'lever' && !wasMinus;
  const steps: Step[] = [];
  let subtracting = wasSubtracting;
  const drive = (wanted: boolean) => {
    const lever = wanted ? 'subtract' : 'add';
    if (byLever && subtracting !== wanted) steps.push(made(at, { kind: 'mode', drive: lever, ...NOWHERE }));
    subtracting = wanted;
  };
  if (movesCount) steps.push(made(at, { kind: 'count', sense: 'minus', ...NOWHERE }));
  for (let p = position; p >= to; p--) {
    drive(true);
    steps.push(made(at, { kind: 'turn', back: !byLever, until: 'overdraw', ...NOWHERE }));
    drive(false);
    steps.push(made(at, turnOf(false, 1)));
    if (p > to) steps.push(made(at, shiftOf('left', 1)));
  }
  drive(wasSubtracting);
  if (movesCount) steps.push(made(at, { kind: 'count', sense: 'plus', ...NOWHERE }));
  return { steps };
}

/** Whether a subtracting turn would be counted down on a counter that shows that as a complement. */
export function countsAsComplement(state: State, profile: Profile): boolean {
  if (profile.counter === 0 || profile.counterCarry === 'signed') return false;
  switch (profile.count) {
    case 'follow':
      return true;
    case 'first':
      return has(state, SENSE_ADD);
    case 'lever':
      // By hand the lever is put to minus; automatic division turns with the lever as it stands.
      return has(state, AUTO_DIVIDE) && !has(state, COUNT_MINUS);
  }
}

const NOWHERE = { from: 0, to: 0 } as const;
const made = (at: Step, syntax: StepSyntax): Step => ({ line: at.line, syntax });

function turnOf(back: boolean, times: number): StepSyntax {
  return { kind: 'turn', back, ...(times !== 1 && { count: numberSyntax(times) }), ...NOWHERE };
}

function shiftOf(way: 'right' | 'left', positions: number): StepSyntax {
  return { kind: 'shift', way, half: false, ...(positions !== 1 && { count: numberSyntax(positions) }), ...NOWHERE };
}

const numberSyntax = (n: number): NumberSyntax => ({
  kind: 'number',
  text: String(n),
  figures: String(n),
  isValue: false,
  decimals: 0,
  ...NOWHERE,
});
