/** Bench sheets, in English. */
export const bench = {
  cautions: 'Before any work at the machine',
  fields: {
    make: 'Make and model',
    serial: 'Serial number',
    date: 'Date',
    name: 'Name',
    reason: 'Reason for this check',
  },
  machine: 'The machine',
  beginning: 'Before you begin',
  steps: 'Steps and readings',
  instruction:
    'Crank each step, compare what the machine shows wheel by wheel, write down what you find, and tick what agrees.',
  columns: {
    number: 'No.',
    step: 'Step',
    expected: 'Expected',
    found: 'Found',
    tick: 'Agrees',
    remarks: 'Remarks',
  },
  /** What is not a register, as it is expected. */
  events: {
    bell: 'the bell rings',
    overflow: 'the result runs over its highest place',
    overdraw: 'the result goes below zero',
  },
  /** A reading in one of the rounds of a `repeat`. */
  time: (i: number): string => `time ${i}`,
  eachTime: 'each time',
  finding: 'Finding',
  findingNote: 'What was found, what was done, and what is left to be done:',
  findingFields: { result: 'Result', done: 'Work done', open: 'Left to do', signed: 'Signature' },
};
