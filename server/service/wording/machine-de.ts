/** What the panel that shows the machine says of it, in German. */
import type { machine as english } from './machine-en.js';

const NAMES = { setting: 'Hebel', counter: 'Zählwerk, Stelle', result: 'Resultat, Stelle' } as const;
const OF = { setting: 'des Einstellwerks', counter: 'des Zählwerks', result: 'des Resultatwerks' } as const;

export const machine: typeof english = {
  noSequence: 'In dieser Datei gibt es keinen Rechengang, also auch keine Maschine zu zeigen.',
  noSuchSequence: (name) => `In dieser Datei gibt es keinen Rechengang namens ${name} mehr.`,
  notRun: 'Der Rechengang lässt sich nicht ausführen, denn ihm fehlt eine Maschine.',
  leftOut: (message) => `${message} Die Maschine ist so gezeigt, als stünde das nicht da.`,
  atStart: 'Vor dem ersten Schritt',
  step: (number, all) => `Schritt ${number} von ${all}`,
  turn: (number, all) => `Umdrehung ${number} von ${all}`,
  round: (number, all) => (all === undefined ? `Runde ${number}` : `Runde ${number} von ${all}`),
  within: (step) => `in ${step}`,
  fault: (fault) => `Fehler: ${fault}`,
  effort: (effort) => `Bis hierher: ${effort}`,
  nothing: 'es bewegt sich nichts',
  next: 'Mit dem nächsten Schritt',
  further: 'Mit den weiteren Umdrehungen',
  now: 'Jetzt',
  marked: (places) => `Schraffiert: ${places}.`,
  registers: { setting: 'Einstellwerk', counter: 'Zählwerk', result: 'Resultat' },
  carriage: 'Schlitten',
  marker: (register) => `Kommamarke ${OF[register]}`,
  parts: {
    wheel: (register, place, figure) => `${NAMES[register]} ${place}: ${figure}`,
    marker: (register, decimals) =>
      `Kommamarke ${OF[register]}: ${decimals === 1 ? '1 Dezimalstelle' : `${decimals} Dezimalstellen`}`,
    carriage: (position) => `Schlitten: ${position}`,
    device: (name, now) => `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${now}`,
    bell: 'Glocke: Sie hat geläutet',
    heeded: (name) => `${name}, schraffiert`,
  },
};
