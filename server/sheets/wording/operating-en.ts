/** Operating instructions, in English, and the course of the work as bench sheets tell it too. */
import type { Text } from '../model.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

export const operating = {
  cautions: 'Before anything else',
  workedOut: 'What is worked out',
  /** Behind a register’s name: what it is to show. */
  goal: (register: string, what: Text): Text => [`The ${register} is to show `, ...what, '.'],
  /** Parameters and their numbers. */
  given: 'These instructions are made for ',
  machine: { heading: 'The machine', what: 'Part', how: 'On this machine' },
  beginning: 'Before you begin',
  begin: {
    home: 'The carriage stands in position 1.',
    homeAdding: 'The carriage stands in position 1, where the machine adds.',
    rest: 'The crank is at rest.',
    lowered: 'The crank is lowered, so that the machine adds.',
    adding: 'The drive stands at add.',
    countPlus: 'The count lever stands at plus.',
    autoClearOff: 'The clearing of the levers after each turn is switched off.',
    autoDivideOff: 'The automatic division is switched off.',
    markers: 'The decimal markers stand at the right, behind the units.',
    zero: (registers: Text, n: number): Text => [
      'These steps do not clear everything: ',
      ...registers,
      n === 1 ? ' must be at zero.' : ' must be at zero beforehand.',
    ],
  },
  steps: 'Step by step',
  /** A step of its own, where something is read before anything is done. */
  look: 'Look at the machine.',
  /** Behind `Multiply by 34.` */
  inSteps: 'In single steps:',
  nothing: 'There is nothing to turn.',
  workThrough: (title: string): string => `Work through “${title}”:`,
  roundsDiffer: (n: number): string => `The following comes ${n} times, each time a little otherwise:`,
  /** Before the first step of a round. */
  round: (i: number, n: number): string => `(Time ${i} of ${n}) `,
  time: (i: number): string => `Time ${i}: `,
  moreTimes: (n: number): string => `… and so on; ${count(n, 'reading is', 'readings are')} left out here.`,
  /** A shift without the position that it leads to. */
  shift: (places: string, way: 'right' | 'left'): string =>
    `Shift the carriage ${places === '1' ? 'one place' : `${places} places`} to the ${way}.`,
  end: 'At the end',
  /** Behind a reading. */
  met: {
    exact: '',
    'cut off': (goal: string): string => ` It is cut off; the exact value begins with ${goal}.`,
    rounded: (goal: string): string => ` It is rounded; the exact value begins with ${goal}.`,
  },
  complement: (goal: string): string => ` This stands for ${goal}.`,
  effort: (turns: number, shifts: number, levers: number): string =>
    `${[
      `Effort: ${count(turns, 'turn', 'turns')} of the crank`,
      ...(shifts > 0 ? [`the carriage is shifted by ${count(shifts, 'position', 'positions')} in all`] : []),
      ...(levers > 0 ? [`${count(levers, 'lever or button is', 'levers or buttons are')} moved`] : []),
    ].join('; ')}.`,
  duration: 'Time: ',
  cases: 'Other numbers',
  casesCaption: 'The same steps with other numbers, and what the machine shows then.',
  casesNote:
    'The steps above are those for the numbers in the first row. With other numbers, figures to be set and turns differ accordingly.',
  caseNumber: 'No.',
  /** Over a column of readings: the so-many-th that is asked for, or what stands at the end. */
  asked: (register: string, n: number): string => `Reading ${n}: ${register}`,
  atEnd: (register: string): string => `At the end: ${register}`,
  none: '–',

  /** Why there is no sheet. */
  refused: {
    notRun: 'There is no sheet, because the sequence can’t be run: it needs a machine that can be built.',
    errors: (first: string, n: number): string =>
      `There is no sheet, because the readings on it would be wrong: ${first}${n > 1 ? ` (${count(n - 1, 'more error', 'more errors')})` : ''}`,
    brokeOff: (runCase: number): string =>
      `There is no sheet, because the sequence is not run to its end${runCase > 0 ? ` in case ${runCase}` : ''}.`,
    tooLong: (steps: number, limit: number): string =>
      `There is no sheet: it would have ${steps} steps, more than the ${limit} that a sheet may have. Divide the sequence into several.`,
  },
};
