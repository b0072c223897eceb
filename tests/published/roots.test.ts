/** Square roots by odd numbers and by odd multiples of five, and sums of odd numbers. */
import { describe, expect, it } from 'vitest';
import type { TracedStep } from '../../server/sequence/trace.js';
import { crank, MACHINES } from './crank.js';
import { table } from './data.js';
import { rootByOddNumbers } from './hands.js';

const published = table('oeis_values.csv');
const traces = table('sqrt_traces.csv');
const publishedValue = (quantity: string) => {
  const row = published.find((r) => r.quantity === quantity);
  if (!row) throw new Error(`no ${quantity} in the table`);
  return row.value;
};

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);
const isBack = ({ step }: TracedStep) => step.startsWith('turn back');

/** Turns that took an odd number away for good: the one of each figure that rang the bell is extra. */
function subtractions(steps: readonly TracedStep[]): { kept: number; overdrawn: number } {
  const back = steps.filter(isBack);
  const rang = back.filter(({ bell }) => bell);
  return { kept: sum(back.map((s) => s.turns)) - sum(rang.map((s) => s.turns)), overdrawn: rang.length };
}

function extract(radicand: bigint, figures: number) {
  const { steps, overdraws } = rootByOddNumbers(radicand, figures);
  const cranked = crank(MACHINES.divider, steps);
  const { kept, overdrawn } = subtractions(cranked.steps);
  expect(overdrawn, 'one overdraw for each figure').toBe(overdraws);
  expect(cranked.last.wraps, 'all made good').toBe(0);
  return { root: cranked.counter, remainder: cranked.result, kept, cranked };
}

describe('ten figures of a root, cut off', () => {
  // The roots read in OEIS A002193, A002194, A002163, A010467; remainders and numbers of subtractions derived here.
  it.each([
    [2n, 1414213562n, 1055272156n, 29],
    [3n, 1732050807n, 1970648751n, 33],
    [5n, 2236067977n, 2235127471n, 49],
    [10n, 3162277660n, 1064924400n, 40],
  ])('√%s', (n, root, remainder, turns) => {
    const radicand = n * 10n ** 18n;
    const found = extract(radicand, 10);
    expect(found).toMatchObject({ root, remainder, kept: turns });
    expect(root * root + remainder).toBe(radicand);
    expect(String(found.root)).toBe(publishedValue(`sqrt(${n})`).replace('.', '').slice(0, 10));
  });
});

describe('as many subtractions as the figures of the root add up to', () => {
  // Derived here (1 + 3 + … + (2k − 1) = k²); 46656 and 66564 are met with in textbooks, the others not.
  it.each([
    [46656n, 216n, 9],
    [66564n, 258n, 15],
    [152399025n, 12345n, 15],
  ])('√%s = %s', (radicand, root, turns) => {
    expect(extract(radicand, String(root).length)).toMatchObject({ root, remainder: 0n, kept: turns });
  });

  it('for every whole number to 400', () => {
    for (let n = 1n; n <= 400n; n++) {
      let root = 1n;
      while ((root + 1n) ** 2n <= n) root++;
      const { root: shown, remainder, kept } = extract(n, 2);
      expect([shown, remainder]).toEqual([root, n - root * root]);
      expect(kept).toBe(sum(Array.from(String(root), Number)));
    }
  });
});

describe('the root of 2, step by step', () => {
  it('by odd numbers', () => {
    // Derived here: recomputed from the rule that the first k odd numbers make k².
    const rows = traces.filter(({ method }) => method === 'odd');
    const taken = rows.filter(({ op }) => op === 'subtract');
    const figures = 8;
    const { cranked } = extract(2n * 100n ** BigInt(figures - 1), figures);
    const kept = cranked.steps.filter((s) => isBack(s) && !s.bell);
    expect(kept.length).toBe(taken.length);
    for (const [i, { setting, result, position }] of kept.entries()) {
      const k = BigInt(position - 1);
      expect(BigInt(setting)).toBe(BigInt(taken[i].a) * 10n ** k);
      expect(BigInt(result)).toBe(BigInt(taken[i].b) * 100n ** k);
    }
    const restored = cranked.steps.filter(({ step }) => step === 'turn');
    const roots = restored.map(({ counter, position }) => String(BigInt(counter) / 10n ** BigInt(position - 1)));
    expect(roots).toEqual(rows.filter(({ op }) => op === 'shift').map(({ a }) => a));
  });

  it('by odd multiples of five', () => {
    // Rules and first four pairs read in F. Jarvis, “Square roots by subtraction”; later pairs derived here.
    const rows = traces.filter(({ method }) => method === 'five');
    expect(rows.slice(0, 4).map(({ a, b }) => `${a} ${b}`)).toEqual(['10 5', '5 15', '500 105', '395 115']);
    const highest = rows.filter(({ op }) => op === 'R2').length;
    let place = highest + 1;
    let five = 5n;
    const steps = ['clear all', `dial result 10 at ${2 * highest + 1}`, `shift to ${place}`, `set 5 at ${place}`];
    for (const { op } of rows.slice(1)) {
      if (op === 'R1') five += 10n;
      else {
        // A nought goes in before the five; for two noughts behind the rest the carriage moves on.
        five = (five - 5n) * 10n + 5n;
        place--;
      }
      const step = op === 'R1' ? 'turn back' : 'shift left';
      steps.push(step, `set ${five} at ${place}`);
    }
    const cranked = crank(MACHINES.divider, steps);
    // The levers after each rule, and what is left then.
    const shown = cranked.steps.slice(3).filter(({ step }) => step.startsWith('set'));
    expect(shown.length).toBe(rows.length);
    for (const [i, { setting, result, position }] of shown.entries()) {
      const k = BigInt(position - 1);
      expect(BigInt(setting), `step ${i}`).toBe(BigInt(rows[i].b) * 10n ** k);
      expect(BigInt(result), `step ${i}`).toBe(BigInt(rows[i].a) * 100n ** k);
    }
    expect(cranked.steps.some(({ bell }) => bell)).toBe(false);
    // The counter has had a turn for each R1: the figures of the root.
    expect(String(cranked.counter)).toBe('141421355');
    expect(String(cranked.setting).slice(0, 8)).toBe(publishedValue('sqrt(2)').replace('.', '').slice(0, 8));
  });
});

describe('the first 10ⁿ − 1 odd numbers added up', () => {
  // (10ⁿ − 1)² read in OEIS A059988; that the odd numbers add up to squares, in A005408 and A000290.
  it.each([1, 2, 3, 4])('n = %i', (n) => {
    const count = 10 ** n - 1;
    const steps = ['clear all'];
    for (let odd = 1; odd < 2 * count; odd += 2) steps.push(`set ${odd}; turn`);
    const { result, counter } = crank(MACHINES.wide, steps);
    expect(String(result)).toBe(publishedValue(`(${'9'.repeat(n)})^2`));
    expect(counter).toBe(BigInt(count));
  });
});
