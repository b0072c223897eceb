/** `multiply` and `divide` the short way: single steps, findings, and the same end as the long way. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cheapestCranking } from '../../server/machine/index.js';
import { type TracedStep, traceOf } from '../../server/sequence/trace.js';
import { checkText, expectMarked } from '../marked.js';
import { cranked, type MachineName, machine, onMachine } from './machines.js';
import { machineText, plans } from './random.js';
import type { Plan } from './slow-model.js';

const rowsOf = ({ library, report }: ReturnType<typeof expectMarked>) => traceOf(library, report).sequences[0].steps;
/** The single steps behind the line before the last, which says what they must have come to. */
const opened = (on: MachineName | string[], steps: string): string[] => {
  const [name, ...more] = typeof on === 'string' ? [on] : on;
  const lines = steps.split('\n');
  const checked = expectMarked(onMachine(machine(name as MachineName, ...more), steps));
  const rows = rowsOf(checked);
  const last = rows[rows.length - 1].line;
  return rows.filter(({ line }) => line === last - 1 && lines.length > 1).map(({ step }) => step);
};

describe('multiply short', () => {
  test('on a crank that turns both ways', () => {
    const steps = `set 12
                   multiply by 98 short #! overdraw-restored
                   expect counter 98 result 1176 carriage 3`;
    expect(opened('reverse', steps)).toEqual(['turn back 2', 'shift right 2', 'turn']);
  });
  test('with a drive lever, which is left at add', () => {
    const steps = `set 12
                   multiply by 98 short #! overdraw-restored
                   expect counter 98 result 1176 carriage 3`;
    const way = ['mode subtract', 'turn 2', 'shift right 2', 'mode add', 'turn'];
    expect(opened('full', steps)).toEqual(way);
    expect(opened(['signed', 'subtract lift'], steps)).toEqual(way);
  });
  test('where a move of the lever takes more than it saves', () => {
    const steps = (found: string, position: number) => `set 12
                   multiply by 7 short ${found}
                   expect counter 7 result 84 carriage ${position}`;
    expect(opened('full', steps('', 1))).toEqual(['turn 7']);
    const heavy = opened(['full', 'effort turn 3 shift 1 lever 2'], steps('#! overdraw-restored', 2));
    expect(heavy).toEqual(['mode subtract', 'turn 3', 'shift right', 'mode add', 'turn']);
  });
  test('by half places', () => {
    const steps = `set 12
                   multiply by 98 short #! overdraw-restored
                   expect counter 98 result 1176 carriage 3`;
    expect(opened('halfStep', steps)).toEqual([
      ...['shift right half', 'turn 2'],
      ...['shift right', 'shift right half', 'turn'],
    ]);
    const light = `set 12
                   multiply by 9798 short #! overdraw-restored
                   expect counter 9798 result 117576 carriage 4`;
    expect(opened(['halfStep', 'effort turn 9 shift 3 lever 1'], light)).toEqual([
      ...['mode subtract', 'turn 2', 'shift right', 'shift right half', 'turn 8'],
      ...['shift right', 'turn 9'],
    ]);
  });
  test('the drive found at subtract: figures subtract, and the drive is left there', () => {
    const steps = (lever: string) => `dial result 5000
                   clear counter
                   set 12
                   mode subtract
                   ${lever}
                   multiply by 98 short
                   expect result 3824 counter 98 carriage 3
                   mode add
                   count plus`;
    const rows = rowsOf(expectMarked(cranked('full', steps('count minus'))));
    const { line } = rows.find(({ step }) => step.startsWith('expect')) as TracedStep;
    const way = rows.filter((row) => row.line === line - 1);
    expect(way.map(({ step }) => step)).toEqual(['mode add', 'turn 2', 'shift right 2', 'mode subtract', 'turn']);
    expect(way.at(-1)).toMatchObject({ drive: 'subtract', count: 'minus' });
  });
  test('on a half-step machine found at subtract, the first way back is half a place', () => {
    const steps = `set 12
                   mode subtract
                   multiply by 98 short #! counter-underflow result-overdraw
                   expect carriage 3 #! left-engaged`;
    expect(opened('halfStep', steps)).toEqual([
      ...['shift left half', 'turn 2'],
      ...['shift right 2', 'shift right half', 'turn'],
    ]);
  });
  test('on a machine that only adds it is the long way', () => {
    const steps = `set 12
                   multiply by 98 short
                   expect result 1176 carriage 2`;
    expect(opened(['adder', 'subtract none'], steps)).toEqual(['turn 8', 'shift right', 'turn 9']);
  });
  test('from another position, by a value, and by nothing', () => {
    const from = `set 12
                  shift right
                  multiply by 9 short #! overdraw-restored
                  expect counter 90 result 1080 carriage 3`;
    expect(opened('reverse', from)).toEqual(['turn back', 'shift right', 'turn']);
    const value = `points counter 1
                   set 12
                   multiply by 9.9 short #! overdraw-restored
                   expect counter 9.9 carriage 3`;
    expect(opened('reverse', value)).toEqual(['turn back', 'shift right 2', 'turn']);
    const nothing = `set 12
                     multiply by 000 short
                     expect counter 0 carriage 1`;
    expect(opened('reverse', nothing)).toEqual([]);
  });
  test('refused as the long way is', () => {
    expectMarked(
      cranked(
        'full',
        `set 12
         shift right
         multiply by 1234 short #! carriage-end
         multiply by 1.5 short #! too-many-decimals
         shift out
         multiply by 12 short #! carriage-parked
         expect counter 0 result 0`,
      ),
    );
  });
});

describe('a position more than the multiplier has figures', () => {
  const long = ['turn 8', 'shift right', 'turn 9'];
  const short = ['turn back 2', 'shift right 2', 'turn'];
  const steps = (set: string, by = '98', found = '') => `set ${set}
                   multiply by ${by} short ${found}
                   shift to 1`;

  test('is one that the carriage has', () => {
    expect(opened(['reverse', 'carriage 2'], steps('12'))).toEqual(long);
    expect(opened(['reverse', 'carriage 3'], steps('12', '98', '#! overdraw-restored'))).toEqual(short);
  });
  test('is one that the counter has', () => {
    const counter = (places: number) => machine('reverse', 'carriage 5').replace('counter 4', `counter ${places}`);
    const way = (places: number, found = '') => {
      const checked = expectMarked(onMachine(counter(places), `  set 12\n  multiply by 98 short ${found}`));
      return rowsOf(checked)
        .slice(2)
        .map(({ step }) => step);
    };
    expect(way(2)).toEqual(long);
    expect(way(3, '#! overdraw-restored')).toEqual(short);
  });
  test('is one in which the result loses no lever figure', () => {
    const result = (set: string, found = '') => {
      const narrow = machine('reverse').replace('result 8', 'result 5');
      const checked = expectMarked(onMachine(narrow, `  set ${set}\n  multiply by 98 short ${found}`));
      return rowsOf(checked)
        .slice(2)
        .map(({ step }) => step);
    };
    expect(result('999', '#! overdraw-restored')).toEqual(short);
    expect(result('1000')).toEqual(long);
  });
  test('else the best of what is left', () => {
    const steps = `set 12
                   multiply by 198 short #! overdraw-restored
                   expect counter 198 result 2376`;
    expect(opened(['reverse', 'carriage 3'], steps)).toEqual(['turn back 2', 'shift right 2', 'turn 2']);
  });
});

describe('counters in a short multiplication', () => {
  test('one with a carry that is back at the end is no finding, one that is not is told once', () => {
    expectMarked(cranked('reverse', '  set 12\n  multiply by 98 short #! overdraw-restored\n  expect counter 98'));
    const { report } = expectMarked(
      cranked(
        'full',
        `dial result 50000
         set 12
         mode subtract
         multiply by 98 short #! counter-underflow
         expect counter -98
         mode add`,
      ),
    );
    // Two turns add, and the third takes the counter below zero for good.
    expect(report.findings[0].facts).toEqual({ code: 'counter-underflow', turn: 3, times: 1, places: 4 });
  });
  test('one that runs over on the way and comes back', () => {
    expectMarked(
      cranked(
        'full',
        `dial result 99999999
         set 1
         count minus; turn; count plus #! counter-underflow result-overflow
         clear result
         dial result 5000
         mode subtract
         multiply by 98 short
         expect counter 9901
         mode add`,
      ),
    );
  });
  test('one that runs over for good', () => {
    const { report } = expectMarked(
      cranked(
        'reverse',
        `set 12
         shift to 4
         turn 9
         shift to 2
         multiply by 198 short #! counter-overflow
         expect counter 980`,
      ),
    );
    const [facts] = report.findings.map((finding) => finding.facts).filter(({ code }) => code === 'counter-overflow');
    expect(facts).toEqual({ code: 'counter-overflow', turn: 4, times: 1, places: 4 });
  });
  test('a wheel without carry below zero is told; a signed one shows it', () => {
    const plain = '  set 12\n  multiply by 98 short #! overdraw-restored counter-underflow';
    expect(rowsOf(expectMarked(cranked('plain', plain))).at(-1)?.counter).toBe('0108');
    const signed = '  set 12\n  multiply by 98 short #! overdraw-restored\n  expect counter 98';
    expect(rowsOf(expectMarked(cranked('signed', signed))).at(-1)?.counter).toBe('010-2');
  });
  test('one that takes its sense from the first turn', () => {
    const fresh = `set 12
                   multiply by 98 short #! overdraw-restored
                   expect counter 98 result 1176`;
    const way = ['turn 8', 'shift right', 'turn back', 'shift right', 'turn'];
    expect(opened(['reverse', 'count first'], fresh)).toEqual(way);
    const taken = `set 12
                   turn
                   multiply by 97 short #! overdraw-restored
                   expect counter 98 result 1176`;
    expect(opened(['reverse', 'count first'], taken)).toEqual(['turn back 3', 'shift right 2', 'turn']);
  });
});

describe('divide short', () => {
  const first = machine('reverse', 'count first', 'result 8 dials').replace('  result 8\n', '');

  test('with a crank that turns both ways, restored in the last position if it ends overdrawn', () => {
    const way = (result: string, quotient: string, from: number) => {
      const steps = `dial result ${result}
                     set 5
                     shift to ${from}
                     divide short #! overdraw-restored
                     expect ${quotient} carriage 1`;
      return rowsOf(expectMarked(onMachine(first, steps)))
        .slice(4, -1)
        .map(({ step }) => step);
    };
    const down = 'turn back until overdraw';
    expect(way('68', 'counter 13 result 3', 2)).toEqual([down, 'shift left', 'turn 7']);
    expect(way('684', 'counter 136 result 4', 3)).toEqual([down, 'shift left', 'turn 7', 'shift left', down, 'turn']);
    expect(way('50', 'counter 10 result 0', 2)).toEqual([down, 'shift left', 'turn 10']);
    expect(way('4', 'counter 0 result 4', 1)).toEqual([down, 'turn']);
  });
  test('with levers, which are left as they were found', () => {
    const steps = (begin: string, end: string) => `dial result 68
                                                   set 5
                                                   shift right
                                                   ${begin}
                                                   divide short #! overdraw-restored
                                                   expect counter 13 result 3 carriage 1
                                                   ${end}`;
    const rows = rowsOf(expectMarked(cranked('full', steps('', ''))));
    expect(rows.slice(4, -1).map(({ step }) => step)).toEqual([
      ...['count minus', 'mode subtract', 'turn until overdraw', 'shift left', 'mode add', 'turn 7', 'count plus'],
    ]);
    const engaged = rowsOf(expectMarked(cranked('full', steps('mode subtract; count minus', 'mode add; count plus'))));
    expect(engaged.slice(6, -3).map(({ step }) => step)).toEqual([
      ...['turn until overdraw', 'shift left', 'mode add', 'turn 7', 'mode subtract'],
    ]);
    expect(engaged.at(-4)).toMatchObject({ drive: 'subtract', count: 'minus' });
  });
  test('by half places, down to a position', () => {
    const halves = machine('halfStep', 'count lever').replace('result 8', 'result 8 dials');
    const steps = `dial result 687
                   set 5
                   shift to 3
                   divide to 2 short #! overdraw-restored
                   expect counter 130 result 37 carriage 2`;
    const way = (text: string) =>
      rowsOf(expectMarked(onMachine(text, steps)))
        .slice(4, -1)
        .map(({ step }) => step);
    const [begin, down] = [['count minus', 'shift right half'], 'turn until overdraw'];
    expect(way(halves)).toEqual([...begin, down, 'shift left', 'shift left half', 'turn 7', 'count plus']);
    const light = way(`${halves.trimEnd()}\n  effort turn 1 shift 1 lever 0\n`);
    expect(light).toEqual(['count minus', 'mode subtract', down, 'shift left', 'mode add', 'turn 7', 'count plus']);
  });
  test('with automatic division on it is as without', () => {
    const steps = `dial result 65
                   set 5
                   shift right
                   mode subtract; count minus
                   auto-divide on
                   divide short
                   expect parked counter 13 result 0
                   auto-divide off; mode add; count plus`;
    expect(rowsOf(expectMarked(cranked('full', steps))).map(({ step }) => step)).toContain('turn until stop');
  });
  test('refused as the long way is', () => {
    expectMarked(
      cranked(
        'full',
        `set 5
         divide to 2 short #! wrong-arguments
         shift out
         divide short #! carriage-parked`,
      ),
    );
    const adder = machine('adder', 'subtract none');
    expectMarked(onMachine(adder, '  set 5\n  divide short #! not-on-this-machine'));
  });
  test('a quotient that shows as a complement is told', () => {
    const steps = `set 65
                   turn
                   clear counter
                   set 5
                   divide short #! quotient-as-complement counter-underflow overdraw-restored many-turns
                   expect counter -13 result 0`;
    expectMarked(cranked('reverse', steps));
  });
  test('by nothing it never ends; what is not made good ends the run as well', () => {
    expectMarked(
      cranked(
        'full',
        `dial result 10
         divide short #! never-overdraws idle-turn many-turns
         set 5`,
      ),
    );
    const { report } = expectMarked(
      cranked(
        'full',
        `set 5
         shift right
         auto-clear on
         divide short #! never-overdraws result-overdraw idle-turn many-turns auto-clear-repeat counter-underflow
         set 5`,
      ),
    );
    const [facts] = report.findings.map((finding) => finding.facts).filter(({ code }) => code === 'never-overdraws');
    expect(facts).toEqual({ code: 'never-overdraws', why: 'stays-below' });
  });
});

describe('what is turned is what was reckoned', () => {
  const efforts = [
    'turn 1 shift 1 lever 2',
    'turn 3 shift 2 lever 1',
    'turn 2 shift 3 lever 0',
    'turn 0 shift 1 lever 1',
  ];
  const trials = (['reverse', 'lever', 'lift', 'half-step'] as const).flatMap((subtract) =>
    efforts.flatMap((effort) => [false, true].map((subtracts) => [subtract, effort, subtracts] as const)),
  );
  test.each(trials.filter(([subtract, , subtracts]) => !subtracts || subtract !== 'reverse'))(
    'subtract %s, effort %s, at subtract: %s',
    (subtract, effort, subtracts) => {
      const numbers = Array.from({ length: 400 }, (_, i) => (i * 37) % 10_000);
      const begin = `  clear all\n${subtracts ? '  mode subtract\n' : ''}  set 1\n  shift right`;
      const lines = `machine stores\n  setting 4\n  counter 8 signed\n  result 12\n  subtract ${subtract}\n  effort ${effort}\n`;
      const cases = numbers.map((n) => `  case n = ${n}\n`).join('');
      const text = `${lines}sequence trial (n = 0) on stores\n${cases}${begin}\n  multiply by n short\n`;
      const { library, report } = checkText(text);
      const [nothing, ...runs] = traceOf(library, report).sequences;
      const { profile } = report.sequences[0].runs[0].order;
      expect(runs.length).toBe(numbers.length);
      for (const [i, { effort: made, steps }] of runs.entries()) {
        const order = { multiplier: BigInt(numbers[i]), profile, subtracting: subtracts, most: 7, bothWays: true };
        const { cost, turns, figures } = cheapestCranking(order) ?? {};
        expect([made.cost - nothing.effort.cost, made.turns], `${numbers[i]}`).toEqual([cost, turns]);
        expect(steps[steps.length - 1].position).toBe(Math.max(2, 1 + (figures?.length ?? 0)));
        expect(steps[steps.length - 1].drive).toBe(subtracts ? 'subtract' : 'add');
      }
    },
  );
});

const digits = (most: number) =>
  fc
    .array(fc.constantFrom('0', '1', '4', '5', '6', '8', '9', '9'), { minLength: 1, maxLength: most })
    .map((figures) => figures.join(''));

interface Start {
  readonly plan: Plan;
  readonly set: string;
  readonly result: string;
  readonly number: string;
  readonly at: number;
  readonly subtracts: boolean;
  readonly minus: boolean;
}
const starts: fc.Arbitrary<Start> = plans
  .filter(({ carry, reach, counter }) => carry !== 'plain' && reach === undefined && counter > 0)
  .chain((plan) =>
    fc.record({
      plan: fc.constant({ ...plan, dials: true }),
      set: digits(plan.setting),
      result: digits(plan.result),
      number: digits(Math.min(plan.carriage, plan.counter)),
      at: fc.integer({ min: 1, max: Math.min(plan.carriage, plan.counter) }),
      subtracts: fc.boolean(),
      minus: fc.boolean(),
    }),
  );

/** Both ways of a step from the same start: the row at the end, the findings and the effort of each. */
function bothWays({ plan, set, result, at, subtracts, minus }: Start, step: string) {
  const hasLever = plan.subtract !== 'reverse' && plan.subtract !== 'none';
  const begin = [
    'clear all',
    `dial result ${result}`,
    `set ${set}`,
    `shift to ${at}`,
    hasLever && subtracts && 'mode subtract',
    plan.count === 'lever' && minus && 'count minus',
  ].filter(Boolean);
  return [step, `${step} short`].map((last) => {
    const text = `${machineText(plan)}sequence trial on stores\n  ${[...begin, last].join('\n  ')}\n`;
    const { library, report, findings } = checkText(text);
    const { steps, effort } = traceOf(library, report).sequences[0];
    const codes = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
    return { last: steps[steps.length - 1], codes: codes.map(({ code }) => code), effort };
  });
}

/** What must be the same: a signed counter by what its figures come to. */
function outcome({ setting, counter, result, drive, count, wraps }: TracedStep) {
  const sum = (counter.match(/-?\d/g) ?? []).reduce((total, figure) => 10n * total + BigInt(figure), 0n);
  return { setting, counter: sum, result, drive, count, wraps };
}
/** With these the long way itself loses something. */
const LOSSES = ['carriage-end', 'digits-off-end', 'turn-not-counted', 'counter-overflow', 'never-overdraws'];

test('a short multiplication ends as the long one, with no more effort and no other finding', () => {
  let shorter = 0;
  fc.assert(
    fc.property(starts, (start) => {
      const [long, short] = bothWays(start, `multiply by ${start.number}`);
      fc.pre(!long.codes.some((code) => LOSSES.includes(code)));
      expect(outcome(short.last)).toEqual(outcome(long.last));
      expect(short.effort.cost).toBeLessThanOrEqual(long.effort.cost);
      // What goes past its end for good is another matter: on its way it may do so at the other end.
      const isWhole = long.last.wraps === 0;
      const codes = short.codes.filter((code) => isWhole || !code.startsWith('result-'));
      expect(long.codes).toEqual(expect.arrayContaining(codes));
      if (short.effort.cost < long.effort.cost) shorter++;
    }),
    { numRuns: 1_000 },
  );
  expect(shorter).toBeGreaterThan(100);
});

test('a short division ends as the long one', () => {
  let divided = 0;
  fc.assert(
    fc.property(starts, (start) => {
      const [long, short] = bothWays(start, `divide to ${1 + (start.number.length % start.at)}`);
      fc.pre(![...long.codes, ...short.codes].some((code) => LOSSES.includes(code)));
      expect(outcome(short.last)).toEqual(outcome(long.last));
      expect(short.last.position).toBe(long.last.position);
      expect(long.codes).toEqual(expect.arrayContaining(short.codes));
      if (short.last.step !== long.last.step || short.effort.turns < long.effort.turns) divided++;
    }),
    { numRuns: 1_000 },
  );
  expect(divided).toBeGreaterThan(100);
});
