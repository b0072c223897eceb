/**
 * What sheets say, in English. Another language is another file with the same exports.
 *
 * Each part below belongs to one part of the printing.
 */
import { THIN_SPACE } from '../numbers.js';

export const numbers = { point: '.', group: THIN_SPACE };

/** How arithmetic is written; `power` where an exponent is no whole number. */
export const arithmetic = { signs: { '+': '+', '-': '−', '*': '×', '/': '÷' }, power: ' to the power of ' };

/** Names of what a machine has, as they stand in running text. */
export const parts = {
  registers: { setting: 'setting', counter: 'counter', result: 'result' },
};

/** Bench sheets. */
export { bench } from './bench-en.js';
/** Exercises and their key. */
export { exercise } from './exercise-en.js';
/** The register figure. */
export { figure } from './figure-en.js';
/** What stands at the head of every kind of sheet. */
export { head } from './head-en.js';
/** Operating instructions. */
export { operating } from './operating-en.js';
/** A run as a table. */
export { readings } from './readings-en.js';
/** A sentence for every step, where the machine has no wording of its own. */
export { steps } from './steps-en.js';

/** What frames every sheet: page, contents, kinds. */
export const page = {
  kinds: {
    log: 'Bench records',
    operating: 'Operating instructions',
    exercise: 'Exercise sheet',
    key: 'Answer key',
    bench: 'Bench sheet',
  },
  note: 'Note',
  caution: 'Caution',
  /** What a screen reader says of a line to write on. */
  toWrite: (label: string) => (label === '' ? 'to be filled in' : `${label}: to be filled in`),
  toTick: 'to be ticked',
  /** Around a page’s number and the number of pages. */
  pageOf: { before: 'Page ', between: ' of ' },
};
