/** What is said of a bench record, in German. */
import type { Fault } from '../../machine/index.js';
import type { Looked } from '../../sequence/looks.js';
import type { Diagnosis } from '../diagnosis.js';
import type { NextLook } from '../next-step.js';

const WORK = { setting: 'Einstellwerks', counter: 'Umdrehungszählwerks', result: 'Resultatwerks' } as const;
const faultCount = (n: number): string => (n === 1 ? 'ein Fehler' : `${n} Fehler`);

export function whereToLook(fault: Fault): string {
  switch (fault.kind) {
    case 'lever-short':
      return `was Hebel ${fault.place} bei ${fault.figure} zum Eingriff bringt: Von ${fault.figure}, die antreiben sollten, tut es eines nicht`;
    case 'lever-dead':
      return `Hebel ${fault.place} und das Rad, das er einstellt: Nichts davon kommt zum Eingriff`;
    case 'carry-lost':
      return fault.register === 'counter'
        ? `die Zehnerübertragung des Umdrehungszählwerks von Stelle ${fault.place} auf ${fault.place + 1}`
        : `die Zehnerübertragung des Resultatwerks von Stelle ${fault.place} auf ${fault.place + 1}, so wie sie beim ${fault.way === 'add' ? 'Addieren' : 'Subtrahieren'} arbeitet`;
    case 'carry-stuck':
      return `die Zehnerübertragung des Resultatwerks von Stelle ${fault.place} auf ${fault.place + 1}: Sie geht nicht in Ruhe zurück`;
    case 'count-dead':
      return `was Stelle ${fault.place} des Umdrehungszählwerks bewegt, mit dem Schlitten in Stellung ${fault.place}`;
    case 'count-lever-dead':
      return 'der Hebel des Zählwerks und was er umschaltet';
    case 'clear-short':
      return fault.register === 'setting'
        ? `die Löschung von Hebel ${fault.place}: Er bleibt eins vor 0 stehen`
        : `die Löschung von Stelle ${fault.place} des ${WORK[fault.register]}: Das Rad bleibt eins vor 0 stehen`;
    case 'auto-clear-dead':
      return `was Hebel ${fault.place} nach einer Umdrehung zurückstellt`;
    case 'transfer-dead':
      return `die Rückübertragung auf Hebel ${fault.place}`;
    case 'bell-dead':
      return 'die Glocke, ihr Hammer und was ihn auslöst';
  }
}

export function verdictText({ verdict, noted, explaining, nearest, faults }: Diagnosis): string {
  const one = noted.length === 1;
  const all = one ? 'die eine Ablesung' : `alle ${noted.length} Ablesungen`;
  switch (verdict) {
    case 'nothing-noted':
      return 'Es ist keine Ablesung aufgeschrieben, die sich vergleichen ließe. Aufschreiben, was zu sehen war: found NAME REGISTER N.';
    case 'too-long':
      return 'Der Rechengang braucht mehr als 250.000 Schritte und Umdrehungen: Er wird nicht mit jedem Fehler durchgespielt.';
    case 'pass':
      return `Bestanden: ${one ? 'Die eine aufgeschriebene Ablesung ist' : `Alle ${noted.length} aufgeschriebenen Ablesungen sind`} wie bei der fehlerfreien Maschine. Von den Fehlern, die diese Maschine haben kann (${faults}), hätten sich ${faults - explaining.length} gezeigt.`;
    case 'explained':
      return explaining.length === 1
        ? `Nicht bestanden. Ein Fehler erklärt ${all}.`
        : `Nicht bestanden. Jeder von ${explaining.length} Fehlern erklärt für sich ${all}, der wahrscheinlichste zuerst.`;
    case 'unexplained':
      return nearest.length === 0
        ? 'Nicht bestanden, und kein einzelner Fehler erklärt mehr davon als die fehlerfreie Maschine. Vielleicht sind es mehrere Fehler zugleich, oder beim Kurbeln oder Aufschreiben ist etwas entgangen: Das Prüfblatt noch einmal kurbeln.'
        : `Nicht bestanden, und kein einzelner Fehler erklärt ${all}. Vielleicht sind es mehrere zugleich, oder beim Kurbeln oder Aufschreiben ist etwas entgangen. Am meisten, ${nearest[0].explained} von ${noted.length}, ${nearest.length === 1 ? 'erklärt' : 'erklären'} ${faultCount(nearest.length)}.`;
  }
}

export const readingName = (at: number, label: string | undefined): string =>
  `Ablesung ${at + 1}${label === undefined ? '' : ` (${label})`}`;

export const soundPartsText = (reading: string, sound: string, found: string): string =>
  `Von der fehlerfreien Maschine weicht das Gefundene ab bei ${reading}: Sie zeigt „${sound}“, gefunden wurde „${found}“.`;
export const faultPartsText = (reading: string, shown: string | undefined, found: string): string =>
  shown === undefined
    ? `kommt nie zu ${reading}: Ein Schritt davor hat kein Ende`
    : `weicht ab bei ${reading}: Zu sehen wäre „${shown}“, gefunden wurde „${found}“`;

const REGISTER: Readonly<Record<Looked, string>> = {
  ...{ setting: 'das Einstellwerk', counter: 'das Umdrehungszählwerk', result: 'das Resultatwerk' },
  ...{ carriage: 'die Stellung des Schlittens', parked: 'den Ort des Schlittens' },
  ...{ bell: 'die Glocke', overflow: 'den Überlauf', overdraw: 'den Gang unter null' },
};

export function nextText(look: NextLook, reading: string): string {
  const what = look.what === 'bell' ? 'auf die Glocke achten' : `${REGISTER[look.what]} aufschreiben`;
  if (look.is === 'steps') {
    return `Als Nächstes die Maschine wie zu Beginn stellen und am Ende dieser Schritte ${what}:`;
  }
  return look.isAsked
    ? `Als Nächstes bei ${reading} ${what}: Das fehlt noch.`
    : `Als Nächstes bei ${reading} auch ${what}, obwohl das dort nicht verlangt ist.`;
}

export const classText = (shown: string | undefined): string => (shown === undefined ? 'ein Schritt ohne Ende' : shown);

export const alikeText: string =
  'Nichts, was sich auf dieser Maschine kurbeln lässt, unterscheidet diese Fehler, soweit bekannt.';
export const moreText = (n: number): string => `und ${n} weitere`;
export const defaultsText: string = 'Der Rechengang hat Fälle: Verglichen wird mit seinen Vorgaben.';
export const notRunText: string =
  'Das Prüfprotokoll lässt sich nicht vergleichen: Der Rechengang läuft auf dieser Maschine nicht.';
export const cautionText: string =
  'Das ist allein aus Ablesungen geschlossen. Die Anleitung der Maschine geht vor; das Öffnen jemandem überlassen, der sie kennt.';
export const lookAtText: string = 'ansehen';
