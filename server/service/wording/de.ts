/** What the editor's features say, in German. */
import { actions } from './actions-de.js';
import type { Words } from './en.js';
import { hover, moved, moves } from './hover-de.js';
import { machine } from './machine-de.js';
import { meanings } from './meanings-de.js';
import { stepping } from './stepping-de.js';

export const de: Words = {
  progress: {
    checking: 'Rechengänge werden geprüft',
  },
  diagnostics: {
    inCase: (number, message) => `Im Fall ${number}: ${message}`,
  },
  readings: {
    before: 'vorher',
    after: 'nachher',
    registers: { setting: 'Einstellwerk', counter: 'Zählwerk', result: 'Resultat' },
    position: (position) => `Stellung ${position}`,
    outOfGear: 'außer Eingriff',
    drive: { on: 'Antrieb auf Subtraktion', off: 'Antrieb auf Addition' },
    crank: { on: 'Kurbel gehoben', off: 'Kurbel gesenkt' },
    count: { on: 'Zählwerk auf Minus', off: 'Zählwerk auf Plus' },
    autoClear: { on: 'auto-clear ein', off: 'auto-clear aus' },
    autoDivide: { on: 'auto-divide ein', off: 'auto-divide aus' },
    bell: 'Glocke',
    turns: (turns) => (turns === 1 ? '1 Umdrehung' : `${turns} Umdrehungen`),
    time: (times) => `(${times}. von ${times})`,
    expected: {
      bell: 'die Glocke läutet',
      overflow: 'Überlauf',
      overdraw: 'unter null',
      parked: 'außer Eingriff',
    },
    missed: {
      bell: 'keine Glocke',
      overflow: 'kein Überlauf',
      overdraw: 'nicht unter null',
      parked: 'im Eingriff',
    },
    goal: { exact: 'genau', 'cut off': 'abgeschnitten', rounded: 'gerundet' },
    goalMissed: (reading) => `verfehlt, es steht ${reading}`,
    reads: (reading) => `es steht ${reading}`,
  },
  names: {
    isWord: (word) => `${word} ist ein Wort der Notation und kann kein Name sein.`,
    notRead: 'Dieser Schritt ist noch nicht zu verstehen. Berichtigen Sie ihn zuerst und benennen Sie dann um.',
    pathStays: 'Benennen Sie die Datei selbst um: Die Zeilen, die sie verwenden, ziehen von allein nach.',
    unknown: (name) => `Hier ist nichts namens ${name} bekannt, es gibt also nichts umzubenennen.`,
    invalid: (name) =>
      `${name === '' ? 'Ein leerer Text' : name} kann kein Name sein. Ein Name beginnt mit einem Buchstaben; Buchstaben, Ziffern und Bindestriche folgen.`,
    taken: {
      machine: (name) => `Eine Maschine namens ${name} ist hier schon bekannt. Wählen Sie einen anderen Namen.`,
      sequence: (name) => `Ein Rechengang namens ${name} ist hier schon bekannt. Wählen Sie einen anderen Namen.`,
      parameter: (name) =>
        `Dieser Rechengang hat schon einen Parameter namens ${name}. Wählen Sie einen anderen Namen.`,
      label: (name) => `Dieser Rechengang hat schon eine Ablesung namens ${name}. Wählen Sie einen anderen Namen.`,
    },
    open: (path) => `${path} öffnen`,
  },
  completion: {
    shows: (changed) => `danach: ${changed}`,
    nothing: 'es bewegt sich nichts',
    shownHere: 'wie die Maschine es hier zeigt',
    effort: (turns, shifts, cost) => [...moves(turns, shifts), `Aufwand ${cost}`].join(', '),
    writeSteps: 'Schritte schreiben',
    cost: (cost) => `Aufwand ${cost}`,
    takenOver: (machine, line) => `übernommen von ${machine}: ${line}`,
  },
  insets: {
    readings: 'Was jeder Schritt des Rechengangs ändert, als Tabelle.',
    steps: 'Die Schritte in Sätzen, wie in einer Bedienungsanleitung.',
    figure: 'Die Maschine, wie sie am Ende steht: ein Bild neben der Seite. cranknote weave zeichnet es.',
    cases: 'Die Zahlen aller Fälle, und was die Maschine dabei zeigt.',
    cautions: 'Worauf vor allem anderen zu achten ist.',
  },
  symbols: {
    inCase: (number) => `Fall ${number}`,
  },
  actions,
  hover,
  machine,
  meanings,
  lens: {
    defaults: 'Vorgaben',
    inCase: (number, numbers) => `Fall ${number}: ${numbers}`,
    shown: (title) => `${title} (angezeigt)`,
    effort: (cost, turns, shifts, levers) => `Aufwand ${cost}${moved(turns, shifts, levers)}`,
    brokeOff: 'der Lauf bricht ab',
    sheet: 'Blatt',
    machine: 'Maschine',
    usedBy: (sequences) =>
      sequences === 0
        ? 'kein Rechengang auf dieser Maschine'
        : sequences === 1
          ? '1 Rechengang'
          : `${sequences} Rechengänge`,
  },
  stepping,
  sheet: {
    noSequence: 'In dieser Datei gibt es keinen Rechengang, also auch nichts zu drucken.',
    languages: { en: 'Englisch', de: 'Deutsch' },
    papers: { a4: 'A4', letter: 'Letter' },
    figures: { all: 'bei jedem Schritt', stages: 'am Ende jedes Abschnitts', none: 'nirgends' },
  },
  tests: {
    notReached:
      'Die Datei dauert zu lange, um bis zu ihrem Ende ausgeführt zu werden: Hierher kommt der Lauf nicht. Legen Sie diesen Rechengang in eine eigene Datei.',
  },
  preview: {
    after: 'Nach',
    tooMuch: 'Die Seite hat mehr Blöcke, als eine Vorschau zeigen kann: dieser ist ausgelassen.',
  },
  traced: {
    line: 'Zeile',
    step: 'Schritt',
    carriage: 'Schlitten',
    out: 'frei',
    inCase: (number) => `Fall ${number}`,
    on: (machine) => `auf ${machine}`,
    missed: 'verfehlt',
    findings: 'Befunde',
    onLine: (line) => `Zeile ${line}`,
    nothing: 'Kein Rechengang dieser Datei lässt sich ausführen.',
    noSequence: (name) => `In dieser Datei gibt es keinen Rechengang namens ${name}.`,
    noCase: (name) => `Einen solchen Fall hat ${name} nicht.`,
    notRun: (name) => `${name} lässt sich nicht ausführen.`,
    moreSteps: (n) => (n === 1 ? '… und 1 weiterer Schritt' : `… und ${n} weitere Schritte`),
    moreRuns: (n) => (n === 1 ? '… und 1 weiterer Lauf' : `… und ${n} weitere Läufe`),
    moreFindings: (n) => (n === 1 ? '… und 1 weiterer' : `… und ${n} weitere`),
  },
};
