/** What is said over several bench records of one script, in English. */

import type { Looked } from '../../sequence/looks.js';

export const logTitle = (script: string, machine: string): string => `${script} on ${machine}`;
export const logColumns: { readonly reading: string; readonly sound: string } = {
  reading: 'reading',
  sound: 'sound machine',
};
export const logCaption: string =
  'What each record found, in the order of the file. A dash stands where it is as on the sound machine; where nothing stands, nothing was noted.';
export const asSound: string = '–';
export const recordsHeading: string = 'The records';
export const readingsHeading: string = 'Reading by reading';
export const explainedBy = (faults: string): string => `Explained by: ${faults}.`;
export const mendedText = (readings: string): string => `Right again: ${readings}.`;
export const worseText = (readings: string): string => `Right before and wrong now: ${readings}.`;
export const otherwiseText = (readings: string): string => `Wrong in another way: ${readings}.`;
export const provedText = (proved: number, faults: number): string =>
  `What was found right leaves no room for ${proved} of the ${faults} faults that this machine can have.`;

const REGISTERS: Readonly<Partial<Record<Looked, string>>> = {
  setting: 'setting',
  counter: 'counter',
  result: 'result',
};

/** A reading by its number and label, and which register is read. */
export function logReading(number: number, label: string | undefined, what: Looked): string {
  const name = label === undefined ? String(number) : `${number} ${label}`;
  const register = REGISTERS[what];
  return register === undefined ? name : `${name}: ${register}`;
}
