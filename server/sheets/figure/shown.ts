/** What single wheels show, and which of them show something else than before. */
import {
  figuresIn,
  hasSignedWheels,
  type Profile,
  pointOf,
  type Register,
  type State,
  textOf,
} from '../../machine/index.js';
import type { FigureData } from '../model.js';

export interface Shown {
  readonly register: Register;
  /** From the right, 1 the units. */
  readonly place: number;
  readonly figure: number;
  readonly isNegative: boolean;
  readonly isChanged: boolean;
  /** A zero before the number, which is not read. */
  readonly isFiller: boolean;
}

/** Figures with their signs, the units first. */
const figuresOf = (state: State, profile: Profile, register: Register): string[] =>
  figuresIn(textOf(state, profile, register)).reverse();

/** The wheels of a register, the units first. */
export function shownOf({ profile, before, after }: FigureData, register: Register): Shown[] {
  const then = figuresOf(before, profile, register);
  const now = figuresOf(after, profile, register);
  const highest = Math.max(pointOf(after, register) + 1, now.findLastIndex((figure) => figure !== '0') + 1);
  return now.map((figure, i) => ({
    register,
    place: i + 1,
    figure: Math.abs(Number(figure)),
    isNegative: figure.startsWith('-'),
    isChanged: figure !== then[i],
    // Each wheel of a signed counter counts for itself.
    isFiller: i >= highest && figure === then[i] && !hasSignedWheels(profile, register),
  }));
}

export const changedPlaces = (data: FigureData, register: Register): number[] =>
  shownOf(data, register).flatMap(({ place, isChanged }) => (isChanged ? [place] : []));
