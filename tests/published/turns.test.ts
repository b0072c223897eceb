/**
 * How many turns a figure of a multiplier takes on the average, over all multipliers of so many figures.
 *
 * All of this is derived here: no published derivation of these averages for desk machines was found. That a
 * multiplication takes one turn for each unit of each figure is read in an old encyclopaedia's entry
 * “Calculating machines”.
 */
import { describe, expect, it } from 'vitest';
import { cheapestCranking } from '../../server/machine/index.js';
import { profileWith } from '../machine/bench.js';
import { crank, crankCases, MACHINES } from './crank.js';
import { figuresOf, signedTurns } from './hands.js';

const all = (figures: number) => Array.from({ length: 10 ** figures }, (_, i) => String(i).padStart(figures, '0'));
const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

/** From the right: a figure with its carry of 6 and more, or of `from` and more, becomes its complement to ten. */
function shortCut(multiplier: string, from: 5 | 6): number[] {
  const figures: number[] = [];
  let carry = 0;
  for (const figure of figuresOf(multiplier)) {
    const due = figure + carry;
    carry = due >= from ? 1 : 0;
    figures.push(due - 10 * carry);
  }
  return [...figures, carry];
}

/** Turns of all multipliers together, cranked by these figures; the products are looked at as well. */
function turnsBy(multipliers: readonly string[], figuresFor: (multiplier: string) => number[]): number {
  return sum(
    multipliers.map((multiplier) => {
      const steps = ['clear all', 'set 12345', ...signedTurns(figuresFor(multiplier)), 'shift to 1'];
      const { effort, result } = crank(MACHINES.wide, steps, ['counter-underflow', 'counter-overflow']);
      expect(result).toBe(12345n * BigInt(multiplier));
      return effort.turns;
    }),
  );
}

describe.each([1, 2, 3])('multipliers of %i figures', (k) => {
  const multipliers = all(k);

  it('figure by figure: 4.5 turns for each', () => {
    const runs = crankCases(MACHINES.wide, multipliers, ['clear all', 'set 12345', 'multiply by m', 'shift to 1']);
    expect(runs.length).toBe(10 ** k);
    for (const [i, { steps, effort }] of runs.entries()) {
      expect(BigInt(steps[steps.length - 1].result)).toBe(12345n * BigInt(i));
      expect(effort.turns).toBe(sum(figuresOf(multipliers[i])));
    }
    // 4.5 · k on the average, in whole numbers: 9 · k · 10ᵏ in twice the turns.
    expect(2 * sum(runs.map(({ effort }) => effort.turns))).toBe(9 * k * 10 ** k);
  });

  it('by the short cut, 6 and more from above: 2.5 · k + 4/9 · (1 − 10⁻ᵏ)', () => {
    const turns = turnsBy(multipliers, (m) => shortCut(m, 6));
    expect(18 * turns).toBe(45 * k * 10 ** k + 8 * (10 ** k - 1));
    expect(turns / 10 ** k).toBe([2.9, 5.44, 7.944][k - 1]);
  });

  it('by the short cut, 5 and more from above: 2.5 · k + 5/9 · (1 − 10⁻ᵏ)', () => {
    const turns = turnsBy(multipliers, (m) => shortCut(m, 5));
    expect(18 * turns).toBe(45 * k * 10 ** k + 10 * (10 ** k - 1));
    expect(turns / 10 ** k).toBe([3, 5.55, 8.055][k - 1]);
  });

  it('by the fewest turns', () => {
    // From the right, a 5 becomes −5 if the next figure is 5 or more.
    const fewest = (multiplier: string) => {
      const figures = [...figuresOf(multiplier), 0];
      for (let i = 0; i < k; i++) {
        const due = figures[i];
        if (due > 5 || (due === 5 && figures[i + 1] >= 5)) {
          figures[i] = due - 10;
          figures[i + 1]++;
        }
      }
      return figures;
    };
    expect(turnsBy(multipliers, fewest) / 10 ** k).toBe([2.9, 5.4, 7.859][k - 1]);
  });

  it('`multiply` short makes them, where a turn alone takes effort', () => {
    const machine = [...MACHINES.wide, 'effort turn 1 shift 0 lever 0'];
    const runs = crankCases(machine, multipliers, ['clear all', 'set 12345', 'multiply by m short', 'shift to 1']);
    for (const [i, { steps }] of runs.entries()) {
      const last = steps[steps.length - 1];
      expect([BigInt(last.result), BigInt(last.counter), last.wraps]).toEqual([12345n * BigInt(i), BigInt(i), 0]);
    }
    expect(sum(runs.map(({ effort }) => effort.turns)) / 10 ** k).toBe([2.9, 5.4, 7.859][k - 1]);
  });
});

describe.each([1, 2, 3, 4, 5])('the figures for all multipliers of %i figures', (k) => {
  const turnsOf = (bothWays: boolean) => {
    const profile = profileWith({ effort: { turn: 1, shift: 0, lever: 0 } });
    let turns = 0;
    for (let n = 0; n < 10 ** k; n++) {
      const order = { multiplier: BigInt(n), profile, subtracting: false, most: 20, bothWays };
      turns += cheapestCranking(order)?.turns ?? Number.NaN;
    }
    return turns;
  };

  it('forward alone: 4.5 turns for each', () => {
    expect(turnsOf(false) / 10 ** k).toBe(4.5 * k);
  });

  it('both ways: the fewest', () => {
    expect(turnsOf(true) / 10 ** k).toBe([2.9, 5.4, 7.859, 10.314, 12.76859][k - 1]);
  });
});
