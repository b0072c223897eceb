/** What is said over several bench records of one script, in German. */

import type { Looked } from '../../sequence/looks.js';

export const logTitle = (script: string, machine: string): string => `${script} auf ${machine}`;
export const logColumns: { readonly reading: string; readonly sound: string } = {
  reading: 'Ablesung',
  sound: 'fehlerfreie Maschine',
};
export const logCaption: string =
  'Was jedes Protokoll gefunden hat, in der Reihenfolge der Datei. Ein Strich steht, wo es wie bei der fehlerfreien Maschine ist; wo nichts steht, wurde nichts aufgeschrieben.';
export const asSound: string = '–';
export const recordsHeading: string = 'Die Protokolle';
export const readingsHeading: string = 'Ablesung für Ablesung';
export const explainedBy = (faults: string): string => `Erklärt durch: ${faults}.`;
export const mendedText = (readings: string): string => `Wieder richtig: ${readings}.`;
export const worseText = (readings: string): string => `Vorher richtig und jetzt falsch: ${readings}.`;
export const otherwiseText = (readings: string): string => `Auf andere Weise falsch: ${readings}.`;
export const provedText = (proved: number, faults: number): string =>
  `Das richtig Gefundene schließt ${proved} der ${faults} Fehler aus, die diese Maschine haben kann.`;

const REGISTERS: Readonly<Partial<Record<Looked, string>>> = {
  setting: 'Einstellwerk',
  counter: 'Umdrehungszählwerk',
  result: 'Resultatwerk',
};

/** A reading by its number and label, and which register is read. */
export function logReading(number: number, label: string | undefined, what: Looked): string {
  const name = label === undefined ? String(number) : `${number} ${label}`;
  const register = REGISTERS[what];
  return register === undefined ? name : `${name}: ${register}`;
}
