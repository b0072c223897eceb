/** Exercises and their key, in English. */
import type { Register } from '../../machine/index.js';
import type { Text } from '../model.js';

const THE = { setting: 'the setting', counter: 'the counter', result: 'the result' } as const;
const toward = { right: 'to the right', left: 'to the left' } as const;
const inStep = (step: string): string => (step === '' ? '' : ` in step ${step}`);

/** The step in which a register is read, and in which round of it. */
interface ReadAt {
  readonly step: string;
  readonly round: number;
}

export const exercise = {
  fields: { name: 'Name', date: 'Date', class: 'Class' },
  cautions: { exercise: 'Before you begin', key: 'Before you use this key' },
  machine: { heading: 'The machine', what: 'Part', how: 'On this machine' },
  task: 'What is given and wanted',
  steps: 'The steps',
  exercises: 'The exercises',
  /** Where neither title nor name of the sequence may be printed. */
  untitled: 'Exercise',
  number: 'Exercise',
  numbered: (n: number): string => `Exercise ${n}`,
  and: ' and ',

  given: (what: Text): Text => ['Given: ', ...what, '.'],
  givenBelow: (names: Text): Text => ['Given: ', ...names, '. The figures for them stand with each exercise below.'],
  wanted: (what: Text, register: Register): Text => ['Wanted: ', ...what, `. It is read off ${THE[register]}.`],
  /** So many registers. */
  wantedReadings: (registers: Text, n: number): Text => [
    'Wanted: what ',
    ...registers,
    n === 1 ? ' shows where you are asked to write it down.' : ' show where you are asked to write them down.',
  ],
  the: (register: Register): string => THE[register],
  /** Holds for every step that sets figures. */
  zeros: 'Whenever figures are set, all other levers go to zero.',

  shift: (count: string, way: 'right' | 'left'): string =>
    count === '1' || count === ''
      ? `Shift the carriage one place ${toward[way]}.`
      : `Shift the carriage ${count} places ${toward[way]}.`,
  multiplying:
    'Begin with the units: turn as often as the figure says, then shift the carriage one place to the right for the next figure. For a nought, only shift.',
  /** By which the result is taken below zero and brought back. */
  dividing: {
    reverse:
      'In each position turn backwards until the result goes below zero, make that good by one turn forwards, and shift the carriage one place to the left.',
    lever:
      'In each position turn with the drive at subtract until the result goes below zero, make that good by one turn with the drive at add, and shift the carriage one place to the left.',
    lift: 'In each position turn with the crank lifted until the result goes below zero, make that good by one turn with the crank lowered, and shift the carriage one place to the left.',
    automatic: 'Turn until the machine has finished the last position.',
    countLever: 'Put the count lever to minus before you begin, and back to plus when you have finished.',
  },
  label: (register: string, step: string, round: number): string =>
    `${register}, step ${step}${round > 0 ? ` (${round})` : ''}`,
  more: 'Write further readings on a sheet of your own.',

  table: 'Write what you read into the last columns.',
  filled: 'What must be read.',

  worked: (n: number): string => `Exercise ${n}, step by step`,
  workedOnly: 'Step by step',
  round: (number: string, round: number): string => `${number} (${round})`,
  cutOff: 'The further steps are not printed.',
  brokeOff:
    'The machine does not come to the end of these steps: have the sequence checked before you use it in class.',
  notRead: '–',

  slips: 'Common slips',
  noSlips: 'None of the usual slips that were tried leads to another reading unnoticed.',
  notTried: 'Slips could not be tried in these steps.',
  leftBefore: 'If a register was not cleared, it is taken to hold what the exercise before has left in it.',
  leftBySame:
    'If a register was not cleared, it is taken to hold what the same exercise, done once before, has left in it.',
  slip: {
    or: ' or ',
    /** The only reading that is asked for. */
    reads: (wrong: Text, right: Text): Text => ['Reads ', ...wrong, ' instead of ', ...right],
    /** `round` is 0 where the step is done once; no step where the register is read once. */
    registerReads: (register: Register, at: ReadAt | undefined, wrong: Text, right: Text, isFirst: boolean): Text => {
      const name = isFirst ? `T${THE[register].slice(1)}` : THE[register];
      const where = at ? ` (step ${at.step}${at.round > 0 ? `, round ${at.round}` : ''})` : '';
      return [`${name}${where} ${isFirst ? 'reads ' : ''}`, ...wrong, ' instead of ', ...right];
    },
    because: (reasons: string): string => `: ${reasons}.`,
    notCleared: (register: Register, step: string): string => `${THE[register]} was not cleared${inStep(step)}`,
    shiftForgotten: (step: string): string => `the carriage was not shifted${inStep(step)}`,
    carriageOff: (way: 'right' | 'left', step: string): string =>
      `the carriage stood one place too far ${toward[way]}${inStep(step)}`,
    turns: (more: boolean, step: string): string => `one turn too ${more ? 'many' : 'few'}${inStep(step)}`,
    forwards: (step: string): string => `the crank was turned forwards instead of backwards${inStep(step)}`,
    driveLeft: (at: 'add' | 'subtract', isLifted: boolean, step: string): string =>
      isLifted
        ? `the crank was left ${at === 'subtract' ? 'lifted' : 'lowered'}${inStep(step)}`
        : `the drive was left at ${at}${inStep(step)}`,
    countLeft: (at: 'plus' | 'minus', step: string): string => `the count lever was left at ${at}${inStep(step)}`,
    switchLeft: (what: 'auto-clear' | 'auto-divide', on: boolean, step: string): string =>
      `${what === 'auto-clear' ? 'the clearing of the levers' : 'the automatic division'} was left switched ${on ? 'on' : 'off'}${inStep(step)}`,
    placesOff: (register: 'setting' | 'result', way: 'right' | 'left', step: string): string =>
      `the figures were ${register === 'setting' ? 'set' : 'dialled'} one place too far ${toward[way]}${inStep(step)}`,
    markerOff: (register: Register, way: 'right' | 'left', step: string): string =>
      `the decimal marker of ${THE[register]} was put one place too far ${toward[way]}${inStep(step)}`,
  },
};
