/** A run as a table of readings, in German. */
import type { readings as english } from './readings-en.js';

export const readings: typeof english = {
  caption: (title, machine, numbers) => `${title}, auf ${machine}${numbers === '' ? '' : ` (${numbers})`}`,
  step: 'Schritt',
  registers: { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' },
  position: 'Stellung',
  outOfGear: 'außer Eingriff',
  besides: 'Außerdem',
  turns: (n) => (n === 1 ? '1 Umdrehung' : `${n} Umdrehungen`),
  leftOut: (n) => `… hier ${n === 1 ? 'ist ein Schritt' : `sind ${n} Schritte`} ausgelassen …`,
  brokeOff: (n) =>
    `Hier bricht der Lauf ab: ${n === 1 ? 'Ein Schritt wird' : `${n} Schritte werden`} nicht ausgeführt.`,
};
