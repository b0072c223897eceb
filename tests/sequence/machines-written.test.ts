/** Machines as they are written: lines that contradict each other, and lines taken over or dropped. */
import { describe, expect, test } from 'vitest';
import { checkFiles, checkText, expectMarked } from '../marked.js';

const profileOf = (text: string, name: string) => {
  const { library, report } = checkText(text);
  expect(report.findings.map(({ facts }) => facts.code)).toEqual([]);
  const section = library.scope('test.crank').machine(name);
  const profile = section && library.machine(section).profile;
  if (!profile) throw new Error(`${name} can't be built.`);
  return profile;
};
const SMALL = '  setting 4\n  result 8\n';

describe('contradictions stand on their line', () => {
  test.each([
    ['setting 0 #! bad-profile\n  result 8'],
    ['setting 21 #! bad-profile\n  result 20'],
    ['setting 4.5 #! bad-profile\n  result 8'],
    ['setting 4\n  result 21 #! bad-profile\n  carriage 4'],
    ['setting 4\n  result 8\n  counter 0 #! bad-profile'],
    ['setting 4\n  result 8\n  counter 21 #! bad-profile\n  carriage 4'],
    ['setting 4\n  result 8\n  carriage 0 #! bad-profile'],
    ['setting 4\n  result 8\n  carriage 9 #! bad-profile'],
    ['setting 4\n  result 8 reach 3 #! bad-profile'],
    ['setting 4\n  result 8 reach 21 #! bad-profile'],
    ['setting 4\n  result 3 #! bad-profile\n  carriage 3'],
    ['setting 4\n  result 8\n  auto-divide #! bad-profile'],
    ['setting 4\n  result 8\n  subtract none\n  auto-divide #! bad-profile'],
    ['setting 4\n  result 8\n  transfer result at 2 #! bad-profile'],
    ['setting 4\n  result 8\n  effort turn 1 shift 1.5 lever 2 #! bad-profile'],
    ['setting 4\n  result 8\n  setting 5 #! bad-profile'],
    ['setting 4\n  result 8\n  no turn #! bad-profile'],
    ['setting 4\n  result 8\n  phrase turn "Crank"\n  phrase turn "Wind" #! bad-profile'],
  ])('%s', (lines) => {
    expectMarked(`machine stores\n  ${lines}\n`);
  });
  test.each([['setting 4 #! bad-profile'], ['result 8 #! bad-profile']])(
    'what is missing stands on the first line: %s',
    (line) => {
      const [written, mark] = line.split(' #! ');
      expectMarked(`machine stores #! ${mark}\n  ${written}\n`);
    },
  );
  test('a result with fewer places than levers, where the carriage is left to the machine', () => {
    expectMarked('machine stores\n  setting 4\n  result 3 #! bad-profile\n');
  });
  test('a sequence on such a machine is not run, and nothing more is said of it', () => {
    const { report } = expectMarked(
      'machine stores\n  setting 4\n  result 3 #! bad-profile\n  carriage 2\nsequence trial on stores\n  turn 99\n',
    );
    expect(report.sequences[0].runs).toEqual([]);
  });
});

describe('what is left out', () => {
  test('has its defaults', () => {
    expect(profileOf(`machine stores\n${SMALL}`, 'stores')).toEqual({
      name: 'stores',
      setting: 4,
      counter: 0,
      counterCarry: 'carry',
      result: 8,
      dials: false,
      carriage: 5,
      subtract: 'reverse',
      count: 'follow',
      park: false,
      bell: false,
      autoClear: false,
      autoDivide: false,
      transferResult: 'none',
      transferCounter: false,
      effort: { turn: 1, shift: 1, lever: 2 },
      phrases: {},
    });
  });
  test('the carriage has as many positions as the counter places', () => {
    expect(profileOf(`machine stores\n${SMALL}  counter 6 plain\n`, 'stores')).toMatchObject({ carriage: 6 });
  });
  test('half steps park at the left', () => {
    expect(profileOf(`machine stores\n${SMALL}  subtract half-step\n`, 'stores')).toMatchObject({ park: true });
  });
});

describe('like and no', () => {
  const parent = `machine stores "The old one"\n${SMALL}  counter 6\n  bell\n  transfer result at 1\n  transfer counter\n  effort turn 3 shift 2 lever 1\n  phrase turn "Wind"\n  phrase set "Put"\n`;

  test('takes over every line that is not written again', () => {
    const text = `${parent}machine shed like stores\n  result 10 dials\n  counter 5 plain\n  phrase turn "Crank"\n`;
    expect(profileOf(text, 'shed')).toEqual({
      ...profileOf(parent, 'stores'),
      name: 'shed',
      title: undefined,
      counter: 5,
      counterCarry: 'plain',
      result: 10,
      dials: true,
      carriage: 5,
      phrases: { turn: 'Crank', set: 'Put' },
    });
  });
  test('no drops a line, and what hung on it has its default', () => {
    const text = `${parent}machine shed like stores\n  no counter\n  no bell\n  no transfer result\n  no effort\n  no phrase turn\n`;
    expect(profileOf(text, 'shed')).toMatchObject({
      counter: 0,
      carriage: 5,
      bell: false,
      transferResult: 'none',
      transferCounter: true,
      effort: { turn: 1, shift: 1, lever: 2 },
      phrases: { set: 'Put' },
    });
  });
  test('over several machines, in whatever order they stand', () => {
    const text = `machine c like b\n  no bell\nmachine b like a\n  bell\nmachine a\n${SMALL}`;
    expect(profileOf(text, 'c')).toMatchObject({ setting: 4, bell: false });
    expect(profileOf(text, 'b')).toMatchObject({ setting: 4, bell: true });
  });
  test('what is needed and dropped is missed', () => {
    expectMarked(`machine stores\n${SMALL}machine shed like stores\n  no setting #! bad-profile\n`);
  });
  test('a mistake of the other machine is told there alone', () => {
    expectMarked(
      `machine stores\n  setting 4 \n  result 8\n  carriage 9 #! bad-profile\nmachine shed like stores\n  bell\n`,
    );
  });
  test('an unknown one', () => {
    const { findings } = expectMarked(`machine stores\n${SMALL}machine shed like store #! unknown-name\n`);
    expect(findings[0].message).toContain('Did you mean stores?');
  });
  test('in a circle', () => {
    expectMarked('machine a like a #! sequence-cycle\n');
    expectMarked(
      'machine a like b #! sequence-cycle\nmachine b like c #! sequence-cycle\nmachine c like a #! sequence-cycle\n',
    );
  });
  test('a long row of machines, each like the next', () => {
    // Built one inside the other they would take all of the stack, and all of an hour.
    const row = Array.from({ length: 8_000 }, (_, i) => `machine bed-${i} like bed-${i + 1}\n`).join('');
    const { findings, library } = checkText(`${row}machine bed-8000\n${SMALL}`);
    expect(findings).toEqual([]);
    const first = library.scope('test.crank').machine('bed-0');
    expect(first && library.machine(first).profile?.name).toBe('bed-0');
  });
});

describe('unused machines', () => {
  const two = `machine stores\n${SMALL}machine shed #! unused\n${SMALL}`;
  const trial = 'sequence trial on stores\n  clear all\n';

  test('beside sequences that use another', () => {
    expectMarked(two + trial);
  });
  test('not in a file of machines alone, nor if another is like it', () => {
    expectMarked(two.replace(' #! unused', ''));
    expectMarked(`machine shed\n${SMALL}machine stores like shed\n${trial}`);
  });
  test('not if another file cranks on it', () => {
    const other = { 'other.crank': 'use "test.crank"\nsequence dig on shed\n  clear all\n' };
    expectMarked(two.replace(' #! unused', '') + trial, { others: other });
  });
  test('not if a machine in another file is like it', () => {
    const other = { 'other.crank': 'use "test.crank"\nmachine frame like shed\nsequence dig on frame\n  clear all\n' };
    expectMarked(two.replace(' #! unused', '') + trial, { others: other });
  });
  test('a file that does not use this one has no say', () => {
    expectMarked(two + trial, { others: { 'other.crank': 'sequence dig on shed\n  clear all\n' } });
  });
});

test('the machine may be left out where just one can be seen', () => {
  const sequence = 'sequence trial\n  clear all\n  set 5\n  turn\n  expect result 5\n';
  expectMarked(`machine stores\n${SMALL}${sequence}`);
  expectMarked(`use "m.crank"\n${sequence}`, { others: { 'm.crank': `machine stores\n${SMALL}` } });
  const { findings } = checkFiles({ 'a.crank': `machine a\n${SMALL}machine b\n${SMALL}${sequence}` });
  expect(findings.filter(({ code }) => code === 'no-machine').map(({ message }) => message.slice(0, 3))).toEqual([
    '2 m',
  ]);
});
