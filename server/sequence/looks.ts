/**
 * What somebody reads off a machine in a run: the readings that `expect` and `ask` name, in the order in which they are
 * taken. What is compared with another machine, or another session at the bench, is this and nothing else.
 */
import type { AskStep, ExpectItem, ExpectStep, Step } from '../../grammar/tree.js';
import {
  LEVERS,
  numberIn,
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  type Profile,
  RANG,
  type Register,
  type State,
} from '../machine/index.js';
import type { Run } from './run.js';

export type Looked = Register | Exclude<ExpectItem['kind'], 'register'>;

/** One reading: a register's figures as a whole number, the carriage's position (0 out of gear), or whether something is so. */
export interface Look {
  readonly what: Looked;
  readonly shown: bigint | number | boolean;
}

/** A step in which somebody looks, with all that it names. */
export interface Looking {
  readonly row: number;
  readonly step: Step<ExpectStep | AskStep>;
  readonly looks: readonly Look[];
}

export const isLooking = (step: Step): step is Step<ExpectStep | AskStep> =>
  step.syntax.kind === 'expect' || step.syntax.kind === 'ask';

/**
 * What a step reads on a machine; `happened` are the levers' bits after the last step that is not itself a reading.
 * Nothing where the machine lacks what it asks for, or a number is not known: then nobody reads anything.
 */
export function looksAt(
  { syntax }: Step<ExpectStep | AskStep>,
  state: State,
  happened: number,
  profile: Profile,
): Look[] {
  const looks: Look[] = [];
  for (const item of syntax.items) {
    const what = 'register' in item ? item.register : item.kind;
    if (what === 'counter' && profile.counter === 0) return [];
    const shown = shownOf(what, state, happened, profile);
    if (shown !== undefined) looks.push({ what, shown });
  }
  return looks;
}

function shownOf(what: Looked, state: State, happened: number, profile: Profile): Look['shown'] | undefined {
  switch (what) {
    case 'bell':
      return profile.bell ? (happened & RANG) !== 0 : undefined;
    case 'overflow':
      return (happened & OVERFLOWED) !== 0;
    case 'overdraw':
      return (happened & OVERDRAWN) !== 0;
    case 'parked':
      return state[POSITION] === 0;
    case 'carriage':
      return state[POSITION];
    default:
      return numberIn(state, profile, what);
  }
}

/** Steps that tell what happened when they are over; readings and prose leave that as it was. */
export const moves = ({ syntax: { kind } }: Step): boolean =>
  kind !== 'expect' && kind !== 'ask' && kind !== 'note' && kind !== 'caution';

/** All readings of a run, as far as it went. */
export function lookingsIn({ tape, order: { profile } }: Pick<Run, 'tape' | 'order'>): Looking[] {
  const lookings: Looking[] = [];
  let happened = 0;
  for (let row = 0; row < tape.length; row++) {
    const step = tape.stepAt(row);
    if (moves(step)) happened = tape.lookAt(row)[LEVERS];
    if (isLooking(step)) lookings.push({ row, step, looks: looksAt(step, tape.lookAt(row), happened, profile) });
  }
  return lookings;
}

/** Whether two machines, or two sessions, show something else at the same step. */
export const differ = (some: readonly Look[], others: readonly Look[]): boolean =>
  some.length !== others.length || some.some(({ shown }, i) => shown !== others[i].shown);

/**
 * The first reading, counted from 0, at which a run with a fault parts from that of the sound machine. Where the faulty
 * machine never ends a step, that is the first reading to which it does not come. Undefined if nobody notices.
 *
 * Invariant: both runs come to the same readings in the same order, for no step that a fault touches decides what is
 * carried out next, but for those that a `multiply` or `divide` stands for.
 */
export function partingOf(sound: Run, faulty: Run): number | undefined {
  const shown = lookingsIn(sound);
  const found = lookingsIn(faulty);
  const at = shown.findIndex(({ looks }, i) => i >= found.length || differ(looks, found[i].looks));
  if (at >= 0) return at;
  return faulty.brokeOff && !sound.brokeOff ? shown.length : undefined;
}
