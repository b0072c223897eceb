/** What a screen reader says in place of the figure: all that is seen in it, in sentences. */
import {
  has,
  hasHalfSteps,
  numberIn,
  POSITION,
  pointOf,
  type Register,
  type State,
  SUBTRACTING,
  textOf,
  WRAPS,
} from '../../machine/index.js';
import { decimalText, wheelsText } from '../../sequence/readings.js';
import type { FigureData } from '../model.js';
import { formed } from '../numbers.js';
import type { SheetWords } from '../wording/index.js';
import { carryRange, devicesOf, registersOf } from './devices.js';
import { changedPlaces } from './shown.js';

export const titleOf = ({ profile }: FigureData, { figure }: SheetWords): string =>
  figure.spoken.title(profile.title ?? profile.name);

export function figureText(data: FigureData, words: SheetWords): string {
  const { profile, before, after, rang } = data;
  const { spoken } = words.figure;
  const sentences = [spoken.carriage(after[POSITION])];
  if (before[POSITION] !== after[POSITION]) sentences.push(spoken.carriageBefore(before[POSITION]));
  if (after[POSITION] > 0) sentences.push(...levers(data, words));
  sentences.push(...registersOf(profile).map((register) => `${registerText(data, register, words)}.`));
  for (const { name, now, before: then } of devicesOf(data, words)) sentences.push(spoken.device(name, now, then));
  if (profile.reach !== undefined && after[POSITION] > 0) {
    sentences.push(spoken.carry(carryRange(profile, after[POSITION])?.[1]));
  }
  if (rang) sentences.push(spoken.bell);
  return sentences.join(' ');
}

function levers({ profile, after }: FigureData, { figure }: SheetWords): string[] {
  const { spoken } = figure;
  const position = after[POSITION];
  const driving = Math.min(profile.setting, profile.result - position + 1);
  const said: string[] = [];
  if (driving > 0) said.push(spoken.levers(driving, position, position + driving - 1));
  if (driving < profile.setting) said.push(spoken.leversBeyond(Math.max(0, driving) + 1, profile.setting));
  if (hasHalfSteps(profile) && has(after, SUBTRACTING)) said.push(spoken.halfRight);
  return said;
}

/** A reading, what it was before, and where it has changed. */
function registerText(data: FigureData, register: Register, words: SheetWords): string {
  const { before, after } = data;
  const { spoken } = words.figure;
  const parts = [spoken.reading(register, readingText(data, after, register, words))];
  const changed = changedPlaces(data, register);
  const decimals = pointOf(after, register);
  const isMarkerMoved = decimals !== pointOf(before, register);
  if (changed.length > 0 || isMarkerMoved) parts.push(spoken.before(readingText(data, before, register, words)));
  if (changed.length > 0) parts.push(spoken.changed(changed));
  if (isMarkerMoved) parts.push(spoken.markerMoved(decimals));
  // A comma may stand within a reading.
  return parts.join('; ');
}

/** A register read at its marker; where wheels show negative figures, these too, and of a complement what it is of. */
function readingText({ profile }: FigureData, state: State, register: Register, words: SheetWords): string {
  const { spoken } = words.figure;
  const decimals = pointOf(state, register);
  const number = numberIn(state, profile, register);
  const reading = formed(decimalText(number, decimals), words.numbers);
  const figures = textOf(state, profile, register);
  if (figures.includes('-')) return `${reading} (${spoken.wheels(wheelsText(figures))})`;
  if (register !== 'result' || state[WRAPS] >= 0) return reading;
  const below = -(number + BigInt(state[WRAPS]) * 10n ** BigInt(profile.result));
  return `${reading} (${spoken.standsFor(formed(decimalText(below, decimals), words.numbers))})`;
}
