/** A sentence for every step, in German. */
import type { Register } from '../../machine/index.js';
import type { Text } from '../model.js';
import type { steps as english } from './steps-en.js';

const times = (n: number | string): string => (n === 1 ? 'einmal' : n === 2 ? 'zweimal' : `${n}-mal`);
const places = (n: number | string): string => (n === 1 ? 'eine Stelle' : `${n} Stellen`);
const levers = (from: number, to: number): string => (from === to ? `Hebel ${from}` : `Hebel ${from} bis ${to}`);
const onLevers = (from: number, to: number): string => (from === to ? `Hebel ${from}` : `den Hebeln ${from} bis ${to}`);
const THE = { setting: 'das Einstellwerk', counter: 'das Umdrehungszählwerk', result: 'das Resultatwerk' } as const;
const OF_THE = {
  setting: 'des Einstellwerks',
  counter: 'des Umdrehungszählwerks',
  result: 'des Resultatwerks',
} as const;
const WORK = { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' } as const;
const toward = { right: 'nach rechts', left: 'nach links' } as const;
const drives = (subtracts: boolean): string => (subtracts ? 'subtrahiert' : 'addiert');

export const steps: typeof english = {
  times,
  places,
  halfPlace: 'eine halbe Stelle',
  position: (position) => (position === 0 ? '0 (außer Eingriff)' : `${position}`),
  toPosition: (position) => (position === 0 ? 'außer Eingriff' : `bis Stellung ${position}`),
  and: ' und ',

  onLevers: (figures, from, to) => [...figures, ` auf ${onLevers(from, to)}`],
  onSomeLevers: (figures, at) => [
    ...figures,
    at === undefined ? ' auf den Hebeln' : ` auf den Hebeln, die Einer auf Hebel ${at},`,
  ],
  valueOnLevers: (value, figures, from, to) => [...value, ' auf den Hebeln (', ...figures, `: ${levers(from, to)})`],
  withLevers: (figures, from, to) => [...figures, ` (${levers(from, to)})`],
  set: (what) => [...what, ' einstellen.'],
  setZero: 'Alle Einstellhebel auf 0 stellen.',
  otherLevers: 'Alle anderen Einstellhebel auf 0 stellen.',
  dial: (figures, at) => [
    ...figures,
    at === undefined
      ? ' an den Rädern des Resultatwerks'
      : ` an den Rädern des Resultatwerks, die Einer in Stelle ${at},`,
    ' einstellen.',
  ],
  withUnits: (figures, at) => [...figures, ` (Einer in Stelle ${at})`],
  dialZero: 'Alle Räder des Resultatwerks auf 0 stellen.',
  otherWheels: 'Alle anderen Räder des Resultatwerks auf 0 stellen.',

  turn: (n, isBack) =>
    n === 0 ? 'Die Kurbel nicht drehen.' : `Die Kurbel ${times(n)}${isBack ? ' rückwärts' : ''} drehen.`,
  untilOverdraw: (isBack, rings) =>
    `Die Kurbel ${isBack ? 'rückwärts ' : ''}drehen, bis das Resultatwerk unter null kommt (${rings ? 'die Glocke läutet' : 'links erscheinen Neunen'}).`,
  untilStop: (position) =>
    position === 0
      ? 'Die Kurbel drehen, bis der Schlitten außer Eingriff gelaufen ist.'
      : `Die Kurbel drehen, bis der Schlitten in Stellung ${position} gelaufen ist.`,

  shift: (n, way, position) =>
    `Den Schlitten um ${places(n)} ${toward[way]} rücken, ${position === 0 ? 'außer Eingriff' : `in Stellung ${position}`}.`,
  shiftTo: (position) => `Den Schlitten in Stellung ${position} rücken.`,
  shiftOut: 'Den Schlitten nach links außer Eingriff rücken.',
  stays: (position) =>
    position === 0 ? 'Den Schlitten außer Eingriff lassen.' : `Den Schlitten in Stellung ${position} lassen.`,
  half: (way, now) => {
    const move = `Den Schlitten um eine halbe Stelle ${toward[way]} rücken`;
    if (!now) return `${move}.`;
    return now.position === 0
      ? `${move}, außer Eingriff.`
      : `${move}: In Stellung ${now.position} ${drives(now.subtracts)} die Maschine jetzt.`;
  },
  crank: (subtracts) =>
    subtracts ? 'Die Kurbel heben: Sie subtrahiert jetzt.' : 'Die Kurbel senken: Sie addiert jetzt.',
  crankStays: (subtracts) =>
    subtracts ? 'Die Kurbel gehoben lassen: Sie subtrahiert.' : 'Die Kurbel gesenkt lassen: Sie addiert.',
  drive: (subtracts) => `Den Antrieb auf ${subtracts ? 'Subtraktion' : 'Addition'} stellen.`,
  driveStays: (subtracts) => `Den Antrieb auf ${subtracts ? 'Subtraktion' : 'Addition'} lassen.`,
  countLever: (isMinus) =>
    isMinus
      ? 'Den Umschalthebel des Umdrehungszählwerks auf Minus stellen: Subtrahierende Umdrehungen werden vorwärts gezählt.'
      : 'Den Umschalthebel des Umdrehungszählwerks auf Plus stellen: Addierende Umdrehungen werden vorwärts gezählt.',
  countStays: (isMinus) => `Den Umschalthebel des Umdrehungszählwerks auf ${isMinus ? 'Minus' : 'Plus'} lassen.`,
  autoClear: (isOn) =>
    isOn
      ? 'Die Löschung der Einstellhebel einschalten: Jede Umdrehung stellt sie auf 0.'
      : 'Die Löschung der Einstellhebel ausschalten: Sie behalten ihre Ziffern.',
  autoDivide: (isOn) => (isOn ? 'Die automatische Division einschalten.' : 'Die automatische Division ausschalten.'),
  switchStays: (what, isOn) =>
    `Die ${what === 'auto-clear' ? 'Löschung der Einstellhebel' : 'automatische Division'} ${isOn ? 'eingeschaltet' : 'ausgeschaltet'} lassen.`,

  the: (register: Register): string => THE[register],
  clear: (registers) => sentence([...registers, ' löschen.']),
  clearAll: (registers) => ['Alles löschen: ', ...registers, '.'],
  transfer: (register) => `Die Ziffern ${OF_THE[register]} auf die Einstellhebel zurückübertragen.`,
  points: (items, n) => [n === 1 ? 'Die Kommamarke stellen: ' : 'Die Kommamarken stellen: ', ...items, '.'],

  decimals: (n, register) =>
    `${n === 0 ? 'keine Dezimalstelle' : n === 1 ? 'eine Dezimalstelle' : `${n} Dezimalstellen`} im ${WORK[register]}`,

  reads: (register, isFirst) => (isFirst ? `Das ${WORK[register]} zeigt ` : `${THE[register]} `),
  complementOf: (figures) => [' (das Komplement von ', ...figures, ')'],
  onWheels: (figures) => [' (auf den Rädern ', ...figures, ')'],
  events: {
    bell: 'Die Glocke hat geläutet.',
    overflow: 'Das Resultatwerk ist über seine höchste Stelle hinausgelaufen.',
    overdraw: 'Das Resultatwerk ist unter null gekommen.',
  },
  carriageStands: (position) =>
    position === 0 ? 'Der Schlitten steht außer Eingriff.' : `Der Schlitten steht in Stellung ${position}.`,
  ask: (registers) => sentence([...registers, ' ablesen und aufschreiben.']),
  carriage: (position) => (position === 0 ? 'Schlitten außer Eingriff' : `Schlitten in Stellung ${position}`),

  repeat: (n) => `Das Folgende ${times(n)} ausführen:`,
  repeatEnd: (n) => `Ist dies ${times(n)} ausgeführt, weitergehen.`,
  run: (name, numbers) => [
    'Den Rechengang ',
    ...name,
    ...(numbers.length > 0 ? [' mit ', ...numbers] : []),
    ' ausführen.',
  ],
  multiply: (figures, isShort) => ['Mit ', ...figures, isShort ? ' abgekürzt multiplizieren.' : ' multiplizieren.'],
  divide: (downTo, isShort) =>
    `Durch die Zahl auf den Einstellhebeln${isShort ? ' abgekürzt' : ''} dividieren${downTo === undefined ? '' : `, hinunter bis Stellung ${downTo}`}.`,
};

/** Begins with a capital letter where the first piece is a word. */
function sentence(text: Text): Text {
  const [first, ...rest] = text.filter((span) => span !== '');
  return typeof first === 'string' ? [first.charAt(0).toUpperCase() + first.slice(1), ...rest] : text;
}
