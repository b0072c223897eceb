/** Square roots: which steps bring them into the counter, and what stands in the way. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import type { Operator } from '../../server/planning/operator.js';
import type { Method } from '../../server/planning/order.js';
import { rootTaken, type Taken, takeRoot } from './roots-run.js';

const WIDE = ['setting 20', 'counter 20', 'result 20', 'carriage 20'];
const MACHINES = {
  /** Subtracting turns count up. */
  first: [...WIDE, 'count first'],
  /** They count down: the result has to climb. */
  follow: WIDE,
  adding: [...WIDE, 'subtract none'],
  lever: [...WIDE.slice(0, 2), 'result 20 dials', 'carriage 20', 'subtract lever', 'count lever'],
  lift: [...WIDE, 'subtract lift', 'count first'],
  halfStep: [...WIDE, 'subtract half-step', 'count lever', 'auto-divide'],
} as const;

const ROOT_WAYS = ['odd-numbers', 'five-fold', 'divide-and-average'] as const;

/** Steps in a row, without notes. */
const stepsOf = ({ lines }: Taken) => lines.filter((line) => !line.startsWith('note')).join('; ');

describe('odd numbers', () => {
  const ask = (machine: readonly string[], of: string, decimals: number, method: Method = 'odd-numbers') =>
    rootTaken({ machine, of, decimals, method });

  it('are taken away from the radicand, one place further to the right for each figure', () => {
    expect(stepsOf(ask(MACHINES.first, '2', 1))).toBe(
      [
        'clear all; points setting 2 counter 0 result 2; set 2.0; turn; clear counter',
        'points setting 1 counter 1 result 2; shift right; set 1 at 2; turn back',
        'shift left; set 21; turn back; set 23; turn back; set 25; turn back; set 27; turn back',
        'expect counter 1.4 result 0.04',
      ].join('; '),
    );
  });

  it('put the drive and the count lever once, and back', () => {
    expect(stepsOf(ask(MACHINES.lever, '144', 0))).toBe(
      [
        'clear all; dial result 144; count minus; shift right; set 1 at 2; mode subtract; turn',
        'shift left; set 21; turn; set 23; turn; mode add; count plus; expect counter 12 result 0',
      ].join('; '),
    );
    expect(stepsOf(ask(MACHINES.halfStep, '9', 0))).toContain(
      'set 1; shift right half; turn; set 3; turn; set 5; turn;',
    );
  });

  it('are added up where subtracting turns count down or there are none', () => {
    for (const machine of [MACHINES.follow, MACHINES.adding]) {
      const taken = ask(machine, '2', 1);
      expect(stepsOf(taken)).toBe(
        [
          'clear all; points setting 1 counter 1 result 2; shift right; set 1 at 2; turn',
          'shift left; set 21; turn; set 23; turn; set 25; turn; set 27; turn; expect counter 1.4 result 1.96',
        ].join('; '),
      );
      expect(taken.remarks).toEqual([{ is: 'root', method: 'odd-numbers', of: '2' }, { is: 'root-climbs' }]);
    }
  });

  it('by five: a nought goes in before the 5', () => {
    expect(stepsOf(ask(MACHINES.lever, '2', 2, 'five-fold'))).toBe(
      [
        'clear all; points setting 2 counter 2 result 4; dial result 10.0; count minus; shift right 2; set 5 at 3',
        'mode subtract; turn; shift left; set 105 at 2; turn; set 115 at 2; turn; set 125 at 2; turn; set 135 at 2; turn',
        'shift left; set 1405; turn; mode add; count plus; expect counter 1.41 result 0.0595',
      ].join('; '),
    );
  });

  it('pass over noughts with the carriage', () => {
    expect(stepsOf(ask(MACHINES.adding, '1002001', 0))).toContain('turn; shift left 3; set 2001; turn');
  });
});

describe('dividing and averaging', () => {
  const ask = (machine: readonly string[], of: string, decimals: number) =>
    rootTaken({ machine, of, decimals, method: 'divide-and-average' }, true);

  it('goes on dividing by twice the guess', () => {
    const taken = ask(MACHINES.lever, '2', 3);
    expect(taken.remarks.map(({ is }) => is)).toEqual(['root', 'first-guess', 'divide']);
    expect(taken.remarks[1]).toEqual({ is: 'first-guess', guess: '1.4' });
    expect(stepsOf(taken)).toMatch(/dial result 2\.0; set 1\.4; .* set 2\.8; .*expect counter 1\.414 result 0\.0008$/);
  });

  it('leaves dividing to a machine that divides by itself', () => {
    expect(stepsOf(ask(MACHINES.halfStep, '2', 4))).toContain('auto-divide on; turn until stop; auto-divide off');
  });

  it('climbs where subtracting turns count down', () => {
    expect(stepsOf(ask(MACHINES.adding, '2', 3))).toMatch(
      /^clear all; points setting 1 counter 3 result 4; set 1\.4; .* set 2\.8; .*expect counter 1\.414 result 1\.9992$/,
    );
  });

  it('notes the figures that are certain and goes round again for more', () => {
    const taken = ask(MACHINES.lever, '3', 11);
    expect(taken.counter).toBe(173205080756n);
    expect(taken.operator.written).toBe(1);
    const notes = taken.remarks.filter(({ is }) => is === 'write-down');
    expect(notes).toHaveLength(1);
    expect('1.7320508075688772').toContain((notes[0] as { reading: string }).reading);
  });

  it('ends with the root cut off where that can be had by a longer guess or another round', () => {
    for (let n = 1000; n < 1100; n++) {
      for (const machine of [MACHINES.first, MACHINES.adding]) {
        const taken = ask(machine, `${n}.1`, 5);
        expect(taken.goal, `${n}.1`).toBe('cut off');
      }
    }
  });

  it('ends a unit above where it can not', () => {
    expect(ask(MACHINES.adding, '1.56', 2)).toMatchObject({ counter: 125n, goal: 'rounded' });
  });

  it('needs fewer levers and less room in the result than odd numbers', () => {
    const machine = ['setting 4', 'counter 6', 'result 9 dials', 'subtract lift', 'count first'];
    expect(rootTaken({ machine, of: '2', decimals: 5 }, true).remarks[0]).toMatchObject({
      method: 'divide-and-average',
    });
    expect(takeRoot({ machine, of: '2', decimals: 5, method: 'odd-numbers' })).toMatchObject({ is: 'places' });
  });
});

describe('what the root is taken of', () => {
  it.each([
    ['a sum of products', '3.5 * 4.5 + 0.25', 0, 4n],
    ['a quotient', '22 / 7', 3, 1772n],
    ['a number with more decimals than count', '2.000001', 1, 14n],
    ['nought', '5 - 5', 2, 0n],
    ['less than a unit', '0.0003', 2, 1n],
    ['a root', 'sqrt(16) + 5', 0, 3n],
  ])('%s', (_, of, decimals, root) => {
    for (const machine of Object.values(MACHINES)) {
      const taken = rootTaken({ machine, of, decimals }, true);
      expect(taken.counter, machine.join()).toBe(root);
      expect(taken.points.counter).toBe(decimals);
      expect(taken.points.result).toBe(taken.points.setting + taken.points.counter);
    }
  });

  it('starts from registers in whatever state, and leaves the levers at rest', () => {
    const after = (operator: Operator) => {
      operator.clear('setting', 'counter', 'result');
      operator.place(1, 2);
      operator.setDigits(305n, 1);
      operator.shiftTo(4);
      operator.turn(3, true);
      if (operator.canSubtract) operator.turn(1, false);
      if (operator.profile.count === 'lever') operator.countLever(true);
    };
    for (const machine of Object.values(MACHINES)) {
      for (const method of ROOT_WAYS) {
        const taken = rootTaken({ machine, of: '7', decimals: 3, method, after }, true);
        expect(taken.counter).toBe(2645n);
        expect(taken.operator.isSubtracting).toBe(false);
        expect(taken.operator.isCountMinus).toBe(false);
      }
    }
  });
});

describe('choosing', () => {
  it('tells all three ways, and takes the one with the least effort', () => {
    for (const machine of Object.values(MACHINES)) {
      const { operator } = rootTaken({ machine, of: '5', decimals: 6 }, true);
      const decision = operator.decisions.findLast(({ about }) => about === 'root');
      expect(decision?.alternatives.map(({ way }) => way)).toEqual(ROOT_WAYS);
      const least = Math.min(...(decision?.alternatives.map(({ cost }) => cost ?? Number.POSITIVE_INFINITY) ?? []));
      expect(decision?.alternatives.find(({ isChosen }) => isChosen)?.cost).toBe(least);
      expect(operator.cost).toBe(least);
    }
  });

  it('keeps to a way that is asked for', () => {
    for (const method of ROOT_WAYS) {
      const { operator, remarks } = rootTaken({ machine: MACHINES.first, of: '5', decimals: 4, method }, true);
      expect(remarks[0]).toMatchObject({ is: 'root', method });
      expect(operator.decisions.filter(({ about }) => about === 'root')).toEqual([]);
    }
  });

  it('is free where a way of dividing is asked for', () => {
    expect(rootTaken({ machine: MACHINES.first, of: '5', decimals: 4, method: 'restoring' }, true).counter).toBe(
      22360n,
    );
  });
});

describe('what stands in the way', () => {
  const odd = (machine: readonly string[], of = '2', decimals = 3, answers: readonly Fraction[] = []) =>
    takeRoot({ machine, of, decimals, method: 'odd-numbers', answers });

  it('too few levers, counter places, result places, positions', () => {
    const machine = (setting: number, counter: number, result: number, carriage: number) => [
      ...[`setting ${setting}`, `counter ${counter}`, `result ${result}`, `carriage ${carriage}`],
      'subtract none',
    ];
    expect(odd(machine(4, 4, 7, 4))).toMatchObject({ counter: 1414n, findings: [] });
    expect(odd(machine(3, 4, 7, 4))).toEqual({ is: 'places', register: 'setting', has: 3, needs: 4 });
    expect(odd(machine(4, 3, 7, 4))).toEqual({ is: 'places', register: 'counter', has: 3, needs: 4 });
    expect(odd(machine(4, 4, 6, 4))).toEqual({ is: 'places', register: 'result', has: 6, needs: 7 });
    expect(odd(machine(4, 4, 7, 3))).toEqual({ is: 'places', register: 'carriage', has: 3, needs: 4 });
  });

  it('a number that others are to take the place of', () => {
    expect(odd(MACHINES.first, '2', 3, [new Fraction(2), new Fraction(3)])).toEqual({ is: 'parameters' });
  });

  it('no counter, and no root', () => {
    expect(odd(['setting 9', 'result 12'])).toEqual({ is: 'no-counter' });
    expect(odd(MACHINES.first, '3 - 5')).toEqual({ is: 'no-value', why: 'root-of-negative' });
  });
});

// --- any machine, any number --------------------------------------------------------------------------------------

interface Kind {
  readonly setting: number;
  readonly counter: number;
  readonly result: number;
  readonly carriage: number;
  readonly more: readonly string[];
}
const place = (least: number) => fc.integer({ min: least, max: 20 });
const kinds: fc.Arbitrary<Kind> = fc
  .record({
    sizes: fc.record({ setting: place(1), counter: place(1), result: place(1), carriage: place(1) }),
    carry: fc.constantFrom('carry', 'plain', 'signed'),
    dials: fc.boolean(),
    subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
    count: fc.constantFrom('follow', 'lever', 'first'),
    divides: fc.boolean(),
    effort: fc.constantFrom(
      'effort turn 1 shift 1 lever 2',
      'effort turn 1 shift 2 lever 1',
      'effort turn 2 shift 1 lever 5',
    ),
  })
  .map(({ sizes, carry, dials, subtract, count, divides, effort }) => {
    const result = Math.max(sizes.result, sizes.setting);
    const hasLever = subtract !== 'reverse' && subtract !== 'none';
    const lines = [`counter ${sizes.counter} ${carry}`, `result ${result}${dials ? ' dials' : ''}`];
    const more = [
      ...lines,
      `subtract ${subtract}`,
      `count ${count}`,
      effort,
      ...(divides && hasLever ? ['auto-divide'] : []),
    ];
    return { ...sizes, result, carriage: Math.min(sizes.carriage, result), more };
  });
const machineOf = ({ setting, carriage, more }: Kind) => [`setting ${setting}`, ...more, `carriage ${carriage}`];

/** A number of some units of its last decimal. */
const numbers = fc.record({
  units: fc.oneof(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 999_999_999 })),
  decimals: fc.integer({ min: 0, max: 7 }),
});
const textOf = ({ units, decimals }: { units: number; decimals: number }) => {
  const figures = String(units).padStart(decimals + 1, '0');
  return decimals === 0 ? figures : `${figures.slice(0, -decimals)}.${figures.slice(-decimals)}`;
};

/** The radicand cut off in units of the square of the root's last decimal, and the root, by trial from the top figure. */
function rootByTrial({ units, decimals }: { units: number; decimals: number }, wanted: number) {
  const scaled = BigInt(units) * 10n ** BigInt(2 * wanted);
  const radicand = scaled / 10n ** BigInt(decimals);
  let root = 0n;
  for (let step = 10n ** 20n; step > 0n; step /= 10n) while ((root + step) ** 2n <= radicand) root += step;
  return { root, radicand, scaled };
}

describe('any machine and any number', () => {
  const figures = (n: bigint) => n.toString().length;
  // Where the counter or the carriage ends, ten turns in one place may be the cheapest: nobody is to make those.
  const isAdvice = (finding: string) => !/^shorter-sequence .* turn (back )?1\d\b/.test(finding);

  it.each([
    ['odd-numbers', 1n],
    ['five-fold', 5n],
  ] as const)('%s: cut off with the remainder, or places that are really missing', (method, times) => {
    fc.assert(
      fc.property(kinds, numbers, fc.integer({ min: 0, max: 8 }), (kind, number, decimals) => {
        const machine = machineOf(kind);
        const taken = takeRoot({ machine, of: textOf(number), decimals, method }, true);
        const { root, radicand, scaled } = rootByTrial(number, decimals);
        // The last number that is turned at the last figure that is not 0.
        const below = /0*$/.exec(root.toString())?.[0].length ?? 0;
        const last = root === 0n ? 0 : figures(times * (2n * (root / 10n ** BigInt(below)) - 1n)) + below;
        const fits =
          kind.setting >= Math.max(last, decimals) &&
          kind.counter >= Math.max(figures(root), decimals) &&
          kind.carriage >= (root === 0n ? 1 : figures(root)) &&
          kind.result >= Math.max(figures(times * root * root), 2 * decimals);
        if ('is' in taken) {
          expect(fits, JSON.stringify(taken)).toBe(false);
          expect(taken.is).toBe('places');
          if (taken.is === 'places') expect(taken.has).toBe(kind[taken.register]);
          if (taken.is === 'places') expect(taken.needs).toBeGreaterThan(taken.has);
          return;
        }
        expect(fits).toBe(true);
        expect(taken.findings.filter(isAdvice), taken.lines.join('\n')).toEqual([]);
        expect(taken.counter).toBe(root);
        expect(taken.points.counter).toBe(decimals);
        // Taken away from the radicand, with all its decimals or those that count, or climbed to.
        const more = taken.points.result - 2 * decimals;
        const whole = (scaled * 10n ** BigInt(more)) / 10n ** BigInt(number.decimals);
        const square = times * root * root * 10n ** BigInt(more);
        expect([square, times * whole - square, times * radicand - square]).toContain(taken.result);
      }),
      { numRuns: 400 },
    );
  });

  it('divide-and-average: less than a unit away', () => {
    let done = 0;
    fc.assert(
      fc.property(kinds, numbers, fc.integer({ min: 0, max: 12 }), (kind, number, decimals) => {
        const machine = machineOf(kind);
        const taken = takeRoot({ machine, of: textOf(number), decimals, method: 'divide-and-average' }, true);
        const { root, radicand } = rootByTrial(number, decimals);
        if ('is' in taken) {
          if (taken.is === 'places') expect(taken.has).toBe(kind[taken.register]);
          if (taken.is === 'places') expect(taken.needs).toBeGreaterThan(taken.has);
          return;
        }
        done++;
        expect(['exact', 'cut off', 'rounded']).toContain(taken.goal);
        expect(taken.findings.filter(isAdvice), taken.lines.join('\n')).toEqual([]);
        expect(taken.points.counter).toBe(decimals);
        expect(taken.counter - root).toBeGreaterThanOrEqual(0n);
        if (taken.counter !== root) expect((taken.counter - 1n) ** 2n).toBeLessThanOrEqual(radicand);
      }),
      { numRuns: 400 },
    );
    expect(done).toBeGreaterThan(20);
  });

  it('sums, products and quotients: right where they can be done', () => {
    const of = fc.oneof(
      fc.tuple(numbers, numbers).map(([a, b]) => `${textOf(a)} * ${textOf(b)}`),
      fc.tuple(numbers, numbers, numbers).map(([a, b, c]) => `${textOf(a)} * ${textOf(b)} + ${textOf(c)}`),
      fc.tuple(numbers, fc.integer({ min: 1, max: 9999 })).map(([a, b]) => `${textOf(a)} / ${b}`),
    );
    // A short tens carry loses figures: what would lose some is not done.
    const reaches = fc.option(fc.integer({ min: 0, max: 5 }), { freq: 2 });
    const withReach = (kind: Kind, more: number | null) =>
      machineOf(kind).map((line) =>
        line.startsWith('result') && more !== null ? `${line} reach ${Math.min(20, kind.setting + more)}` : line,
      );
    let done = 0;
    fc.assert(
      fc.property(
        fc.tuple(kinds, reaches),
        of,
        fc.integer({ min: 0, max: 4 }),
        fc.constantFrom(undefined, ...ROOT_WAYS),
        ([kind, reach], text, decimals, method) => {
          const asked = { machine: withReach(kind, reach), of: text, decimals, ...(method && { method }) };
          const taken = takeRoot(asked, true);
          if ('is' in taken) return;
          done++;
          expect(taken.findings.filter(isAdvice), taken.lines.join('\n')).toEqual([]);
          expect([
            'exact',
            'cut off',
            ...(method === 'odd-numbers' || method === 'five-fold' ? [] : ['rounded']),
          ]).toContain(taken.goal);
        },
      ),
      { numRuns: 300 },
    );
    expect(done).toBeGreaterThan(15);
  });
});
