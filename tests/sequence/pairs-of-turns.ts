/** The findings on turns, each with and without. */
import { cranked, machine, onMachine, type Pair } from './machines.js';

const pastTheEnd = machine('adder', 'counter 6');
const fewCounted = machine('adder', 'counter 2', 'carriage 4');
const nested = (depth: number, mark: string): string =>
  cranked('reverse', `  ${'repeat 1 { '.repeat(depth)}set 5${' }'.repeat(depth)} ${mark}`);
const automatic = `  dial result 10
  set 5
  mode subtract
  count minus
  auto-divide on
  turn until stop
  expect parked counter 2
  auto-divide off
  count plus
  mode add`;

export const PAIRS_OF_TURNS = {
  'one-way-crank': {
    found: cranked('full', '  set 5\n  turn\n  turn back #! one-way-crank'),
    not: cranked('reverse', '  set 5\n  turn #! shorter-sequence\n  turn back'),
  },
  'carriage-parked': {
    found: cranked('full', '  set 5\n  shift out\n  turn #! carriage-parked'),
    not: cranked('full', '  set 5\n  shift out\n  expect parked\n  turn'),
  },
  'result-overflow': {
    found: cranked('full', '  dial result 99999999\n  set 1\n  turn #! result-overflow'),
    not: cranked('full', '  dial result 99999998\n  set 1\n  turn'),
  },
  'result-overdraw': {
    found: cranked('signed', '  set 5\n  turn\n  turn back 2 #! result-overdraw'),
    not: cranked('signed', '  set 5\n  turn #! shorter-sequence\n  turn back 1'),
  },
  'overflow-restored': {
    found: cranked(
      'full',
      '  dial result 99999999\n  set 1\n  turn #! overflow-restored\n  mode subtract\n  turn\n  mode add',
    ),
    not: cranked('full', '  dial result 99999999\n  set 1\n  turn #! result-overflow\n  mode subtract\n  mode add'),
  },
  'overdraw-restored': {
    found: cranked('signed', '  set 5\n  turn back #! overdraw-restored\n  turn'),
    not: cranked('signed', '  set 5\n  turn back #! result-overdraw'),
  },
  'digits-off-end': {
    found: onMachine(pastTheEnd, '  shift to 6\n  set 1000\n  turn #! digits-off-end'),
    not: onMachine(pastTheEnd, '  shift to 6\n  set 100\n  turn'),
  },
  'carry-short': {
    found: cranked('shortReach', '  set 99\n  turn 9 #! shorter-sequence\n  turn 2 #! carry-short'),
    not: cranked('shortReach', '  set 99\n  turn 9 #! shorter-sequence\n  turn'),
  },
  'counter-overflow': {
    found: cranked('plain', '  set 1\n  turn 9\n  turn #! counter-overflow'),
    not: cranked('reverse', '  set 1\n  turn 9 #! shorter-sequence\n  turn'),
  },
  'counter-underflow': {
    found: cranked('plain', '  set 1\n  shift right\n  turn\n  shift left\n  turn back #! counter-underflow'),
    not: cranked('reverse', '  set 1\n  shift right\n  turn\n  shift left\n  turn back'),
  },
  'turn-not-counted': {
    found: onMachine(fewCounted, '  set 1\n  shift to 3\n  turn #! turn-not-counted'),
    not: onMachine(fewCounted, '  set 1\n  shift to 2\n  turn'),
  },
  'divide-in-add-mode': {
    found: cranked('full', '  set 1\n  auto-divide on\n  turn #! divide-in-add-mode\n  auto-divide off\n  mode add'),
    not: cranked('full', automatic),
  },
  'auto-clear-repeat': {
    found: cranked('full', '  auto-clear on\n  set 5\n  turn 2 #! auto-clear-repeat idle-turn\n  auto-clear off'),
    not: cranked('full', '  auto-clear on\n  set 5\n  turn\n  auto-clear off'),
  },
  'never-overdraws': {
    found: cranked('signed', '  set 5\n  turn until overdraw #! never-overdraws'),
    not: cranked('signed', '  set 5\n  turn back until overdraw #! overdraw-restored\n  turn'),
  },
  'never-stops': {
    found: cranked('full', '  set 5\n  turn until stop #! never-stops'),
    not: cranked('full', automatic),
  },
  'too-long': { found: nested(33, '#! too-long'), not: nested(32, '') },
  'quotient-as-complement': {
    found: cranked(
      'reverse',
      '  set 5\n  turn 2\n  clear counter\n  divide #! quotient-as-complement counter-underflow overdraw-restored',
    ),
    not: cranked('full', '  dial result 10\n  set 5\n  divide #! overdraw-restored\n  expect counter 2 result 0'),
  },
  'idle-turn': {
    found: cranked('reverse', '  turn #! idle-turn'),
    not: cranked('reverse', '  set 1\n  turn'),
  },
  'many-turns': {
    found: cranked('reverse', '  set 1\n  turn 10 #! many-turns shorter-sequence'),
    not: cranked('reverse', '  set 1\n  turn 9 #! shorter-sequence'),
  },
  'shorter-sequence': {
    found: cranked('reverse', '  set 1\n  turn 7 #! shorter-sequence'),
    not: cranked('reverse', '  set 1\n  turn 6'),
  },
} as const satisfies Record<string, Pair>;
