/** Square roots as they are planned for a machine: roots by odd numbers, by fives, by dividing and averaging. */
import { describe, expect, it } from 'vitest';
import type { TracedStep } from '../../server/sequence/trace.js';
import { rootTaken, type Taken } from '../planning/roots-run.js';
import { MACHINES } from './crank.js';
import { Exact, table } from './data.js';

const published = table('oeis_values.csv');
const traces = table('sqrt_traces.csv');
const publishedRoot = (of: string): string => {
  const row = published.find(({ quantity }) => quantity === `sqrt(${of})`);
  if (!row) throw new Error(`no root of ${of} in the table`);
  return row.value;
};

/** Turns that take an odd number away; the radicand goes in without a turn. */
const subtractions = ({ steps }: Taken): TracedStep[] => steps.filter(({ step }) => step.startsWith('turn'));
const ADDING = ['setting 20', 'counter 20', 'result 20', 'carriage 20', 'subtract none'];

describe('ten figures of a root, cut off', () => {
  // The roots read in OEIS A002193, A002194, A002163, A010467; remainders and numbers of subtractions derived here.
  const rows = [
    ['2', 1414213562n, 1055272156n, 29],
    ['3', 1732050807n, 1970648751n, 33],
    ['5', 2236067977n, 2235127471n, 49],
    ['10', 3162277660n, 1064924400n, 40],
  ] as const;

  it.each(rows)('√%s by odd numbers, taken away', (of, root, remainder, turns) => {
    const taken = rootTaken({ machine: MACHINES.divider, of, decimals: 9, method: 'odd-numbers' });
    expect([taken.counter, taken.result]).toEqual([root, remainder]);
    expect(subtractions(taken)).toHaveLength(turns);
    expect(
      taken.steps.some(({ bell }) => bell),
      'nothing goes below zero',
    ).toBe(false);
    expect(taken.goal).toBe('cut off');
    expect(String(taken.counter)).toBe(publishedRoot(of).replace('.', '').slice(0, 10));
  });

  it.each(rows)('√%s by odd numbers, added up', (of, root, remainder, turns) => {
    const taken = rootTaken({ machine: ADDING, of, decimals: 9, method: 'odd-numbers' });
    expect([taken.counter, taken.result]).toEqual([root, BigInt(of) * 10n ** 18n - remainder]);
    expect(subtractions(taken)).toHaveLength(turns);
  });

  it.each(rows)('√%s by fives', (of, root, remainder, turns) => {
    // Five times ten to the 19th is a figure more than the register has.
    const machine = of === '10' ? ['setting 20', 'counter 20', 'result 20', 'subtract none'] : MACHINES.divider;
    const taken = rootTaken({ machine, of, decimals: 9, method: 'five-fold' });
    const five = of === '10' ? 5n * (BigInt(of) * 10n ** 18n - remainder) : 5n * remainder;
    expect([taken.counter, taken.result]).toEqual([root, five]);
    expect(subtractions(taken)).toHaveLength(turns);
  });

  it.each(rows)('√%s by dividing and averaging', (of, root) => {
    for (const machine of [MACHINES.divider, ADDING]) {
      const taken = rootTaken({ machine, of, decimals: 9, method: 'divide-and-average' }, true);
      expect(taken.counter).toBe(root);
    }
  });
});

describe('as many subtractions as the figures of the root add up to', () => {
  // Derived here (1 + 3 + … + (2k − 1) = k²); 46656 and 66564 are met with in textbooks, the others not.
  it.each([
    ['46656', 216n, 9],
    ['66564', 258n, 15],
    ['152399025', 12345n, 15],
  ])('√%s = %s', (of, root, turns) => {
    for (const method of ['odd-numbers', 'five-fold'] as const) {
      const taken = rootTaken({ machine: MACHINES.divider, of, decimals: 0, method });
      expect([taken.counter, taken.result]).toEqual([root, 0n]);
      expect(subtractions(taken)).toHaveLength(turns);
      expect(taken.goal).toBe('exact');
    }
  });
});

describe('the root of 2, step by step', () => {
  it('by odd numbers', () => {
    // Derived here: recomputed from the rule that the first k odd numbers make k².
    const rows = traces.filter(({ method, op }) => method === 'odd' && op === 'subtract');
    const turns = subtractions(rootTaken({ machine: MACHINES.divider, of: '2', decimals: 7, method: 'odd-numbers' }));
    expect(shown(turns)).toEqual(rows.map(({ a, b }) => `${a} leaves ${b}`));
  });

  it('by odd multiples of five', () => {
    // Rules and first four pairs read in F. Jarvis, “Square roots by subtraction”; later pairs derived here.
    const rows = traces.filter(({ method }) => method === 'five');
    expect(rows.slice(0, 4).map(({ a, b }) => `${a} ${b}`)).toEqual(['10 5', '5 15', '500 105', '395 115']);
    const turns = subtractions(rootTaken({ machine: MACHINES.divider, of: '2', decimals: 8, method: 'five-fold' }));
    // What stands on the levers after a rule is taken away by the next R1, which leaves its first number.
    const taken = rows.flatMap(({ op, a }, i) => (op === 'R1' ? [`${rows[i - 1].b} leaves ${a}`] : []));
    expect(shown(turns).slice(0, taken.length)).toEqual(taken);
    expect(turns.length, 'the table ends one short of the ninth figure').toBe(taken.length + 1);
  });

  /** Levers and result without the places below those that are worked in. */
  function shown(turns: readonly TracedStep[]): string[] {
    return turns.map(({ setting, result, position }) => {
      const below = BigInt(position - 1);
      return `${BigInt(setting) / 10n ** below} leaves ${BigInt(result) / 100n ** below}`;
    });
  }
});

describe('a round of dividing and averaging', () => {
  // The mean of a guess and of the radicand divided by it, by decimal arithmetic of a library. The chain from 1.5 that
  // is met with for 2 comes down from above the root, where a machine would have to go below zero first.
  it.each([
    ['2', 2],
    ['2', 3],
    ['3', 4],
    ['5', 5],
    ['10', 7],
    ['46656.5', 4],
  ])('√%s to %i decimals is the mean, cut off', (of, decimals) => {
    for (const machine of [MACHINES.divider, ADDING]) {
      const taken = rootTaken({ machine, of, decimals, method: 'divide-and-average' }, true);
      const guesses = taken.remarks.filter((remark) => remark.is === 'first-guess');
      expect(guesses).toHaveLength(1);
      expect(
        taken.remarks.some(({ is }) => is === 'write-down'),
        'one round',
      ).toBe(false);
      const guess = new Exact(guesses[0].guess);
      const mean = guess.plus(new Exact(of).div(guess)).div(2);
      expect(String(taken.counter)).toBe(mean.times(new Exact(10).pow(decimals)).floor().toFixed());
    }
  });
});
