/** What counters with a tens carry, without one, and with signed figures show of a multiplier. */
import { describe, expect, it } from 'vitest';
import type { Code } from '../../server/sequence/findings.js';
import { crank, crankCases, signedSum } from './crank.js';
import { table } from './data.js';
import { signedTurns } from './hands.js';

const machine = (kind: 'carry' | 'plain' | 'signed') => ['setting 8', `counter 11 ${kind}`, 'result 20', 'carriage 11'];
/** Short cuts go below zero on the way, and counters say so. */
const ON_THE_WAY: readonly Code[] = ['counter-underflow', 'counter-overflow'];

const multipliers = table('multiplier_turns.csv').map((row) => ({
  multiplier: row.multiplier,
  // Units first.
  figures: row.shortcut_digits.split(' ').map(Number).reverse(),
}));
const shortCut = (kind: 'carry' | 'plain' | 'signed', figures: readonly number[]) =>
  crank(machine(kind), ['clear all', 'set 4321', ...signedTurns(figures)], ON_THE_WAY);

describe.each(multipliers)('the short cut for $multiplier', ({ multiplier, figures }) => {
  it('a plain counter shows each figure by itself, modulo 10', () => {
    // That counters may have no carry and that each wheel is turned by its own turns: read in the Encyclopaedia
    // Britannica, 11th ed. (1911), “Calculating machines”. That the figures show modulo 10 is derived here.
    const { last, result } = shortCut('plain', figures);
    const wheels = figures.map((f) => ((f % 10) + 10) % 10);
    expect(last.counter).toBe(wheels.reverse().join('').padStart(11, '0'));
    expect(result).toBe(4321n * BigInt(multiplier));
  });

  it('a counter with carry shows the multiplier', () => {
    // Derived here; from memory the reason why such counters were built.
    const { counter, result } = shortCut('carry', figures);
    expect(counter).toBe(BigInt(multiplier));
    expect(result).toBe(4321n * BigInt(multiplier));
  });

  it('a signed counter shows every figure with its sign; together they are the multiplier', () => {
    // Derived here.
    const { last, counter } = shortCut('signed', figures);
    const shown = (last.counter.match(/-?\d/g) ?? []).map(Number).reverse();
    expect(shown).toEqual(Array.from({ length: 11 }, (_, i) => figures[i] ?? 0));
    expect(counter).toBe(BigInt(multiplier));
  });
});

it('figure by figure all three show the multiplier', () => {
  const numbers = multipliers.map((m) => m.multiplier);
  expect(numbers.length).toBe(161);
  for (const kind of ['carry', 'plain', 'signed'] as const) {
    const runs = crankCases(machine(kind), numbers, ['clear all', 'set 4321', 'multiply by m', 'shift to 1']);
    expect(runs.map(({ steps }) => String(signedSum(steps[steps.length - 1].counter)))).toEqual(numbers);
  }
});

describe('ten turns in one place', () => {
  // The first in substance read in the Encyclopaedia Britannica, 11th ed. (1911); the others derived here.
  it.each([
    ['plain', '00000000000'],
    ['carry', '00000000010'],
    ['signed', '00000000000'],
  ] as const)('on a %s counter', (kind, shown) => {
    const { last, codes } = crank(machine(kind), ['clear all', 'set 4321', 'turn 10'], ON_THE_WAY);
    expect(last.counter).toBe(shown);
    expect(codes.includes('counter-overflow')).toBe(kind !== 'carry');
    expect(BigInt(last.result)).toBe(43210n);
  });
});
