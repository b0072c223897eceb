/** What each fault does, worked out by hand: the readings behind `#!` are those of the faulty machine. */
import { describe, expect, test } from 'vitest';
import { faultsOf, isWithinReach, mechanismOf } from '../../server/machine/index.js';
import { faultList, faultOn, faultText, isFaultProblem, parseFault } from '../../server/sequence/fault-text.js';
import { profileWith } from '../machine/bench.js';
import { isCaught, readIn, withFault } from './faulty.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';

/** Steps whose `ask` and `expect` have what the faulty machine shows marked behind them: `ask result #! 12`. */
function expectShown(fault: string, name: MachineName | { readonly machine: string }, steps: string) {
  const text = typeof name === 'string' ? cranked(name, steps) : onMachine(name.machine, steps);
  const trial = withFault(text, fault);
  const marked = steps.split('\n').flatMap((line) => /#!\s*(.*?)\s*$/.exec(line)?.[1] ?? []);
  expect(readIn(trial.faulty)).toEqual(marked);
  return trial;
}

describe('a lever', () => {
  test('that is short drives one less at its figure, and shows what it stands at', () => {
    const trial = expectShown(
      'lever-short 2 7',
      'reverse',
      `set 77; turn
       ask setting result #! 77 67
       turn back 2
       ask result #! 99999933
       clear result; set 68; turn
       ask result #! 68
       shift right; set 70; turn
       ask result #! 668`,
    );
    expect(isCaught(trial)).toBe(true);
  });
  test('that is short at 1 drives nothing', () => {
    expectShown('lever-short 1 1', 'reverse', 'set 11; turn 3\n ask result #! 30');
  });
  test('that is dead drives nothing at any figure', () => {
    expectShown(
      'lever-dead 1',
      'full',
      'set 25; turn\n ask setting result #! 25 20\n mode subtract; turn\n ask result #! 0',
    );
  });
  test('that drives nothing leaves a division without end: that is caught, though nobody reads', () => {
    const trial = withFault(cranked('full', 'set 5; mode subtract; turn until overdraw'), 'lever-dead 1');
    expect(trial.sound.brokeOff).toBe(false);
    expect(trial.faulty.brokeOff).toBe(true);
    expect(isCaught(trial)).toBe(true);
  });
});

describe('a carry of the result that is lost', () => {
  const steps = (more: string) => `set 9; turn\n set 1; turn\n ask result #! ${more}`;
  test('in adding turns alone', () => {
    expectShown('carry-lost result 1 add', 'reverse', steps('0'));
    expectShown('carry-lost result 1 subtract', 'reverse', steps('10'));
    expectShown('carry-lost result 2 add', 'reverse', steps('10'));
  });
  test('in subtracting turns alone', () => {
    expectShown('carry-lost result 1 subtract', 'reverse', 'set 1; turn back\n ask result #! 9');
    expectShown('carry-lost result 3 subtract', 'reverse', 'set 1; turn back\n ask result #! 999');
    expectShown('carry-lost result 3 add', 'reverse', 'set 1; turn back\n ask result #! 99999999');
  });
  test('on its way through nines it goes as far as there, and neither overflows nor rings', () => {
    expectShown(
      'carry-lost result 5 add',
      'full',
      `dial result 99999999
       set 1; turn
       expect bell #! false
       ask result #! 99900000`,
    );
  });
  test('the place above takes its own figure all the same', () => {
    expectShown('carry-lost result 1 add', 'reverse', 'set 36; turn\n set 47; turn\n ask result #! 73');
  });
  test('an overdraw that never comes is a division without end', () => {
    const trial = withFault(
      cranked('full', 'set 7; turn; mode subtract; turn until overdraw'),
      'carry-lost result 4 subtract',
    );
    expect(trial.faulty.brokeOff).toBe(true);
  });
});

describe('a carry of the result that sticks', () => {
  test('is delivered once in its turn, and in every turn after that, in the turn’s own direction', () => {
    expectShown(
      'carry-stuck result 1',
      'reverse',
      `set 9; turn
       ask result #! 9
       turn
       ask result #! 18
       set 0; turn
       ask result #! 28
       turn back
       ask result #! 18`,
    );
  });
  test('its own carry in a later turn comes as well', () => {
    expectShown('carry-stuck result 1', 'reverse', 'set 6; turn 4\n ask result #! 44');
  });
  test('ends when the result is cleared, dialled or transferred', () => {
    const again = (step: string, after: string) =>
      `set 9; turn 2; clear setting\n ${step}\n clear setting; set 1; turn\n ask result #! ${after}`;
    expectShown('carry-stuck result 1', 'full', again('set 0', '29'));
    expectShown('carry-stuck result 1', 'full', again('clear result', '1'));
    expectShown('carry-stuck result 1', 'full', again('dial result 40', '41'));
    expectShown('carry-stuck result 1', 'full', again('transfer result', '1'));
  });
  test('stays where a step is refused, and where the carriage is out of gear nothing is delivered', () => {
    expectShown('carry-stuck result 1', 'full', 'set 9; turn 2; transfer result; shift out; turn\n ask result #! 18');
  });
  test('ripples on, overflows and rings', () => {
    expectShown(
      'carry-stuck result 1',
      'full',
      `set 9; turn 2
       set 0; mode subtract; turn
       ask result #! 8
       turn
       expect bell #! true
       ask result #! 99999998`,
    );
  });
  test('with a short reach it comes only where the position’s carry goes', () => {
    const later = (steps: string, result: string) => `set 9; turn 2; set 0\n ${steps}\n ask result #! ${result}`;
    expectShown('carry-stuck result 1', 'shortReach', later('turn', '28'));
    expectShown('carry-stuck result 1', 'shortReach', later('shift right; turn', '18'));
    expectShown('carry-stuck result 1', 'reverse', later('shift right; turn', '28'));
  });
});

describe('the counter', () => {
  test('loses a carry, up and down', () => {
    expectShown(
      'carry-lost counter 1',
      'reverse',
      'turn 10\n ask counter #! 0\n shift right; turn\n ask counter #! 10',
    );
    expectShown('carry-lost counter 2', 'reverse', 'turn back\n ask counter #! 99');
  });
  test('does not count in a place; carries into it come all the same', () => {
    expectShown(
      'count-dead 2',
      'reverse',
      'shift right; turn 3\n ask counter #! 0\n shift left; turn 10\n ask counter #! 10',
    );
    expectShown('count-dead 1', 'plain', 'turn 3; shift right; turn 2\n ask counter #! 20');
    expectShown('count-dead 1', 'signed', 'turn back 3; shift right; turn back 2\n ask counter #! -20');
  });
  test('that takes its sense from the first turn has taken it where that is not counted', () => {
    const first = machine('reverse', 'count first');
    expectShown('count-dead 1', { machine: first }, 'turn back; shift right; turn\n ask counter #! 9990');
  });
  test('counts up with its lever at minus', () => {
    expectShown(
      'count-lever-dead',
      'full',
      'count minus; turn 2\n ask counter #! 2\n mode subtract; turn\n ask counter #! 1',
    );
  });
});

describe('clearing', () => {
  test('leaves a wheel at 1 that showed anything else than 0', () => {
    expectShown(
      'clear-short result 2',
      'reverse',
      'set 50; turn; clear result\n ask result #! 10\n clear result\n ask result #! 10',
    );
    expectShown('clear-short result 2', 'reverse', 'set 5; turn; clear result\n ask result #! 0');
    expectShown('clear-short counter 1', 'signed', 'turn back 4; clear counter\n ask counter #! 1');
    expectShown('clear-short setting 3', 'reverse', 'set 400; clear setting\n ask setting #! 100');
  });
  test('nothing else hangs on it: wraps are forgotten, the sense is taken anew', () => {
    const first = machine('reverse', 'count first');
    expectShown('clear-short counter 2', { machine: first }, 'turn back; clear counter; turn\n ask counter #! 1');
  });
  test('of the setting acts after a turn with auto-clear, and stands in the way of a transfer', () => {
    expectShown(
      'clear-short setting 1',
      'full',
      'auto-clear on; set 5; turn\n ask setting result #! 1 5\n turn\n ask result #! 6',
    );
    expectShown(
      'clear-short setting 1',
      'full',
      'set 5; turn; clear setting; transfer result\n ask setting result #! 1 5',
    );
  });
  test('of a register acts when it is transferred', () => {
    expectShown('clear-short result 1', 'full', 'set 5; turn; set 0; transfer result\n ask setting result #! 5 1');
    expectShown('clear-short counter 1', 'full', 'turn 3; set 0; transfer counter\n ask setting counter #! 3 1');
  });
  test('by the machine leaves a lever as it stands', () => {
    expectShown('auto-clear-dead 2', 'full', 'auto-clear on; set 345; turn 2\n ask setting result #! 40 385');
    expectShown('auto-clear-dead 2', 'full', 'set 345; clear setting\n ask setting #! 0');
  });
});

test('a lever that takes nothing in a transfer: the register is cleared all the same', () => {
  expectShown('transfer-dead 2', 'full', 'set 345; turn; set 0; transfer result\n ask setting result #! 305 0');
});

test('a bell that does not ring: all else goes on', () => {
  const trial = expectShown(
    'bell-dead',
    'full',
    'mode subtract; set 1; turn\n expect overdraw #! true\n expect bell #! false\n ask result #! 99999999',
  );
  expect(isCaught(trial)).toBe(true);
});

describe('steps that stand for others', () => {
  test('work by what the faulty machine shows', () => {
    // 7 less 2 at a time: 5 3 1 −1 and back. With the lever at 2 driving 1 it takes eight turns.
    expectShown('lever-short 1 2', 'full', 'dial result 7; set 2; divide\n ask counter result #! 7 0');
    expectShown('lever-short 1 2', 'full', 'dial result 7; set 2; divide short\n ask counter result #! 7 0');
  });
  test('automatic division goes on from the overdraw of this machine', () => {
    // 20, 15 and it sticks, 10 less 10, −15 (overdrawn), −10 and 10 more: stopped after four turns, two of them down.
    expectShown(
      'carry-stuck result 1',
      'full',
      'dial result 20; set 5; auto-divide on; mode subtract; turn until stop\n ask counter result #! 9998 0',
    );
  });
  test('half steps and the drive are as on the sound machine', () => {
    expectShown(
      'carry-lost result 1 subtract',
      'halfStep',
      'set 5; turn; shift right half; set 7; turn\n ask result #! 8',
    );
  });
});

describe('who notices', () => {
  test('nobody, where nobody looks', () => {
    expect(isCaught(withFault(cranked('reverse', 'set 7; turn'), 'lever-dead 1'))).toBe(false);
    expect(isCaught(withFault(cranked('reverse', 'set 7; turn\n ask counter'), 'lever-dead 1'))).toBe(false);
    expect(isCaught(withFault(cranked('reverse', 'set 7; turn\n ask counter result'), 'lever-dead 1'))).toBe(true);
  });
  test('a reading is what is shown, not what was expected', () => {
    expect(isCaught(withFault(cranked('reverse', 'set 7; turn\n expect result 0'), 'lever-dead 1'))).toBe(true);
    expect(isCaught(withFault(cranked('reverse', 'set 7; turn\n expect result 0'), 'lever-dead 2'))).toBe(false);
  });
  test('bell, overdraw, carriage and parked are readings too', () => {
    const divided = (reading: string) =>
      cranked('full', `dial result 8; set 5; auto-divide on; mode subtract; turn 3\n expect ${reading}`);
    for (const reading of ['carriage 1', 'parked', 'overflow']) {
      expect(isCaught(withFault(divided(reading), 'lever-short 1 5')), reading).toBe(true);
    }
  });
});

describe('the faults of a machine', () => {
  const count = (differences: Parameters<typeof profileWith>[0]) => faultsOf(profileWith(differences)).length;
  test('are these, and no others', () => {
    // 4 levers: 4 × 10; result: 7 × 3; counter: 3 carries, 4 counts; clearing: 4 + 4 + 8.
    expect(count({})).toBe(40 + 21 + 3 + 4 + 16);
    expect(count({ subtract: 'none' })).toBe(40 + 14 + 3 + 4 + 16);
    expect(count({ counterCarry: 'signed' })).toBe(40 + 21 + 4 + 16);
    expect(count({ counter: 0 })).toBe(40 + 21 + 12);
    const devices = { autoClear: true, bell: true, transferCounter: true, count: 'lever', subtract: 'lever' } as const;
    expect(count(devices)).toBe(40 + 21 + 3 + 4 + 16 + 4 + 1 + 4 + 1);
  });
  test('each is written in one way and read back', () => {
    const profile = profileWith({
      subtract: 'lever',
      count: 'lever',
      autoClear: true,
      bell: true,
      transferResult: 'at 1',
    });
    const texts = faultsOf(profile).map(faultText);
    expect(new Set(texts).size).toBe(texts.length);
    for (const [i, fault] of faultsOf(profile).entries()) expect(faultOn(profile, texts[i])).toEqual(fault);
    expect(faultText(parseFault('  Carry-Lost  RESULT 5 add ') as never)).toBe('carry-lost result 5 add');
  });
  test.each([
    ['carry-lots result 5 add', { is: 'unknown-kind', found: 'carry-lots', nearest: 'carry-lost' }],
    ['', { is: 'unknown-kind', found: '' }],
    ['carry-lost result 5', { is: 'form', form: 'carry-lost result PLACE add|subtract, or carry-lost counter PLACE' }],
    ['lever-short 3', { is: 'form', form: 'lever-short PLACE FIGURE' }],
    ['lever-short 3 10', { is: 'form', form: 'lever-short PLACE FIGURE' }],
    ['lever-dead 0', { is: 'form', form: 'lever-dead PLACE' }],
    ['carry-stuck counter 3', { is: 'form', form: 'carry-stuck result PLACE' }],
    ['lever-dead 5', { is: 'not-on-this-machine', fault: 'lever-dead 5', nearest: 'lever-dead 4' }],
    [
      'carry-lost result 9 subtract',
      { is: 'not-on-this-machine', fault: 'carry-lost result 9 subtract', nearest: 'carry-lost result 7 subtract' },
    ],
    ['bell-dead', { is: 'not-on-this-machine', fault: 'bell-dead' }],
  ])('%j is none of them, and is told so', (text, problem) => {
    const read = faultOn(profileWith(), text);
    expect(isFaultProblem(read)).toBe(true);
    expect(read).toEqual(problem);
  });
  test('are listed without saying a word twice', () => {
    const faults = faultsOf(profileWith({ setting: 2, result: 2, counter: 0, bell: true })).filter(
      (fault) => fault.kind !== 'lever-short' || fault.figure > 8,
    );
    expect(faultList(faults)).toBe(
      'lever-short 1 9, 2 9; lever-dead 1, 2; carry-lost result 1 add, 1 subtract; carry-stuck result 1; clear-short setting 1, 2; clear-short result 1, 2; bell-dead',
    );
    expect(faultList([])).toBe('');
  });
  test('belong to a part of the machine', () => {
    const parts = (text: string) => mechanismOf(parseFault(text) as never);
    expect(parts('carry-lost counter 2')).toBe('counter');
    expect(parts('carry-lost result 2 add')).toBe('tens-carry');
    expect(parts('auto-clear-dead 2')).toBe('clearing');
  });
});

describe('out of reach', () => {
  const beyond = (differences: Parameters<typeof profileWith>[0]) => {
    const profile = profileWith(differences);
    return faultsOf(profile)
      .filter((fault) => !isWithinReach(fault, profile))
      .map(faultText);
  };
  test('nothing on a machine whose carriage and carry go all the way', () => expect(beyond({})).toEqual([]));
  test('counter places that the carriage does not come to', () => {
    expect(beyond({ counter: 6, counterCarry: 'plain' })).toEqual([
      'count-dead 5',
      'count-dead 6',
      'clear-short counter 5',
      'clear-short counter 6',
    ]);
    // With a carry they move, but take no count of their own.
    expect(beyond({ counter: 6 })).toEqual(['count-dead 5', 'count-dead 6']);
  });
  test('carries that are not delivered from any position, and wheels that nothing moves', () => {
    expect(beyond({ setting: 2, carriage: 2, counter: 2, reach: 3, bell: true })).toEqual([
      'carry-lost result 4 add',
      'carry-lost result 4 subtract',
      'carry-stuck result 4',
      'carry-lost result 5 add',
      'carry-lost result 5 subtract',
      'carry-stuck result 5',
      'carry-lost result 6 add',
      'carry-lost result 6 subtract',
      'carry-stuck result 6',
      'carry-lost result 7 add',
      'carry-lost result 7 subtract',
      'carry-stuck result 7',
      'clear-short result 5',
      'clear-short result 6',
      'clear-short result 7',
      'clear-short result 8',
      'bell-dead',
    ]);
  });
  test('what only more than a million turns would bring about', () => {
    const adder = { setting: 1, carriage: 1, counter: 0, result: 9, subtract: 'none' } as const;
    expect(beyond(adder)).toEqual([
      'carry-lost result 7 add',
      'carry-stuck result 7',
      'carry-lost result 8 add',
      'carry-stuck result 8',
      'clear-short result 8',
      'clear-short result 9',
    ]);
    expect(beyond({ ...adder, dials: true })).toEqual([]);
  });
  test('a count lever without a counter', () => {
    expect(beyond({ counter: 0, count: 'lever', subtract: 'lever' })).toEqual(['count-lever-dead']);
  });
});
