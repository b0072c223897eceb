/** Operating instructions, in German. */
import type { operating as english } from './operating-en.js';

const count = (n: number, one: string, many: string): string => `${n === 1 ? 'eine' : n} ${n === 1 ? one : many}`;

export const operating: typeof english = {
  cautions: 'Vor allem anderen',
  workedOut: 'Was gerechnet wird',
  goal: (register, what) => [`Im ${register} soll am Ende stehen: `, ...what, '.'],
  given: 'Diese Anleitung gilt für ',
  machine: { heading: 'Die Maschine', what: 'Teil', how: 'An dieser Maschine' },
  beginning: 'Vor dem Beginn',
  begin: {
    home: 'Der Schlitten steht in Stellung 1.',
    homeAdding: 'Der Schlitten steht in Stellung 1, wo die Maschine addiert.',
    rest: 'Die Kurbel ist in Ruhestellung.',
    lowered: 'Die Kurbel ist gesenkt, sodass die Maschine addiert.',
    adding: 'Der Antrieb steht auf Addition.',
    countPlus: 'Der Umschalthebel des Umdrehungszählwerks steht auf Plus.',
    autoClearOff: 'Die Löschung der Einstellhebel nach jeder Umdrehung ist ausgeschaltet.',
    autoDivideOff: 'Die automatische Division ist ausgeschaltet.',
    markers: 'Die Kommamarken stehen ganz rechts, hinter den Einern.',
    zero: (registers, n) => [
      'In diesen Schritten wird nicht alles gelöscht: Vorher auf null stehen ',
      n === 1 ? 'muss ' : 'müssen ',
      ...registers,
      '.',
    ],
  },
  steps: 'Schritt für Schritt',
  look: 'Die Maschine ablesen.',
  inSteps: 'In einzelnen Schritten:',
  nothing: 'Dabei ist nichts zu drehen.',
  workThrough: (title) => `„${title}“ durcharbeiten:`,
  roundsDiffer: (n) => `Das Folgende kommt ${n}-mal, jedes Mal ein wenig anders:`,
  round: (i, n) => `(${i}. von ${n} Malen) `,
  time: (i) => `${i}. Mal: `,
  moreTimes: (n) =>
    n === 1
      ? '… und so weiter; eine Ablesung ist hier ausgelassen.'
      : `… und so weiter; ${n} Ablesungen sind hier ausgelassen.`,
  shift: (places, way) =>
    `Den Schlitten um ${places === '1' ? 'eine Stelle' : `${places} Stellen`} nach ${way === 'right' ? 'rechts' : 'links'} rücken.`,
  end: 'Am Ende',
  met: {
    exact: '',
    'cut off': (goal) => ` Das ist abgeschnitten; der genaue Wert beginnt mit ${goal}.`,
    rounded: (goal) => ` Das ist gerundet; der genaue Wert beginnt mit ${goal}.`,
  },
  complement: (goal) => ` Das steht für ${goal}.`,
  effort: (turns, shifts, levers) =>
    `${[
      `Aufwand: ${count(turns, 'Kurbelumdrehung', 'Kurbelumdrehungen')}`,
      ...(shifts > 0 ? [`der Schlitten wird insgesamt um ${count(shifts, 'Stellung', 'Stellungen')} gerückt`] : []),
      ...(levers > 0
        ? [levers === 1 ? 'ein Hebel oder eine Taste wird betätigt' : `${levers} Hebel oder Tasten werden betätigt`]
        : []),
    ].join('; ')}.`,
  duration: 'Zeit: ',
  cases: 'Andere Zahlen',
  casesCaption: 'Dieselben Schritte mit anderen Zahlen, und was die Maschine dann zeigt.',
  casesNote:
    'Die Schritte oben gelten für die Zahlen der ersten Zeile. Bei anderen Zahlen sind die einzustellenden Ziffern und die Umdrehungen entsprechend andere.',
  caseNumber: 'Nr.',
  asked: (register, n) => `Ablesung ${n}: ${register}`,
  atEnd: (register) => `Am Ende: ${register}`,
  none: '–',

  refused: {
    notRun:
      'Es gibt kein Blatt, denn der Rechengang lässt sich nicht ausführen: Er braucht eine Maschine, die sich bauen lässt.',
    errors: (first, n) =>
      `Es gibt kein Blatt, denn die Ablesungen darauf wären falsch: ${first}${n > 1 ? ` (${n === 2 ? 'ein weiterer' : `${n - 1} weitere`} Fehler)` : ''}`,
    brokeOff: (runCase) =>
      `Es gibt kein Blatt, denn der Rechengang wird${runCase > 0 ? ` im Fall ${runCase}` : ''} nicht bis zum Ende ausgeführt.`,
    tooLong: (steps, limit) =>
      `Es gibt kein Blatt: Es hätte ${steps} Schritte, mehr als die ${limit}, die ein Blatt haben darf. Den Rechengang in mehrere aufteilen.`,
  },
};
