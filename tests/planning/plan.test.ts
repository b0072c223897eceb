/** Plans: what they look like, and that every one of them meets its goal without a finding. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { numberIn } from '../../server/machine/index.js';
import { isRefused, type Plan } from '../../server/planning/index.js';
import { checked, machineText, planFor, planned, stepsOf } from './planned.js';

const REVERSE = machineText('setting 9', 'counter 8', 'result 13', 'transfer result');
const LEVER = machineText(
  'setting 10',
  'counter 8',
  'result 18 dials',
  'subtract lever',
  'count lever',
  'transfer result',
);
const AUTOMATIC = machineText(
  'setting 10',
  'counter 8',
  'result 18',
  'subtract half-step',
  'count lever',
  'auto-divide',
);
const ADDER = machineText('setting 9', 'counter 6', 'result 12', 'subtract none');

describe('what a plan looks like', () => {
  const steps = (machine: string, expression: string, wishes = {}) => {
    const plan = planFor(machine, expression, wishes);
    expect(checked(machine, plan).report.findings).toEqual([]);
    return stepsOf(plan);
  };

  it('sets one factor and cranks the other in the shortest way, from the top', () => {
    expect(steps(REVERSE, '24.5 * 18')).toEqual([
      'clear all',
      'points setting 1 counter 0 result 1',
      'set 24.5',
      'shift right',
      'turn 2',
      'shift left',
      'turn back 2',
      'expect result 441.0',
    ]);
  });

  it('chooses the factor that takes fewer turns to crank', () => {
    expect(steps(REVERSE, '789 * 11')).toEqual(steps(REVERSE, '11 * 789'));
    expect(planFor(REVERSE, '789 * 11').effort.turns).toBe(2);
  });

  it('adds products up without clearing', () => {
    const plan = planFor(REVERSE, '2.5 * 3 + 1.25 * 4 - 0.5');
    expect(stepsOf(plan).filter((step) => step.startsWith('clear'))).toEqual(['clear all']);
    expect(plan.written).toBe(0);
    expect(plan.reading).toBe('12.00');
  });

  it('passes a product back to the levers rather than write it down', () => {
    const plan = planFor(REVERSE, '12.5 * 31 * 7');
    expect(stepsOf(plan)).toContain('transfer result');
    expect(plan.written).toBe(0);
    const without = planFor(machineText('setting 9', 'counter 8', 'result 13'), '12.5 * 31 * 7');
    expect(stepsOf(without)).not.toContain('transfer result');
    expect(without.written).toBe(1);
  });

  it('divides by itself where the machine can, and leaves its levers as they were', () => {
    const all = steps(AUTOMATIC, '4215 / 27', { decimals: 3 });
    expect(all).toContain('turn until stop');
    expect(all.slice(-5, -1)).toEqual(['auto-divide off', 'shift right', 'shift left half', 'count plus']);
    expect(all.at(-1)).toBe('expect counter 156.111 result 0.003');
  });

  it('divides by hand without restoring where that takes less, and restores where it is told to', () => {
    const free = planFor(LEVER, '4215 / 27', { decimals: 3 });
    const restoring = planFor(LEVER, '4215 / 27', { decimals: 3, method: 'restoring' });
    expect(free.effort.cost).toBeLessThan(restoring.effort.cost);
    expect(free.reading).toBe('156.111');
    expect(restoring.reading).toBe('156.111');
    expect(stepsOf(restoring).filter((step) => step === 'turn until overdraw')).toHaveLength(6);
  });

  it('builds a quotient up where subtracting turns would count down', () => {
    const plan = planFor(REVERSE, '4215 / 27', { decimals: 3 });
    expect(plan.lines.some((line) => 'remark' in line && line.remark.is === 'building-up')).toBe(true);
    expect(plan.reading).toBe('156.111');
  });

  it('keeps a product in the machine as a dividend', () => {
    const plan = planFor(AUTOMATIC, '12 * 15 / 7', { decimals: 4 });
    expect(plan.written).toBe(0);
    expect(plan.reading).toBe('25.7142');
  });

  it('subtracts by the complement on a machine that only adds', () => {
    const plan = planFor(ADDER, '812 - 345');
    expect(stepsOf(plan)).toContain('expect overflow');
    expect(plan.reading).toBe('467');
  });

  it('rounds by half a unit set beforehand', () => {
    const quotient = planFor(LEVER, '20 / 7', { decimals: 2, isRounded: true });
    expect(quotient.reading).toBe('2.86');
    const product = planFor(LEVER, '2.345 * 1.7', { decimals: 2, isRounded: true });
    expect(product.goal).toBe('2.345 * 1.7 + 0.005');
    expect(product.reading).toBe('3.9915');
  });

  it('sets a number that is too long for the levers in two parts, at its point if it has one', () => {
    const machine = machineText('setting 6', 'counter 6', 'result 12');
    const sets = (expression: string) => steps(machine, expression).filter((step) => step.startsWith('set '));
    expect(sets('12345.678 * 4')).toEqual(['set 12345.0', 'set 0.678']);
    expect(sets('12345678')).toEqual(['set 5678', 'set 1234']);
  });

  it('clears a counter that would run over between products', () => {
    const machine = machineText('setting 8', 'counter 6 plain', 'result 12', 'subtract none');
    const all = steps(machine, '4.25 * 8 + 3.75 * 9');
    expect(all.filter((step) => step.startsWith('clear'))).toEqual(['clear all', 'clear counter']);
    expect(all.at(-1)).toBe('expect result 67.75');
  });

  it('shows nought without a turn', () => {
    const counter = { register: 'counter' } as const;
    expect(steps(REVERSE, '5 - 5', counter).at(-1)).toBe('expect counter 0');
    expect(steps(REVERSE, '0 / 5')).toEqual(['clear all', 'expect counter 0 result 0']);
    expect(planFor(REVERSE, '4 / 9', { decimals: 0 }).reading).toBe('0');
  });

  it('is content with the decimals that an answer has', () => {
    expect(planFor(REVERSE, '12.5 / 0.125', { decimals: 8 }).reading).toBe('100');
    expect(planFor(LEVER, '10 / 4', { decimals: 3 }).reading).toBe('2.500');
  });

  it('brings a sum below zero to wheels that show it', () => {
    const signed = machineText('setting 8', 'counter 8 signed', 'result 14');
    expect(planFor(signed, '12 - 30', { register: 'counter' }).reading).toBe('-18');
    const below = { refused: { is: 'below-zero', register: 'counter' } };
    expect(planned(REVERSE, '12 - 30', { register: 'counter' })).toEqual(below);
  });

  it('uses a parameter by its name, with every case', () => {
    const values = ['24.5', '3.75'].map(
      (length) =>
        new Map([
          ['length', number(length)],
          ['beds', number('12')],
        ]),
    );
    const outcome = planned(LEVER, 'length * beds', { values });
    if (isRefused(outcome)) throw new Error(JSON.stringify(outcome));
    const all = stepsOf(outcome).join('\n');
    expect(all).toMatch(/set (length|beds)/);
    expect(all).toMatch(/multiply by (length|beds)/);
    expect(all).not.toMatch(/expect/);
  });

  it('brings the carriage to its position by name where each case leaves it somewhere else', () => {
    const cases = [
      { trays: '3', rows: '5', loose: '7' },
      { trays: '10', rows: '11', loose: '1000' },
    ];
    const values = (...names: ('trays' | 'rows' | 'loose')[]) =>
      cases.map((all) => new Map(names.map((name) => [name, number(all[name])])));
    const sum = planned(LEVER, 'trays * rows + loose', { values: values('trays', 'rows', 'loose') });
    if (isRefused(sum)) throw new Error(JSON.stringify(sum));
    expect(stepsOf(sum).slice(-3)).toEqual(['set loose', 'shift to 1', 'turn']);
    const quotient = planned(LEVER, 'trays * rows / 12', { values: values('trays', 'rows'), decimals: 3 });
    expect(isRefused(quotient)).toBe(false);
  });
});

/** A number as a parameter has it. */
function number(text: string) {
  const point = text.indexOf('.');
  const decimals = point < 0 ? 0 : text.length - point - 1;
  const figures = text.replace('.', '');
  return { kind: 'number', text, figures, isValue: point >= 0, decimals, from: 0, to: 0 } as const;
}

describe('roots on the way', () => {
  const wide = ['setting 12', 'counter 10', 'result 20 dials', 'subtract lever', 'count lever', 'transfer result'];
  const WIDE = machineText(...wide, 'transfer counter');

  it('are taken apart where all under one root there is room for fewer decimals', () => {
    expect(planFor(WIDE, 'sqrt(0.28) * (7.8 - 1.4)').reading).toBe(
      new Decimal('0.28').sqrt().mul('6.4').toFixed(6, Decimal.ROUND_DOWN),
    );
  });

  it('do not let an answer be a unit off where the roots end and the value does not show it', () => {
    const machine = machineText('setting 6', 'counter 5', 'result 9', 'carriage 5', 'subtract reverse', 'count follow');
    const outcome = planned(machine, '((sqrt(5) * ((1 + 359) - 425))) ^ 2');
    if (isRefused(outcome)) return expect(outcome.refused.is).toBe('places');
    const off = new Decimal(outcome.reading).sub(21125).abs();
    expect(off.lt(new Decimal(10).pow(-outcome.decimals))).toBe(true);
  });

  it('within roots do not multiply the ways that are tried', () => {
    const expression = 'sqrt(sqrt(sqrt(sqrt(sqrt(65968))))) * 385.8';
    const value = new Decimal(65968).pow(new Decimal(1).div(32)).mul('385.8');
    expect(new Decimal(planFor(WIDE, expression).reading).sub(value).abs().lt('0.001')).toBe(true);
  });
});

describe('what can not be planned', () => {
  it.each([
    ['1 / 0', 'divides-by-zero'],
    ['sqrt(0 - 1)', 'root-of-negative'],
    ['9 ^ 9 ^ 9', 'too-large'],
    ['2 ^ 0.5', 'power-not-whole'],
  ])('%s has no value', (expression, why) => {
    expect(planned(LEVER, expression)).toEqual({ refused: { is: 'no-value', why } });
  });

  it('says which register has too few places, and how many it takes', () => {
    expect(planned(REVERSE, '500000000000 / 123456789012', { decimals: 0 })).toMatchObject({
      refused: { is: 'places', register: 'setting', has: 9, needs: 12 },
    });
  });

  it('says how many decimals there would be room for', () => {
    expect(planned(LEVER, '4215 / 27', { decimals: 7 })).toMatchObject({
      wayOut: { is: 'fewer-decimals', decimals: 5 },
    });
  });

  it('says which place is missing for a product that no result has room for', () => {
    const machine = machineText('setting 6', 'counter 6', 'result 12');
    const refused = { is: 'places', register: 'result', has: 12, needs: 15 };
    expect(planned(machine, '12345678 * 22345678')).toEqual({ refused });
  });

  it('says how many places a value so small would take', () => {
    const machine = machineText('setting 8', 'counter 6', 'result 12');
    const refused = { is: 'places', register: 'counter', has: 6, needs: 8 };
    expect(planned(machine, '0.0000001 / 3')).toMatchObject({ refused });
  });

  it('says so where there is nothing for a method', () => {
    const none = (method: string) => ({ refused: { is: 'nothing-for-method', method } });
    expect(planned(LEVER, '24.5 * 18', { method: 'restoring' })).toEqual(none('restoring'));
    expect(planned(LEVER, '355 / 113', { method: 'five-fold' })).toEqual(none('five-fold'));
    expect(planned(LEVER, 'sqrt(2)', { method: 'restoring' })).toEqual(none('restoring'));
    expect(planFor(LEVER, 'sqrt(2 / 3)', { method: 'restoring' }).reading).toMatch(/^0\.816496/);
  });

  it('refuses a 400-figure number at once', () => {
    expect(planned(LEVER, '9'.repeat(400))).toMatchObject({ refused: { is: 'places' } });
  });
});

/** Machines as they were built, of all kinds: none too small to work with. */
const machines = fc
  .record({
    setting: fc.integer({ min: 6, max: 14 }),
    more: fc.integer({ min: 3, max: 9 }),
    counter: fc.integer({ min: 5, max: 12 }),
    carry: fc.constantFrom('', '', ' plain', ' signed'),
    reach: fc.constantFrom(0, 0, 0, 3),
    subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
    count: fc.constantFrom('follow', 'lever', 'first'),
    dials: fc.boolean(),
    auto: fc.boolean(),
    transferResult: fc.constantFrom('', 'transfer result', 'transfer result at 1'),
    transferCounter: fc.boolean(),
    effort: fc.constantFrom(
      '',
      'effort turn 1 shift 1 lever 0',
      'effort turn 3 shift 1 lever 2',
      'effort turn 1 shift 4 lever 5',
    ),
  })
  .map((m) => {
    const result = Math.min(20, m.setting + m.more);
    const lines = [
      `setting ${m.setting}`,
      `counter ${m.counter}${m.carry}`,
      `result ${result}${m.dials ? ' dials' : ''}${m.reach > 0 ? ` reach ${Math.min(20, m.setting + m.reach)}` : ''}`,
      `carriage ${Math.min(m.counter, result)}`,
      `subtract ${m.subtract}`,
      `count ${m.count}`,
      ...(m.auto && m.subtract !== 'reverse' && m.subtract !== 'none' ? ['auto-divide'] : []),
      ...(m.transferResult ? [m.transferResult] : []),
      ...(m.transferCounter ? ['transfer counter'] : []),
      ...(m.effort ? [m.effort] : []),
    ];
    return machineText(...lines);
  });

const numbers = fc.oneof(
  fc.integer({ min: 1, max: 999 }).map(String),
  fc.tuple(fc.integer({ min: 1, max: 9_999 }), fc.integer({ min: 1, max: 3 })).map(([digits, decimals]) => {
    const text = String(digits).padStart(decimals + 1, '0');
    return `${text.slice(0, -decimals)}.${text.slice(-decimals)}`;
  }),
);

function expressions(operations: number): fc.Arbitrary<string> {
  if (operations === 0) return numbers;
  const binary = fc
    .integer({ min: 0, max: operations - 1 })
    .chain((left) =>
      fc
        .tuple(expressions(left), fc.constantFrom('+', '-', '*', '*', '/'), expressions(operations - 1 - left))
        .map(([a, sign, b]) => `(${a} ${sign} ${b})`),
    );
  return fc.oneof(
    { weight: 9, arbitrary: binary },
    { weight: 1, arbitrary: expressions(operations - 1).map((of) => `(${of}) ^ 2`) },
    { weight: 1, arbitrary: expressions(operations - 1).map((of) => `sqrt(${of})`) },
  );
}

/** The value to sixty figures, by a library that has nothing to do with this project's arithmetic. */
Decimal.set({ precision: 80 });
function decimalOf(text: string): Decimal {
  const tokens = text.match(/sqrt|[\d.]+|[-+*/^()]/g) ?? [];
  let at = 0;
  const operand = (): Decimal => {
    const token = tokens[at++];
    if (token === 'sqrt') return operand().sqrt();
    if (token !== '(') return new Decimal(token);
    const inside = sum();
    at++;
    return inside;
  };
  const power = (): Decimal => {
    const base = operand();
    if (tokens[at] !== '^') return base;
    at++;
    return base.pow(operand());
  };
  const product = (): Decimal => {
    let so = power();
    while (tokens[at] === '*' || tokens[at] === '/') so = tokens[at++] === '*' ? so.mul(power()) : so.div(power());
    return so;
  };
  const sum = (): Decimal => {
    let so = product();
    while (tokens[at] === '+' || tokens[at] === '-') so = tokens[at++] === '+' ? so.add(product()) : so.sub(product());
    return so;
  };
  return sum();
}

/** The reading of the plan's register at the end of its run, a complement read as what it stands for. */
function readingOf(machine: string, plan: Plan): Decimal {
  const { report } = checked(machine, plan);
  const [run] = report.sequences[0].runs;
  const { profile } = run.order;
  let units = numberIn(run.state, profile, plan.register);
  if (plan.reading.startsWith('-') && units > 0n) units -= 10n ** BigInt(profile[plan.register]);
  return new Decimal(units.toString()).div(new Decimal(10).pow(plan.decimals));
}

describe('every plan', () => {
  it('meets its goal on its machine, and nothing is found in it', () => {
    let done = 0;
    let refused = 0;
    fc.assert(
      fc.property(machines, fc.integer({ min: 1, max: 5 }).chain(expressions), (machine, expression) => {
        const outcome = planned(machine, expression);
        if (isRefused(outcome)) {
          refused++;
          return;
        }
        done++;
        const { text, report } = checked(machine, outcome);
        expect(
          report.findings.map(({ facts }) => facts),
          text,
        ).toEqual([]);
        const unit = new Decimal(10).pow(-outcome.decimals);
        const difference = readingOf(machine, outcome).sub(decimalOf(outcome.goal)).abs();
        expect(difference.lt(unit), `${text}\n${outcome.reading} for ${outcome.goal}`).toBe(true);
        expect(report.sequences[0].runs[0].effort).toEqual(outcome.effort);
      }),
      { numRuns: 400 },
    );
    // Refusing everything would pass otherwise.
    expect(done).toBeGreaterThan(refused);
  });

  it('cuts a quotient off at its marker and leaves the remainder in the result', () => {
    const dividing = machines.filter((text) => !/subtract none|count follow|reach/.test(text));
    let done = 0;
    fc.assert(
      fc.property(dividing, numbers, numbers, (machine, over, under) => {
        const outcome = planned(machine, `${over} / ${under}`, { decimals: 2 });
        if (isRefused(outcome)) return;
        const isBuiltUp = outcome.lines.some((line) => 'remark' in line && line.remark.is === 'building-up');
        // An answer that ends may be shown with fewer decimals.
        if (isBuiltUp || outcome.decimals !== 2) return;
        done++;
        const [run] = checked(machine, outcome).report.sequences[0].runs;
        const { profile } = run.order;
        const quotient = new Fraction(over).div(under).mul(100).floor();
        expect(numberIn(run.state, profile, 'counter')).toBe(quotient.n);
        const remainder = new Fraction(over).sub(quotient.div(100).mul(under));
        const last = stepsOf(outcome).at(-1) ?? '';
        const left = /result ([\d.]+)$/.exec(last)?.[1] ?? 'none';
        expect(new Fraction(left).equals(remainder), `${last}, not ${remainder}`).toBe(true);
      }),
      { numRuns: 200 },
    );
    expect(done).toBeGreaterThan(100);
  });
});
