/** Sums with a closed form: Σx and Σx² in one pass, with 1 and x on the levers. */
import { describe, expect, it } from 'vitest';
import { crank, MACHINES } from './crank.js';
import { table } from './data.js';

// Σx² read in OEIS A000330; Σx derived here. One figure set twice for two sums at once: derived here, from memory usual.
const published = table('oeis_values.csv');

describe.each([
  [10, 55n, 385n],
  [24, 300n, 4900n],
  [44, 990n, 29370n],
])('1 to %i', (last, sum, squares) => {
  const numbers = Array.from({ length: last }, (_, i) => i + 1);
  const steps = (set: (x: number) => string) => [
    'clear all',
    ...numbers.flatMap((x) => [set(x), `multiply by ${x}`, 'shift to 1']),
  ];

  it('one pass', () => {
    expect(published).toContainEqual({
      oeis: 'A000330',
      quantity: `1^2+...+${last}^2`,
      value: String(squares),
    });
    const { result, counter } = crank(
      MACHINES.wide,
      steps((x) => `set 1 at 11 and ${x} at 1`),
    );
    expect(result / 10n ** 10n).toBe(sum);
    expect(result % 10n ** 10n).toBe(squares);
    expect(counter).toBe(sum);
  });

  it('the numbers taken away again leave nothing', () => {
    const { result, counter } = crank(MACHINES.wide, [
      ...steps((x) => `set 1 at 11 and ${x} at 1`),
      ...numbers.flatMap((x) => [`set 1 at 11 and ${x} at 1`, `turn back ${x}`]),
    ]);
    expect(result).toBe(0n);
    expect(counter).toBe(0n);
  });

  it('a small machine holds them as well', () => {
    const small = ['setting 8', 'counter 4', 'result 10', 'carriage 3'];
    const { result, counter } = crank(
      small,
      steps((x) => `set 1 at 7 and ${x}`),
    );
    expect(result).toBe(sum * 1_000_000n + squares);
    expect(counter).toBe(sum);
  });
});
