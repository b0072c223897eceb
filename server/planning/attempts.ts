/** How many decimals a plan aims at, and in which ways, the most wished for first. */
import type Fraction from 'fraction.js';
import { MOST_PLACES } from '../machine/index.js';
import { decimalsOf, figuresOf, tenTo } from './amount.js';
import { answersOf, hasNames } from './answers.js';
import { endsByItself, type Quotient, roundsOnTheWay, valueOfQuotient } from './forms.js';
import type { Limit, Method, PlanOrder } from './order.js';

/** Roots and quotients on the way are taken to so many more decimals than the answer, until it comes out right. */
const GUARDS = [1, 4];
/** And to so many fewer than the counter has places. */
const FROM_THE_TOP = [4, 2, 1];

/** Decimals to aim at, the most wished for first; a quotient that can't be had by dividing is built up after that. */
export function attemptsAt(order: PlanOrder, quotient: Quotient): { decimals: number; method: Method | undefined }[] {
  const { method } = order;
  const all = decimalsToTry(order, quotient).map((decimals) => ({ decimals, method }));
  if (method !== undefined || !quotient.under) return all;
  return [...all, ...all.map(({ decimals }) => ({ decimals, method: 'building-up' as const }))];
}

/** The decimals to aim at, the most wished for first. A sum of products has the decimals that it has. */
function decimalsToTry(order: PlanOrder, quotient: Quotient): number[] {
  const value = largest(order, quotient);
  if (endsByItself(quotient)) return [order.decimals ?? 0];
  if (order.decimals !== undefined) {
    // An answer that ends needs no more than it has, where there is no room for more.
    const ends = decimalsOf(value);
    const isShorter = ends !== undefined && ends < order.decimals && !hasNames(order.values);
    return isShorter ? [order.decimals, ends] : [order.decimals];
  }
  return wishes(order, quotient, value).filter((decimals) => value.n * tenTo(decimals) >= value.d || value.n === 0n);
}

/** The value that takes the most room: that of one of the cases, where there are some. */
function largest(order: PlanOrder, quotient: Quotient): Fraction {
  const own = valueOfQuotient(quotient).abs();
  return answersOf(order).reduce((most, one) => (one.compare(most) > 0 ? one : most), own);
}

function wishes(order: PlanOrder, quotient: Quotient, value: Fraction): number[] {
  const ends = decimalsOf(value);
  const room = roomFor(order, quotient, value).decimals;
  if (ends !== undefined && ends <= room) return downFrom(ends);
  // Where numbers on the way are rounded, each attempt is long: a few will do.
  if (!roundsOnTheWay(quotient) || room < 0) return downFrom(room);
  return [...new Set([room, Math.ceil((room * 2) / 3), Math.ceil(room / 3), 0])];
}

const downFrom = (most: number): number[] =>
  Array.from({ length: Math.max(0, most) + 1 }, (_, i) => most - i).filter((one) => one >= 0);

/**
 * The most decimals for which the counter and the carriage have positions and the dividend has room, below 0 if there
 * are not even enough for whole numbers, and what bounds them.
 */
export function roomFor(
  { profile }: PlanOrder,
  { over, under }: Quotient,
  value: Fraction,
): { decimals: number; limit: Limit } {
  const { counter, carriage, result } = profile;
  const whole = value.floor().n;
  // A quotient below one has its first figure behind the point, where fewer positions are needed.
  const figures = whole > 0n ? figuresOf(whole) : -leadingZeros(value);
  const bound = (register: 'counter' | 'carriage' | 'result', has: number, needs: number) => {
    return { decimals: has - needs, limit: { is: 'places', register, has, needs } as const };
  };
  const bounds = [bound('carriage', carriage, figures), bound('counter', counter || MOST_PLACES, Math.max(0, figures))];
  const dividend = under ? over.value.abs().floor().n : 0n;
  if (dividend > 0n) bounds.push(bound('result', result, figuresOf(dividend)));
  return bounds.reduce((least, one) => (one.decimals < least.decimals ? one : least), {
    decimals: MOST_PLACES,
    limit: { is: 'not-met' } as Limit,
  });
}

/** What bounds a value that can't be had to any decimals at all: it is too large, or so small that it reads nought. */
export function limitOf(order: PlanOrder, quotient: Quotient): Limit {
  const value = valueOfQuotient(quotient).abs();
  const { decimals, limit } = roomFor(order, quotient, value);
  const lacks = leadingZeros(value) + 1 - decimals;
  return decimals < 0 || limit.is !== 'places' || lacks <= 0 ? limit : { ...limit, needs: limit.has + lacks };
}

/** Noughts behind the point before the first figure of a value below one. */
function leadingZeros({ n, d }: Fraction): number {
  let zeros = Math.max(0, d.toString().length - n.toString().length - 1);
  while (zeros < MOST_PLACES && n !== 0n && n * tenTo(zeros + 1) < d) zeros++;
  return Math.min(zeros, MOST_PLACES);
}

/** Decimals of roots and quotients on the way to an answer with so many. */
export function rootDecimalsToTry({ profile }: PlanOrder, decimals: number): number[] {
  const most = Math.min(profile.counter, profile.carriage);
  const all = [...GUARDS.map((more) => decimals + more), ...FROM_THE_TOP.map((fewer) => most - fewer)];
  return [...new Set(all.filter((one) => one > decimals && one < most))].sort((a, b) => a - b);
}
