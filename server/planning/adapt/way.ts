/**
 * How two machines correspond: where the carriage and the levers of one stand when those of the other stand so.
 *
 * Invariant: after each step that was carried over, the new machine stands as this file says, so that every step can be
 * carried over by itself.
 */
import {
  COUNT_MINUS,
  has,
  hasDriveLever,
  leftmost,
  POSITION,
  type Profile,
  pointOf,
  type Register,
  type State,
  SUBTRACTING,
} from '../../machine/index.js';
import { decimalText } from '../../sequence/readings.js';
import type { Building } from './building.js';
import { type Notes, type Obstacle, Refusal } from './facts.js';
import type { Liveness, Strictness } from './liveness.js';
import type { Occurrence, Walk } from './walk.js';

/** By how many places the markers of setting and counter stand further right than before. */
export interface Moved {
  readonly setting: number;
  readonly counter: number;
}

export interface Way {
  readonly from: Profile;
  readonly to: Profile;
  readonly moved: Moved;
  /** `short` may stay where it is. */
  readonly keepsShort: boolean;
  readonly liveness: ReadonlyMap<Walk, Liveness>;
  /** What counts as read there. */
  readonly strictness: Strictness;
  /** Where what was subtracted is built up instead; missing where that is not tried. */
  readonly building?: ReadonlyMap<Walk, Building>;
  /** Notes for the reader, in the language of the order. */
  readonly notes: Notes;
  /** Set where the machine subtracts by adding a complement. */
  byComplement: boolean;
}

/** A place in a run: before a row. */
export interface Spot {
  readonly walk: Walk;
  readonly row: number;
  /** The line of the section, for obstacles. */
  readonly line: number;
}

export const spotBefore = (o: Occurrence): Spot => ({ walk: o.run, row: o.first, line: o.step.line });
export const spotAfter = (o: Occurrence): Spot => ({ walk: o.run, row: o.end, line: o.step.line });

export const movedOf = ({ moved }: Way, register: Register): number =>
  register === 'result' ? moved.setting + moved.counter : moved[register];

/** In which position the carriage of the new machine stands, 0 out of gear. */
export function positionAt(way: Way, { walk, row }: Spot): number {
  const position = walk.stateBefore(row)[POSITION];
  if (position > 0) return Math.max(1, position - way.moved.counter);
  const canStay = leftmost(way.to) === 0 || (way.to.autoDivide && walk.isParkedByTurn(row));
  return canStay ? 0 : 1;
}

/** Whether the new machine's drive lever stands at subtract. */
export const isSubtracting = ({ from, to }: Way, state: State): boolean =>
  hasDriveLever(from) && hasDriveLever(to) && has(state, SUBTRACTING);

/** Whether the new machine's count lever stands at minus. */
export const isMinus = ({ from, to }: Way, state: State): boolean =>
  from.count === 'lever' && to.count === 'lever' && has(state, COUNT_MINUS);

/** A number in the new machine's result, with its decimal marker as it stands there. */
export const asRead = (way: Way, value: bigint, state: State): string =>
  decimalText(value, Math.max(0, pointOf(state, 'result') - movedOf(way, 'result')));

export function refuse(obstacle: Obstacle): never {
  throw new Refusal(obstacle);
}

/** A whole number with fewer places at its right, or undefined if figures would be lost. */
export function lowered(value: bigint, places: number): bigint | undefined {
  const power = 10n ** BigInt(places);
  return value % power === 0n ? value / power : undefined;
}

/** The shifts from one position to another; 0 is out of gear. */
export function shifts(from: number, to: number): string[] {
  if (from === to) return [];
  if (to === 0) return ['shift out'];
  const by = Math.abs(to - from);
  return [`shift ${to > from ? 'right' : 'left'}${by === 1 ? '' : ` ${by}`}`];
}

export const placesOf = (value: bigint): number => (value < 0n ? -value : value).toString().length;
