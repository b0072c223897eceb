/** The findings on what is done by hand and on readings, each with and without. */
import { cranked, machine, onMachine, type Pair } from './machines.js';

const transfersAt1 = machine('reverse', 'transfer result at 1');

export const PAIRS_OF_HANDS = {
  'setting-too-long': {
    found: cranked('reverse', '  set 12345 #! setting-too-long'),
    not: cranked('reverse', '  set 1234'),
  },
  'dial-too-long': {
    found: cranked('full', '  dial result 123456789 #! dial-too-long'),
    not: cranked('full', '  dial result 12345678'),
  },
  'places-overlap': {
    found: cranked('reverse', '  set 12 and 5 at 2 #! places-overlap'),
    not: cranked('reverse', '  set 12 and 5 at 3'),
  },
  'no-such-place': {
    found: cranked('reverse', '  set 5 at 0 #! no-such-place'),
    not: cranked('reverse', '  set 5 at 4'),
  },
  'too-many-decimals': {
    found: cranked('reverse', '  set 1.5 #! too-many-decimals'),
    not: cranked('reverse', '  points setting 1\n  set 1.5'),
  },
  'not-on-this-machine': {
    found: cranked('reverse', '  mode subtract #! not-on-this-machine'),
    not: cranked('full', '  mode subtract\n  mode add'),
  },
  'carriage-end': {
    found: cranked('reverse', '  shift left #! carriage-end'),
    not: cranked('reverse', '  shift right #! shorter-sequence\n  shift left'),
  },
  'transfer-position': {
    found: onMachine(transfersAt1, '  shift right\n  transfer result #! transfer-position'),
    not: onMachine(transfersAt1, '  shift right #! shorter-sequence\n  shift to 1\n  transfer result'),
  },
  'transfer-onto-setting': {
    found: onMachine(transfersAt1, '  set 5\n  turn\n  transfer result #! transfer-onto-setting'),
    not: onMachine(transfersAt1, '  set 5\n  turn\n  clear setting\n  transfer result'),
  },
  'transfer-loses-digits': {
    found: cranked('full', '  dial result 12345\n  transfer result #! transfer-loses-digits'),
    not: cranked('full', '  dial result 1234\n  transfer result'),
  },
  'points-disagree': {
    found: cranked('reverse', '  points setting 1 counter 1 result 1 #! points-disagree'),
    not: cranked('reverse', '  points setting 1 counter 1 result 2'),
  },
  'reading-differs': {
    found: cranked('reverse', '  set 5\n  turn\n  expect result 6 #! reading-differs'),
    not: cranked('reverse', '  set 5\n  turn\n  expect result 5'),
  },
  'goal-missed': {
    found: cranked('reverse', '  goal result = 2 * 3 #! goal-missed\n  set 5\n  turn'),
    not: cranked('reverse', '  goal result = 2 + 3\n  set 5\n  turn'),
  },
  'left-engaged': {
    found: cranked('full', '  mode subtract #! left-engaged'),
    not: cranked('full', '  mode subtract\n  mode add'),
  },
} as const satisfies Record<string, Pair>;
