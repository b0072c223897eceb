/** What stands at the head of every kind of sheet, in English: cautions, the machine's data, the time. */
import type { Profile } from '../../machine/index.js';
import type { SheetKind } from '../model.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const places = (n: number): string => count(n, 'place', 'places');

const MANUAL_FIRST =
  "The machine's own manual, the rules of the place where you work and people trained on such machines come first: where they say something else than this sheet, do what they say.";
const FINISH = 'Finish every turn of the crank before you touch a lever, the carriage or a clearing handle.';
const KEEP_OFF = 'Keep fingers, hair and loose sleeves away from whatever moves.';

const cautions: Readonly<Record<SheetKind, readonly string[]>> = {
  operating: [
    MANUAL_FIRST,
    FINISH,
    'Never force a crank or a carriage that sticks. Stop, and ask somebody who knows the machine.',
    KEEP_OFF,
  ],
  exercise: [
    "Your teacher, the machine's own manual and the rules of the room come first; repairs are for trained people.",
    FINISH,
    'Never force a crank or a carriage that sticks. Stop, and call your teacher.',
    KEEP_OFF,
  ],
  key: [
    'The readings hold for the machine that is named here. Where yours is built differently, it may show something else.',
    "Whoever looks on while others crank: the machine's own manual and the rules of the room come first, and a machine that sticks goes to trained people.",
  ],
  bench: [
    "This sheet takes the place of no instruction. The machine's own manual, the local rules of safety and people trained in this work come first; what you are not trained to do, leave to them.",
    'Keep fingers and tools out of the mechanism while the crank or the carriage can move.',
    'Never force a crank, a carriage or a wheel that sticks. Find the cause first.',
    'Springs are under tension: they can fly off, and what they hold can snap shut. Protect your eyes.',
    "Use no solvent, oil or grease but what the machine's own manual or a qualified person names, and follow its own safety instructions.",
    'Old oil and grease, old paint and dust may be harmful: avoid skin contact, do not breathe dust, and dispose of them by the local rules.',
    "Use no heat on seized parts unless the machine's own manual or a qualified person says so: residues can burn, and plastics, springs and castings take harm.",
  ],
};

/** A length of time in words: below 90 seconds in fives, then in minutes, from 90 minutes on in hours. */
function time(seconds: number): string {
  if (seconds === 0) return 'next to no time';
  if (seconds < 90) return `about ${Math.ceil(seconds / 5) * 5} seconds`;
  const minutes = Math.ceil(seconds / 60);
  if (minutes < 90) return `about ${minutes} minutes`;
  return `about ${count(Math.round(minutes / 60), 'hour', 'hours')}`;
}

export const head = {
  cautions,
  time,
  /** Behind a time: on what it rests. Seconds for one turn, one position of the carriage, one lever. */
  assumed: (turn: number, shift: number, lever: number): string =>
    `assumed and not measured: ${count(turn, 'second', 'seconds')} a turn, ${count(shift, 'second', 'seconds')} a position of the carriage, ${count(lever, 'second', 'seconds')} a lever or button; without setting, clearing and reading`,

  machine: {
    labels: {
      setting: 'Setting',
      counter: 'Counter',
      result: 'Result',
      carriage: 'Carriage',
      subtract: 'Subtracting',
      count: 'Counting',
      besides: 'Besides',
      wording: 'Wording',
    },
    setting: (n: number): string => count(n, 'lever', 'levers'),
    counter: (n: number, carry: Profile['counterCarry']): string =>
      n === 0
        ? 'none'
        : `${places(n)}, ${
            {
              carry: 'with a tens carry through all of them',
              plain: 'without a tens carry: each wheel counts by itself',
              signed: 'without a tens carry: each wheel shows −9 to 9, negative figures marked',
            }[carry]
          }`,
    result: (n: number, reach: number | undefined): string =>
      `${places(n)}, ${
        reach === undefined
          ? 'with a tens carry through all of them'
          : `with a tens carry that covers ${places(reach)}, counted from the position of the carriage`
      }`,
    carriage: (n: number): string => count(n, 'position', 'positions'),
    subtract: {
      reverse: 'the crank turns both ways; backwards subtracts',
      lever: 'the crank turns one way; a lever sets the drive to subtract',
      'half-step': 'the crank turns one way; half a place further to the right the carriage is driven in reverse',
      lift: 'the crank turns one way; lifted, it subtracts',
      none: 'the machine only adds',
    },
    count: {
      follow: 'a turn that adds counts one up, a turn that subtracts one down',
      lever: 'a turn that adds counts one up, a turn that subtracts one down; a lever changes this over',
      first:
        'the first turn after the counter is cleared counts one up; further turns the same way count up, the others down',
    },
    /** Of a machine that has phrases of its own, in whatever language. */
    wording: "some steps are put in this machine's own words",
    /** What not every machine has. */
    has: {
      dials: 'result wheels that can be set by hand',
      park: 'a place out of gear to the left of position 1',
      bell: 'a bell that rings when the result runs over or goes below zero',
      autoClear: 'a button that returns the levers to 0 after each turn',
      autoDivide: 'automatic division',
      transferResult: 'back transfer from the result to the levers',
      transferResultAt1: 'back transfer from the result to the levers, in position 1',
      transferCounter: 'back transfer from the counter to the levers',
    },
  },
};
