/** Which levers or wheels the figures of a step go to. */
import type { Argument, Part } from '../../grammar/tree.js';
import { has, pointOf, REFUSED, textOf } from '../machine/index.js';
import { alignedDigits, wholeOf } from '../sequence/readings.js';
import type { StepPlace } from './shown.js';

/** A number as it is written, in plain decimal form; a parameter without a value by its name. */
export function numberText(argument: Argument): string {
  if (argument.kind === 'name') return argument.name;
  const { figures, decimals } = argument;
  if (!argument.isValue) return figures;
  return `${figures.slice(0, figures.length - decimals) || '0'}.${figures.slice(figures.length - decimals)}`;
}

/** How often or how far: 1 where it is left out, and as it is written where it is no whole number. */
export function countOf(argument: Argument | undefined): number | string {
  if (argument === undefined) return 1;
  return (argument.kind === 'number' ? wholeOf(argument) : undefined) ?? numberText(argument);
}

/** Places are counted from the right. */
export interface Placed {
  /** The figures as they stand on the levers or wheels, without a point. */
  readonly digits: string;
  /** The place of the first figure and that of the last one. */
  readonly from: number;
  readonly to: number;
}

/** Where the figures of a part go; undefined where the machine did not take them. */
export function placedPart(part: Part, at: StepPlace, register: 'setting' | 'result'): Placed | undefined {
  if (part.figures.kind === 'name' || has(at.after, REFUSED)) return undefined;
  const digits = alignedDigits(part.figures, pointOf(at.after, register));
  const place = part.at === undefined ? 1 : part.at.kind === 'number' ? wholeOf(part.at) : undefined;
  if (digits === undefined || place === undefined || place < 1) return undefined;
  const from = place + digits.length - 1;
  return from > at.profile[register] ? undefined : { digits, from, to: place };
}

/** Whether a lever or wheel outside these places stood at another figure than 0 and has to be moved there as well. */
export function movesOthers(placed: readonly Placed[], at: StepPlace, register: 'setting' | 'result'): boolean {
  const { profile, before } = at;
  return Array.from(textOf(before, profile, register)).some((figure, i) => {
    const place = profile[register] - i;
    return figure !== '0' && !placed.some(({ from, to }) => to <= place && place <= from);
  });
}
