/** Markers, numbers and readings. */
import { describe, expect, test } from 'vitest';
import { expectMarked } from '../marked.js';
import { cranked, type MachineName, raw } from './machines.js';

const check = (name: MachineName, steps: string) => expectMarked(cranked(name, steps));

test('a step with several readings that differ is told once, with the first', () => {
  const { findings } = check('reverse', '  clear all\n  expect result 5 counter 3 carriage 2 #! reading-differs');
  expect(findings.map(({ message }) => message)).toEqual([
    'The result reads 0, not 5. The first wheel that differs is in place 1.',
  ]);
});

describe('markers and numbers', () => {
  test('markers disagree only once all three have been placed', () => {
    check(
      'reverse',
      `points setting 1
       points result 3
       points counter 1 #! points-disagree
       points result 2`,
    );
    check('reverse', '  points setting 1 result 5\n  points result 4');
    check('reverse', '  points setting 1 counter 1 result 3 #! points-disagree\n  points setting 2');
    expectMarked(raw('adder', '  points setting 1 result 3'));
  });
  test('no marker left of the register or on a counter that is not there', () => {
    check('reverse', '  points setting 5 #! no-such-place\n  set 1.5 #! too-many-decimals');
    const { findings } = check('reverse', '  points setting 2 counter 5 #! no-such-place\n  expect setting 0');
    expect(findings[0].message).toBe(
      'The counter has 4 places, so it can have 0 to 4 decimals, not 5. No marker is moved.',
    );
    check('reverse', '  points setting 4');
    check('adder', '  points counter 0 #! not-on-this-machine');
  });
  test('a value goes to its marker, a digit string as it stands', () => {
    check(
      'reverse',
      `points setting 2
       set 1.5
       expect setting 1.5 setting 150 setting 1.50
       set 15
       expect setting 15 setting 0.15`,
    );
    check(
      'full',
      `points result 3
       dial result 2.5
       expect result 2500 result 2.5
       dial result 25
       expect result 0.025`,
    );
  });
  test('leading noughts take places in a digit string and none in a value', () => {
    check(
      'reverse',
      `set 00012 #! setting-too-long
       points setting 1
       set 00012.5
       expect setting 12.5`,
    );
    check(
      'full',
      `dial result 000000012 #! dial-too-long
       points result 1
       dial result 000000012.5
       expect result 125`,
    );
  });
  test('at gives the units a place', () => {
    check(
      'full',
      `set 12 at 3
       expect setting 1200
       set 12 at 4 #! setting-too-long
       set 1 at 5 #! no-such-place
       expect setting 1200`,
    );
    check(
      'full',
      `dial result 12 at 7
       expect result 12000000
       dial result 12 at 8 #! dial-too-long
       dial result 1 at 9 #! no-such-place`,
    );
    check('reverse', '  points setting 1\n  set 1.5 at 2 #! wrong-arguments');
  });
  test('several parts: noughts claim their levers too', () => {
    check(
      'reverse',
      `set 1 and 2 at 3
       expect setting 201
       set 1000 and 2 at 3 #! places-overlap
       set 10 and 2 at 2 #! places-overlap
       expect setting 201`,
    );
  });
  test('grouping marks change nothing', () => check('full', "  dial result 12_345_678\n  expect result 12'345'678"));
});

describe('readings', () => {
  test('the value is read at the marker, all of it', () => {
    check(
      'full',
      `points result 2
       dial result 14.6
       expect result 14.6 result 14.600
       expect result 14.65 #! reading-differs
       expect result 14.601 #! reading-differs
       expect result 7.2 #! reading-differs`,
    );
  });
  test('the first wheel that differs is told, from the units up', () => {
    const { findings } = check('full', '  dial result 1234\n  expect result 1334 #! reading-differs');
    expect(findings[0].message).toMatch(/reads 0*1234, not 1334/);
    expect(findings[0].message).toContain('place 3.');
  });
  test('a minus asks for the complement', () => {
    check(
      'full',
      `dial result 99999958
       expect result -42
       expect result -43 #! reading-differs
       expect result 42 #! reading-differs`,
    );
    check(
      'full',
      `points result 1
       dial result 99999958
       expect result -4.2`,
    );
    check('full', '  dial result 0\n  expect result -0');
  });
  test('on a signed counter it asks for the sum', () => {
    check(
      'signed',
      `set 1
       shift right
       turn 2
       shift left
       turn back 4
       expect counter 16
       clear counter
       turn back
       expect counter -1
       expect counter 9999 #! reading-differs`,
    );
  });
  test('a register that is not there can be neither read nor cleared by name', () => {
    check(
      'adder',
      `expect counter 0 #! not-on-this-machine
       ask counter #! not-on-this-machine
       clear counter #! not-on-this-machine`,
    );
  });
  test('labels are one of a kind', () => {
    check('reverse', '  expect result 0 as start counter 0 as turns\n  expect result 0 as start #! duplicate-name');
  });
});
