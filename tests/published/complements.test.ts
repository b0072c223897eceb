/** Complements, and proofs by nines and elevens. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { table } from './data.js';

/** A machine whose result has so many places, with a bell. */
const places = (n: number): string[] => [
  `setting ${Math.min(n, 8)}`,
  'counter 1',
  `result ${n} dials`,
  'carriage 1',
  'bell',
];
const BELOW = ['counter-underflow', 'result-overdraw'] as const;
const nines = (figures: string) => Array.from(figures, (f) => 9 - Number(f)).join('');

describe('below zero', () => {
  // Derived here.
  it.each(Array.from({ length: 20 }, (_, i) => i + 1))('0 − 1 on %i places shows all nines', (n) => {
    const { last } = crank(places(n), ['clear all', 'set 1', 'turn back', 'expect bell'], BELOW);
    expect(last.result).toBe('9'.repeat(n));
    expect(last.wraps).toBe(-1);
  });

  it.each([
    [8, '99999667'],
    [13, '9999999999667'],
    [20, '99999999999999999667'],
  ])('123 − 456 on %i places shows %s', (n, shown) => {
    const { steps, last } = crank(
      places(n),
      ['clear all', 'set 123; turn', 'set 456; turn back', 'expect result -333', 'ask result'],
      BELOW,
    );
    expect(last.result).toBe(shown);
    expect(steps.filter(({ bell }) => bell).map(({ step }) => step)).toEqual(['turn back']);
    // To read it: the complement to nine of every figure, and one more.
    expect(BigInt(nines(shown)) + 1n).toBe(333n);
  });

  it('the number shown, taken away from a cleared register, is the difference', () => {
    const again = crank(places(8), ['clear all', 'set 99999667', 'turn back'], BELOW);
    expect(again.result).toBe(333n);
  });
});

describe('subtracting by adding', () => {
  const three = places(3);
  it('768 − 155 = 613 by the complement 845', () => {
    // Read in an Elementary Arithmetic (Michigan historical mathematics collection, ABU7012, p. 12).
    expect(crank(three, ['clear all', 'set 768; turn', 'set 155; turn back']).result).toBe(613n);
    expect(crank(three, ['clear all', 'set 155; turn back'], BELOW).result).toBe(845n);
    const added = crank(three, ['clear all', 'set 768; turn', 'set 845; turn'], ['result-overflow']);
    expect(added.result).toBe(613n);
    expect(added.last.wraps).toBe(1);
    expect(crank(places(4), ['clear all', 'set 768; turn', 'set 845; turn']).result).toBe(1613n);
  });

  it('873 − 218 by complements to nine, two ways', () => {
    // Read in an encyclopaedia's article on the method of complements.
    const sum = crank(three, ['clear all', `set ${nines('873')}; turn`, 'set 218; turn']);
    expect(sum.result).toBe(344n);
    expect(nines(String(sum.result))).toBe('655');
    const carried = crank(
      three,
      ['clear all', 'set 873; turn', `set ${nines('218')}; turn`, 'expect bell', 'set 1; turn'],
      ['result-overflow'],
    );
    // 1654 loses its thousand over the top of three places; the one is brought round to the units.
    expect(carried.steps.map(({ result }) => result)).toContain('654');
    expect(carried.result).toBe(655n);
  });

  it.each(table('oeis_values.csv').filter(({ oeis }) => oeis === 'A061601'))('$quantity is $value', (row) => {
    // Read in OEIS A061601: all nines less the number.
    const figures = row.quantity.replace(/\D/g, '');
    const n = figures.length;
    const { result } = crank(places(n), ['clear all', `set ${'9'.repeat(n)}; turn`, `set ${figures}; turn back`]);
    expect(String(result)).toBe(row.value);
  });
});

describe('casting out nines', () => {
  /** The figures added up, and those of the sum again, till one figure is left; 9 counts as 0. */
  function root(n: bigint): number {
    let figures = String(n);
    while (figures.length > 1) figures = String(Array.from(figures, Number).reduce((a, b) => a + b, 0));
    return Number(figures) % 9;
  }
  /** What is left of a division by nine on the machine. */
  const left = (n: bigint) => {
    const from = String(n).length;
    return crank(MACHINES.divider, ['clear all', `dial result ${n}`, 'set 9', `shift to ${from}`, 'divide']).result;
  };

  it('72 846 359 leaves 8; 37 leaves 1', () => {
    // The first read in an arithmetic (University of Illinois, p. 158), the other in OEIS A010888.
    expect(left(72846359n)).toBe(8n);
    expect(root(72846359n)).toBe(8);
    expect(left(37n)).toBe(1n);
  });

  it('proves a difference, a product and a quotient', () => {
    // The three examples read in the British Encyclopedia.
    const less = crank(MACHINES.wide, ['clear all', 'set 59876; turn', 'set 34959; turn back']).result;
    expect(less).toBe(24917n);
    expect(root(less + 34959n)).toBe(root(59876n));
    const times = crank(MACHINES.wide, ['clear all', 'set 5943', 'multiply by 26']);
    expect(times.result).toBe(154518n);
    expect(root(times.result)).toBe((root(5943n) * root(26n)) % 9);
    const parts = crank(MACHINES.divider, ['clear all', 'dial result 87655', 'set 264', 'shift to 3', 'divide']);
    expect([parts.counter, parts.result]).toEqual([332n, 7n]);
    expect((root(264n) * root(parts.counter) + root(parts.result)) % 9).toBe(root(87655n));
  });

  it('misses figures that changed places; elevens see those of neighbours', () => {
    // The first read in the British Encyclopedia, in substance; the second derived here.
    const right = crank(MACHINES.wide, ['clear all', 'set 5943', 'multiply by 26']).result;
    const wrong = crank(MACHINES.wide, ['clear all', 'set 9543', 'multiply by 26']).result;
    expect(wrong).not.toBe(right);
    expect(left(wrong)).toBe(left(right));
    expect(wrong % 11n).not.toBe(right % 11n);
  });
});

describe('result = start + setting × counter, proved by 9, 11, 99 and 101', () => {
  // Derived here. A register of n places that went over its top has lost 10ⁿ.
  const MODULI = [9n, 11n, 99n, 101n];
  const mod = (a: bigint, m: bigint) => ((a % m) + m) % m;
  const proof = (setting: bigint, counter: bigint, start: bigint, result: bigint) =>
    MODULI.map((m) => mod(start + setting * counter - result, m));

  it('holds for every product that stays in the register', () => {
    const digits = (n: number) => fc.bigInt({ min: 0n, max: 10n ** BigInt(n) - 1n });
    fc.assert(
      fc.property(digits(9), digits(9), digits(19), (setting, by, start) => {
        const { result, counter } = crank(MACHINES.wide, [
          'clear all',
          `dial result ${start}`,
          `set ${setting}`,
          `multiply by ${by}`,
        ]);
        expect(proof(setting, counter, start, result)).toEqual([0n, 0n, 0n, 0n]);
      }),
      { numRuns: 60 },
    );
  });

  it.each([7, 8, 9, 10])('a register of %i places that went over its top once: nines and elevens see it', (n) => {
    const top = 10n ** BigInt(n) - 1n;
    const { result, counter, last } = crank(
      places(n),
      ['clear all', `dial result ${top}`, 'set 34', 'turn 2'],
      ['result-overflow'],
    );
    expect(last.wraps).toBe(1);
    const left = proof(34n, counter, top, result);
    // 10ⁿ leaves 1 by nines, and 1 or 10 by elevens as n is even or odd.
    expect(left[0]).toBe(1n);
    expect(left[1]).toBe(n % 2 === 0 ? 1n : 10n);
    expect(left).toEqual(MODULI.map((m) => 10n ** BigInt(n) % m));
  });

  it.each([6, 8])('below zero once on %i places', (n) => {
    const { result, counter, last } = crank(
      ['setting 5', 'counter 3 signed', `result ${n} dials`],
      ['clear all', 'dial result 100', 'set 34', 'turn back 4'],
      ['result-overdraw'],
    );
    expect([counter, last.wraps]).toEqual([-4n, -1]);
    expect(proof(34n, counter, 100n, result)).toEqual(MODULI.map((m) => mod(-(10n ** BigInt(n)), m)));
  });
});
