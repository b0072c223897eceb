/** When an overflow or an overdraw is a mistake, when it is made good, and when it is meant. */
import { describe, expect, test } from 'vitest';
import { expectMarked } from '../marked.js';
import { cranked, machine, onMachine } from './machines.js';

const onSigned = (steps: string) => expectMarked(cranked('signed', steps));
const onFull = (steps: string) => expectMarked(cranked('full', steps));
const factsOf = (checked: ReturnType<typeof expectMarked>, code: string) =>
  checked.report.findings.filter(({ facts }) => facts.code === code).map(({ facts }) => facts);

describe('an overdraw is made good', () => {
  test('by a later turn, shifts between them or not', () => {
    onSigned(`set 5
              turn back #! overdraw-restored
              shift right
              turn`);
  });
  test('by a turn that takes it nearer to zero than it was', () => {
    const narrow = machine('signed', 'result 4', 'carriage 1').replace('  result 8\n', '');
    const steps = `set 9999
                   turn 2 #! overflow-restored
                   turn #! overflow-restored
                   turn back 3`;
    expectMarked(onMachine(narrow, steps));
  });
  test('within the step itself: nothing to tell', () => {
    const text = `set 5
                  mode subtract
                  auto-divide on
                  turn 2
                  auto-divide off
                  mode add`;
    onFull(text.replace('turn 2', 'turn 2 #! counter-underflow counter-overflow'));
  });
  test('with a note, a reading of another register or a marker between them', () => {
    onSigned(
      `set 5
       turn back #! overdraw-restored
       note "Mind the bell"
       expect counter -1
       points result 1
       turn`,
    );
  });
  test('a step that moved nothing does not count', () => {
    onSigned(`set 5
              turn back #! overdraw-restored
              dial result 3 #! not-on-this-machine
              turn`);
    onSigned(`set 5
              turn back #! overdraw-restored
              transfer result #! not-on-this-machine
              turn`);
    onFull(
      `set 5
       mode subtract
       turn #! overdraw-restored counter-underflow
       mode add
       transfer result #! transfer-onto-setting
       turn #! counter-overflow`,
    );
  });
  test('over rounds of a repeat, told once with the number of times', () => {
    const checked = onSigned(`set 5
                              repeat 3 {
                                turn back #! overdraw-restored
                                turn
                              }`);
    expect(factsOf(checked, 'overdraw-restored')).toEqual([
      { code: 'overdraw-restored', turn: 1, times: 3, places: 8 },
    ]);
  });
});

describe('an overdraw stays a mistake', () => {
  test.each([
    ['at the end', ''],
    ['when the result is cleared', '  clear result\n  turn'],
    [
      'when everything is cleared',
      `clear all
       set 5
       turn`,
    ],
    ['when the result is read', '  expect result 99999995\n  turn'],
    ['when the result is read among others', '  expect counter -1 result -5\n  turn'],
    ['when the result is asked for', '  ask result\n  turn'],
  ])('%s', (_, after) => {
    onSigned(`  set 5\n  turn back #! result-overdraw\n${after}`);
  });
  test('when the result is dialled or transferred', () => {
    onFull(`set 5
            mode subtract
            turn #! result-overdraw counter-underflow
            mode add
            dial result 3`);
    onFull(
      `set 5
       mode subtract
       turn #! result-overdraw counter-underflow
       mode add
       clear setting
       transfer result #! transfer-loses-digits`,
    );
  });
  test('a second one on top of the first is one more', () => {
    onSigned(`set 9999
              shift to 4
              turn back 9 #! result-overdraw
              shift to 1
              turn back`);
    onFull(
      `dial result 99999999
       set 9999
       turn #! result-overflow
       dial result 99999999
       turn #! overflow-restored
       mode subtract
       turn
       mode add`,
    );
  });
  test('where one round makes it good and another does not, the worse is told', () => {
    onSigned(`set 5
              repeat 2 {
                turn back 9 #! result-overdraw
                shift to 2
                turn
              }`);
  });
});

describe('expected right after', () => {
  const overdrawn = `set 5
                     mode subtract
                     count minus
                     turn`;
  const putBack = '  mode add\n  count plus';

  test.each(['expect overdraw', 'expect bell', 'expect overdraw result -5', 'note "It rings"\n  expect bell'])(
    '%s',
    (reading) => {
      onFull(`${overdrawn}\n  ${reading}\n${putBack}`);
    },
  );
  test('expect overflow', () =>
    onFull(`dial result 99999999
            set 1
            turn
            expect overflow result 0`));
  test('the wrong one does not excuse it', () => {
    onFull(`${overdrawn} #! result-overdraw\n  expect overflow #! reading-differs\n${putBack}`);
  });
  test('a bell that is not there excuses nothing', () => {
    onSigned(`set 5
              turn back #! result-overdraw
              expect bell #! not-on-this-machine`);
  });
  test('a step between is too late', () => {
    onFull(`${overdrawn} #! result-overdraw\n  shift right\n  expect overdraw #! reading-differs\n${putBack}`);
    onFull(`${overdrawn} #! result-overdraw\n  expect counter 1\n  expect overdraw\n${putBack}`);
  });
  test('nothing happened: the reading differs', () => {
    onFull(`set 5
            turn
            expect overflow #! reading-differs
            expect overdraw #! reading-differs`);
    onFull(`set 5
            turn
            expect bell #! reading-differs`);
  });
  test('it excuses the step before alone', () => {
    onSigned(`set 5
              turn back #! result-overdraw
              clear result
              turn back
              expect overdraw`);
  });
  test('an expected overdraw is not told when it is made good either', () => {
    onSigned(`set 5
              turn back
              expect overdraw
              turn`);
  });
});

test('the turn in which it happened is told', () => {
  const checked = onSigned(`set 5
                            turn 2
                            turn back 5 #! result-overdraw`);
  expect(factsOf(checked, 'result-overdraw')).toEqual([{ code: 'result-overdraw', turn: 3, times: 1, places: 8 }]);
  expect(checked.findings[0].message).toContain('Turn 3 ');
});

test('overflows in automatic division are its way of working', () => {
  const divider = machine('halfStep', 'count first', 'result 8 dials').replace('  result 8\n', '');
  expectMarked(
    onMachine(
      divider,
      `dial result 65
       set 5
       shift right
       mode subtract
       auto-divide on
       turn until stop
       expect counter 13 result 0
       auto-divide off
       mode add`,
    ),
  );
});
