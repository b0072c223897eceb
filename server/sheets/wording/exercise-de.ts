/** Exercises and their key, in German. */
import type { exercise as english } from './exercise-en.js';

const NAMES = { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' } as const;
const toward = { right: 'nach rechts', left: 'nach links' } as const;
const inStep = (step: string): string => (step === '' ? '' : ` in Schritt ${step}`);
const lever = (at: 'add' | 'subtract'): string => (at === 'add' ? 'Addition' : 'Subtraktion');

export const exercise: typeof english = {
  fields: { name: 'Name', date: 'Datum', class: 'Klasse' },
  cautions: { exercise: 'Vor dem Beginn', key: 'Vor dem Gebrauch' },
  machine: { heading: 'Die Maschine', what: 'Teil', how: 'An dieser Maschine' },
  task: 'Gegeben und gesucht',
  steps: 'Die Schritte',
  exercises: 'Die Aufgaben',
  untitled: 'Aufgabe',
  number: 'Aufgabe',
  numbered: (n) => `Aufgabe ${n}`,
  and: ' und ',

  given: (what) => ['Gegeben: ', ...what, '.'],
  givenBelow: (names) => ['Gegeben: ', ...names, '. Die Zahlen dafür stehen unten bei jeder Aufgabe.'],
  wanted: (what, register) => ['Gesucht: ', ...what, `. Abgelesen wird im ${NAMES[register]}.`],
  wantedReadings: (registers, n) => [
    'Gesucht: was ',
    ...registers,
    n === 1 ? ' dort zeigt, wo danach gefragt ist.' : ' dort zeigen, wo danach gefragt ist.',
  ],
  the: (register) => `das ${NAMES[register]}`,
  zeros: 'Beim Einstellen von Ziffern kommen alle anderen Einstellhebel auf null.',

  shift: (count, way) =>
    count === '1' || count === ''
      ? `Den Schlitten um eine Stelle ${toward[way]} rücken.`
      : `Den Schlitten um ${count} Stellen ${toward[way]} rücken.`,
  multiplying:
    'Mit den Einern beginnen: so oft drehen, wie die Ziffer sagt, dann den Schlitten für die nächste Ziffer um eine Stelle nach rechts rücken. Bei einer Null nur rücken.',
  dividing: {
    reverse:
      'In jeder Stellung rückwärts drehen, bis das Resultatwerk unter null kommt, dies durch eine Umdrehung vorwärts ausgleichen und den Schlitten um eine Stelle nach links rücken.',
    lever:
      'In jeder Stellung den Antrieb auf Subtraktion stellen und drehen, bis das Resultatwerk unter null kommt, dies durch eine Umdrehung mit dem Antrieb auf Addition ausgleichen und den Schlitten um eine Stelle nach links rücken.',
    lift: 'In jeder Stellung mit gehobener Kurbel drehen, bis das Resultatwerk unter null kommt, dies durch eine Umdrehung mit gesenkter Kurbel ausgleichen und den Schlitten um eine Stelle nach links rücken.',
    automatic: 'Drehen, bis die Maschine mit der letzten Stellung fertig ist.',
    countLever: 'Den Umschalthebel des Umdrehungszählwerks vorher auf Minus stellen und danach wieder auf Plus.',
  },
  label: (register, step, round) => `${register}, Schritt ${step}${round > 0 ? ` (${round})` : ''}`,
  more: 'Weitere Ablesungen auf einem eigenen Blatt aufschreiben.',

  table: 'Das Abgelesene in die letzten Spalten schreiben.',
  filled: 'Was abzulesen ist.',

  worked: (n) => `Aufgabe ${n}, Schritt für Schritt`,
  workedOnly: 'Schritt für Schritt',
  round: (number, round) => `${number} (${round})`,
  cutOff: 'Die weiteren Schritte sind nicht gedruckt.',
  brokeOff:
    'Die Maschine kommt mit diesen Schritten nicht zu Ende: Den Rechengang prüfen, bevor er im Unterricht verwendet wird.',
  notRead: '–',

  slips: 'Häufige Fehler',
  noSlips: 'Keiner der üblichen Fehler, die durchgerechnet wurden, führt unbemerkt zu einer anderen Ablesung.',
  notTried: 'Mit diesen Schritten ließen sich keine Fehler durchrechnen.',
  leftBefore:
    'Wurde ein Werk nicht gelöscht, so ist angenommen, dass darin steht, was die vorige Aufgabe hinterlassen hat.',
  leftBySame:
    'Wurde ein Werk nicht gelöscht, so ist angenommen, dass darin steht, was dieselbe Aufgabe, einmal zuvor gerechnet, hinterlassen hat.',
  slip: {
    or: ' oder ',
    reads: (wrong, right) => ['Zeigt ', ...wrong, ' statt ', ...right],
    registerReads: (register, at, wrong, right, isFirst) => [
      `${isFirst ? 'D' : 'd'}as ${NAMES[register]}${at ? ` (Schritt ${at.step}${at.round > 0 ? `, Durchgang ${at.round}` : ''})` : ''} ${isFirst ? 'zeigt ' : ''}`,
      ...wrong,
      ' statt ',
      ...right,
    ],
    // What follows is a whole sentence, or stands for one.
    because: (reasons) => `: ${reasons.charAt(0).toUpperCase()}${reasons.slice(1)}.`,
    notCleared: (register, step) => `das ${NAMES[register]} wurde${inStep(step)} nicht gelöscht`,
    shiftForgotten: (step) => `der Schlitten wurde${inStep(step)} nicht gerückt`,
    carriageOff: (way, step) =>
      `der Schlitten stand${inStep(step)} eine Stelle zu weit ${way === 'right' ? 'rechts' : 'links'}`,
    turns: (more, step) => `eine Umdrehung zu ${more ? 'viel' : 'wenig'}${inStep(step)}`,
    forwards: (step) => `die Kurbel wurde${inStep(step)} vorwärts statt rückwärts gedreht`,
    driveLeft: (at, isLifted, step) =>
      isLifted
        ? `die Kurbel wurde${inStep(step)} ${at === 'subtract' ? 'gehoben' : 'gesenkt'} gelassen`
        : `der Antrieb wurde${inStep(step)} auf ${lever(at)} gelassen`,
    countLeft: (at, step) =>
      `der Umschalthebel des Umdrehungszählwerks wurde${inStep(step)} auf ${at === 'plus' ? 'Plus' : 'Minus'} gelassen`,
    switchLeft: (what, on, step) =>
      `die ${what === 'auto-clear' ? 'Löschung der Einstellhebel' : 'automatische Division'} wurde${inStep(step)} ${on ? 'eingeschaltet' : 'ausgeschaltet'} gelassen`,
    placesOff: (register, way, step) =>
      `die Ziffern wurden${inStep(step)} ${register === 'setting' ? '' : 'im Resultatwerk '}eine Stelle zu weit ${way === 'right' ? 'rechts' : 'links'} eingestellt`,
    markerOff: (register, way, step) =>
      `die Kommamarke des ${NAMES[register]}s wurde${inStep(step)} eine Stelle zu weit ${toward[way]} gestellt`,
  },
};
