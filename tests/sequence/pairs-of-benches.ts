/** For each finding on a bench record a text that has it, and one near to it that has not. */
import type { Code } from '../../server/sequence/findings.js';
import { cranked, type Pair } from './machines.js';

/** A script with three readings, and lines of a record of it. */
const noted = (lines: string): string =>
  `${cranked(
    'full',
    `set 12; turn
     expect counter 1 result 12 as once
     turn 2
     expect result 36 as thrice
     expect carriage 1`,
  )}\nbench "Before oiling" of trial on stores\n${lines}\n`;

export const PAIRS_OF_BENCHES = {
  'no-such-reading': {
    found: noted('found 4 result 12 #! no-such-reading\n found 0 result 12 #! no-such-reading'),
    not: noted('found 1 result 12\n found thrice result 36'),
  },
  'found-impossible': {
    found: noted(
      `found once result 123456789 #! found-impossible
       found 2 result 0.5 #! found-impossible
       found 3 carriage 5 #! found-impossible`,
    ),
    not: noted('found once result 00000012\n found 2 result 36.0\n found 3 carriage 1'),
  },
  'found-twice': {
    found: noted('found once result 12\n found 1 counter 1 result 12 #! found-twice'),
    not: noted('found once result 12\n found 1 counter 1'),
  },
  'found-differs': {
    found: noted('found once result 11 #! found-differs\n found 2 bell #! found-differs'),
    not: noted('found once result 12\n found 2 no bell'),
  },
} satisfies Partial<Record<Code, Pair>>;
