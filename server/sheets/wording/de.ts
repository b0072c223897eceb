/**
 * What sheets say, in German: the trade’s words, advice in the infinitive.
 *
 * Each part below belongs to one part of the printing.
 */
import { THIN_SPACE } from '../numbers.js';

export const numbers = { point: ',', group: THIN_SPACE };

/** How arithmetic is written; `power` where an exponent is no whole number. */
export const arithmetic = { signs: { '+': '+', '-': '−', '*': '·', '/': ':' }, power: ' hoch ' };

/** Names of what a machine has, as they stand in running text. */
export const parts = {
  registers: { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' },
};

/** Bench sheets. */
export { bench } from './bench-de.js';
/** Exercises and their key. */
export { exercise } from './exercise-de.js';
/** The register figure. */
export { figure } from './figure-de.js';
/** What stands at the head of every kind of sheet. */
export { head } from './head-de.js';
/** Operating instructions. */
export { operating } from './operating-de.js';
/** A run as a table. */
export { readings } from './readings-de.js';
/** A sentence for every step, where the machine has no wording of its own. */
export { steps } from './steps-de.js';

/** What frames every sheet: page, contents, kinds. */
export const page = {
  kinds: {
    log: 'Prüfprotokolle',
    operating: 'Bedienungsanleitung',
    exercise: 'Aufgabenblatt',
    key: 'Lösungsblatt',
    bench: 'Werkstattblatt',
  },
  note: 'Hinweis',
  caution: 'Vorsicht',
  /** What a screen reader says of a line to write on. */
  toWrite: (label: string) => (label === '' ? 'zum Ausfüllen' : `${label}: zum Ausfüllen`),
  toTick: 'zum Abhaken',
  /** Around a page’s number and the number of pages. */
  pageOf: { before: 'Seite ', between: ' von ' },
};
