/** Common slips: worked out by hand beside each example, and checked against arithmetic for random products. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import type { Register } from '../../server/machine/index.js';
import { MOST_SLIPS, type Slip, type SlipReason, slipsGradually } from '../../server/sheets/slips.js';
import { reportOf } from './exercises.js';

const SHED = 'machine shed\n  setting 6\n  counter 5\n  result 9\n';
const DRUM = `${SHED}  subtract lift\n  count first\n`;

const slipsIn = (text: string, runCase = 0, atEnd: readonly Register[] = ['result']): Slip[] => {
  const { runs } = reportOf(text);
  const slips = finish(slipsGradually(runs[runCase], { before: runs[runCase - 1], atEnd, cases: runs.length }));
  if (!slips) throw new Error('No slips could be tried.');
  return slips;
};

/** A slip as `wrong, wrong: kind, kind`. */
const told = ({ readings, reasons }: Slip): string =>
  `${readings.map(({ register, reading }) => `${register} ${reading}`).join(', ')}: ${reasons.map(kindOf).join(', ')}`;

function kindOf(reason: SlipReason): string {
  switch (reason.is) {
    case 'not-cleared':
      return `${reason.register} not cleared`;
    case 'carriage-off':
      return `carriage ${reason.way} at ${reason.row}`;
    case 'turns':
      return `${reason.more ? 'more' : 'less'} at ${reason.row}`;
    case 'drive-left':
    case 'count-left':
      return `${reason.is} ${reason.at}`;
    case 'switch-left':
      return `${reason.what} ${reason.on ? 'on' : 'off'}`;
    case 'places-off':
      return `${reason.register} ${reason.way}`;
    case 'marker-off':
      return `${reason.register} marker ${reason.more ? 'left' : 'right'}`;
    default:
      return `${reason.is} at ${reason.row}`;
  }
}
const toldIn = (text: string, runCase = 0, atEnd?: readonly Register[]): string[] =>
  slipsIn(text, runCase, atEnd).map(told);

const PRODUCT = `${SHED}sequence trays (a = 34, b = 27) on shed
  case a = 56, b = 12
  clear all
  set a
  multiply by b
  ask counter result
`;

describe('slips in a product', () => {
  test('34 times 27 is 918; rows: 0 clear, 1 set, 2 turn 7, 3 shift, 4 turn 2, 5 ask', () => {
    expect(toldIn(PRODUCT)).toEqual([
      // The same done once before has left 27 and 918.
      'counter 54: counter not cleared',
      'result 1836: result not cleared',
      // Nine turns in position 1: 34 × 9.
      'counter 9, result 306: shift-forgotten at 3',
      // All one place further on: the product ten times as large.
      'counter 270, result 9180: carriage right at 2',
      // 7 in position 1 and 2 in position 3: 34 × 207.
      'counter 207, result 7038: carriage right at 4',
      'counter 28, result 952: more at 2',
      'counter 26, result 884: less at 2',
      // The counter is right all the same: 340 × 27.
      'result 9180: setting left',
    ]);
  });

  test('what was not cleared holds what the case before has left', () => {
    // 56 × 12 = 672, and 918 + 672 = 1590; 27 + 12 = 39.
    expect(toldIn(PRODUCT, 1).slice(0, 2)).toEqual([
      'counter 39: counter not cleared',
      'result 1590: result not cleared',
    ]);
  });

  test('nothing is told where a register stays as it was anyway', () => {
    const text = `${SHED}sequence trial on shed\n  clear counter\n  set 5\n  turn\n  ask result\n`;
    expect(toldIn(text)).toEqual([
      // The result is never cleared: that is no slip, and nothing is taken to stand in it.
      'result 50: carriage right at 2, setting left',
      'result 10: more at 2',
      'result 0: less at 2',
    ]);
  });
});

describe('slips at levers', () => {
  test('the crank not lifted, and not lowered', () => {
    const text = `${DRUM}sequence trial on shed\n  clear all\n  set 8650\n  turn\n  set 3275\n  mode subtract\n  turn\n  mode add\n  set 5\n  turn\n  ask result\n`;
    const slips = toldIn(text);
    // 8650 + 3275 + 5, and 8650 − 3275 − 5; the right one is 5380.
    expect(slips).toContain('result 11930: drive-left add');
    expect(slips).toContain('result 5370: drive-left subtract');
  });

  test('turned forwards instead of backwards', () => {
    const text = `${SHED}sequence trial on shed\n  clear all\n  set 8650\n  turn\n  set 3275\n  turn back\n  ask result\n`;
    expect(toldIn(text)).toContain('result 11925: wrong-way at 4');
  });

  test('the count lever forgotten', () => {
    const text = `${SHED}  subtract lever\n  count lever\nsequence trial on shed\n  clear all\n  set 9\n  turn 3\n  mode subtract\n  count minus\n  turn\n  ask counter\n`;
    // Three up and, with the lever at minus, one more up; without it one down. An adding turn is counted down there.
    expect(toldIn(text)).toContain('counter 2: drive-left add, count-left plus');
  });

  test('the button for clearing the levers left on', () => {
    const text = `${SHED}  auto-clear\nsequence trial on shed\n  clear all\n  auto-clear on\n  set 12\n  turn\n  auto-clear off\n  set 3\n  turn 2\n  ask result\n`;
    // 12, and then 3 once instead of twice: one turn too few reads the same.
    expect(toldIn(text)).toContain('result 15: less at 6, auto-clear on');
  });
});

describe('slips at places and markers', () => {
  const PRICE = `${SHED}sequence trial on shed\n  clear all\n  points setting 2 result 2\n  set 12.50\n  turn 3\n  ask result\n`;

  test('figures set a place too far left or right', () => {
    // 12.50 stands as 1250: one place to the right it is 125 on the levers, 3 × 1.25.
    const slips = toldIn(PRICE);
    expect(slips).toContain('result 3.75: setting right');
    expect(slips).toContainEqual(expect.stringMatching(/^result 375\.00: .*setting left/));
  });

  test('a marker one place off', () => {
    const text = `${SHED}sequence trial on shed\n  clear all\n  points result 2\n  set 1250\n  turn 3\n  ask result\n`;
    const slips = toldIn(text);
    expect(slips).toContain('result 3.750: result marker left');
    // 375.0 is not 37.50, but as a wrong reading it is one of its own.
    expect(slips).toContain('result 375.0: result marker right');
  });

  test('noughts with more decimals are no other reading', () => {
    const text = `${SHED}sequence trial on shed\n  clear all\n  points result 2\n  set 7\n  turn\n  turn back\n  ask result\n`;
    expect(toldIn(text).filter((slip) => slip.includes('marker'))).toEqual([]);
  });

  test('slips that read the same are told as one', () => {
    const text = `${SHED}sequence trial on shed\n  clear all\n  set 2\n  turn\n  turn\n  ask result\n`;
    const [slip] = slipsIn(text).filter(({ readings }) => readings[0].reading === '6');
    expect(slip.reasons.map(kindOf)).toEqual(['more at 2', 'more at 3']);
    expect(slip.readings).toEqual([{ index: 0, register: 'result', reading: '6', right: '4' }]);
  });
});

describe('what an operator would notice is not told', () => {
  test('a machine that refuses the next step', () => {
    const text = `${SHED}  transfer result\nsequence trial on shed\n  clear all\n  set 12\n  turn 2\n  clear setting\n  transfer result\n  turn\n  ask result\n`;
    // With the levers still set nothing can be passed back to them.
    expect(toldIn(text).filter((slip) => slip.includes('setting not cleared'))).toEqual([]);
  });

  test('a crank that would have to be turned for ever', () => {
    const text = `${DRUM}  \nsequence trial on shed\n  clear all\n  set 50\n  turn\n  clear setting\n  set 20\n  clear counter\n  mode subtract\n  turn until overdraw\n  mode add\n  turn\n  ask counter result\n`;
    expect(toldIn(text).filter((slip) => slip.includes('drive-left add'))).toEqual([]);
  });

  test('a run that breaks off has no slips to tell', () => {
    const text = `${SHED}sequence trial on shed\n  clear all\n  turn back until overdraw\n  ask result\n`;
    const [run] = reportOf(text).runs;
    expect(run.brokeOff).toBe(true);
    expect(finish(slipsGradually(run, { atEnd: ['result'], cases: 1 }))).toBeUndefined();
  });
});

test('without `ask` the registers named are read at the end', () => {
  const text = `${SHED}sequence trial on shed\n  clear all\n  set 2\n  turn 3\n`;
  expect(toldIn(text, 0, ['counter'])).toContain('counter 4: more at 2');
});

test('steps of another sequence and of rounds may go wrong as well', () => {
  const text = `${SHED}sequence entry (n = 1) on shed\n  set n\n  repeat 2 {\n    turn\n  }\nsequence trial on shed\n  clear all\n  run entry (7)\n  ask result\n`;
  expect(toldIn(text)).toContain('result 21: more at 2, more at 3');
});

test('in a division of 935 by 28, quotient 33 and rest 11, the crank left lifted is found', () => {
  const text = `${DRUM.replace('result 9', 'result 9 dials').replace('counter 5', 'counter 5 plain')}sequence trial on shed\n  clear all\n  dial result 935\n  set 28\n  shift to 2\n  divide\n  ask counter result\n`;
  // Not lowered before the restoring turn in position 1: it subtracts once more, 35 turns, and 11 − 2 · 28 below zero.
  expect(toldIn(text)).toContainEqual(expect.stringMatching(/^counter 35, result 999999955: .*drive-left subtract/));
});

describe('for random products', () => {
  const digits = (n: number): number[] => [...String(n)].map(Number).reverse();
  const product = fc.tuple(fc.integer({ min: 2, max: 999 }), fc.integer({ min: 2, max: 999 }));

  test('every slip told is another reading, told once, and what arithmetic says', () => {
    fc.assert(
      fc.property(product, ([a, b]) => {
        const slips = slipsIn(PRODUCT.replace('a = 34, b = 27', `a = ${a}, b = ${b}`));
        expect(slips.length).toBeGreaterThan(0);
        expect(slips.length).toBeLessThanOrEqual(MOST_SLIPS);
        const keys = slips.map(({ readings }) =>
          JSON.stringify(readings.map(({ index, reading }) => [index, reading])),
        );
        expect(new Set(keys).size).toBe(keys.length);
        for (const { readings, reasons } of slips) {
          for (const { register, reading, right } of readings) {
            expect(right).toBe(String(register === 'counter' ? b : a * b));
            expect(reading).not.toBe(right);
          }
          for (const reason of reasons) {
            if (reason.is === 'not-cleared' && reason.register === 'result') {
              expect(readings.map(({ reading }) => reading)).toEqual([String(2 * a * b)]);
            }
            if (reason.is === 'turns') {
              const [{ reading: counter }, { reading: result }] = readings;
              // A turn more or less in some place of the multiplier.
              const by = Math.abs(Number(counter) - b);
              expect(digits(by).every((figure, i) => figure === (i === String(by).length - 1 ? 1 : 0))).toBe(true);
              expect(Number(result)).toBe(a * Number(counter));
            }
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
