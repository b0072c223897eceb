/** A sentence for every step, in English. Figures come as they are to be printed. */
import type { Register } from '../../machine/index.js';
import type { Text } from '../model.js';

/** A number that can't be counted with comes as it is written. */
type Count = number | string;

const times = (n: Count): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);
const places = (n: Count): string => (n === 1 ? 'one place' : `${n} places`);
const levers = (from: number, to: number): string => (from === to ? `lever ${from}` : `levers ${from} to ${to}`);
const THE = { setting: 'the setting', counter: 'the counter', result: 'the result' } as const;
const toward = { right: 'to the right', left: 'to the left' } as const;
const drives = (subtracts: boolean): string => (subtracts ? 'subtracts' : 'adds');

export const steps = {
  /** For the gaps of a wording: how often, how far, where. */
  times,
  places,
  halfPlace: 'half a place',
  position: (position: Count): string => (position === 0 ? '0 (out of gear)' : `${position}`),
  /** The same in brackets behind a wording that has no gap for it. */
  toPosition: (position: Count): string => (position === 0 ? 'out of gear' : `to position ${position}`),
  /** Before the last of several. */
  and: ' and ',

  /** Figures that go to levers, and which. */
  onLevers: (figures: Text, from: number, to: number): Text => [...figures, ` on ${levers(from, to)}`],
  /** A number that the levers can't take, or whose places are not known. */
  onSomeLevers: (figures: Text, at: string | undefined): Text => [
    ...figures,
    at === undefined ? ' on the levers' : ` on the levers, its units on lever ${at}`,
  ],
  valueOnLevers: (value: Text, figures: Text, from: number, to: number): Text => [
    ...value,
    ' on the levers (',
    ...figures,
    `: ${levers(from, to)})`,
  ],
  /** The same for a gap: the machine's wording says what they go to. */
  withLevers: (figures: Text, from: number, to: number): Text => [...figures, ` (${levers(from, to)})`],
  set: (what: Text): Text => ['Set ', ...what, '.'],
  setZero: 'Set all levers to 0.',
  otherLevers: 'Set all other levers to 0.',
  dial: (figures: Text, at: string | undefined): Text => [
    'Dial ',
    ...figures,
    at === undefined ? ' on the result wheels.' : ` on the result wheels, its units in place ${at}.`,
  ],
  withUnits: (figures: Text, at: string): Text => [...figures, ` (units in place ${at})`],
  dialZero: 'Turn all result wheels to 0.',
  otherWheels: 'Set all other result wheels to 0.',

  turn: (n: Count, isBack: boolean): string =>
    n === 0 ? 'Do not turn the crank.' : `Turn the crank ${isBack ? 'backwards ' : ''}${times(n)}.`,
  untilOverdraw: (isBack: boolean, rings: boolean): string =>
    `Turn the crank ${isBack ? 'backwards ' : ''}until the result goes below zero (${rings ? 'the bell rings' : 'nines appear at the left'}).`,
  untilStop: (position: number): string =>
    position === 0
      ? 'Turn the crank until the carriage has run out of gear.'
      : `Turn the crank until the carriage has moved on to position ${position}.`,

  shift: (n: number, way: 'right' | 'left', position: number): string =>
    `Shift the carriage ${places(n)} ${toward[way]}, ${position === 0 ? 'out of gear' : `to position ${position}`}.`,
  shiftTo: (position: string): string => `Shift the carriage to position ${position}.`,
  shiftOut: 'Shift the carriage to the left, out of gear.',
  stays: (position: number): string =>
    position === 0 ? 'Leave the carriage out of gear.' : `Leave the carriage in position ${position}.`,
  /** Half a place; what the drive does then, where the carriage is known to have moved. */
  half: (way: 'right' | 'left', now?: { position: number; subtracts: boolean }): string => {
    const move = `Shift the carriage half a place ${toward[way]}`;
    if (!now) return `${move}.`;
    return now.position === 0
      ? `${move}, out of gear.`
      : `${move}: it now ${drives(now.subtracts)} in position ${now.position}.`;
  },
  crank: (subtracts: boolean): string =>
    subtracts ? 'Lift the crank: it now subtracts.' : 'Lower the crank: it now adds.',
  crankStays: (subtracts: boolean): string =>
    subtracts ? 'Leave the crank lifted: it subtracts.' : 'Leave the crank lowered: it adds.',
  drive: (subtracts: boolean): string => `Set the drive to ${subtracts ? 'subtract' : 'add'}.`,
  driveStays: (subtracts: boolean): string => `Leave the drive at ${subtracts ? 'subtract' : 'add'}.`,
  countLever: (isMinus: boolean): string =>
    isMinus
      ? 'Set the count lever to minus: turns that subtract are counted up.'
      : 'Set the count lever to plus: turns that add are counted up.',
  countStays: (isMinus: boolean): string => `Leave the count lever at ${isMinus ? 'minus' : 'plus'}.`,
  autoClear: (isOn: boolean): string =>
    isOn
      ? 'Switch on the clearing of the levers: each turn returns them to 0.'
      : 'Switch off the clearing of the levers: they keep their figures.',
  autoDivide: (isOn: boolean): string =>
    isOn ? 'Switch on the automatic division.' : 'Switch off the automatic division.',
  switchStays: (what: 'auto-clear' | 'auto-divide', isOn: boolean): string =>
    `Leave the ${what === 'auto-clear' ? 'clearing of the levers' : 'automatic division'} switched ${isOn ? 'on' : 'off'}.`,

  /** Names of registers as they stand in a list behind a verb or in a gap. */
  the: (register: Register): string => THE[register],
  clear: (registers: Text): Text => ['Clear ', ...registers, '.'],
  clearAll: (registers: Text): Text => ['Clear everything: ', ...registers, '.'],
  transfer: (register: 'result' | 'counter'): string => `Pass ${THE[register]} back to the levers.`,
  points: (items: Text, n: number): Text => [
    n === 1 ? 'Put the decimal marker: ' : 'Put the decimal markers: ',
    ...items,
    '.',
  ],

  /** Where a marker stands, in a list. */
  decimals: (n: Count, register: Register): string =>
    `${n === 0 ? 'no decimals' : n === 1 ? '1 decimal' : `${n} decimals`} in ${THE[register]}`,

  /** Before a reading: of the first register in a sentence, and of further ones. */
  reads: (register: Register, isFirst: boolean): string =>
    isFirst ? `T${THE[register].slice(1)} reads ` : `${THE[register]} `,
  /** Behind a reading. */
  complementOf: (figures: Text): Text => [' (the complement of ', ...figures, ')'],
  onWheels: (figures: Text): Text => [' (on the wheels ', ...figures, ')'],
  events: {
    bell: 'The bell has rung.',
    overflow: 'The result has run over its highest place.',
    overdraw: 'The result has gone below zero.',
  },
  carriageStands: (position: number): string =>
    position === 0 ? 'The carriage stands out of gear.' : `The carriage stands in position ${position}.`,
  ask: (registers: Text): Text => ['Write down ', ...registers, '.'],
  /** A reading by itself, behind the registers. */
  carriage: (position: number): string =>
    position === 0 ? 'carriage out of gear' : `carriage in position ${position}`,

  repeat: (n: Count): string => `Do the following ${times(n)}:`,
  repeatEnd: (n: Count): string => `When this has been done ${times(n)}, go on.`,
  run: (name: Text, numbers: Text): Text => [
    'Work the sequence ',
    ...name,
    ...(numbers.length > 0 ? [' with ', ...numbers] : []),
    '.',
  ],
  multiply: (figures: Text, isShort: boolean): Text => ['Multiply by ', ...figures, isShort ? ' the short way.' : '.'],
  divide: (downTo: string | undefined, isShort: boolean): string =>
    `Divide${isShort ? ' the short way' : ''} by what is set on the levers${downTo === undefined ? '' : `, down to position ${downTo}`}.`,
};
