/** The findings on names, files and machines, each with and without. */
import { cranked, machine, type Pair, raw } from './machines.js';

const baskets = (steps: string): string => `sequence baskets on stores\n  clear all\n${steps}`;

export const PAIRS_OF_TEXTS = {
  syntax: {
    found: cranked('reverse', '  set 5\n  trun #! syntax\n  turn'),
    not: cranked('reverse', '  set 5\n  turn\n  turn'),
  },
  'unknown-name': {
    found: cranked('reverse', '  run baskets #! unknown-name'),
    not: cranked('reverse', '  run baskets') + baskets(''),
  },
  'duplicate-name': {
    found: `${cranked('reverse', '')}sequence trial on stores #! duplicate-name\n  clear all`,
    not: `${machine('reverse')}sequence stores on stores\n  clear all`,
  },
  'no-machine': {
    found: 'sequence trial #! no-machine\n  clear all',
    not: `${machine('reverse')}sequence trial\n  clear all`,
  },
  'file-not-found': {
    found: 'use "shed.crank" #! file-not-found',
    not: 'use "stores.crank"\nsequence trial on stores\n  clear all',
    others: { 'stores.crank': machine('reverse') },
  },
  'sequence-cycle': {
    found: cranked('reverse', '  run baskets #! sequence-cycle') + baskets('  run trial #! sequence-cycle'),
    not: cranked('reverse', '  run baskets\n  run baskets') + baskets(''),
  },
  'bad-profile': {
    found: machine('reverse', 'carriage 9 #! bad-profile'),
    not: machine('reverse', 'carriage 8'),
  },
  'wrong-arguments': {
    found: cranked('reverse', '  set 1\n  turn 1_000 #! wrong-arguments'),
    not: cranked('reverse', '  set 1\n  turn 999 #! many-turns shorter-sequence'),
  },
  unused: {
    found: `${machine('reverse')}sequence trial (pots = 5) on stores #! unused\n  clear all`,
    not: `${machine('reverse')}sequence trial (pots = 5) on stores\n  clear all\n  set pots`,
  },
  'assumes-clear': {
    found: raw('reverse', '  set 5\n  turn #! assumes-clear'),
    not: raw('reverse', '  clear counter result\n  set 5\n  turn'),
  },
} as const satisfies Record<string, Pair>;
