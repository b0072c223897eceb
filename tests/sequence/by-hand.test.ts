/** Carriage, transfer and devices: what can be done by hand and what moves nothing. */
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { expectMarked } from '../marked.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';

const check = (name: MachineName, steps: string) => expectMarked(cranked(name, steps));
const lastRow = ({ library, report }: ReturnType<typeof expectMarked>) => {
  const row = traceOf(library, report).sequences[0].steps.at(-1);
  if (!row) throw new Error('The sequence has no steps.');
  return row;
};

describe('the carriage', () => {
  test('past an end it goes to the end', () => {
    const checked = check(
      'reverse',
      `shift right 9 #! carriage-end
       expect carriage 4
       shift left 8 #! carriage-end
       expect carriage 1`,
    );
    expect(lastRow(checked).position).toBe(1);
  });
  test.each(['shift to 5', 'shift to 0', 'shift to 99'])('%s: there is no such position, it stays', (step) => {
    check('reverse', `  shift to 3\n  ${step} #! carriage-end\n  expect carriage 3`);
  });
  test('out of gear where it can park, and no further', () => {
    check(
      'full',
      `shift left
       expect parked
       shift left #! carriage-end
       shift right 2
       expect carriage 2
       shift out
       expect parked`,
    );
    check('reverse', '  shift out #! not-on-this-machine\n  expect carriage 1');
  });
  test('half places belong to half-step machines', () => {
    check(
      'halfStep',
      `shift right half
       expect carriage 1
       shift right half
       expect carriage 2
       shift left half 2 #! syntax`,
    );
    check('full', '  shift right half #! not-on-this-machine');
    check(
      'halfStep',
      `shift to 4
       shift right half
       shift right half #! carriage-end
       mode add`,
    );
    check(
      'halfStep',
      `shift left half
       expect parked
       shift left half #! carriage-end`,
    );
  });
  test('what a half place costs, and a lever', () => {
    const { report } = check(
      'halfStep',
      `shift right half
       shift right 2
       shift left half
       mode subtract
       mode subtract
       mode add`,
    );
    expect(report.sequences[0].runs[0].effort).toEqual({ turns: 0, shifts: 4, levers: 2, cost: 8 });
  });
  test('expect carriage, and parked', () => {
    check(
      'full',
      `expect carriage 2 #! reading-differs
       expect parked #! reading-differs
       shift out
       expect carriage 1 #! reading-differs`,
    );
  });
});

describe('back transfer', () => {
  test('from the places under the levers, and the register is cleared', () => {
    const checked = check(
      'full',
      `dial result 123400
       shift to 3
       transfer result
       expect setting 1234 result 0`,
    );
    expect(lastRow(checked)).toMatchObject({ setting: '1234', result: '00000000', wraps: 0 });
  });
  test('figures to the left or the right of the levers are lost', () => {
    check(
      'full',
      `dial result 51234
       transfer result #! transfer-loses-digits
       expect setting 1234`,
    );
    check(
      'full',
      `dial result 12345
       shift right
       transfer result #! transfer-loses-digits
       expect setting 1234`,
    );
  });
  test('the counter goes to the levers in any position, even out of gear', () => {
    check(
      'full',
      `set 7
       turn 3
       clear setting
       shift out
       transfer counter
       expect setting 3 counter 0`,
    );
    check('full', '  set 7\n  turn 3\n  clear setting\n  shift to 3\n  transfer counter\n  expect setting 3');
  });
  test('the result goes nowhere out of gear', () => {
    check(
      'full',
      `dial result 5
       shift out
       transfer result #! transfer-position
       expect setting 0 result 5`,
    );
  });
  test('at 1: in position 1 alone', () => {
    const atOne = machine('reverse', 'transfer result at 1');
    const steps = `set 5
                   turn
                   clear setting
                   shift right
                   transfer result #! transfer-position
                   shift left
                   transfer result
                   expect setting 5`;
    expectMarked(onMachine(atOne, steps));
  });
  test('the position is looked at before the levers', () => {
    const atOne = machine('reverse', 'transfer result at 1');
    expectMarked(
      onMachine(
        atOne,
        `set 5
         turn
         shift right
         transfer result #! transfer-position`,
      ),
    );
  });
  test('wraps begin afresh, and a first counter takes a new sense', () => {
    const first = machine('full', 'transfer counter')
      .replace('count lever', 'count first')
      .replace('  transfer counter\n', '');
    expectMarked(
      onMachine(
        first,
        `set 5
         turn
         clear setting
         transfer counter
         mode subtract
         set 1
         turn
         expect counter 1
         mode add`,
      ),
    );
  });
});

test('a device that the machine has not moves nothing', () => {
  const steps = [
    'mode add',
    'count plus',
    'auto-clear off',
    'auto-divide off',
    'dial result 5',
    'transfer counter',
    'shift out',
    'shift left half',
  ];
  const checked = check('reverse', steps.map((step) => `  ${step} #! not-on-this-machine`).join('\n'));
  expect(lastRow(checked)).toMatchObject({ result: '00000000', position: 1, drive: 'add' });
  expect(checked.report.sequences[0].runs[0].effort.cost).toBe(0);
});
