/**
 * What somebody reads off a machine in a run: the readings that `expect` and `ask` name, in the order in which they are
 * taken. What is compared with another machine, or another session at the bench, is this and nothing else.
 */
import type { AskStep, ExpectItem, ExpectStep, Step } from '../../grammar/tree.js';
import {
  LEVERS,
  NEGATIVE,
  numberIn,
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  type Profile,
  RANG,
  REGISTER_AT,
  type Register,
  type State,
} from '../machine/index.js';
import type { Run } from './run.js';

export type Looked = Register | Exclude<ExpectItem['kind'], 'register'>;

/** What an item of `expect`, `ask` or `found` reads. */
export const lookedIn = (item: ExpectItem): Looked => (item.kind === 'register' ? item.register : item.kind);

/** One reading: a register's figures as a whole number, the carriage's position (0 out of gear), or whether something is so. */
export interface Look {
  readonly what: Looked;
  readonly shown: bigint | number | boolean;
}

/** What is shown, as findings carry it: figures of a register are text. */
export type Told = string | number | boolean;

export const toldOf = (shown: Look['shown']): Told => (typeof shown === 'bigint' ? String(shown) : shown);

/** A machine as it stands when somebody looks; `happened` are the levers' bits after the last step that is not itself a reading. */
export interface Moment {
  readonly state: State;
  readonly happened: number;
}

/** A step in which somebody looks, and what the machine then shows. */
export interface Looking extends Moment {
  readonly row: number;
  readonly step: Step<ExpectStep | AskStep>;
}

export const isLooking = (step: Step): step is Step<ExpectStep | AskStep> =>
  step.syntax.kind === 'expect' || step.syntax.kind === 'ask';

/**
 * What a step reads on a machine. Nothing where the machine lacks what it asks for: then nobody reads anything.
 */
export function looksAt(step: Step<ExpectStep | AskStep>, moment: Moment, profile: Profile): Look[] {
  return readablesOf(step, profile).map((what) => ({ what, shown: shownOf(what, moment, profile) }));
}

/** What a step looks at, as far as the machine has it. */
function readablesOf({ syntax }: Step<ExpectStep | AskStep>, profile: Profile): Looked[] {
  const all = syntax.items.map((item) => ('register' in item ? item.register : item.kind));
  if (profile.counter === 0 && all.includes('counter')) return [];
  return profile.bell ? all : all.filter((what) => what !== 'bell');
}

/** What a reading shows at a moment. */
export function shownOf(what: Looked, { state, happened }: Moment, profile: Profile): Look['shown'] {
  switch (what) {
    case 'bell':
      return (happened & RANG) !== 0;
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
export function lookingsIn({ tape }: Pick<Run, 'tape'>): Looking[] {
  const lookings: Looking[] = [];
  let happened = 0;
  for (let row = 0; row < tape.length; row++) {
    const step = tape.stepAt(row);
    if (moves(step)) happened = tape.lookAt(row)[LEVERS];
    if (isLooking(step)) lookings.push({ row, step, state: tape.stateAt(row), happened });
  }
  return lookings;
}

/** A step that expects something, and the machine there: all that could be read, whatever the step names. */
export interface Expecting extends Looking {
  readonly step: Step<ExpectStep>;
}

/** Every `expect` of a run in the order in which they are carried out, those of rounds and of other sequences as well. */
export const expectingsIn = (run: Pick<Run, 'tape'>): Expecting[] => lookingsIn(run).filter(isExpecting);

const isExpecting = (looking: Looking): looking is Expecting => looking.step.syntax.kind === 'expect';

/** Whether somebody who looks sees something else on one machine than on another. */
export function seesDifference(
  step: Step<ExpectStep | AskStep>,
  one: Moment,
  other: Moment,
  profile: Profile,
): boolean {
  return readablesOf(step, profile).some((what) => showsOtherwise(what, one, other, profile));
}

/** The same of one reading. */
export function showsOtherwise(what: Looked, one: Moment, other: Moment, profile: Profile): boolean {
  if (what in REGISTER_AT) {
    const at = REGISTER_AT[what as Register];
    const [a, b] = [one.state, other.state];
    const isSame = a[at] === b[at] && a[at + 1] === b[at + 1] && a[at + 2] === b[at + 2];
    // Wheels of a signed counter may stand otherwise and read the same.
    if (what !== 'counter' || profile.counterCarry !== 'signed') return !isSame;
    if (isSame && a[NEGATIVE] === b[NEGATIVE]) return false;
  }
  return shownOf(what, one, profile) !== shownOf(what, other, profile);
}

/**
 * The first reading, counted from 0, at which a run with a fault parts from that of the sound machine. Where the faulty
 * machine never ends a step, that is the first reading to which it does not come. Undefined if nobody notices.
 *
 * Invariant: both runs come to the same readings in the same order, for no step that a fault touches decides what is
 * carried out next, but for those that a `multiply` or `divide` stands for.
 */
export function partingOf(sound: Run, faulty: Run): number | undefined {
  const { profile } = sound.order;
  const shown = lookingsIn(sound);
  const found = lookingsIn(faulty);
  const at = shown.findIndex((one, i) => i >= found.length || seesDifference(one.step, one, found[i], profile));
  if (at >= 0) return at;
  return faulty.brokeOff && !sound.brokeOff ? shown.length : undefined;
}
