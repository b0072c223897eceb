/** What is said while a sequence is stepped through, in English. */
import type { Severity } from '../../sequence/findings.js';
import type { NotByHand } from '../../stepping/by-hand.js';
import type { Slip } from '../../stepping/conditions.js';

export const stepping = {
  /** Above a sequence. */
  lens: 'step',
  thread: (sequence: string, machine: string) => `${sequence} on ${machine}`,
  frames: {
    inCase: (sequence: string, number: number) => `${sequence}, case ${number}`,
    round: (step: string, round: number, rounds: number) => `${step}, round ${round} of ${rounds}`,
    inRound: (step: string, round: number, rounds: number) => `${step} (round ${round} of ${rounds})`,
    made: (step: string, made: number, all: number | undefined) =>
      `${step}, ${all === undefined ? turns(made) : `${made} of ${all}`} made`,
    done: (step: string) => `${step}, done`,
    byHand: (step: string) => `by hand: ${step}`,
    inside: (step: string, frame: string) => `${step} (in ${frame})`,
    end: 'the end',
  },
  scopes: {
    registers: 'Registers',
    carriage: 'Carriage and levers',
    markers: 'Decimal markers',
    numbers: 'Numbers',
    run: 'Run',
  },
  variables: {
    place: (place: number) => `place ${place}`,
    position: 'position',
    drive: 'drive',
    count: 'count lever',
    'auto-clear': 'auto-clear',
    'auto-divide': 'auto-divide',
    /** What the levers are put to, the place at the start first. */
    places: {
      drive: ['add', 'subtract'],
      count: ['plus', 'minus'],
      'auto-clear': ['off', 'on'],
      'auto-divide': ['off', 'on'],
    } as Readonly<Record<'drive' | 'count' | 'auto-clear' | 'auto-divide', readonly [string, string]>>,
    outOfGear: 'out of gear',
    bell: 'bell in the last turn or step',
    rang: 'rang',
    silent: 'silent',
    wraps: 'overflows less overdraws',
    turns: 'turns',
    shifts: 'shifts',
    levers: 'levers moved',
    cost: 'effort',
    step: 'step',
    stepOf: (step: number, all: number) => `${step} of ${all}`,
    fault: 'fault',
    decimals: (n: number) => (n === 1 ? '1 decimal' : `${n} decimals`),
  },
  yes: 'yes',
  no: 'no',
  filters: {
    error: 'Errors',
    warning: 'Warnings',
    information: 'Information',
    hint: 'Hints',
  } as Readonly<Record<Severity, string>>,
  filterHelp: 'Stops right behind the step in which it is noticed.',
  conditionHelp: 'result > 1000 and position = 2',
  ended: 'The sequence has ended. The machine stands as after its last step.',
  brokeOff: 'The run broke off here: no later step is carried out.',
  changed: (what: string) => `${what} has changed`,
  entry: 'Before the first step',
  breakpoints: {
    notHere: 'No step that is carried out in this session stands in this file.',
    noSequence: 'No sequence that is carried out in this session stands here.',
    neverReached: 'The machine does not come to this step in this run.',
    hits: (text: string) => `${text} says not how often. Write 3, >= 3 or % 2.`,
    noRegister: (name: string) => `${name} is neither a register nor a wheel of this machine.`,
    brace: 'A { in the text is not closed. Write what is to be read as {result}.',
  },
  slip: (slip: Slip): string => {
    switch (slip.is) {
      case 'empty':
        return 'Nothing is asked. Write a condition such as result > 1000.';
      case 'not-read':
        return `“${slip.found}” is not understood. Write arithmetic as in a goal, with setting, counter, result, position and wraps as names, compared by = < > <= >= or !=, such as result > 1000 and position = 2.`;
      case 'unknown-name':
        return `Nothing called ${slip.name} can be read here.${slip.nearest ? ` Did you mean ${slip.nearest}?` : ' There are setting, counter, result, position, wraps and the parameters of the sequence.'}`;
      case 'no-such-place':
        return `The ${slip.register} has no place ${slip.place}: places go from 1 to ${slip.places}.`;
      case 'not-compared':
        return `${slip.found} says how much, and not whether. Compare it, as in ${slip.found} > 1000.`;
    }
  },
  noValue: 'This has no value: it divides by zero, takes the root of a negative number, or grows too large.',
  byHand: {
    done: (step: string, changed: string) => `By hand: ${step}. ${changed}`,
    going: 'The crank is turned just now. Pause first, and do it by hand then.',
    nothing: 'Nothing moves.',
    dropped: 'What was done by hand later than this is dropped.',
    atEnd: 'The sequence has ended, and nothing more is done by hand. Step back first.',
    refused: (why: NotByHand): string => {
      switch (why.is) {
        case 'not-a-number':
          return `“${why.found}” is no number. Write figures as in a step: 245, or 24.5 at the marker.`;
        case 'not-a-figure':
          return `“${why.found}” is no figure. A wheel or lever takes one from 0 to 9.`;
        case 'not-a-place-of':
          return `“${why.found}” is no place of it. It stands at ${why.places[0]} or at ${why.places[1]}.`;
        case 'counter':
          return 'The counter is turned by the crank alone. By hand it can be cleared: write 0.';
        case 'not-a-step':
          return `“${why.found}” is no step, and nothing that can be read. Write a step such as set 12, or a register.`;
        case 'not-single':
          return `${why.word} is more than one act of a hand. Write the single steps.`;
      }
    },
    readOnly: (name: string) => `${name} can’t be set by hand: it follows from what the machine does.`,
    notDone: 'The run broke off before this could be done by hand.',
  },
  text: {
    goesOn: 'The text has changed: the session goes on in the new run.',
    handDropped: 'What was done by hand is dropped.',
    closed: 'The file was closed without its changes being saved. The session ends.',
    gone: 'The file can’t be read any more: it was moved, deleted, or lies outside this folder. The session ends.',
  },
  ends: (why: string) => `${why} The session ends.`,
  launch: {
    noProgram: 'Which file is to be stepped through? Give its path or address as program.',
    noFile: (name: string) => `${name} can’t be read.`,
    noSequences: 'There is no sequence in this file.',
    noSequence: (name: string) => `There is no sequence called ${name} in this file.`,
    noCase: (name: string, number: number, cases: number) =>
      `${name} has no case ${number}: there ${cases === 1 ? 'is 1 case' : `are ${cases} cases`}, and 0 means the defaults.`,
    notRun: (name: string) => `${name} can’t be run: look at what is found in its text and its machine.`,
    withFault: (fault: string) => `The machine has a fault: ${fault}.`,
    unknown: (request: string) => `${request} is not answered here.`,
    notStarted: 'Nothing is being stepped through yet.',
  },
};

export type SteppingWords = typeof stepping;

const turns = (n: number): string => (n === 1 ? '1 turn' : `${n} turns`);
