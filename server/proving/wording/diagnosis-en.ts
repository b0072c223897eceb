/** What is said of a bench record, in English. */
import type { Fault } from '../../machine/index.js';
import type { Looked } from '../../sequence/looks.js';
import type { Diagnosis } from '../diagnosis.js';
import type { NextLook } from '../next-step.js';

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;

/** Where to look on the machine, as a restorer would go about it; without a full stop. */
export function whereToLook(fault: Fault): string {
  switch (fault.kind) {
    case 'lever-short':
      return `what lever ${fault.place} brings into play at ${fault.figure}: of ${fault.figure} that should drive, one does not`;
    case 'lever-dead':
      return `lever ${fault.place} and the wheel that it sets: nothing of it comes into play`;
    case 'carry-lost':
      return fault.register === 'counter'
        ? `the tens carry of the counter from place ${fault.place} to ${fault.place + 1}`
        : `the tens carry of the result from place ${fault.place} to ${fault.place + 1}, as it works in ${fault.way === 'add' ? 'adding' : 'subtracting'} turns`;
    case 'carry-stuck':
      return `the tens carry of the result from place ${fault.place} to ${fault.place + 1}: it does not go back to rest`;
    case 'count-dead':
      return `what moves place ${fault.place} of the counter, with the carriage in position ${fault.place}`;
    case 'count-lever-dead':
      return 'the count lever and what it shifts';
    case 'clear-short':
      return fault.register === 'setting'
        ? `the clearing of lever ${fault.place}: it stops one short of 0`
        : `the clearing of place ${fault.place} of the ${fault.register}: the wheel stops one short of 0`;
    case 'auto-clear-dead':
      return `what returns lever ${fault.place} after a turn`;
    case 'transfer-dead':
      return `the back transfer to lever ${fault.place}`;
    case 'bell-dead':
      return 'the bell, its hammer and what trips it';
  }
}

/** The finding in one sentence or two. */
export function verdictText({ verdict, noted, explaining, nearest, faults }: Diagnosis): string {
  const all =
    noted.length === 1 ? 'the one reading' : noted.length === 2 ? 'both readings' : `all ${noted.length} readings`;
  switch (verdict) {
    case 'nothing-noted':
      return 'No reading is noted that could be compared. Note what the machine shows: found NAME REGISTER N.';
    case 'too-long':
      return 'The script takes more than 250,000 steps and turns: it is not tried with every fault.';
    case 'pass':
      return `Pass: ${all} noted ${noted.length === 1 ? 'is' : 'are'} as on the sound machine. Of the ${count(faults, 'fault')} that this machine can have, ${faults - explaining.length} would have shown.`;
    case 'explained':
      return explaining.length === 1
        ? `Not a pass. One fault explains ${all}.`
        : `Not a pass. Any one of ${count(explaining.length, 'fault')} explains ${all}, the likeliest first.`;
    case 'unexplained':
      return nearest.length === 0
        ? `Not a pass, and no single fault explains more of ${all} than the sound machine does. There may be several faults at once, or a slip in cranking or noting: crank the script once more.`
        : `Not a pass, and no single fault explains ${all}. There may be several faults at once, or a slip in cranking or noting. ${nearest.length === 1 ? 'One explains' : `${nearest.length} explain`} the most, ${nearest[0].explained} of ${noted.length}.`;
  }
}

/** A reading by its number and, if it has one, its label. */
export const readingName = (at: number, label: string | undefined): string =>
  `reading ${at + 1}${label === undefined ? '' : ` (${label})`}`;

/** Where a machine parts from what was found; the readings come as text. */
export const soundPartsText = (reading: string, sound: string, found: string): string =>
  `The sound machine parts from what was found at ${reading}: it shows ${sound}, and ${found} was found.`;
export const faultPartsText = (reading: string, shown: string | undefined, found: string): string =>
  shown === undefined
    ? `it never comes to ${reading}: a step before has no end`
    : `parts at ${reading}: it would show ${shown}, and ${found} was found`;

const REGISTER: Readonly<Record<Looked, string>> = {
  ...{ setting: 'setting', counter: 'counter', result: 'result', carriage: 'position of the carriage' },
  ...{ bell: 'bell', overflow: 'overflow', overdraw: 'overdraw', parked: 'place of the carriage' },
};

/** What to do next; `reading` names the reading, if it is one of the script's. */
export function nextText(look: NextLook, reading: string): string {
  const what = look.what === 'bell' ? 'listen for the bell' : `note the ${REGISTER[look.what]}`;
  if (look.is === 'steps')
    return `Next, put the machine as at the start of a script and ${what} at the end of these steps:`;
  return look.isAsked
    ? `Next, ${what} at ${reading} of the script: it is not noted yet.`
    : `Next, ${what} at ${reading} of the script as well, though the script does not ask for it.`;
}

/** In front of the faults that would show it. */
export const classText = (shown: string | undefined): string => (shown === undefined ? 'a step without end' : shown);

export const alikeText: string =
  'Nothing that can be cranked on this machine is known to tell these faults from one another.';
export const moreText = (n: number): string => `and ${n} more`;
export const defaultsText: string = 'The script has cases: the record is compared with its defaults.';
export const notRunText: string = 'The record can’t be compared: its script can’t be run on this machine.';
export const cautionText: string =
  'This is reckoned from readings alone. What the machine’s own manual says comes first; leave opening it to somebody who knows it.';
export const lookAtText: string = 'look at';
