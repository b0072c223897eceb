/** Turn steps: out of gear, many turns at once, automatic division. */
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { expectMarked } from '../marked.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';

const check = (name: MachineName, steps: string) => expectMarked(cranked(name, steps));
const rowsOf = ({ library, report }: ReturnType<typeof expectMarked>) => traceOf(library, report).sequences[0].steps;

describe('out of gear', () => {
  test('expect parked excuses the one turn step behind it', () => {
    check(
      'full',
      `set 5
       shift out
       expect parked
       turn 2
       turn #! carriage-parked
       expect result 0 counter 0`,
    );
  });
  test('not if another step stands between, but for prose', () => {
    check(
      'full',
      `set 5
       shift out
       expect parked
       set 6
       turn #! carriage-parked`,
    );
    check(
      'full',
      `set 5
       shift out
       expect parked
       note "Feel it run free."
       turn`,
    );
  });
  test('it is told where the carriage went out of gear', () => {
    const { findings } = check(
      'full',
      `set 5
       shift right
       shift left 2
       turn #! carriage-parked`,
    );
    expect(findings[0].related).toEqual([expect.objectContaining({ line: 17 })]);
  });
  test('turning until something happens moves nothing there', () => {
    check(
      'full',
      `set 5
       mode subtract
       shift out
       turn until overdraw #! carriage-parked
       mode add`,
    );
  });
  test('no turn at all is no turn out of gear', () => check('full', '  shift out\n  turn 0'));
});

describe('one step of many turns', () => {
  test('is told with the turn in which it happened first, and how often', () => {
    const { report } = check('plain', '  set 1\n  turn 25 #! counter-overflow many-turns');
    const facts = report.findings.map((finding) => finding.facts);
    expect(facts).toContainEqual({ code: 'counter-overflow', turn: 10, times: 2, places: 4, wheel: 1 });
    expect(facts).toContainEqual({ code: 'many-turns', times: 25 });
  });
  test('the one-way crank says how to subtract, if at all', () => {
    const full = check('full', '  set 5\n  turn back #! one-way-crank');
    expect(full.findings[0].message).toContain('mode subtract');
    const none = onMachine(machine('adder', 'subtract none'), '  set 5\n  turn back #! one-way-crank');
    expect(expectMarked(none).findings[0].message).toContain('complement');
  });
  test('auto-clear tells of more than one turn, and not of turns out of gear', () => {
    check(
      'full',
      `auto-clear on
       set 5
       shift out
       expect parked
       turn 3
       expect setting 5
       auto-clear off`,
    );
    const repeated = check(
      'full',
      `auto-clear on
       set 5
       turn 3 #! auto-clear-repeat idle-turn
       expect result 5 counter 3
       auto-clear off`,
    );
    expect(repeated.findings.find(({ code }) => code === 'idle-turn')?.message).toContain('2 turns');
  });
  test('the carry that is lost is told with its place', () => {
    const { report } = check(
      'shortReach',
      `shift right
       set 99
       turn 9 #! shorter-sequence
       turn 3 #! carry-short`,
    );
    expect(report.findings[0].facts).toEqual({ code: 'carry-short', turn: 2, times: 1, place: 4 });
  });
});

describe('automatic division', () => {
  const divider = machine('full', 'counter 2', 'carriage 4').replace('  counter 4\n', '');
  const begin = `dial result 5000
                 set 5
                 shift to 4
                 mode subtract
                 count minus
                 auto-divide on
                 `;
  const end = `
               auto-divide off
               mode add
               count plus`;

  test('a turn that is not counted is told with the position in which it was made', () => {
    const { report } = expectMarked(onMachine(divider, `${begin}  turn 3 #! turn-not-counted${end}`));
    // 5000 − 5000, overdrawn, restored: all three in position 4; the carriage stands in 3 by then.
    expect(report.findings[0].facts).toMatchObject({ code: 'turn-not-counted', times: 3, position: 4 });
  });
  test('turns until the carriage is out of gear, and no further', () => {
    const steps = `dial result 65
                   set 5
                   shift right
                   mode subtract
                   count minus
                   auto-divide on
                   turn until stop
                   expect parked counter 13 result 0
                   turn until stop`;
    const rows = rowsOf(check('full', steps + end));
    expect(rows.filter(({ step }) => step === 'turn until stop').map(({ turns }) => turns)).toEqual([8, 0]);
  });
  test('levers at zero are no idle turns there, they only never stop', () => {
    check(
      'full',
      `mode subtract
       count minus
       auto-divide on
       turn 2
       auto-divide off
       mode add
       count plus`,
    );
  });
});
