/** `multiply` and `divide`, and the single steps that they stand for. */
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { expectMarked } from '../marked.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';

const check = (name: MachineName, steps: string) => expectMarked(cranked(name, steps));
const rowsOf = ({ library, report }: ReturnType<typeof expectMarked>) => traceOf(library, report).sequences[0].steps;
const stepsOf = (checked: ReturnType<typeof expectMarked>) => rowsOf(checked).map(({ step }) => step);

describe('multiply', () => {
  test('turns for the figures, units first; noughts are shifted over', () => {
    const checked = check('reverse', '  set 12\n  multiply by 3020');
    expect(stepsOf(checked).slice(2)).toEqual(['shift right', 'turn 2', 'shift right 2', 'turn 3']);
    expect(rowsOf(checked).at(-1)).toMatchObject({ result: '00036240', counter: '3020', position: 4 });
    expect(
      new Set(
        rowsOf(checked)
          .slice(2)
          .map(({ line }) => line),
      ),
    ).toEqual(new Set([8]));
  });
  test('from where the carriage stands', () => {
    expect(
      rowsOf(
        check(
          'reverse',
          `set 12
           shift right
           multiply by 12`,
        ),
      ).at(-1),
    ).toMatchObject({
      counter: '0120',
      position: 3,
    });
  });
  test('by nothing, or with noughts in front', () => {
    expect(stepsOf(check('reverse', '  set 12\n  multiply by 0'))).toEqual(['clear all', 'set 12']);
    expect(
      stepsOf(
        check(
          'reverse',
          `set 12
           shift to 4
           multiply by 00002`,
        ),
      ).slice(3),
    ).toEqual(['turn 2']);
  });
  test('a value is aligned to the marker of the counter', () => {
    const checked = check(
      'reverse',
      `points setting 1 counter 1 result 2
       set 1.5
       multiply by 2.5
       expect result 3.75 counter 2.5`,
    );
    expect(stepsOf(checked)).toContain('shift right');
    check('reverse', '  set 12\n  multiply by 2.5 #! too-many-decimals');
  });
  test('past the last position nothing is turned', () => {
    const checked = check(
      'reverse',
      `set 12
       shift right
       multiply by 1234 #! carriage-end`,
    );
    expect(rowsOf(checked).at(-1)).toMatchObject({ counter: '0000', position: 2 });
  });
  test('a finding in its steps stands at the line, once, with all its turns', () => {
    const steps = `set 12
                   multiply by 99
                   shift to 1
                   multiply by 99 #! counter-overflow`;
    const { report } = check('signed', steps);
    expect(report.findings[0].facts).toMatchObject({ code: 'counter-overflow', times: 2 });
  });
});

describe('divide', () => {
  test('with a back turning crank: overdraw, restore, shift left', () => {
    const first = machine('reverse', 'count first', 'result 8 dials').replace('  result 8\n', '');
    const checked = expectMarked(
      onMachine(
        first,
        `dial result 65
         set 5
         shift right
         divide #! overdraw-restored
         expect counter 13 result 0 carriage 1`,
      ),
    );
    const turns = ['turn back until overdraw', 'turn'];
    expect(stepsOf(checked).slice(4, -1)).toEqual([...turns, 'shift left', ...turns]);
  });
  test('with levers, which are left as they were found', () => {
    const checked = check(
      'full',
      `dial result 65
       set 5
       shift right
       divide #! overdraw-restored
       expect counter 13 result 0`,
    );
    expect(stepsOf(checked).slice(4, -1)).toEqual([
      ...['count minus', 'mode subtract', 'turn until overdraw', 'mode add', 'turn', 'shift left'],
      ...['mode subtract', 'turn until overdraw', 'mode add', 'turn', 'count plus'],
    ]);
    const subtracting = check(
      'full',
      `dial result 65
       set 5
       mode subtract
       count minus
       divide to 1 #! overdraw-restored
       mode add
       count plus`.replace('dial result 65', 'dial result 15'),
    );
    expect(rowsOf(subtracting).at(-3)).toMatchObject({ drive: 'subtract', count: 'minus', counter: '0003' });
  });
  test('down to a position, and not below', () => {
    const checked = check(
      'full',
      `dial result 650
       set 5
       shift to 3
       divide to 2 #! overdraw-restored
       expect carriage 2 counter 130 result 0`,
    );
    expect(rowsOf(checked).every(({ position }) => position !== 0)).toBe(true);
    check(
      'full',
      `set 5
       shift to 2
       divide to 3 #! wrong-arguments
       divide to 5 #! wrong-arguments
       divide to 0 #! wrong-arguments`,
    );
  });
  test('on a machine that only adds it moves nothing', () => {
    const none = machine('reverse', 'subtract none');
    expectMarked(
      onMachine(
        none,
        `set 5
         divide #! not-on-this-machine
         expect carriage 1`,
      ),
    );
  });
  test('by automatic division, and stopping at a position', () => {
    const begin = `dial result 650
                   set 5
                   shift to 3
                   mode subtract
                   count minus
                   auto-divide on
                   `;
    const end = `
                 auto-divide off
                 mode add
                 count plus`;
    const checked = check('full', `${begin}  divide to 2\n  expect counter 130 result 0 carriage 1${end}`);
    expect(stepsOf(checked)).toContain('turn until stop');
    check('full', `${begin}  divide\n  expect counter 130 result 0 parked${end}`);
  });
  test('a quotient that shows as a complement is told', () => {
    const automatic = `dial result 10
                       set 5
                       mode subtract
                       auto-divide on
                       divide #! quotient-as-complement counter-underflow
                       auto-divide off
                       mode add`;
    check('full', automatic);
    expect(rowsOf(check('full', automatic)).at(-1)?.counter).toBe('9998');
  });
  test('by nothing never ends', () => {
    check(
      'full',
      `dial result 10
       divide #! never-overdraws idle-turn many-turns
       set 5`,
    );
  });
});
