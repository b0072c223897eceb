/** Sums over lists: what is asked, how it is worked through, what stands where. Every plan is run on its machine. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isListRefused, type ListLimit, type ListOrder, type ListPlan, planList } from '../../server/planning/lists.js';
import type { Table } from '../../server/planning/table.js';
import { type CarriedOut, carryOut, profileOf, stepsOf } from './carried-out.js';

const WIDE = ['setting 20', 'counter 20', 'result 20', 'carriage 20'];
const OFFICE = ['setting 10', 'counter 8', 'result 13', 'carriage 8'];

type Ask = Pick<ListOrder, 'expression' | 'table' | 'decimals'>;
const table = (columns: string, ...rows: string[]): Table => {
  return { columns: columns.split(' '), rows: rows.map((row) => row.split(' ')) };
};

interface Listed extends CarriedOut {
  readonly plan: ListPlan;
}

/** Plans and carries out: nothing is found, the goals are met exactly, and each total stands where it is said. */
function listed(machine: readonly string[], ask: Ask): Listed {
  const plan = planList({ ...ask, profile: profileOf(machine) });
  if (isListRefused(plan)) throw new Error(`Refused: ${JSON.stringify(plan.refused)}`);
  return carriedOut(machine, ask, plan);
}

function carriedOut(machine: readonly string[], { table: { columns, rows } }: Ask, plan: ListPlan): Listed {
  const carried = carryOut(machine, plan.lines, plan.goals);
  const { traced, found, text } = carried;
  expect(found, text).toEqual([]);
  expect(traced.goals.map(({ met }) => met)).toEqual(plan.goals.map(() => 'exact'));
  expect(traced.effort).toEqual(plan.effort);
  const parts = plan.passes.map(({ effort }) => effort.cost).reduce((a, b) => a + b, 0);
  expect(parts).toBe(plan.effort.cost);
  // The totals, worked out here anew, all rows in units of the sixth decimal.
  const units = (name: string, row: readonly string[]) => unitsOf(row[columns.indexOf(name)]);
  for (const { name, value } of plan.sums) {
    const total =
      name === 'n'
        ? BigInt(rows.length) * SCALE
        : rows.reduce((sum, row) => sum + product(name, (c) => units(c, row)), 0n);
    expect(unitsOf(value), name).toBe(total);
  }
  // At its end every pass shows its totals in the places that it names.
  let line = 2 + machine.length + plan.goals.length;
  for (const pass of plan.passes) {
    line += pass.lines.length;
    const last = traced.steps.findLast((step) => step.line <= line);
    if (!last) throw new Error('A pass without steps.');
    for (const { register, from, to, sum, times, decimals } of pass.standings) {
      const total = rows.reduce((so, row) => so + product(sum, (c) => units(c, row)), 0n);
      if (total < 0n) continue;
      const figures = last[register].slice(last[register].length - to, last[register].length - from + 1);
      expect(BigInt(figures) * SCALE, `${sum} in ${last[register]}`).toBe(
        total * BigInt(times) * 10n ** BigInt(decimals),
      );
    }
  }
  return { ...carried, plan };
}

const SCALE = 1_000_000n;
function unitsOf(text: string): bigint {
  const [whole, fraction = ''] = text.replace('-', '').split('.');
  const units = BigInt(whole + fraction.padEnd(6, '0'));
  return text.startsWith('-') ? -units : units;
}
function product(name: string, of: (column: string) => bigint): bigint {
  if (name === '1') return SCALE;
  const [first, second] = name.endsWith('^2') ? [name.slice(0, -2), name.slice(0, -2)] : name.split('*');
  return second === undefined ? of(first) : (of(first) * of(second)) / SCALE;
}

const refused = (machine: readonly string[], ask: Ask): ListLimit => {
  const plan = planList({ ...ask, profile: profileOf(machine) });
  if (!isListRefused(plan)) throw new Error('It is planned.');
  return plan.refused;
};
const remarks = ({ lines }: ListPlan) => lines.flatMap((line) => ('remark' in line ? [line.remark] : []));

describe('one column', () => {
  const crates = table('crates', '12', '7', '31');

  it('set and turned once', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(crates)', table: crates });
    expect(stepsOf(plan.lines)).toEqual([
      'clear all',
      'set 12',
      'turn',
      'set 7',
      'turn',
      'set 31',
      'turn',
      'expect result 50',
    ]);
    expect(plan.sums).toEqual([
      { name: 'crates', value: '50' },
      { name: 'n', value: '3' },
    ]);
    expect(plan.goals).toEqual([{ register: 'result', expression: '12 + 7 + 31' }]);
  });

  it('the counter adds up the numbers while their squares add up in the result', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(crates), sum(crates^2)', table: crates });
    expect(plan.passes.length).toBe(1);
    expect(plan.goals).toEqual([
      { register: 'result', expression: '12 * 12 + 7 * 7 + 31 * 31' },
      { register: 'counter', expression: '12 + 7 + 31' },
    ]);
  });

  it.each(['counter 8 plain', 'counter 8 signed', ''])(
    'without a counter that carries (%s), 1 stands beside the number',
    (counter) => {
      const machine = ['setting 10', ...(counter ? [counter] : []), 'result 13', 'carriage 8'];
      const { plan } = listed(machine, { expression: 'sum(crates), sum(crates^2)', table: crates });
      expect(plan.passes.length).toBe(1);
      expect(stepsOf(plan.lines)).toContain('set 1 at 5 and 12');
      expect(plan.passes[0].standings).toEqual([
        { register: 'result', from: 1, to: 4, sum: 'crates^2', times: 1, decimals: 0 },
        { register: 'result', from: 5, to: 6, sum: 'crates', times: 1, decimals: 0 },
      ]);
    },
  );

  it('decimals stand at the markers, all rows alike', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(m^2)', table: table('m', '1.5', '2', '0.25') });
    expect(stepsOf(plan.lines)).toContain('points setting 2 counter 2 result 4');
    expect(stepsOf(plan.lines).at(-1)).toBe('expect result 6.3125');
    const wanted = listed(OFFICE, { expression: 'sum(m^2)', table: table('m', '1.5', '2', '0.25'), decimals: 6 });
    expect(stepsOf(wanted.plan.lines).at(-1)).toBe('expect result 6.312500');
  });
});

describe('two columns', () => {
  const beds = table('x y', '4 1', '5 2', '6 8');

  it('x and y on the levers, cranked by x', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x), sum(x^2), sum(x*y)', table: beds });
    expect(plan.passes.length).toBe(1);
    expect(plan.decisions[0].alternatives[0].way).toBe('set x at 3 and y, crank x');
    expect(stepsOf(plan.lines).at(-1)).toBe('expect counter 15 result 7762');
  });

  it('the square of both side by side has the product twice in the middle', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x^2), sum(x*y), sum(y^2)', table: beds });
    expect(plan.passes[0].standings).toEqual([
      { register: 'result', from: 1, to: 2, sum: 'y^2', times: 1, decimals: 0 },
      { register: 'result', from: 4, to: 6, sum: 'x*y', times: 2, decimals: 0 },
      { register: 'result', from: 7, to: 8, sum: 'x^2', times: 1, decimals: 0 },
    ]);
    expect(remarks(plan)).toContainEqual({ is: 'columns-apart', places: 3 });
  });

  it('a 1 that is cranked with y adds up what is set', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x), sum(y), sum(x*y)', table: beds });
    expect(plan.decisions[0].alternatives[0].way).toBe('set x, crank 1 at 3 and y');
    expect(plan.passes[0].standings.map(({ register, sum }) => `${register} ${sum}`)).toEqual([
      'result x*y',
      'result x',
      'counter y',
      'counter 1',
    ]);
  });

  it('where not all have room side by side, the list is gone through again', () => {
    const small = ['setting 4', 'counter 4', 'result 5', 'carriage 2'];
    const { plan } = listed(small, {
      expression: 'sum(x^2), sum(x*y), sum(y^2)',
      table: table('x y', '41 17', '5 22', '6 38'),
    });
    expect(plan.passes.length).toBeGreaterThan(1);
    expect(stepsOf(plan.lines).filter((step) => step === 'clear all').length).toBe(plan.passes.length);
    expect(plan.written).toBe(plan.passes.length - 1);
    expect(remarks(plan).filter(({ is }) => is === 'read-off').length).toBe(plan.passes.length - 1);
  });

  it('a reading every ten rows and at the end', () => {
    const rows = Array.from({ length: 24 }, (_, i) => `${i + 1} ${2 * i + 1}`);
    const { plan } = listed(OFFICE, { expression: 'sum(x*y)', table: table('x y', ...rows) });
    expect(stepsOf(plan.lines).filter((step) => step.startsWith('expect')).length).toBe(3);
    expect(remarks(plan).filter(({ is }) => is === 'rows').length).toBe(3);
  });

  it('rows of nought move nothing', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x*y)', table: table('x y', '4 0', '0 3', '2 6') });
    expect(plan.effort.turns).toBe(2);
    listed(OFFICE, { expression: 'sum(x*y)', table: table('x y', '4 0', '0 3') });
  });
});

describe('numbers below zero', () => {
  const stock = table('change', '12', '-5', '7', '-3');

  it('are taken away, after those that are added', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(change)', table: stock });
    expect(stepsOf(plan.lines)).toEqual([
      'clear all',
      'set 12',
      'turn',
      'set 7',
      'turn',
      'set 5',
      'turn back',
      'set 3',
      'turn back',
      'expect result 11',
    ]);
    expect(remarks(plan)).toContainEqual({ is: 'rows-below-zero' });
  });

  it('a total below zero shows as a complement', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x*y)', table: table('x y', '3 4', '-7 5', '2 -9') });
    expect(stepsOf(plan.lines)).toContain('expect overdraw');
    expect(plan.sums[0].value).toBe('-41');
  });

  it('a counter that would go below zero gets a start', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(x)', table: table('x', '900', '-5', '-7', '-3') });
    expect(remarks(plan)).toContainEqual({ is: 'counter-ahead' });
  });

  it('squares are added whatever the sign, and the counter does not tell the sum', () => {
    const { plan } = listed(OFFICE, { expression: 'sum(change), sum(change^2)', table: stock });
    expect(plan.passes.length).toBe(2);
  });

  it('a machine that only adds refuses', () => {
    const adder = ['setting 6', 'counter 6', 'result 8', 'subtract none'];
    expect(refused(adder, { expression: 'sum(change)', table: stock })).toEqual({ is: 'cannot-subtract' });
  });
});

describe('what can’t be done', () => {
  const beds = table('x y', '4 1', '5 2');
  it.each<[string, ListLimit]>([
    ['sum(z)', { is: 'unknown-column', name: 'z', columns: ['x', 'y'] }],
    ['x', { is: 'not-a-sum', text: 'x' }],
    ['sum(x*y*x)', { is: 'not-a-sum', text: 'sum(x*y*x)' }],
    ['sum(x^3)', { is: 'not-a-sum', text: 'sum(x^3)' }],
    ['sum(x), sum(x + y)', { is: 'not-a-sum', text: 'sum(x + y)' }],
    ['sum(x),', { is: 'not-a-sum', text: '' }],
    ['sum(x) # all', { is: 'not-a-sum', text: 'sum(x) # all' }],
    ['sum(x # all)', { is: 'not-a-sum', text: 'sum(x # all)' }],
    ['sum(x; turn)', { is: 'not-a-sum', text: 'sum(x; turn)' }],
    ['', { is: 'no-sums' }],
  ])('%s', (expression, limit) => {
    expect(refused(OFFICE, { expression, table: beds })).toEqual(limit);
  });

  it('columns that are no numbers, short rows, no rows, too many', () => {
    const ask = (rows: string[][]) => ({ expression: 'sum(y)', table: { columns: ['x', 'y'], rows } });
    expect(refused(OFFICE, ask([['1', 'two']]))).toEqual({ is: 'not-a-number', row: 1, column: 'y', text: 'two' });
    expect(refused(OFFICE, ask([['1', '2'], ['3']]))).toEqual({ is: 'short-row', row: 2, has: 1, needs: 2 });
    expect(refused(OFFICE, ask([]))).toEqual({ is: 'no-rows' });
    expect(refused(OFFICE, ask(Array.from({ length: 2001 }, () => ['1', '2'])))).toEqual({
      is: 'rows',
      has: 2001,
      most: 2000,
    });
  });

  it('a total without room is refused with the places that it takes', () => {
    const machine = ['setting 4', 'counter 4', 'result 5'];
    const long = table('x', '9999', '9999');
    expect(refused(machine, { expression: 'sum(x^2)', table: long })).toEqual({
      is: 'places',
      register: 'result',
      has: 5,
      needs: 9,
    });
    expect(refused(machine, { expression: 'sum(x)', table: table('x', '12345') })).toEqual({
      is: 'places',
      register: 'setting',
      has: 4,
      needs: 5,
    });
  });

  it('fewer decimals than a sum has', () => {
    expect(refused(OFFICE, { expression: 'sum(x^2)', table: table('x', '1.5'), decimals: 1 })).toEqual({
      is: 'too-few-decimals',
      has: 1,
      needs: 2,
    });
  });
});

describe('sizes', () => {
  it('two thousand rows, and a goal that is too long row by row', () => {
    const rows = Array.from({ length: 2000 }, (_, i) => `${(i * 7919) % 10_000} ${(i * 104_729) % 100}`);
    const { plan } = listed(WIDE, { expression: 'sum(x), sum(x^2), sum(x*y)', table: table('x y', ...rows) });
    expect(plan.passes.length).toBe(1);
    for (const { expression } of plan.goals) expect(expression).toMatch(/^\d+$/);
  });
});

describe('any table on any machine', () => {
  const machines = fc
    .record({
      setting: fc.integer({ min: 2, max: 20 }),
      more: fc.integer({ min: 0, max: 12 }),
      counter: fc.oneof(fc.constant(0), fc.integer({ min: 2, max: 20 })),
      carry: fc.constantFrom('carry', 'carry', 'plain', 'signed'),
      carriage: fc.integer({ min: 1, max: 20 }),
      subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
      count: fc.constantFrom('follow', 'lever', 'first'),
      reach: fc.option(fc.integer({ min: 0, max: 8 }), { nil: undefined, freq: 3 }),
    })
    .map(({ setting, more, counter, carry, carriage, subtract, count, reach }) => {
      const result = Math.min(20, setting + more);
      return [
        `setting ${setting}`,
        ...(counter > 0 ? [`counter ${counter} ${carry}`] : []),
        `result ${result}${reach === undefined ? '' : ` reach ${Math.min(20, setting + reach)}`}`,
        `carriage ${Math.min(carriage, result)}`,
        `subtract ${subtract}`,
        `count ${count}`,
      ];
    });
  const column = fc
    .record({
      length: fc.integer({ min: 1, max: 5 }),
      decimals: fc.integer({ min: 0, max: 2 }),
      isSigned: fc.integer({ min: 0, max: 3 }).map((n) => n === 0),
    })
    .map(({ length, decimals, isSigned }) => {
      const most = 10 ** length - 1;
      return fc
        .integer({ min: isSigned ? -most : 0, max: most })
        .map((n) =>
          decimals === 0
            ? `${n}`
            : `${n < 0 ? '-' : ''}${Math.floor(Math.abs(n) / 10 ** decimals)}.${String(Math.abs(n) % 10 ** decimals).padStart(decimals, '0')}`,
        );
    });
  const tables = fc
    .array(column, { minLength: 1, maxLength: 3 })
    .chain((columns) =>
      fc
        .array(fc.tuple(...columns), { minLength: 1, maxLength: 23 })
        .map((rows) => ({ columns: ['x', 'y', 'z'].slice(0, columns.length), rows })),
    );
  const asks = tables.chain((of) => {
    const factor = fc.constantFrom(...of.columns);
    const sum = fc.oneof(
      factor.map((a) => `sum(${a})`),
      factor.map((a) => `sum(${a}^2)`),
      fc.tuple(factor, factor).map(([a, b]) => `sum(${a}*${b})`),
    );
    return fc.array(sum, { minLength: 1, maxLength: 5 }).map((sums) => ({ expression: sums.join(', '), table: of }));
  });

  it('is right and nothing is found, or a limit is told', () => {
    const passes = new Map<number, number>();
    let refusals = 0;
    fc.assert(
      fc.property(machines, asks, (machine, ask) => {
        const plan = planList({ ...ask, profile: profileOf(machine) });
        if (isListRefused(plan)) {
          refusals++;
          const limits = ['places', 'reach', 'cannot-subtract', 'below-zero', 'runs-over'];
          expect(limits, JSON.stringify([machine, ask])).toContain(plan.refused.is);
          return;
        }
        carriedOut(machine, ask, plan);
        passes.set(plan.passes.length, (passes.get(plan.passes.length) ?? 0) + 1);
      }),
      { numRuns: 200 },
    );
    expect(passes.get(1) ?? 0).toBeGreaterThan(30);
    expect(passes.get(2) ?? 0).toBeGreaterThan(5);
    expect(refusals).toBeGreaterThan(5);
  });
});
