/** Bench sheets, in English. */
import type { Tally } from '../../proving/coverage.js';
import { type Proved, placesText } from '../proves.js';

const places = (some: Proved['places']): string => `${some.length === 1 ? 'place' : 'places'} ${placesText(some)}`;
const levers = (some: Proved['places']): string => `${some.length === 1 ? 'lever' : 'levers'} ${placesText(some)}`;

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
  proves: 'What the readings prove',
  provesHow: ({ caught, all }: Tally): string =>
    caught === 0
      ? `Of ${all} single faults that such a machine can have, these readings would show none.`
      : `Of ${all} single faults that such a machine can have, these readings would show ${caught}. Where a reading agrees, this is in order:`,
  provesColumns: ['No.', 'Reading', 'Proved'],
  /** What is in order where none of these faults is seen. */
  proved: ({ of, places: some }: Proved): string => {
    switch (of.kind) {
      case 'lever-short':
      case 'lever-dead':
        return `${levers(some)} at the figures set`;
      case 'carry-lost':
        return of.register === 'counter'
          ? `tens carry out of ${places(some)} of the counter`
          : `tens carry out of ${places(some)} of the result in turns that ${of.way}`;
      case 'carry-stuck':
        return `tens carry out of ${places(some)} of the result comes once only`;
      case 'count-dead':
        return `count in ${places(some)} of the counter`;
      case 'count-lever-dead':
        return 'count lever at minus';
      case 'clear-short':
        return `clearing of the ${of.register}, ${places(some)}`;
      case 'auto-clear-dead':
        return `auto-clear of ${levers(some)}`;
      case 'transfer-dead':
        return `back transfer to ${levers(some)}`;
      case 'bell-dead':
        return 'bell';
    }
  },
  finding: 'Finding',
  findingNote: 'What was found, what was done, and what is left to be done:',
  findingFields: { result: 'Result', done: 'Work done', open: 'Left to do', signed: 'Signature' },
};
