/** Runs of turns and shifts for which there is a cheaper one: where that is told, and where not. */
import { describe, expect, test } from 'vitest';
import { expectMarked } from '../marked.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';

/** The cheaper steps that are told, first to last; the marks are held against the findings. */
function told(text: string): string[] {
  const { report } = expectMarked(text);
  return report.findings.flatMap(({ facts }) =>
    facts.code === 'shorter-sequence' ? `${facts.shorter.cost}: ${facts.steps.join('; ')}` : [],
  );
}
const on = (name: MachineName, steps: string): string[] => told(cranked(name, `  ${steps}`));
const M = '#! shorter-sequence';

describe('with a crank that turns both ways', () => {
  test('nine turns are ten less one', () => {
    expect(on('reverse', `set 12\n  turn 9 ${M}`)).toEqual(['4: shift right; turn; shift left; turn back']);
    expect(on('reverse', `set 12\n  turn 7 ${M}`)).toEqual(['6: shift right; turn; shift left; turn back 3']);
    expect(on('reverse', 'set 12\n  turn 6')).toEqual([]);
  });
  test('visits to a position are made in one', () => {
    const twice = `set 12\n  turn 2 ${M}\n  shift right\n  turn 3\n  shift left\n  turn 2\n  shift right`;
    expect(on('reverse', twice)).toEqual(['8: turn 4; shift right; turn 3']);
    expect(on('reverse', 'set 12\n  turn 2\n  shift right\n  turn 3\n  shift left\n  turn 2')).toEqual([]);
  });
  test('what comes to nothing is left out', () => {
    expect(on('reverse', `set 12\n  turn 3\n  expect counter 3\n  turn ${M}\n  turn back`)).toEqual(['0: ']);
    expect(on('reverse', `shift right 2 ${M}\n  shift left 2`)).toEqual(['0: ']);
    expect(on('reverse', `shift right 3 ${M}\n  shift to 2`)).toEqual(['1: shift right']);
  });
  test('a row of single turns is a run', () => {
    expect(on('reverse', `set 12\n  turn ${M}${'\n  turn'.repeat(8)}`)).toEqual([
      '4: shift right; turn; shift left; turn back',
    ]);
  });
  test('back turns, where they are taken from something', () => {
    const before = 'set 12; shift right 2; turn; shift left 2; expect result 1200';
    expect(on('reverse', `${before}\n  turn back 8 ${M}`)).toEqual(['5: turn 2; shift right; turn back; shift left']);
  });
  test('both efforts are said, and the cheaper steps', () => {
    const { findings } = expectMarked(cranked('reverse', `  set 12\n  turn 8 ${M}\n  shift right\n  turn`));
    expect(findings[0]).toMatchObject({ line: 8, column: 3, severity: 'hint' });
    expect(findings[0].message).toBe(
      'These 3 steps take an effort of 10 (9 turns, 1 shift). The same is done with 7 (4 turns, 3 shifts): shift right; turn 2; shift left; turn back 2; shift right.',
    );
  });
});

describe('the machine’s own effort', () => {
  const heavy = (weights: string) => machine('reverse', `effort ${weights}`);
  test('where shifts are dear, turns are not saved by them', () => {
    expect(told(onMachine(heavy('turn 1 shift 4 lever 1'), '  set 12\n  turn 9'))).toEqual([]);
    expect(told(onMachine(heavy('turn 1 shift 3 lever 1'), `  set 12\n  turn 9 ${M}`))).toHaveLength(1);
  });
  test('where they are dearer still, ten turns take the place of a shift', () => {
    const steps = `  set 12\n  shift right ${M}\n  turn\n  shift left`;
    expect(told(onMachine(heavy('turn 1 shift 4 lever 1'), steps.replace(` ${M}`, '')))).toEqual([]);
    expect(told(onMachine(heavy('turn 1 shift 5 lever 1'), steps))).toEqual(['10: turn 10']);
  });
  test('what costs nothing is not saved', () => {
    expect(told(onMachine(heavy('turn 0 shift 1 lever 0'), '  set 12\n  turn 9'))).toEqual([]);
    expect(told(onMachine(heavy('turn 0 shift 0 lever 0'), '  set 12\n  turn 9\n  turn back 9'))).toEqual([]);
  });
});

describe('with a drive lever', () => {
  const lever = machine('reverse', 'subtract lever');
  test('the lever has its price', () => {
    expect(told(onMachine(lever, '  set 12\n  turn 8'))).toEqual([]);
    expect(told(onMachine(lever, `  set 12\n  turn 9 ${M}`))).toEqual([
      '8: shift right; turn; mode subtract; shift left; turn; mode add',
    ]);
  });
  test('a lever moved between turns belongs to the run', () => {
    expect(told(onMachine(lever, `  set 12\n  turn 5 ${M}\n  mode subtract\n  turn 2\n  mode add`))).toEqual([
      '3: turn 3',
    ]);
  });
  test('where the lever is to stand at subtract, it does', () => {
    expect(
      told(onMachine(lever, `  set 12\n  turn 5 ${M}\n  mode subtract\n  turn 2\n  expect result 36\n  mode add`)),
    ).toEqual(['5: turn 3; mode subtract']);
  });
  test('a lever moved to and fro without a turn is let alone', () => {
    expect(told(onMachine(lever, '  set 12\n  mode subtract\n  mode add\n  expect result 0'))).toEqual([]);
  });
  test('a crank that is lifted, likewise', () => {
    expect(told(onMachine(machine('reverse', 'subtract lift'), `  set 12\n  turn 9 ${M}`))).toEqual([
      '8: shift right; turn; mode subtract; shift left; turn; mode add',
    ]);
  });
});

describe('with half steps', () => {
  test('half a place changes position and drive at once', () => {
    expect(on('halfStep', `set 12\n  turn 9 ${M}`)).toEqual([
      '5: shift right; turn; shift left half; turn; shift left half',
    ]);
  });
  test('the same movement under another name is not told', () => {
    const steps = 'set 12\n  turn 3\n  expect counter 3\n';
    expect(on('halfStep', `${steps}  mode subtract\n  turn 2\n  mode add`)).toEqual([]);
    expect(on('halfStep', `${steps}  shift right half\n  turn 2\n  shift left half`)).toEqual([]);
  });
  test('a lever that costs less than a shift is named', () => {
    const cheap = machine('halfStep', 'effort turn 2 shift 2 lever 1');
    expect(told(onMachine(cheap, `  set 12\n  turn 9 ${M}`))).toEqual([
      '9: shift right; turn; shift left half; turn; mode add',
    ]);
  });
});

describe('a machine that only adds', () => {
  const adder = machine('adder', 'counter 4', 'subtract none');
  test('is only shifted better', () => {
    expect(told(onMachine(adder, '  set 12\n  turn 9'))).toEqual([]);
    expect(told(onMachine(adder, `  set 12\n  turn 12 #! many-turns shorter-sequence`))).toEqual([
      '5: turn 2; shift right; turn; shift left',
    ]);
  });
});

describe('counters', () => {
  test('on a plain one every wheel gets its own turns', () => {
    expect(on('plain', 'set 12\n  turn 9')).toEqual([]);
    const twice = `set 12\n  turn 2 ${M}\n  shift right\n  turn 9\n  shift left\n  turn 2\n  shift right`;
    expect(on('plain', twice)).toEqual(['14: turn 4; shift right; turn 9']);
    expect(on('plain', `set 12\n  turn 5 ${M}\n  turn back 3`)).toEqual(['2: turn 2']);
  });
  test('on a signed one the sum is the same', () => {
    expect(on('signed', `set 12\n  turn 9 ${M}`)).toEqual(['4: shift right; turn; shift left; turn back']);
  });
  test('no wheel of a signed one is taken past nine', () => {
    const tens = 'set 12\n  shift right\n  turn 5\n  expect counter 50\n  turn 4\n  expect counter 90';
    expect(on('signed', `${tens}\n  shift left\n  expect carriage 1\n  turn 9`)).toEqual([]);
  });
  test('without one, it is the result that counts', () => {
    expect(told(onMachine(machine('adder', 'subtract reverse'), `  set 12\n  turn 9 ${M}`))).toHaveLength(1);
  });
  test('one that takes its sense from the first turn keeps it', () => {
    const first = machine('reverse', 'count first');
    const enough = '  set 12\n  shift right\n  turn 2\n  clear counter\n  shift left\n  expect carriage 1\n';
    expect(told(onMachine(first, `${enough}  turn back 8 ${M}`))).toEqual([
      '5: shift right; turn back; shift left; turn 2',
    ]);
    // Two back turns to begin with would be counted up, and the turn after them down.
    expect(told(onMachine(first, `${enough}  turn 8 ${M}\n  shift right`))).toEqual([
      '6: shift right; turn; shift left; turn back 2; shift right',
    ]);
  });
  test('the count lever is where it is', () => {
    const enough =
      '  set 12\n  shift right 2\n  turn\n  clear counter\n  count minus\n  shift to 1\n  expect carriage 1\n';
    expect(told(onMachine(machine('reverse', 'count lever'), `${enough}  turn back 9 ${M}\n  count plus`))).toEqual([
      '4: shift right; turn back; shift left; turn',
    ]);
  });
});

describe('the ends of the registers', () => {
  test('nothing goes below zero on the way', () => {
    // Two less and one more in the next place would: the tens have to come first.
    expect(on('reverse', `set 12\n  turn 8 ${M}\n  shift right`)).toEqual([
      '6: shift right; turn; shift left; turn back 2; shift right',
    ]);
    expect(on('reverse', 'set 12\n  turn 6\n  shift right')).toEqual([]);
  });
  test('what is in the registers may be drawn on', () => {
    const before = '  set 12\n  shift right\n  turn\n  shift left\n  expect result 120\n';
    expect(told(onMachine(machine('reverse'), `${before}  turn 7 ${M}\n  shift right`))).toEqual([
      '5: turn back 3; shift right; turn',
    ]);
  });
  test('but not more than is there', () => {
    const before = '  dial result 35\n  set 12\n';
    const wide = machine('reverse').replace('counter 4\n', '').replace('result 8', 'result 8 dials\n  carriage 4');
    expect(told(onMachine(wide, `${before}  turn 8 ${M}\n  shift right`))).toEqual([
      '4: turn back 2; shift right; turn',
    ]);
    expect(told(onMachine(wide, `${before.replace('35', '23')}  turn 8 ${M}\n  shift right`))).toEqual([
      '6: shift right; turn; shift left; turn back 2; shift right',
    ]);
  });
  test('nor over the top', () => {
    const nearly = machine('reverse').replace('counter 4\n', '').replace('result 8', 'result 8 dials\n  carriage 4');
    const shown = (figures: string) => `  dial result ${figures}\n  set 1000\n`;
    expect(told(onMachine(nearly, `${shown('99990500')}  turn 9 ${M}`))).toEqual([
      '4: turn back; shift right; turn; shift left',
    ]);
    expect(told(onMachine(nearly, `${shown('99989500')}  turn 9 ${M}`))).toEqual([
      '4: shift right; turn; shift left; turn back',
    ]);
    expect(told(onMachine(nearly, `${shown('99990500').replace('99990', '00')}  turn 9 ${M}`))).toHaveLength(1);
  });
  test('a run that went past the ends is let alone', () => {
    expect(on('signed', 'set 12\n  turn back 9 #! overdraw-restored\n  turn 9')).toEqual([]);
    expect(on('full', 'dial result 99999990\n  set 12\n  turn\n  expect overflow\n  turn 5')).toEqual([]);
  });
  test('no place is turned in that the counter or the carriage has not', () => {
    const narrow = (line: string) => machine('adder', 'subtract reverse', ...line.split('; '));
    expect(told(onMachine(narrow('counter 1; carriage 4'), '  set 12\n  turn 9'))).toEqual([]);
    expect(told(onMachine(narrow('carriage 1'), '  set 12\n  turn 9'))).toEqual([]);
    expect(told(onMachine(narrow('counter 2; carriage 4'), `  set 12\n  turn 9 ${M}`))).toHaveLength(1);
  });
  test('no figure of a lever is lost', () => {
    const short = machine('reverse').replace('result 8', 'result 5');
    expect(told(onMachine(short, `  set 12\n  shift right 3\n  turn`))).toEqual([]);
    expect(told(onMachine(short, '  set 1000; shift right; turn; expect result 10000\n  turn 8'))).toEqual([]);
  });
  test('no carry is lost', () => {
    expect(on('shortReach', `set 12\n  turn 9 ${M}`)).toHaveLength(1);
    // 20 and 990 are 1010, from which 99 would have to borrow in place 4.
    expect(on('shortReach', 'set 20\n  turn\n  set 99\n  turn 9')).toEqual([]);
    expect(on('reverse', `set 20\n  turn\n  set 99\n  turn 9 ${M}`)).toHaveLength(1);
  });
});

describe('what a run is', () => {
  test('anything else ends it', () => {
    for (const step of [
      'note "a"',
      'expect counter 4',
      'ask result',
      'points result 1',
      'repeat 1 { turn }',
      'run beds',
    ]) {
      const text = `${cranked('reverse', `  set 12\n  turn 4\n  ${step}\n  turn 4`)}sequence beds on stores\n`;
      expect(told(text)).toEqual([]);
    }
    expect(on('full', 'set 12\n  turn 5\n  count minus\n  turn 4\n  count plus')).toEqual([]);
  });
  test('a comment or an empty line does not', () => {
    expect(on('reverse', `set 12\n  turn 4 ${M}\n\n  # and once more\n  turn 5`)).toHaveLength(1);
  });
  test('a line that cannot be read does', () => {
    expect(on('reverse', 'set 12\n  turn 4\n  trun #! syntax\n  turn 5')).toEqual([]);
  });
  test('a number that is a parameter does, and so does a loop', () => {
    const text = (step: string) =>
      `${machine('reverse')}sequence trial (n = 9) on stores\n  clear all\n  set 12\n  ${step}\n  expect counter n\n`;
    expect(told(text('turn n'))).toEqual([]);
    expect(told(text('repeat 1 { turn 9 }'))).toEqual([]);
  });
  test('steps that go wrong are none of it', () => {
    expect(on('reverse', `set 12\n  turn ${M}\n  turn back\n  shift left 2 #! carriage-end\n  turn 2`)).toEqual([
      '0: ',
    ]);
    expect(on('full', 'set 12\n  turn 5\n  turn back 5 #! one-way-crank\n  turn 3')).toEqual([]);
  });
  test('with levers at zero, or pressed buttons, or out of gear, nothing is told', () => {
    expect(on('reverse', 'turn 9 #! idle-turn')).toEqual([]);
    expect(on('full', 'auto-clear on\n  set 12\n  turn\n  shift right\n  shift left\n  auto-clear off')).toEqual([]);
    expect(on('full', 'shift out\n  shift right\n  expect carriage 1')).toEqual([]);
  });
  test('it is told of each run, and once', () => {
    expect(on('reverse', `set 12\n  turn 9 ${M}\n  expect counter 9\n  turn 9 ${M}`)).toHaveLength(2);
  });
});

describe('cases', () => {
  const sequence = (header: string, steps: string) =>
    `${machine('reverse')}sequence trial ${header}\n  clear all\n  ${steps}\n`;
  test('what holds in all of them is told once', () => {
    const text = sequence('(a = 12) on stores\n  case a = 3400', `set a\n  turn 9 ${M}`);
    expect(told(text)).toEqual(['4: shift right; turn; shift left; turn back']);
  });
  test('what holds in one of them is not', () => {
    // With 1110 on the levers the highest would stand past the end in position 2.
    const short = (a: string) =>
      sequence(`(a = 12) on stores\n  case a = ${a}`, 'set a\n  turn 9').replace('result 8', 'result 4');
    expect(told(short('1110'))).toEqual([]);
    expect(told(short('999').replace('turn 9', `turn 9 ${M}`))).toHaveLength(1);
  });
  test('each case has it among its own findings', () => {
    const { report } = expectMarked(sequence('(a = 12) on stores\n  case a = 3400', `set a\n  turn 9 ${M}`));
    const { runs } = report.sequences[0];
    expect(runs.map(({ findings }) => findings.map((finding) => finding.case))).toEqual([[0], [1]]);
  });
});

test('a multiplier of many places is not looked at for ever', () => {
  const wide = machine('reverse').replace('setting 4\n  counter 4\n  result 8', 'setting 1\n  counter 20\n  result 20');
  const figures = Array.from({ length: 14 }, (_, i) => `turn ${(i * 7) % 10}`);
  const steps = figures.join('\n  shift right\n  ').replace('turn 0', `turn 0 ${M}`);
  expect(told(onMachine(wide, `  set 1\n  ${steps}`))).toHaveLength(1);
  const tooWide = `turn 8${'\n  shift right'.repeat(15)}\n  turn 8`;
  expect(told(onMachine(wide, `  set 1\n  ${tooWide}`))).toEqual([]);
});
