/** For every finding a way to mend it, or the reason why there is none. */
import { describe, expect, test } from 'vitest';
import { CODES, type Code } from '../../../server/sequence/findings.js';
import { type MachineName, machine } from '../../sequence/machines.js';
import { openMarked } from '../editor.js';
import { actionsAt, type Files, mended } from './acting.js';

interface Example {
  readonly code: Code;
  /** The lines with the mistake, and as they are after the fix. */
  readonly before: string;
  readonly after: string;
  /** Steps of a sequence on this machine; a whole file where there is none. */
  readonly on?: MachineName;
  /** Which of the fixes for the code, by what its title says; the evident one where nothing is said. */
  readonly title?: string | RegExp;
  readonly others?: Files;
  /** It is a Markdown page. */
  readonly isPage?: boolean;
}

/** Codes without a fix, and why. */
const NO_FIX: Partial<Record<Code, string>> = {
  'sequence-cycle': 'Which of the sequences, machines or files is to let go of the other is for the writer to say.',
  'digits-off-end': 'Figures are lost: which ones are wanted, or where the carriage should stand, nobody can tell.',
  'carry-short': 'The work has to be laid out in another way for a carry that reaches less far.',
  'turn-not-counted': 'The turn is right, and the counter has no wheel for it: it has to be noted by hand.',
  'too-long': 'The work has to be cut into parts.',
  'transfer-loses-digits': 'Which figures can be done without is for the writer to say.',
  'no-such-reading': 'Which reading was meant, only who noted it can say; a label that is nearly right has its fix.',
  'found-impossible': 'What the wheels really showed, only who noted it can say.',
  'found-twice': 'Which of the two notes is right, only who noted them can say.',
  'found-differs': 'It is what was found: nothing is wrong with the file.',
  'goal-missed': 'Either the goal or a step is wrong; to write the reading into the goal would hide it.',
};

const MACHINES = { 'machines.crank': machine('reverse') };
const USE = 'use "machines.crank"\n';

const PAGE = `\`\`\`crank\n${machine('reverse')}sequence trial on stores\n  clear all\n  set 12\n  turn 3\n\`\`\`\n\n`;
const SHOWN = `  **trial, on stores**

  | Step | Setting | Counter | Result |
  | --- | ---: | ---: | ---: |
  | \`clear all\` |  |  |  |
  | \`set 12\` | 12 |  |  |
  | \`turn 3\` |  | 3 | 36 |`;

const EXAMPLES: readonly Example[] = [
  // --- the text ---------------------------------------------------------------------------------------------
  { code: 'syntax', on: 'reverse', before: 'trun 2', after: 'turn 2' },
  { code: 'syntax', on: 'reverse', before: 'set 2; shfit right; turn', after: 'set 2; shift right; turn' },
  { code: 'syntax', on: 'reverse', before: 'repeat 3 { trun }', after: 'repeat 3 { turn }' },
  { code: 'syntax', on: 'reverse', before: 'shift rigth 2', after: 'shift right 2' },
  { code: 'syntax', on: 'reverse', before: 'points setting 1\n  set 24,5', after: 'points setting 1\n  set 24.5' },
  { code: 'syntax', on: 'reverse', before: 'set 3\n  multiply 12', after: 'set 3\n  multiply by 12' },
  { code: 'syntax', on: 'reverse', before: 'goal result 0', after: 'goal result = 0' },
  { code: 'syntax', on: 'reverse', before: 'turn 3 times # so', after: 'turn 3 # so', title: 'Leave out times' },
  { code: 'syntax', on: 'reverse', before: 'turn; sequence b on stores', after: 'turn\nsequence b on stores' },
  {
    code: 'syntax',
    before: `set 5\nturn\n${machine('reverse')}`,
    after: `sequence trial on stores\nset 5\nturn\n${machine('reverse')}`,
  },
  {
    code: 'syntax',
    before: `${machine('reverse')}sequence shift on stores`,
    after: `${machine('reverse')}sequence shift-1 on stores`,
  },
  { code: 'syntax', on: 'reverse', before: 'note "Begin', after: 'note "Begin"' },
  { code: 'syntax', on: 'reverse', before: 'note "Begin; then turn', after: 'note "Begin; then turn"' },
  { code: 'syntax', on: 'reverse', before: 'note "a \\n b"', after: 'note "a \\\\n b"' },
  {
    code: 'syntax',
    before: 'use "a\\machines.crank"',
    after: 'use "a/machines.crank"',
    others: { 'a/machines.crank': machine('reverse') },
  },
  { code: 'syntax', on: 'reverse', before: 'repeat 2 {\n    turn\n  }\n  }', after: 'repeat 2 {\n    turn\n  }' },
  {
    code: 'syntax',
    on: 'reverse',
    before: 'repeat 2 {\n    turn\n  clear all',
    after: 'repeat 2 {\n    turn\n  }\n  clear all',
  },
  { code: 'syntax', on: 'reverse', before: 'repeat 2 {\n  turn\n  turn', after: 'repeat 2 {\n  turn\n  turn\n  }' },
  { code: 'syntax', on: 'reverse', before: 'repeat 2 { turn # twice', after: 'repeat 2 { turn } # twice' },
  { code: 'syntax', on: 'reverse', before: 'points setting 1; set .5', after: 'points setting 1; set 0.5' },
  { code: 'syntax', on: 'reverse', before: 'set 24.', after: 'set 24' },
  {
    code: 'syntax',
    on: 'reverse',
    before: 'points setting 1; set 24.',
    after: 'points setting 1; set 24.0',
    title: '24.0',
  },

  // --- names -------------------------------------------------------------------------------------------------
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence a on strores`,
    after: `${machine('reverse')}sequence a on stores`,
  },
  {
    code: 'unknown-name',
    before: `${USE}sequence a on bench-4`,
    after: `${USE}use "bench.crank"\nsequence a on bench-4`,
    others: { ...MACHINES, 'bench.crank': 'machine bench-4 like stores\nuse "machines.crank"\n' },
  },
  {
    code: 'unknown-name',
    before: '# Mine.\nsequence a on bench-4',
    after: 'use "bench.crank"\n\n# Mine.\nsequence a on bench-4',
    others: { 'bench.crank': 'machine bench-4\n  setting 4\n  result 8\n' },
  },
  {
    code: 'unknown-name',
    before: 'sequence a on bench-4',
    after: 'machine bench-4\n  setting 9\n  counter 8\n  result 13\n\nsequence a on bench-4',
    title: 'machine bench-4',
  },
  {
    code: 'unknown-name',
    on: 'reverse',
    before: 'run ready',
    after: 'run ready\n\nsequence ready on stores',
    title: 'sequence ready',
  },
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence a on stores\n  run ready`,
    after: `use "ready.crank"\n\n${machine('reverse')}sequence a on stores\n  run ready`,
    others: { 'ready.crank': 'sequence ready\n  clear all\n' },
  },
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence p "P" on stores\n  set a`,
    after: `${machine('reverse')}sequence p "P" (a = 1) on stores\n  set a`,
    title: 'a = 1',
  },
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence p (a = 1) on stores\n  case b = 7\n  set a`,
    after: `${machine('reverse')}sequence p (a = 1, b = 7) on stores\n  case b = 7\n  set a`,
    title: 'b = 7',
  },
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence p "P" (a = 3, b = 2) on stores\n  goal result = a-b\n  clear all; set 1; turn`,
    after: `${machine('reverse')}sequence p "P" (a = 3, b = 2) on stores\n  goal result = a - b\n  clear all; set 1; turn`,
    title: 'a - b',
  },
  {
    code: 'unknown-name',
    before: `${machine('reverse')}sequence p (rows = 3) on stores\n  set rwos`,
    after: `${machine('reverse')}sequence p (rows = 3) on stores\n  set rows`,
  },
  {
    code: 'duplicate-name',
    before: `${machine('reverse')}sequence a on stores\nsequence a on stores`,
    after: `${machine('reverse')}sequence a on stores\nsequence a-2 on stores`,
  },
  {
    code: 'duplicate-name',
    before: `${machine('reverse')}${machine('adder')}`,
    after: `${machine('reverse')}${machine('adder').replace('stores', 'stores-2')}`,
  },
  {
    code: 'duplicate-name',
    on: 'reverse',
    before: 'expect result 0 as r-9\n  expect result 0 as r-9',
    after: 'expect result 0 as r-9\n  expect result 0 as r-10',
  },
  {
    code: 'duplicate-name',
    before: `${machine('reverse')}sequence p (a = 3, a = 2) on stores\n  set a`,
    after: `${machine('reverse')}sequence p (a = 3, a-2 = 2) on stores\n  set a`,
    title: 'a-2',
  },
  {
    code: 'duplicate-name',
    before: `${machine('reverse')}sequence p (a = 3) on stores\n  case a = 1, a = 2\n  set a`,
    after: `${machine('reverse')}sequence p (a = 3) on stores\n  case a = 1\n  set a`,
    title: 'a = 2',
  },
  {
    code: 'no-machine',
    before: `${machine('reverse')}${machine('adder').replace('stores', 'works')}sequence a (b = 1)  # so\n  set b`,
    after: `${machine('reverse')}${machine('adder').replace('stores', 'works')}sequence a (b = 1) on works  # so\n  set b`,
    title: 'works',
  },
  {
    code: 'no-machine',
    before: 'sequence a',
    after: 'use "machines.crank"\n\nsequence a on stores',
    others: MACHINES,
    title: 'stores',
  },
  {
    code: 'no-machine',
    before: 'sequence a',
    after: 'machine machine-1\n  setting 9\n  counter 8\n  result 13\n\nsequence a',
    title: 'machine-1',
  },
  { code: 'file-not-found', before: 'use "machine.crank"', after: USE.trim(), others: MACHINES },
  {
    code: 'file-not-found',
    before: 'use "a\\\\machines.crank"',
    after: 'use "a/machines.crank"',
    others: { 'a/machines.crank': machine('reverse') },
  },
  {
    code: 'unused',
    before: `# Two.\nmachine old\n  setting 4\n  result 8\n\n# The other.\nmachine new\n  setting 4\n  result 8\n\nsequence a on new`,
    after: `# The other.\nmachine new\n  setting 4\n  result 8\n\nsequence a on new`,
    title: 'old',
  },
  {
    code: 'unused',
    before: `${machine('reverse')}sequence p (a = 3, b = 2) on stores\n  case a = 4, b = 1\n  case b = 3\n  set a`,
    after: `${machine('reverse')}sequence p (a = 3) on stores\n  case a = 4\n  set a`,
    title: 'b',
  },
  {
    code: 'unused',
    before: `${machine('reverse')}sequence p "P" (a = 3) on stores\n  turn`,
    after: `${machine('reverse')}sequence p "P" on stores\n  turn`,
    title: 'a',
  },

  // --- machines ----------------------------------------------------------------------------------------------
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  result 8\n  setting 5 # again',
    after: 'machine m\n  setting 4\n  result 8\n  # again',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4; result 8; bell; bell',
    after: 'machine m\n  setting 4; result 8; bell',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 40\n  result 20',
    after: 'machine m\n  setting 20\n  result 20',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  counter 0\n  result 8',
    after: 'machine m\n  setting 4\n  counter 1\n  result 8',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  result 8 reach 3',
    after: 'machine m\n  setting 4\n  result 8 reach 4',
  },
  { code: 'bad-profile', before: 'machine m\n  setting 4\n  result 3', after: 'machine m\n  setting 4\n  result 4' },
  {
    code: 'bad-profile',
    before: `${machine('reverse')}machine wide like stores\n  setting 9`,
    after: `${machine('reverse')}machine wide like stores\n  result 9\n  setting 9`,
    title: 'result 9',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  counter 4',
    after: 'machine m\n  result 8\n  setting 4\n  counter 4',
    title: 'result 8',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  result 8',
    after: 'machine m\n  setting 8\n  result 8',
    title: 'setting 8',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  result 8\n  carriage 9',
    after: 'machine m\n  setting 4\n  result 8\n  carriage 8',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  result 8\n  auto-divide',
    after: 'machine m\n  subtract lever\n  setting 4\n  result 8\n  auto-divide',
    title: 'subtract lever',
  },
  {
    code: 'bad-profile',
    before: 'machine m\n  setting 4\n  result 8\n  auto-divide',
    after: 'machine m\n  setting 4\n  result 8',
    title: 'Leave out auto-divide',
  },
  {
    code: 'bad-profile',
    before: `${machine('reverse')}machine m like stores\n  no turn`,
    after: `${machine('reverse')}machine m like stores`,
  },

  // --- numbers -----------------------------------------------------------------------------------------------
  {
    code: 'wrong-arguments',
    before: `${machine('reverse')}sequence p (a = 3) on stores\n  set a\nsequence q on stores\n  run p (1, 2)`,
    after: `${machine('reverse')}sequence p (a = 3) on stores\n  set a\nsequence q on stores\n  run p (1)`,
  },
  {
    code: 'wrong-arguments',
    before: `${machine('reverse')}sequence p on stores\n  clear all\nsequence q on stores\n  run p (1, 2)`,
    after: `${machine('reverse')}sequence p on stores\n  clear all\nsequence q on stores\n  run p`,
  },
  { code: 'wrong-arguments', on: 'reverse', before: 'turn 2.0', after: 'turn 2' },
  {
    code: 'wrong-arguments',
    on: 'reverse',
    before: 'points setting 1; set 2.5 at 3',
    after: 'points setting 1; set 2.5',
  },
  { code: 'wrong-arguments', on: 'reverse', before: 'repeat 0 { turn }', after: 'repeat 1 { turn }', title: '1' },
  { code: 'wrong-arguments', on: 'reverse', before: 'set 2\n  turn 1000', after: 'set 2\n  turn 999', title: '999' },
  {
    code: 'wrong-arguments',
    on: 'full',
    before: 'set 2\n  divide to 2',
    after: 'set 2\n  shift to 2\n  divide to 2',
    title: 'shift to 2',
  },
  {
    code: 'wrong-arguments',
    on: 'full',
    before: 'set 2\n  divide to 2',
    after: 'set 2\n  divide to 1',
    title: 'Change to 1',
  },
  { code: 'setting-too-long', on: 'reverse', before: 'set 000012', after: 'set 12' },
  {
    code: 'setting-too-long',
    on: 'reverse',
    before: 'points setting 3\n  set 24.5',
    after: 'points setting 3\n  points setting 1\n  set 24.5',
    title: 'points setting 1',
  },
  { code: 'dial-too-long', on: 'full', before: 'dial result 000_000_012', after: 'dial result 12' },
  { code: 'places-overlap', on: 'reverse', before: 'set 12 and 3 at 2', after: 'set 12 and 3 at 3' },
  { code: 'places-overlap', on: 'reverse', before: 'turn; set 12 and 34', after: 'turn; set 12 and 34 at 3' },
  { code: 'no-such-place', on: 'reverse', before: 'set 5 at 0', after: 'set 5 at 1', title: '1' },
  { code: 'no-such-place', on: 'reverse', before: 'set 512 at 9', after: 'set 512 at 2', title: '2' },
  { code: 'no-such-place', on: 'reverse', before: 'points result 30', after: 'points result 8', title: '8' },
  { code: 'too-many-decimals', on: 'reverse', before: 'set 2.55', after: 'points setting 2\n  set 2.55' },
  {
    code: 'too-many-decimals',
    on: 'reverse',
    before: 'points setting 1 counter 1 result 2\n  turn; set 2.55',
    after: 'points setting 1 counter 1 result 2\n  turn; points setting 2 result 3; set 2.55',
  },
  {
    code: 'too-many-decimals',
    on: 'reverse',
    before: 'set 5\n  multiply by 2.5',
    after: 'set 5\n  points counter 1\n  multiply by 2.5',
  },

  // --- hands -------------------------------------------------------------------------------------------------
  { code: 'not-on-this-machine', on: 'reverse', before: 'turn; mode add; turn', after: 'turn; turn' },
  { code: 'not-on-this-machine', on: 'reverse', before: 'mode add   # so', after: '# so' },
  { code: 'not-on-this-machine', on: 'adder', before: 'clear counter result', after: 'clear result' },
  { code: 'not-on-this-machine', on: 'adder', before: 'expect result 0 counter 0 as c', after: 'expect result 0' },
  { code: 'not-on-this-machine', on: 'adder', before: 'points counter 1 result 1', after: 'points result 1' },
  { code: 'not-on-this-machine', on: 'adder', before: 'goal counter = 1', after: '' },
  {
    code: 'one-way-crank',
    on: 'full',
    before: 'set 1; turn 9\n  turn back 2 # off',
    after: 'set 1; turn 9\n  mode subtract\n  turn 2\n  mode add # off',
  },
  {
    code: 'one-way-crank',
    on: 'full',
    before: 'set 1\n  repeat 2 { turn; turn back }',
    after: 'set 1\n  repeat 2 { turn; mode subtract; turn; mode add }',
  },
  { code: 'carriage-end', on: 'reverse', before: 'shift right 9', after: 'shift right 3' },
  { code: 'carriage-end', on: 'reverse', before: 'shift right 9', after: 'shift to 4', title: 'shift to 4' },
  { code: 'carriage-end', on: 'reverse', before: 'turn; shift left', after: 'turn' },
  {
    code: 'carriage-end',
    on: 'reverse',
    before: 'repeat 2 {\n    shift right 2\n  }',
    after: 'repeat 2 {\n    shift to 4\n  }',
  },
  { code: 'carriage-end', on: 'reverse', before: 'shift to 9', after: 'shift to 4', title: '4' },
  {
    code: 'carriage-end',
    on: 'halfStep',
    before: 'shift to 1\n  shift left half\n  shift left half',
    after: 'shift to 1\n  shift left half',
  },
  {
    code: 'carriage-end',
    on: 'reverse',
    before: 'set 3; shift to 3\n  multiply by 123',
    after: 'set 3; shift to 3\n  shift to 1\n  multiply by 123',
  },
  {
    code: 'carriage-parked',
    on: 'full',
    before: 'set 1\n  shift out\n  turn',
    after: 'set 1\n  shift out\n  shift to 1\n  turn',
  },
  {
    code: 'carriage-parked',
    on: 'full',
    before: 'set 1\n  shift out; turn',
    after: 'set 1\n  shift out; expect parked; turn',
    title: 'expect parked',
  },
  {
    code: 'carriage-parked',
    on: 'full',
    before: 'set 1\n  shift out; multiply by 3',
    after: 'set 1\n  shift out; shift to 1; multiply by 3',
  },
  {
    code: 'transfer-position',
    on: 'full',
    before: 'shift out\n  transfer result',
    after: 'shift out\n  shift to 1\n  transfer result',
  },
  {
    code: 'transfer-onto-setting',
    on: 'full',
    before: 'set 5; turn\n  transfer result',
    after: 'set 5; turn\n  clear setting\n  transfer result',
  },
  {
    code: 'points-disagree',
    on: 'reverse',
    before: 'points setting 2 counter 2 result 2',
    after: 'points setting 2 counter 2 result 4',
  },
  {
    code: 'points-disagree',
    on: 'reverse',
    before: 'points result 2\n  points setting 2 counter 2',
    after: 'points result 2\n  points setting 2 counter 2 result 4',
  },
  {
    code: 'assumes-clear',
    before: `${machine('reverse')}sequence a on stores\n  note "Go."\n  set 5\n  repeat 2 {\n    turn\n  }`,
    after: `${machine('reverse')}sequence a on stores\n  note "Go."\n  clear all\n  set 5\n  repeat 2 {\n    turn\n  }`,
  },
  {
    code: 'assumes-clear',
    before: `${machine('reverse')}sequence a on stores\n  set 5; turn`,
    after: `${machine('reverse')}sequence a on stores\n  clear counter result\n  set 5; turn`,
    title: 'clear counter result',
  },
  {
    code: 'left-engaged',
    on: 'full',
    before: 'mode subtract; count minus; auto-clear on',
    after: 'mode subtract; count minus; auto-clear on; mode add; count plus; auto-clear off',
  },
  {
    code: 'left-engaged',
    on: 'full',
    before: 'repeat 2 {\n    auto-divide on\n  }',
    after: 'repeat 2 {\n    auto-divide on\n  }\n  auto-divide off',
  },

  // --- turns -------------------------------------------------------------------------------------------------
  {
    code: 'result-overflow',
    on: 'reverse',
    before: 'set 9999; shift to 4\n  turn 11\n  shift to 1',
    after: 'set 9999; shift to 4\n  turn 11\n  expect overflow\n  shift to 1',
    title: 'expect overflow',
  },
  {
    code: 'result-overdraw',
    on: 'reverse',
    before: 'set 1; turn 9; set 5\n  turn back until overdraw',
    after: 'set 1; turn 9; set 5\n  turn back until overdraw\n  turn',
  },
  {
    code: 'result-overdraw',
    on: 'reverse',
    before: 'set 1; turn 9; set 2\n  turn back 6',
    after: 'set 1; turn 9; set 2\n  turn back 6\n  turn 2',
    title: 'turn 2',
  },
  {
    code: 'result-overdraw',
    on: 'full',
    before: 'set 1; turn 9; set 5; mode subtract\n  turn until overdraw\n  mode add',
    after: 'set 1; turn 9; set 5; mode subtract\n  turn until overdraw\n  mode add\n  turn',
  },
  {
    code: 'result-overdraw',
    on: 'full',
    before: 'set 1; turn 9; set 5; mode subtract\n  turn until overdraw\n  note "."; mode add',
    after:
      'set 1; turn 9; set 5; mode subtract\n  turn until overdraw\n  mode add\n  turn\n  mode subtract\n  note "."; mode add',
  },
  {
    code: 'result-overdraw',
    on: 'reverse',
    before: 'set 5\n  turn back',
    after: 'set 5\n  turn back\n  expect overdraw',
    title: 'expect overdraw',
  },
  {
    code: 'overdraw-restored',
    on: 'reverse',
    before: 'set 5\n  turn back; turn',
    after: 'set 5\n  turn back; expect overdraw; turn',
    title: 'expect overdraw',
  },
  {
    code: 'overflow-restored',
    on: 'reverse',
    before: 'set 9999; shift to 4\n  turn 11\n  turn back 2',
    after: 'set 9999; shift to 4\n  turn 11\n  expect overflow\n  turn back 2',
    title: 'expect overflow',
  },
  {
    code: 'counter-overflow',
    on: 'plain',
    before: 'set 1\n  turn 12',
    after: 'set 1\n  turn 2\n  shift right\n  turn\n  shift left',
  },
  {
    code: 'counter-overflow',
    on: 'plain',
    before: 'set 1\n  turn 6\n  turn 6',
    after: 'set 1\n  turn 6\n  clear counter\n  turn 6',
  },
  {
    code: 'counter-underflow',
    on: 'full',
    before: 'set 1; turn; clear counter; mode subtract\n  turn\n  mode add',
    after: 'set 1; turn; clear counter; mode subtract\n  count minus\n  turn\n  count plus\n  mode add',
  },
  {
    code: 'divide-in-add-mode',
    on: 'full',
    before: 'set 5; turn 9\n  auto-divide on\n  turn\n  auto-divide off; mode add',
    after: 'set 5; turn 9\n  mode subtract\n  auto-divide on\n  turn\n  auto-divide off; mode add',
  },
  {
    code: 'auto-clear-repeat',
    on: 'full',
    before: 'auto-clear on; set 5\n  turn 3\n  auto-clear off',
    after: 'auto-clear on; set 5\n  auto-clear off\n  turn 3\n  auto-clear off',
  },
  {
    code: 'never-overdraws',
    on: 'reverse',
    before: 'set 1; turn 9; set 5\n  turn until overdraw; turn',
    after: 'set 1; turn 9; set 5\n  turn back until overdraw; turn',
    title: 'turn back',
  },
  {
    code: 'never-overdraws',
    on: 'full',
    before: 'set 1; turn 9; set 5\n  turn until overdraw; mode add; turn',
    after: 'set 1; turn 9; set 5\n  mode subtract\n  turn until overdraw; mode add; turn',
  },
  {
    code: 'never-stops',
    on: 'full',
    before: 'set 1; turn 9; set 5\n  turn until stop\n  auto-divide off; mode add',
    after: 'set 1; turn 9; set 5\n  mode subtract\n  auto-divide on\n  turn until stop\n  auto-divide off; mode add',
  },
  {
    code: 'quotient-as-complement',
    on: 'full',
    before: 'set 5; turn 2; clear counter; mode subtract; auto-divide on\n  divide\n  auto-divide off; mode add',
    after:
      'set 5; turn 2; clear counter; mode subtract; auto-divide on\n  count minus\n  divide\n  count plus\n  auto-divide off; mode add',
  },
  { code: 'idle-turn', on: 'reverse', before: 'turn', after: '' },
  { code: 'idle-turn', on: 'reverse', before: 'repeat 2 { turn; set 0 }', after: 'repeat 2 { set 0 }' },
  {
    code: 'many-turns',
    on: 'reverse',
    before: 'set 1; turn 12; set 2',
    after: 'set 1; turn 2; shift right; turn; shift left; set 2',
  },
  {
    code: 'many-turns',
    on: 'reverse',
    before: 'set 1\n  turn 203\n  set 2\n  shift to 1',
    after: 'set 1\n  turn 3\n  shift right 2\n  turn 2\n  set 2\n  shift to 1',
  },
  {
    code: 'many-turns',
    on: 'reverse',
    before: 'set 1; turn 9; turn 9; turn 9\n  turn back 10',
    after: 'set 1; turn 9; turn 9; turn 9\n  shift right\n  turn back\n  shift left',
  },
  {
    code: 'shorter-sequence',
    on: 'reverse',
    before: 'set 1\n  turn 9\n  set 2',
    after: 'set 1\n  shift right\n  turn\n  shift left\n  turn back\n  set 2',
  },
  {
    code: 'shorter-sequence',
    on: 'reverse',
    before: 'set 1; turn 5; shift right; turn 2\n\n  shift left; turn 3 # again\n  set 2',
    after: 'set 1; shift right; turn 3; shift left; turn back 2 # again\n  set 2',
  },
  {
    code: 'shorter-sequence',
    on: 'reverse',
    before: 'set 1\n  turn 3; turn back 2; set 2',
    after: 'set 1\n  turn; set 2',
  },
  {
    code: 'shorter-sequence',
    on: 'full',
    before: 'set 1\n  turn 3\n\n  mode subtract; turn 2\n  mode add # done\n  set 2',
    after: 'set 1\n  turn # done\n  set 2',
  },
  { code: 'shorter-sequence', on: 'reverse', before: 'shift right\n  shift left\n  set 2', after: 'set 2' },
  { code: 'shorter-sequence', on: 'reverse', before: 'set 2; shift right; shift left', after: 'set 2' },

  // --- readings ----------------------------------------------------------------------------------------------
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'set 12; turn 3\n  expect result 37',
    after: 'set 12; turn 3\n  expect result 36',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'set 1234; turn 3\n  expect counter 4 as c result 3_702 as r carriage 2',
    after: 'set 1234; turn 3\n  expect counter 3 as c result 3_702 as r carriage 1',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: "set 1234; turn 3\n  expect result 1'000'000",
    after: "set 1234; turn 3\n  expect result 3'702",
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'set 12; turn 3\n  expect result 0037',
    after: 'set 12; turn 3\n  expect result 0036',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'points result 2; set 1250; turn\n  expect result 12.6',
    after: 'points result 2; set 1250; turn\n  expect result 12.5',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'points result 2; set 1251; turn\n  expect result 12.6',
    after: 'points result 2; set 1251; turn\n  expect result 12.51',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'set 12; turn\n  expect result 5.0',
    after: 'set 12; turn\n  expect result 12.0',
  },
  {
    code: 'reading-differs',
    on: 'reverse',
    before: 'set 12; turn back; expect overdraw\n  expect result -13',
    after: 'set 12; turn back; expect overdraw\n  expect result -12',
  },
  {
    code: 'reading-differs',
    on: 'signed',
    before: 'set 12; turn 3; turn back 5; expect overdraw\n  expect counter 2',
    after: 'set 12; turn 3; turn back 5; expect overdraw\n  expect counter -2',
  },
  {
    code: 'reading-differs',
    on: 'full',
    before: 'shift out\n  expect carriage 1 as c',
    after: 'shift out\n  expect parked as c',
  },
  {
    code: 'reading-differs',
    on: 'full',
    before: 'shift right\n  expect parked',
    after: 'shift right\n  expect carriage 2',
  },
  {
    code: 'reading-differs',
    on: 'full',
    before: 'set 1; turn\n  expect bell result 1',
    after: 'set 1; turn\n  expect result 1',
    title: 'bell',
  },
  {
    code: 'reading-differs',
    on: 'full',
    before: 'set 1; turn; expect overdraw',
    after: 'set 1; turn',
    title: 'overdraw',
  },

  // --- pages -------------------------------------------------------------------------------------------------
  {
    code: 'stale-inset',
    isPage: true,
    before: `${PAGE}- <!-- crank: readings -->\n\nText.\n`,
    after: `${PAGE}- <!-- crank: readings -->\n\n${SHOWN}\n\n  <!-- crank: end 1w74bur -->\n\nText.\n`,
  },
  {
    code: 'bad-inset',
    isPage: true,
    before: `${PAGE}<!-- crank: redings -->`,
    after: `${PAGE}<!-- crank: readings -->`,
  },
  {
    code: 'bad-inset',
    isPage: true,
    before: `${PAGE}<!-- crank: steps of trail in de -->`,
    after: `${PAGE}<!-- crank: steps of trial in de -->`,
  },
  {
    code: 'bad-inset',
    isPage: true,
    before: `${PAGE}Text.\n\n<!-- crank: end abc -->\n\nMore.\n`,
    after: `${PAGE}Text.\n\n\nMore.\n`,
    title: 'Leave this comment out',
  },
  {
    code: 'bad-inset',
    isPage: true,
    before: `${PAGE}- <!-- crank: readings -->\n\n  Mine.\n\n  <!-- crank: end 1w74bur -->\n`,
    after: `${PAGE}- <!-- crank: readings -->\n\n${SHOWN}\n\n  <!-- crank: end 1w74bur -->\n`,
    title: 'was written here',
  },
];

/** Steps as a sequence that begins cleared. */
const whole = ({ on }: Example, steps: string): string =>
  on === undefined
    ? steps
    : `${machine(on)}sequence trial on stores\n  clear all\n${steps === '' ? '' : `  ${steps}\n`}`;

describe.each(EXAMPLES.map((example, i) => ({ ...example, i })))('$code: $before', (example) => {
  const { code, others = {}, title } = example;
  test('is mended', () => {
    const text = whole(example, example.before);
    const name = example.isPage ? 'test.md' : 'test.crank';
    const opened = openMarked(text, others, name);
    const fixes = actionsAt(opened, { codes: [code], only: ['quickfix'] });
    const action = fixes.find((fix) =>
      title === undefined
        ? fix.isPreferred
        : title instanceof RegExp
          ? title.test(fix.title)
          : fix.title.includes(title),
    );
    expect(
      action,
      fixes.map((fix) => `${fix.isPreferred ? '* ' : ''}${fix.title}`).join('\n') || 'no fix',
    ).toBeDefined();
    if (!action) return;
    const { after, problems } = mended(opened, action, code, others, name);
    expect(after).toBe(whole(example, example.after));
    expect(problems).toEqual([]);
  });
});

test('every code has a fix that is shown here, or a reason why there is none', () => {
  const shown = new Set(EXAMPLES.map(({ code }) => code));
  const codes = Object.keys(CODES) as Code[];
  expect(codes.filter((code) => !shown.has(code) && !NO_FIX[code])).toEqual([]);
  expect(codes.filter((code) => shown.has(code) && NO_FIX[code])).toEqual([]);
});

test.each([
  ['a comment behind a step', 'turn 9 # nine\n  shift right\n  turn'],
  ['a comment of its own', 'turn 9\n  # then the tens\n  shift right\n  turn'],
  ['a goal', 'turn 9\n  goal result = 19\n  shift right\n  turn'],
])('cheaper steps are not put in the place of others with %s between', (_, steps) => {
  const opened = openMarked(
    whole({ code: 'shorter-sequence', on: 'reverse', before: '', after: '' }, `set 1\n  ${steps}`),
  );
  expect(actionsAt(opened, { codes: ['shorter-sequence'], only: ['quickfix'] })).toEqual([]);
});
