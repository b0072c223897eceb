/** Bench sheets, in German. */
import { type Proved, placesText } from '../proves.js';
import type { bench as english } from './bench-en.js';

const places = (some: Proved['places']): string =>
  `${some.length === 1 ? 'der Stelle' : 'den Stellen'} ${placesText(some)}`;
const levers = (some: Proved['places']): string => `Hebel ${placesText(some)}`;
const OF = { setting: 'des Einstellwerks', counter: 'des Umdrehungszählwerks', result: 'des Resultatwerks' } as const;
const WAY = { add: 'addierenden', subtract: 'subtrahierenden' } as const;

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
  proves: 'Was die Ablesungen beweisen',
  provesHow: ({ caught, all }) =>
    caught === 0
      ? `Von ${all} einzelnen Fehlern, die eine solche Maschine haben kann, würden diese Ablesungen keinen zeigen.`
      : `Von ${all} einzelnen Fehlern, die eine solche Maschine haben kann, würden diese Ablesungen ${caught} zeigen. Wo eine Ablesung stimmt, ist in Ordnung:`,
  provesColumns: ['Nr.', 'Ablesung', 'Bewiesen'],
  proved: ({ of, places: some }) => {
    switch (of.kind) {
      case 'lever-short':
      case 'lever-dead':
        return `${levers(some)} auf den eingestellten Ziffern`;
      case 'carry-lost':
        return of.register === 'counter'
          ? `Zehnerübertragung aus ${places(some)} des Umdrehungszählwerks`
          : `Zehnerübertragung aus ${places(some)} des Resultatwerks bei ${WAY[of.way]} Umdrehungen`;
      case 'carry-stuck':
        return `Zehnerübertragung aus ${places(some)} des Resultatwerks kommt nur einmal`;
      case 'count-dead':
        return `Zählen in ${places(some)} des Umdrehungszählwerks`;
      case 'count-lever-dead':
        return 'Zählhebel auf Minus';
      case 'clear-short':
        return `Löschen ${OF[of.register]} in ${places(some)}`;
      case 'auto-clear-dead':
        return `selbsttätiges Löschen der ${levers(some)}`;
      case 'transfer-dead':
        return `Rückübertragung auf ${levers(some)}`;
      case 'bell-dead':
        return 'Glocke';
    }
  },
  finding: 'Befund',
  findingNote: 'Was festgestellt und getan wurde und was noch zu tun ist:',
  findingFields: { result: 'Ergebnis', done: 'Ausgeführte Arbeiten', open: 'Noch zu tun', signed: 'Unterschrift' },
};
