/** `multiply` and `divide`, opened out into the single steps that they stand for. */
import type { NumberSyntax, Step } from '../../grammar/tree.js';
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
import { countStep, modeStep, shiftStep, turnStep, turnUntil } from './made.js';
import { alignedDigits, withoutLeadingZeros } from './readings.js';
import { crankFigures, type Machine, shortFigures } from './short.js';

export type Opened = { readonly steps: Iterable<Step> } | { readonly refused: Facts };

/**
 * Turns and shifts for the figures of a number, units first, from the position in which the carriage stands. Zeros are
 * shifted over, and the carriage stays where the last turn was made.
 */
export function openMultiply(at: Step, by: NumberSyntax, short: boolean, machine: Machine): Opened {
  const { state, profile } = machine;
  const marker = pointOf(state, 'counter');
  const digits = alignedDigits(by, marker);
  if (digits === undefined) {
    return { refused: { code: 'too-many-decimals', register: 'counter', number: by.text, marker } };
  }
  const multiplier = withoutLeadingZeros(digits);
  const position = state[POSITION];
  if (position === 0) return { refused: { code: 'carriage-parked', times: 0 } };
  const last = position + multiplier.length - 1;
  if (multiplier !== '0' && last > profile.carriage) {
    return { refused: { code: 'carriage-end', at: position, positions: profile.carriage, wanted: String(last) } };
  }
  const figures = short ? shortFigures(multiplier, machine) : Array.from(multiplier, Number).reverse();
  return { steps: crankFigures(at, figures, machine) };
}

/** What `divide` needs to know before it starts. */
export interface DivisionStart {
  readonly position: number;
  readonly to: number;
}

/**
 * By hand: in each position turn until overdraw, restore by one turn, shift left. The levers that it needs are moved
 * and left as they were found.
 */
export function* openDivide(at: Step, { position, to }: DivisionStart, { state, profile }: Machine): Iterable<Step> {
  const byLever = hasDriveLever(profile);
  const wasSubtracting = has(state, SUBTRACTING);
  const movesCount = profile.count === 'lever' && !has(state, COUNT_MINUS);
  let subtracting = wasSubtracting;
  function* drive(wanted: boolean): Iterable<Step> {
    if (byLever && subtracting !== wanted) yield modeStep(at, wanted);
    subtracting = wanted;
  }
  if (movesCount) yield countStep(at, true);
  for (let p = position; p >= to; p--) {
    yield* drive(true);
    yield turnUntil(at, !byLever, 'overdraw');
    yield* drive(false);
    yield turnStep(at, false, 1);
    if (p > to) yield shiftStep(at, 'left', 1);
  }
  yield* drive(wasSubtracting);
  if (movesCount) yield countStep(at, false);
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
