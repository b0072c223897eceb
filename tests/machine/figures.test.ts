/** Figures of registers against whole numbers of any size. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  add,
  cutAbove,
  exceeds,
  type Figures,
  figureAt,
  fromText,
  isZero,
  LIMBS,
  MOST_PLACES,
  moveUp,
  putFigure,
  setZero,
  subtract,
  toText,
} from '../../server/machine/index.js';

const ALL = 21;
/** Numbers of up to so many figures; nines and noughts come often, for that is where carries run. */
const numberOf = (places: number) =>
  fc
    .array(fc.oneof(fc.constantFrom('0', '9'), fc.integer({ min: 0, max: 9 }).map(String)), {
      minLength: 1,
      maxLength: Math.max(1, places),
    })
    .map((digits) => BigInt(places === 0 ? '0' : digits.join('')));
const place = (lowest: number) => fc.integer({ min: lowest, max: MOST_PLACES });

const figuresOf = (number: bigint): Figures => {
  const figures = new Int32Array(LIMBS);
  fromText(figures, 0, number.toString());
  return figures;
};
const numberIn = (figures: Figures, at = 0): bigint => BigInt(toText(figures, at, ALL));
const power = (places: number): bigint => 10n ** BigInt(places);

describe('adding and subtracting, with the carry stopped at any place', () => {
  const sums = place(1).chain((top) => fc.tuple(fc.constant(top), numberOf(MOST_PLACES), numberOf(top)));

  test('add', () => {
    fc.assert(
      fc.property(sums, ([top, register, addend]) => {
        const figures = figuresOf(register);
        const carries = add(figures, 0, figuresOf(addend), top);
        const above = register - (register % power(top));
        const sum = (register % power(top)) + addend;
        expect(numberIn(figures)).toBe(above + (sum % power(top)));
        expect(carries).toBe(sum >= power(top));
      }),
      { numRuns: 2_000 },
    );
  });

  test('subtract', () => {
    fc.assert(
      fc.property(sums, ([top, register, subtrahend]) => {
        const figures = figuresOf(register);
        const borrows = subtract(figures, 0, figuresOf(subtrahend), top);
        const above = register - (register % power(top));
        const difference = (register % power(top)) - subtrahend;
        expect(numberIn(figures)).toBe(above + ((difference + power(top)) % power(top)));
        expect(borrows).toBe(difference < 0n);
      }),
      { numRuns: 2_000 },
    );
  });

  test.each(Array.from({ length: MOST_PLACES }, (_, i) => i + 1))('all nines and one more, in %i places', (top) => {
    const figures = figuresOf(power(MOST_PLACES) - 1n);
    expect(add(figures, 0, figuresOf(1n), top)).toBe(true);
    expect(numberIn(figures)).toBe(power(MOST_PLACES) - power(top));
    expect(subtract(figures, 0, figuresOf(1n), top)).toBe(true);
    expect(numberIn(figures)).toBe(power(MOST_PLACES) - 1n);
  });

  test('one undoes the other', () => {
    fc.assert(
      fc.property(sums, ([top, register, addend]) => {
        const figures = figuresOf(register);
        expect(add(figures, 0, figuresOf(addend), top)).toBe(subtract(figures, 0, figuresOf(addend), top));
        expect(numberIn(figures)).toBe(register);
      }),
    );
  });

  test('nothing else in the array is touched', () => {
    fc.assert(
      fc.property(sums, ([top, register, addend]) => {
        const array = new Int32Array(LIMBS * 3).fill(5);
        fromText(array, LIMBS, register.toString());
        add(array, LIMBS, figuresOf(addend), top);
        subtract(array, LIMBS, figuresOf(addend), top);
        expect([...array.slice(0, LIMBS), ...array.slice(2 * LIMBS)]).toEqual(Array(2 * LIMBS).fill(5));
        expect(numberIn(array, LIMBS)).toBe(register);
      }),
    );
  });
});

describe('single figures and moves', () => {
  test('text round trip, with leading noughts as places ask for', () => {
    fc.assert(
      fc.property(place(1), numberOf(ALL), (places, number) => {
        const text = toText(figuresOf(number), 0, places);
        expect(text).toBe((number % power(places)).toString().padStart(places, '0'));
        expect(numberIn(figuresOf(BigInt(text)))).toBe(number % power(places));
      }),
    );
    expect(toText(figuresOf(7n), 0, 0)).toBe('');
  });

  test('a figure is read and put in its place alone', () => {
    fc.assert(
      fc.property(
        numberOf(ALL),
        fc.integer({ min: 1, max: ALL }),
        fc.integer({ min: 0, max: 9 }),
        (number, at, figure) => {
          const figures = figuresOf(number);
          const before = (number / power(at - 1)) % 10n;
          expect(figureAt(figures, 0, at)).toBe(Number(before));
          putFigure(figures, 0, at, figure);
          expect(numberIn(figures)).toBe(number + (BigInt(figure) - before) * power(at - 1));
        },
      ),
    );
  });

  test('moving up multiplies by a power of ten and loses what passes place 21', () => {
    fc.assert(
      fc.property(numberOf(ALL), fc.integer({ min: 0, max: MOST_PLACES }), (number, places) => {
        const into = new Int32Array(LIMBS).fill(9);
        moveUp(figuresOf(number), 0, places, into);
        expect(numberIn(into)).toBe((number * power(places)) % power(ALL));
      }),
    );
  });

  test('what exceeds some places is what cutting them off takes away', () => {
    fc.assert(
      fc.property(numberOf(ALL), fc.integer({ min: 0, max: MOST_PLACES }), (number, places) => {
        const figures = figuresOf(number);
        expect(exceeds(figures, 0, places)).toBe(number >= power(places));
        cutAbove(figures, 0, places);
        expect(numberIn(figures)).toBe(number % power(places));
        expect(exceeds(figures, 0, places)).toBe(false);
      }),
    );
  });

  test('zero is known, and made', () => {
    fc.assert(
      fc.property(numberOf(ALL), (number) => {
        const figures = figuresOf(number);
        expect(isZero(figures, 0)).toBe(number === 0n);
        setZero(figures, 0);
        expect(isZero(figures, 0)).toBe(true);
      }),
    );
  });
});
