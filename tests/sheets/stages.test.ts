/** Where a stage of the work ends: marked `#.` by itself, and `#?` because somebody looks. */
import { expect, test } from 'vitest';
import { stageEnds } from '../../server/sheets/stages.js';
import { lastIn } from './made.js';

const MACHINE = 'machine desk\n  setting 8\n  counter 8\n  result 13 dials\n  transfer result\n';

/** Lines of a text, each a step, whose stage ends. */
function ends(steps: string): string[] {
  const lines = steps.trim().split('\n');
  const { runs } = lastIn(`${MACHINE}sequence s on desk\n${lines.map((line) => line.replace(/#.*/, '')).join('\n')}\n`);
  const found = stageEnds(runs[0]);
  expect(runs[0].tape.length).toBe(lines.length);
  return lines.map((line, row) => {
    const mark = found.get(row);
    return line.replace(/\s*#.*/, '') + (mark ? ` #${mark === 'over' ? '.' : '?'}` : '');
  });
}

test.each([
  [
    'a new setting ends a product, and not what was merely added',
    `
clear all
set 4
turn
set 5
turn
set 6
turn
shift right
turn 2 #.
set 7
turn #.`,
  ],
  [
    'clearing, dialling and back transfer end whatever was turned',
    `
set 4
turn #.
clear counter
turn #.
dial result 7
turn #.
clear setting
clear counter
transfer result
shift right #.`,
  ],
  [
    'somebody who looks ends it, prose does not',
    `
clear all #?
expect result 0
set 5
turn #?
note "Look."
expect result 5
ask counter
set 3
turn #.
note "The end."`,
  ],
])('%s', (_, steps) => {
  expect(ends(steps)).toEqual(steps.trim().split('\n'));
});

test('nothing ends where nothing is done', () => {
  expect(stageEnds(lastIn(`${MACHINE}sequence s on desk\n  note "Nothing."\n`).runs[0]).size).toBe(0);
  expect(stageEnds(lastIn(`${MACHINE}sequence s on desk\n  ask result\n`).runs[0]).size).toBe(0);
});
