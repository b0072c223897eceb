/** What a machine shows, as it is read off. */
import {
  hasSignedWheels,
  POSITION,
  type Profile,
  pointOf,
  REGISTERS,
  type Register,
  type State,
  showsZero,
  textOf,
} from '../machine/index.js';
import { readingOf } from '../sequence/hands.js';
import { wheelsText } from '../sequence/readings.js';
import type { Text } from './model.js';
import { formed } from './numbers.js';
import { plainText } from './spans.js';
import type { SheetWords } from './wording/index.js';

/** A step in its place: what the machine showed before it and what it shows after it. */
export interface StepPlace {
  readonly before: State;
  readonly after: State;
  readonly profile: Profile;
}

/** A decimal number as a reading in the form of a language. */
export const readingSpan = (number: string, { numbers }: SheetWords): Text => [{ reading: formed(number, numbers) }];

/**
 * A register read at its marker, without leading zeros. A complement is told as the figures that stand there. Marked
 * figures are told as their sum, and with it what the wheels show one by one.
 */
export function shownReading(state: State, profile: Profile, register: Register, words: SheetWords): Text {
  const reading = readingSpan(readingOf(state, profile, register), words);
  const text = textOf(state, profile, register);
  if (!hasSignedWheels(profile, register) || !text.includes('-')) return reading;
  const wheels = wheelsText(text);
  // A single marked figure reads the same either way.
  return plainText(reading) === wheels ? reading : [...reading, ...words.steps.onWheels([{ reading: wheels }])];
}

/**
 * What the machine shows after a step, one text a register: `result 421.40`. With `registers` these alone, without them
 * whatever has changed, and the carriage's position if it has. A register that the machine has not is left out.
 */
export function readingsOf(at: StepPlace, words: SheetWords, registers?: readonly Register[]): Text[] {
  const { before, after, profile } = at;
  const told = (registers ?? REGISTERS.filter((register) => hasChanged(register, at))).filter((r) => profile[r] > 0);
  const readings: Text[] = told.map((register) => [
    `${words.parts.registers[register]} `,
    ...shownReading(after, profile, register, words),
  ]);
  const moves = registers === undefined && before[POSITION] !== after[POSITION];
  return moves ? [...readings, [words.steps.carriage(after[POSITION])]] : readings;
}

/** Whether a register is worth reading again: a marker that moves over noughts changes nothing. */
export function hasChanged(register: Register, { before, after, profile }: StepPlace): boolean {
  if (textOf(before, profile, register) !== textOf(after, profile, register)) return true;
  return !showsZero(after, register) && pointOf(before, register) !== pointOf(after, register);
}
