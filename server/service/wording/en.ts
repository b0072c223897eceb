/** What the editor's features say, in English. Another language is another file with the same shape. */

import { actions } from './actions-en.js';
import { hover, moved, moves } from './hover-en.js';
import { machine } from './machine-en.js';
import { stepping } from './stepping-en.js';

export const en = {
  progress: {
    checking: 'Checking sequences',
  },
  diagnostics: {
    /** What was noticed with one of the cases, and not with the defaults. */
    inCase: (number: number, message: string) => `In case ${number}: ${message}`,
  },
  readings: {
    before: 'before',
    after: 'after',
    registers: { setting: 'setting', counter: 'counter', result: 'result' },
    position: (position: number) => `position ${position}`,
    outOfGear: 'out of gear',
    drive: { on: 'drive subtracts', off: 'drive adds' },
    crank: { on: 'crank lifted', off: 'crank lowered' },
    count: { on: 'count minus', off: 'count plus' },
    autoClear: { on: 'auto-clear on', off: 'auto-clear off' },
    autoDivide: { on: 'auto-divide on', off: 'auto-divide off' },
    bell: 'bell',
    turns: (turns: number) => (turns === 1 ? '1 turn' : `${turns} turns`),
    /** The reading is that of the last of several rounds. */
    time: (times: number) => `(${ordinal(times)} of ${times})`,
    /** What was to happen, or to stand somewhere. */
    expected: {
      bell: 'the bell rings',
      overflow: 'overflow',
      overdraw: 'overdraw',
      parked: 'out of gear',
    },
    /** What did not happen, or what stands elsewhere, where something was expected. */
    missed: {
      bell: 'no bell',
      overflow: 'no overflow',
      overdraw: 'no overdraw',
      parked: 'in gear',
    },
    goal: { exact: 'exact', 'cut off': 'cut off', rounded: 'rounded' },
    goalMissed: (reading: string) => `missed, reads ${reading}`,
    reads: (reading: string) => `reads ${reading}`,
  },
  names: {
    isWord: (word: string) => `${word} is a word of the notation and can't be a name.`,
    notRead: 'This step is not understood yet. Mend it first, then give the name another.',
    pathStays: 'Rename the file itself: the lines that use it follow by themselves.',
    unknown: (name: string) => `Nothing called ${name} is known here, so there is nothing to rename.`,
    invalid: (name: string) =>
      `${name === '' ? 'An empty text' : name} can't be a name. A name begins with a letter; letters, digits and hyphens follow.`,
    /** A new name that something else has already, where both would be seen. */
    taken: {
      machine: (name: string) => `A machine called ${name} can be seen from here already. Choose another name.`,
      sequence: (name: string) => `A sequence called ${name} can be seen from here already. Choose another name.`,
      parameter: (name: string) => `This sequence has a parameter called ${name} already. Choose another name.`,
      label: (name: string) => `This sequence has a reading called ${name} already. Choose another name.`,
    },
    open: (path: string) => `Open ${path}`,
  },
  completion: {
    /** What the machine shows after a step that could come here. */
    shows: (changed: string) => `then: ${changed}`,
    nothing: 'nothing moves',
    shownHere: 'as the machine shows it here',
    effort: (turns: number, shifts: number, cost: number) => [...moves(turns, shifts), `effort ${cost}`].join(', '),
    writeSteps: 'write the steps',
    /** Of steps that would be written; a list has little room. */
    cost: (cost: number) => `effort ${cost}`,
    takenOver: (machine: string, line: string) => `taken over from ${machine}: ${line}`,
  },
  /** What can be put into a page. */
  insets: {
    readings: 'What each step of the sequence changes, as a table.',
    steps: 'The steps in sentences, as on operating instructions.',
    figure: 'The machine as it stands at the end: a picture beside the page. It is drawn by cranknote weave.',
    cases: 'The numbers of all cases, and what the machine shows with them.',
    cautions: 'What to be careful about, before anything else.',
  },
  symbols: {
    /** The numbers of a sequence's case, counted from 1. */
    inCase: (number: number) => `case ${number}`,
  },
  actions,
  hover,
  machine,
  /** What words of the notation mean, where that differs from their table in grammar/tokens.ts. */
  meanings: {} as Readonly<Record<string, string>>,
  lens: {
    defaults: 'defaults',
    inCase: (number: number, numbers: string) => `case ${number}: ${numbers}`,
    /** The case whose readings are shown. */
    shown: (title: string) => `${title} (shown)`,
    effort: (cost: number, turns: number, shifts: number, levers: number) =>
      `effort ${cost}${moved(turns, shifts, levers)}`,
    brokeOff: 'the run breaks off',
    sheet: 'sheet',
    machine: 'machine',
    usedBy: (sequences: number) =>
      sequences === 0 ? 'no sequence is cranked on it' : sequences === 1 ? '1 sequence' : `${sequences} sequences`,
  },
  stepping,
  sheet: {
    noSequence: 'There is no sequence in this file, and so nothing to print.',
    languages: { en: 'English', de: 'German' } as Readonly<Record<string, string>>,
    papers: { a4: 'A4', letter: 'Letter' },
    figures: { all: 'at every step', stages: 'where a stage ends', none: 'nowhere' },
  },
  tests: {
    /** Of a sequence that is not run though nothing is found in itself. */
    notReached: 'The file takes too long to be run to its end: this is not reached. Move it into a file of its own.',
  },
  preview: {
    /** Below the drawn machine, with a step behind it. */
    after: 'After',
    tooMuch: 'The page has more blocks than a preview can show: this one is left out.',
  },
  traced: {
    line: 'line',
    step: 'step',
    carriage: 'carriage',
    out: 'out',
    inCase: (number: number) => `case ${number}`,
    on: (machine: string) => `on ${machine}`,
    missed: 'missed',
    findings: 'Findings',
    onLine: (line: number) => `line ${line}`,
    nothing: 'No sequence of this file can be run.',
    noSequence: (name: string) => `There is no sequence called ${name} in this file.`,
    noCase: (name: string) => `${name} has no such case.`,
    notRun: (name: string) => `${name} can't be run.`,
    moreSteps: (n: number) => `… and ${n} more ${n === 1 ? 'step' : 'steps'}`,
    moreRuns: (n: number) => `… and ${n} more ${n === 1 ? 'run' : 'runs'}`,
    moreFindings: (n: number) => `… and ${n} more`,
  },
};

export type Words = typeof en;

/** A number in a row: 1st, 2nd, 3rd, 4th … */
function ordinal(n: number): string {
  const isTeen = n % 100 >= 11 && n % 100 <= 13;
  const ending = isTeen ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
}
