/** Bench sheets, in German. */
import type { bench as english } from './bench-en.js';

export const bench: typeof english = {
  cautions: 'Vor jeder Arbeit an der Maschine',
  fields: {
    make: 'Fabrikat und Modell',
    serial: 'Fabriknummer',
    date: 'Datum',
    name: 'Name',
    reason: 'Anlass der Prüfung',
  },
  machine: 'Die Maschine',
  beginning: 'Vor dem Beginn',
  steps: 'Schritte und Ablesungen',
  instruction:
    'Jeden Schritt kurbeln, die Anzeige Rad für Rad vergleichen, den Befund eintragen und abhaken, was übereinstimmt.',
  columns: {
    number: 'Nr.',
    step: 'Schritt',
    expected: 'Soll',
    found: 'Ist',
    tick: 'Stimmt',
    remarks: 'Notizen',
  },
  events: {
    bell: 'die Glocke läutet',
    overflow: 'das Resultatwerk läuft über seine höchste Stelle hinaus',
    overdraw: 'das Resultatwerk kommt unter null',
  },
  time: (i) => `${i}. Mal`,
  eachTime: 'jedes Mal',
  finding: 'Befund',
  findingNote: 'Was festgestellt und getan wurde und was noch zu tun ist:',
  findingFields: { result: 'Ergebnis', done: 'Ausgeführte Arbeiten', open: 'Noch zu tun', signed: 'Unterschrift' },
};
