/** What stands in a file that is begun for somebody, and how it is offered, in English. Names are names of the notation. */
import type { MachineKind } from '../kinds.js';
import type { Task } from '../tasks.js';

/** Something to choose, with a line that says more. */
interface Offer {
  readonly label: string;
  readonly detail: string;
}
interface Named {
  readonly name: string;
  readonly title: string;
}

const machines: Readonly<Record<MachineKind, Offer & { readonly name: string }>> = {
  pinwheel: {
    name: 'pinwheel-9',
    label: 'Pinwheel machine',
    detail: 'The crank turns both ways, and backwards subtracts. A bell; back transfer.',
  },
  'lifted-crank': {
    name: 'drum-8',
    label: 'Drum machine, crank lifted to subtract',
    detail: 'The crank turns one way. The first turn settles how the counter counts.',
  },
  'drive-lever': {
    name: 'large-12',
    label: 'Large machine with a drive lever',
    detail: 'A lever sets the drive to subtract, another the counter. Twenty places.',
  },
  'half-step': {
    name: 'halfstep-10',
    label: 'Half-step machine',
    detail: 'The carriage half a place to the right subtracts. It divides by itself.',
  },
  learner: {
    name: 'desk-8',
    label: 'Learner’s desk machine',
    detail: 'The crank turns both ways. A counter without a tens carry.',
  },
  'marked-counter': {
    name: 'marked-9',
    label: 'Machine whose counter marks turns back',
    detail: 'A short cut such as 300 less 2 is read as it was cranked.',
  },
  'short-carry': {
    name: 'early-8',
    label: 'Early machine with a short tens carry',
    detail: 'The tens carry ends ten places from the carriage: mind its limits.',
  },
  adding: {
    name: 'adder-9',
    label: 'Adding machine',
    detail: 'It adds and nothing else. No counter; complements subtract.',
  },
};

const tasks: Readonly<Record<Task, Offer>> = {
  multiply: { label: 'Multiply two numbers', detail: 'The area of a bed, with decimals and the reading at the end.' },
  divide: { label: 'Divide', detail: 'How much for each: the quotient in the counter, with its decimals.' },
  add: { label: 'Add up a column', detail: 'The slips of a market day, one after the other.' },
  subtract: { label: 'Subtract', detail: 'What is left in the shed, the way this machine subtracts.' },
  exercise: {
    label: 'An exercise with several cases',
    detail: 'For a class: blanks to fill in, a task for each case.',
  },
  instruction: {
    label: 'An operating instruction',
    detail: 'With cautions, notes and a reading on the way, to print.',
  },
  bench: {
    label: 'A test script for the bench, with a record',
    detail: 'Every part that moves is proved; what the machine shows is noted below.',
  },
};

export const starter = {
  machines,
  tasks,
  /** Above the machine. */
  aboveMachine: [
    'The machine. Behind each # stands what the line says. Change the lines until they describe yours:',
    'fewer levers, another carry, no bell. The readings below follow at once.',
  ],
  effort: 'what a turn, a shift and a lever cost',
  sequences: {
    multiply: { name: 'bed-area', title: 'Area of a bed' },
    divide: { name: 'pipe-for-each-bed', title: 'Pipe for each bed' },
    add: { name: 'market-slips', title: 'Takings of a market day' },
    subtract: { name: 'pots-left', title: 'Pots left in the shed' },
    exercise: { name: 'pots-on-shelves', title: 'How many pots?' },
    instruction: { name: 'pot-stock', title: 'Stock of pots after a day' },
    bench: { name: 'bench-script', title: '' },
  } as Readonly<Record<Task, Named>>,
  sumExercise: { name: 'two-slips', title: 'How much together?' },
  /** Above the sequence. */
  planned: [
    'The goal says what is wanted; the steps are the ones with the least effort on this machine. Write',
    'your own numbers into the goal, put the cursor on it, and let the light bulb replace the steps.',
  ],
  exercise: [
    'The first numbers are the defaults, each case has its own. What ask names is a blank on the exercise',
    'sheet, and stands on the key: open a sheet beside the text and choose its kind there.',
  ],
  instruction: [
    'Each step is a sentence on the printed sheet, with the machine drawn where a stage ends. Open a sheet',
    'beside the text, and write the cautions and notes as your reader needs them.',
  ],
  bench: [
    'Crank this on your machine. At each expect compare what it shows; the names behind as lead to the',
    'record below.',
  ],
  record: [
    'What your machine shows. Take the # away before each line that you have read, and write what stands on',
    'the machine in place of the figures here, which are those of a sound one. What differs is reported;',
    'point at the word bench to be told which single fault would explain it.',
  ],
  recordTitle: 'First session at the bench',
  parameters: { product: ['shelves', 'pots'], sum: ['first-slip', 'second-slip'] },
  cautions: [
    'Never force the crank. If it will not move, its last turn was not finished.',
    'Finish every turn before you touch a lever or the carriage.',
  ],
  notes: ['What stands in the shed in the morning.', 'What comes in.', 'What goes out.'],
  reading: 'taken-in',
  lastReading: 'remaining',
  /** Where a machine can't do what somebody wants to begin. */
  unsuited: (machine: string, task: string): string =>
    `${machine}: it can't be shifted and has no counter, so there is no sequence for “${task}”. Choose another machine or another task.`,
};
