/**
 * What is said of faults and of what a sequence proves, in English.
 *
 * Another language is another file with the same exports.
 */
import { FAULT_KINDS, type Fault, type FaultKind, type MechanismPart } from '../../machine/index.js';
import type { FaultProblem } from '../../sequence/fault-text.js';
import type { Place } from '../additions.js';
import type { Tally } from '../coverage.js';

/** The parts of a machine by which faults are grouped. */
export const part: Readonly<Record<MechanismPart, string>> = {
  levers: 'levers',
  'tens-carry': 'tens carry',
  counter: 'counter',
  clearing: 'clearing',
  transfer: 'transfer',
  bell: 'bell',
};

/** What each kind of fault means, with the capitals of its form. */
export const kindMeaning: Readonly<Record<FaultKind, string>> = {
  'lever-short': 'the lever standing at FIGURE (1 to 9) drives one less; it shows what it stands at',
  'lever-dead': 'the lever drives nothing',
  'carry-lost': 'a carry due out of the place is not delivered; in the result in turns of that direction alone',
  'carry-stuck':
    'once a carry out of the place has been delivered, one more is delivered in every later turn, in the turn’s own direction, until the result is cleared, dialled or transferred',
  'count-dead': 'the counter’s place does not take its count; carries from its right come all the same',
  'count-lever-dead': 'the count lever at minus counts as at plus',
  'clear-short': 'clearing leaves the wheel or lever at 1 if it stood at anything else than 0',
  'auto-clear-dead': 'auto-clear leaves the lever as it stands',
  'transfer-dead': 'in a back transfer the lever stays at 0; the register is cleared all the same',
  'bell-dead': 'the bell does not ring',
};

/** One fault in a sentence without its full stop. */
export function faultSentence(fault: Fault): string {
  switch (fault.kind) {
    case 'lever-short':
      return `lever ${fault.place} standing at ${fault.figure} drives ${fault.figure - 1}`;
    case 'lever-dead':
      return `lever ${fault.place} drives nothing`;
    case 'carry-lost':
      return fault.register === 'counter'
        ? `a carry out of counter place ${fault.place} is not delivered`
        : `a carry out of result place ${fault.place} is not delivered in turns that ${fault.way}`;
    case 'carry-stuck':
      return `a carry out of result place ${fault.place}, once delivered, comes again in every turn`;
    case 'count-dead':
      return `counter place ${fault.place} does not take its count`;
    case 'count-lever-dead':
      return 'the count lever at minus counts as at plus';
    case 'clear-short':
      return fault.register === 'setting'
        ? `clearing leaves lever ${fault.place} at 1`
        : `clearing leaves ${fault.register} wheel ${fault.place} at 1`;
    case 'auto-clear-dead':
      return `auto-clear leaves lever ${fault.place} as it stands`;
    case 'transfer-dead':
      return `in a back transfer lever ${fault.place} stays at 0`;
    case 'bell-dead':
      return 'the bell does not ring';
  }
}

/** Why something is no fault of a machine, and what to write. */
export function faultProblem(problem: FaultProblem, machine: string): string {
  switch (problem.is) {
    case 'unknown-kind':
      if (problem.found === '') return 'No fault is named. Write one as carry-lost result 5 add.';
      return `There is no fault called ${problem.found}. ${problem.nearest ? `Did you mean ${problem.nearest}?` : `There are: ${FAULT_KINDS.join(', ')}.`}`;
    case 'form':
      return `This fault is written ${problem.form}; places and figures are whole numbers from 1.`;
    case 'not-on-this-machine':
      return `${machine} can't have the fault ${problem.fault}.${problem.nearest ? ` The nearest that it can have is ${problem.nearest}.` : ' It lacks what would have to fail.'}`;
  }
}

/** How much of what may be wrong a script would catch. */
export const catches = ({ caught, all }: Tally): string =>
  `catches ${caught} of ${all} ${all === 1 ? 'fault' : 'faults'}`;

/** Where to add something; `line` is that of the step, as it is shown to people. */
export function placeText(place: Place, line: number, step: string): string {
  switch (place.is) {
    case 'into':
      return `in line ${line}, ${step}, read as well`;
    case 'after':
      return `behind line ${line}, ${step}`;
    case 'at-end':
      return 'behind the last step';
    case 'apart':
      return 'in a sequence by itself, for this one has a goal at its end';
  }
}
export const ofAll = ({ caught, all }: Tally): string => `${caught} of ${all}`;
export const noAddition: string = 'no few steps were found that would catch';
export const outOfReach: string = 'out of reach';

export { lookText } from '../../sequence/wording/en.js';
export * from './diagnosis-en.js';
export * from './log-en.js';
export * from './proof-en.js';
