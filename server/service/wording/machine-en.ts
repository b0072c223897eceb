/** What the panel that shows the machine says of it, in English. */
import type { Register } from '../../machine/index.js';

const NAMES = { setting: 'Lever', counter: 'Counter, place', result: 'Result, place' } as const;
const MARKERS = { setting: 'setting', counter: 'counter', result: 'result' } as const;

export const machine = {
  noSequence: 'There is no sequence in this file, and so no machine to show.',
  noSuchSequence: (name: string) => `There is no sequence called ${name} in this file any more.`,
  notRun: 'The sequence can’t be run, for want of a machine.',
  /** An error in the text; the machine is shown as it would be without that line. */
  leftOut: (message: string) => `${message} The machine is shown as if this were not there.`,
  atStart: 'Before the first step',
  step: (number: number, all: number) => `Step ${number} of ${all}`,
  turn: (number: number, all: number) => `turn ${number} of ${all}`,
  round: (number: number, all: number | undefined) =>
    all === undefined ? `round ${number}` : `round ${number} of ${all}`,
  within: (step: string) => `in ${step}`,
  /** The machine has one, as it is written. */
  fault: (fault: string) => `fault: ${fault}`,
  effort: (effort: string) => `So far: ${effort}`,
  nothing: 'nothing moves',
  /** What is wrong, or will be with the next step. */
  next: 'With the next step',
  further: 'With the turns to come',
  now: 'Now',
  /** Where that is marked in the figure. */
  marked: (places: string) => `Hatched: ${places}.`,
  registers: { setting: 'setting', counter: 'counter', result: 'result' } as Readonly<Record<Register, string>>,
  carriage: 'carriage',
  marker: (register: Register) => `marker of the ${MARKERS[register]}`,
  /** A part of the figure, for whoever does not see it. */
  parts: {
    wheel: (register: Register, place: number, figure: string) => `${NAMES[register]} ${place}: ${figure}`,
    marker: (register: Register, decimals: number) =>
      `Marker of the ${MARKERS[register]}: ${decimals === 1 ? '1 decimal' : `${decimals} decimals`}`,
    carriage: (position: string) => `Carriage: ${position}`,
    device: (name: string, now: string) => `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${now}`,
    bell: 'Bell: it rang',
    heeded: (name: string) => `${name}, hatched`,
  },
};
