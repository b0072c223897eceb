/**
 * A machine's state is a value: sixteen whole numbers in an array.
 *
 * Invariant: a turn or a step changes the state it is given and nothing else. Who wants to keep a state copies it, which
 * is what the trace does after every step.
 */
import { isZero, setZero, toText } from './figures.js';
import type { Profile } from './profile.js';

export type State = Int32Array;

/** Where things stand in a state. Registers take three numbers each (figures.ts). */
export const SETTING = 0;
export const COUNTER = 3;
export const RESULT = 6;
/** Bit `place − 1` is set where a wheel of a signed counter shows a negative figure. */
export const NEGATIVE = 9;
/** The carriage: 1 … carriage, or 0 out of gear. */
export const POSITION = 10;
/** Levers and buttons, as the bits below. */
export const LEVERS = 11;
/** Decimals of setting, counter and result, five bits each. */
export const POINTS = 12;
/** Overflows less overdraws since the result was last cleared, dialled or transferred. */
export const WRAPS = 13;
/** Turns made in the step; the mechanism itself does not read it. */
export const TURNS = 14;
/** Left to the runner: which `repeat`, `run`, `multiply` or `divide` the step belongs to. */
export const FRAME = 15;
/** How many numbers a state has. */
export const STATE_SIZE = 16;

/** The drive stands at subtract. */
export const SUBTRACTING = 1;
/** The count lever stands at minus. */
export const COUNT_MINUS = 2;
export const AUTO_CLEAR = 4;
export const AUTO_DIVIDE = 8;
/** Automatic division has overdrawn and will restore with the next turn. */
export const RESTORING = 16;
/** A `first` counter has taken its sense: up for adding, or up for subtracting turns. */
export const SENSE_ADD = 32;
export const SENSE_SUBTRACT = 64;
/** The bell rang in the step. */
export const RANG = 128;
/** The result overflowed or was overdrawn in the step. */
export const OVERFLOWED = 256;
export const OVERDRAWN = 512;
/** The step could not be done and moved nothing. */
export const REFUSED = 1024;
/** On a machine whose carry sticks: it has been delivered once, and is now delivered in every turn (faulty.ts). */
export const CARRY_STUCK = 2048;
/** The bits that say what happened in a step. */
export const OF_THE_STEP = RANG | OVERFLOWED | OVERDRAWN | REFUSED;

export const REGISTERS = ['setting', 'counter', 'result'] as const;
/** The levers count as a register. */
export type Register = (typeof REGISTERS)[number];
/** Where a register's figures stand in a state. */
export const REGISTER_AT = { setting: SETTING, counter: COUNTER, result: RESULT } as const;
const POINT_SHIFT = { setting: 0, counter: 5, result: 10 } as const;

/** Every register at 0, the carriage in position 1, the drive adding, the buttons out. */
export function newState(): State {
  const state = new Int32Array(STATE_SIZE);
  state[POSITION] = 1;
  return state;
}

export const has = (state: State, bits: number): boolean => (state[LEVERS] & bits) !== 0;

export function put(state: State, bits: number, on: boolean): void {
  state[LEVERS] = on ? state[LEVERS] | bits : state[LEVERS] & ~bits;
}

/** Forgets what happened in the step before. */
export function beginStep(state: State): void {
  state[LEVERS] &= ~OF_THE_STEP;
  state[TURNS] = 0;
}

export const pointOf = (state: State, register: Register): number => (state[POINTS] >> POINT_SHIFT[register]) & 31;

export function putPoint(state: State, register: Register, decimals: number): void {
  const shift = POINT_SHIFT[register];
  state[POINTS] = (state[POINTS] & ~(31 << shift)) | (decimals << shift);
}

/**
 * Clears a register, and with it what hangs on it: wraps and a stuck carry on the result, the sense on a `first` counter.
 */
export function clearRegister(state: State, register: Register): void {
  setZero(state, REGISTER_AT[register]);
  if (register === 'result') {
    state[WRAPS] = 0;
    put(state, CARRY_STUCK, false);
  }
  if (register === 'counter') {
    state[NEGATIVE] = 0;
    put(state, SENSE_ADD | SENSE_SUBTRACT, false);
  }
}

export const showsZero = (state: State, register: Register): boolean => isZero(state, REGISTER_AT[register]);

/** A register as it shows: highest place first, `-` before a negative figure of a signed counter. */
export function textOf(state: State, profile: Profile, register: Register): string {
  const text = toText(state, REGISTER_AT[register], profile[register]);
  if (register !== 'counter' || state[NEGATIVE] === 0) return text;
  const marked = Array.from(text, (figure, i) =>
    (state[NEGATIVE] >> (text.length - 1 - i)) & 1 ? `-${figure}` : figure,
  );
  return marked.join('');
}

/** The single figures of such a text, a negative one with its sign. */
export const figuresIn = (text: string): string[] => text.match(/-?\d/g) ?? [];

/** What a register counts for as a whole number, markers left aside; a signed counter the sum of its figures. */
export function numberIn(state: State, profile: Profile, register: Register): bigint {
  const text = toText(state, REGISTER_AT[register], profile[register]);
  if (text === '') return 0n;
  if (register !== 'counter' || state[NEGATIVE] === 0) return BigInt(text);
  let sum = 0n;
  Array.from(text).forEach((figure, i) => {
    const isNegative = (state[NEGATIVE] >> (text.length - 1 - i)) & 1;
    sum = sum * 10n + BigInt(isNegative ? -Number(figure) : Number(figure));
  });
  return sum;
}
