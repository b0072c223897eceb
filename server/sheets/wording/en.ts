/**
 * What sheets say, in English. Another language is another file with the same exports.
 *
 * Each part below belongs to one part of the printing.
 */
import { THIN_SPACE } from '../numbers.js';

export const numbers = { point: '.', group: THIN_SPACE };

/** Names of what a machine has, as they stand in running text. */
export const parts = {
  registers: { setting: 'setting', counter: 'counter', result: 'result' },
};

/** The register figure. */
export const figure = {};

/** A sentence for every step, where the machine has no wording of its own. */
export const steps = {};

/** Operating instructions. */
export const operating = {};

/** Exercises and their key. */
export const exercise = {};

/** Bench sheets. */
export const bench = {};

/** What frames every sheet: page, contents, kinds. */
export const page = {};
