/** Comparing what a register shows with what a sequence expects. */
import type { ExpectItem, NumberSyntax } from '../../grammar/tree.js';
import {
  hasSignedWheels,
  numberIn,
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  type Profile,
  pointOf,
  RANG,
  type Register,
  type State,
  textOf,
} from '../machine/index.js';
import type { Differs } from './findings.js';
import { readingOf } from './hands.js';
import { alignedDigits, wholeOf, withoutLeadingZeros } from './readings.js';

/** What a register must read to meet a number, in units of its last decimal; undefined if it can't read that at all. */
export function unitsExpected(
  number: NumberSyntax,
  negative: boolean,
  state: State,
  profile: Profile,
  register: Register,
): bigint | undefined {
  const marker = pointOf(state, register);
  let digits = alignedDigits(number, marker);
  if (digits === undefined) {
    // More decimals than the marker leaves: met only if the surplus is zeros.
    const surplus = number.decimals - marker;
    if (/[1-9]/.test(number.figures.slice(-surplus))) return undefined;
    digits = number.figures.slice(0, -surplus) || '0';
  }
  const units = BigInt(digits);
  if (!negative || units === 0n) return units;
  return hasSignedWheels(profile, register) ? -units : 10n ** BigInt(profile[register]) - units;
}

/**
 * How a reading differs from what is expected, or undefined if it meets it. Bell, overflow and overdraw are read
 * from what happened in the step before, as bits of the levers.
 */
export function compare(item: ExpectItem, state: State, happened: number, profile: Profile): Differs | undefined {
  switch (item.kind) {
    case 'bell':
      return happened & RANG ? undefined : { is: 'bell' };
    case 'overflow':
      return happened & OVERFLOWED ? undefined : { is: 'overflow' };
    case 'overdraw':
      return happened & OVERDRAWN ? undefined : { is: 'overdraw' };
    case 'parked':
      return state[POSITION] === 0 ? undefined : { is: 'parked' };
    case 'carriage': {
      const number = item.position as NumberSyntax;
      if (wholeOf(number) === state[POSITION]) return undefined;
      return { is: 'carriage', expected: number.text, reading: state[POSITION] };
    }
    case 'register': {
      const { register, negative } = item;
      const number = item.figures as NumberSyntax;
      const expected = unitsExpected(number, negative, state, profile, register);
      const reading = numberIn(state, profile, register);
      if (expected === reading) return undefined;
      const place = expected === undefined ? undefined : firstDifference(expected, reading, profile, register);
      return {
        is: 'register',
        register,
        expected: (negative ? '-' : '') + number.text,
        reading: number.isValue ? readingOf(state, profile, register) : figuresOf(state, profile, register),
        ...(place !== undefined && { place }),
      };
    }
  }
}

/** The figures without leading zeros; signed wheels one by one, as they show. */
function figuresOf(state: State, profile: Profile, register: Register): string {
  const text = textOf(state, profile, register);
  return text.includes('-') ? text : withoutLeadingZeros(text);
}

/** The lowest wheel that differs: with a carry missing it is the one to look at. */
function firstDifference(expected: bigint, reading: bigint, profile: Profile, register: Register): number | undefined {
  const places = profile[register];
  if (expected < 0n || reading < 0n || expected >= 10n ** BigInt(places)) return undefined;
  let a = expected;
  let b = reading;
  for (let place = 1; place <= places; place++) {
    if (a % 10n !== b % 10n) return place;
    a /= 10n;
    b /= 10n;
  }
  return undefined;
}
