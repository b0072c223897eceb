/** What is said of faults and of what a sequence proves, in German. */
import { FAULT_KINDS, type Fault, type FaultKind, type MechanismPart } from '../../machine/index.js';
import type { FaultProblem } from '../../sequence/fault-text.js';
import type { Place } from '../additions.js';
import type { Tally } from '../coverage.js';

export const part: Readonly<Record<MechanismPart, string>> = {
  levers: 'Einstellhebel',
  'tens-carry': 'Zehnerübertragung',
  counter: 'Umdrehungszählwerk',
  clearing: 'Löschung',
  transfer: 'Rückübertragung',
  bell: 'Glocke',
};

export const kindMeaning: Readonly<Record<FaultKind, string>> = {
  'lever-short': 'der Hebel auf FIGURE (1 bis 9) treibt eins zu wenig; er zeigt, worauf er steht',
  'lever-dead': 'der Hebel treibt nichts',
  'carry-lost':
    'eine fällige Übertragung aus der Stelle kommt nicht an; im Resultatwerk nur bei Umdrehungen dieser Richtung',
  'carry-stuck':
    'ist eine Übertragung aus der Stelle einmal angekommen, so kommt bei jeder späteren Umdrehung eine weitere, in deren Richtung, bis das Resultatwerk gelöscht, von Hand eingestellt oder übertragen wird',
  'count-dead': 'die Stelle des Umdrehungszählwerks zählt nicht; Übertragungen von rechts kommen trotzdem an',
  'count-lever-dead': 'der Zählhebel auf Minus zählt wie auf Plus',
  'clear-short': 'das Löschen lässt Rad oder Hebel auf 1, wenn er nicht auf 0 stand',
  'auto-clear-dead': 'das selbsttätige Löschen lässt den Hebel, wo er steht',
  'transfer-dead': 'bei einer Rückübertragung bleibt der Hebel auf 0; das Werk wird trotzdem gelöscht',
  'bell-dead': 'die Glocke läutet nicht',
};

const OF = { counter: 'des Umdrehungszählwerks', result: 'des Resultatwerks' } as const;
const WAY = { add: 'addierenden', subtract: 'subtrahierenden' } as const;

export function faultSentence(fault: Fault): string {
  switch (fault.kind) {
    case 'lever-short':
      return `Hebel ${fault.place} auf ${fault.figure} treibt ${fault.figure - 1}`;
    case 'lever-dead':
      return `Hebel ${fault.place} treibt nichts`;
    case 'carry-lost':
      return fault.register === 'counter'
        ? `eine Übertragung aus Stelle ${fault.place} des Umdrehungszählwerks kommt nicht an`
        : `eine Übertragung aus Stelle ${fault.place} des Resultatwerks kommt bei ${WAY[fault.way]} Umdrehungen nicht an`;
    case 'carry-stuck':
      return `eine Übertragung aus Stelle ${fault.place} des Resultatwerks kommt, einmal angekommen, bei jeder Umdrehung wieder`;
    case 'count-dead':
      return `Stelle ${fault.place} des Umdrehungszählwerks zählt nicht`;
    case 'count-lever-dead':
      return 'der Zählhebel auf Minus zählt wie auf Plus';
    case 'clear-short':
      return fault.register === 'setting'
        ? `das Löschen lässt Hebel ${fault.place} auf 1`
        : `das Löschen lässt Rad ${fault.place} ${OF[fault.register]} auf 1`;
    case 'auto-clear-dead':
      return `das selbsttätige Löschen lässt Hebel ${fault.place}, wo er steht`;
    case 'transfer-dead':
      return `bei einer Rückübertragung bleibt Hebel ${fault.place} auf 0`;
    case 'bell-dead':
      return 'die Glocke läutet nicht';
  }
}

export function faultProblem(problem: FaultProblem, machine: string): string {
  switch (problem.is) {
    case 'unknown-kind':
      if (problem.found === '') return 'Kein Fehler ist genannt. Er wird etwa so geschrieben: carry-lost result 5 add.';
      return `Einen Fehler ${problem.found} gibt es nicht. ${problem.nearest ? `Ist ${problem.nearest} gemeint?` : `Es gibt: ${FAULT_KINDS.join(', ')}.`}`;
    case 'form':
      return `Dieser Fehler wird so geschrieben: ${problem.form}; Stellen und Ziffern sind ganze Zahlen ab 1.`;
    case 'not-on-this-machine':
      return `${machine} kann den Fehler ${problem.fault} nicht haben.${problem.nearest ? ` Der nächste, den sie haben kann, ist ${problem.nearest}.` : ' Es fehlt, was ausfallen müsste.'}`;
  }
}

export const catches = ({ caught, all }: Tally): string =>
  `findet ${caught} von ${all} ${all === 1 ? 'möglichen Fehler' : 'möglichen Fehlern'}`;

export function placeText(place: Place, line: number, step: string): string {
  switch (place.is) {
    case 'into':
      return `in Zeile ${line}, ${step}, auch ablesen`;
    case 'after':
      return `nach Zeile ${line}, ${step}`;
    case 'at-end':
      return 'nach dem letzten Schritt';
    case 'apart':
      return 'in einem eigenen Rechengang, denn dieser hat am Ende ein Ziel';
  }
}
export const ofAll = ({ caught, all }: Tally): string => `${caught} von ${all}`;
export const noAddition: string = 'mit wenigen Schritten nicht zu finden';
export const outOfReach: string = 'unerreichbar';

export { lookText } from '../../sequence/wording/de.js';
export * from './diagnosis-de.js';
export * from './log-de.js';
export * from './proof-de.js';
