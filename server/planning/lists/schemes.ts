/**
 * What is set and what is cranked in one pass through a list, and which totals that leaves where: several columns may
 * stand on the levers, or in the multiplier, so far apart that no total runs into the next.
 */
import { cheapestCranking, type Profile } from '../../machine/index.js';
import { figuresOf, tenTo } from '../amount.js';
import type { Limit } from '../order.js';
import type { Asked, Column } from './asked.js';
import { type Cell, layOut } from './layout.js';

/** A column on the levers or in the multiplier, or the number 1, with its units so many places up. */
export interface Part {
  readonly column: Column | undefined;
  readonly up: number;
}
/** A total in a register, its units so many places up. */
export interface Field {
  readonly sum: string;
  readonly up: number;
  readonly length: number;
  readonly times: 1 | 2;
  readonly decimals: number;
  readonly total: bigint;
}
export interface Scheme {
  /** Lowest first. */
  readonly set: readonly Part[];
  readonly by: readonly Part[];
  /** Totals in the result, lowest first. */
  readonly result: readonly Field[];
  /** Totals in the counter, which is not cleared on the way; none where it is not read. */
  readonly counter: readonly Field[];
  /** Where the markers stand; at 0 where more than one total shares a register. */
  readonly points: { readonly setting: number; readonly counter: number };
  /** Bits of the sums, by their order, that come out of this pass. */
  readonly covers: number;
  /** About what it costs: the cranking alone. */
  readonly cost: number;
}

/** A total, the most that a register holds on the way to it, and whether rows are taken away. */
interface Total {
  readonly total: bigint;
  readonly peak: bigint;
  readonly takesAway: boolean;
}

/** A limit that keeps a sum by itself off the machine. */
export interface Missed {
  readonly covers: number;
  readonly limit: Limit;
}

/** Columns together on the levers in any order; more than these only as they are named. */
const MOST_IN_ANY_ORDER = 3;
const MOST_APART = 6;

/** The number in a row that parts make together. */
export const together = (parts: readonly Part[], row: number): bigint =>
  parts.reduce((sum, { column, up }) => sum + valueIn(column, row) * tenTo(up), 0n);

const valueIn = (column: Column | undefined, row: number): bigint => (column ? column.units[row] : 1n);
const keyOf = (...columns: readonly (Column | undefined)[]): string =>
  columns
    .flatMap((column) => (column ? [column.name] : []))
    .sort()
    .join('*');
const abs = (n: bigint): bigint => (n < 0n ? -n : n);

/** All schemes that have room on a machine, as far as can be told by counting places; and what stands in the way of others. */
export class Schemes {
  readonly found: Scheme[] = [];
  readonly missed: Missed[] = [];
  private readonly keys: ReadonlyMap<string, number>;
  private readonly names: ReadonlyMap<string, string>;
  private readonly totals = new Map<string, Total>();
  private readonly costs = new Map<string, number>();

  constructor(
    private readonly asked: Asked,
    private readonly profile: Profile,
    /** Decimals of a sum that stands alone. */
    private readonly decimals: number | undefined,
  ) {
    this.keys = new Map(asked.sums.map(({ of }, i) => [keyOf(...of), i]));
    this.names = new Map(asked.sums.map(({ of, name }) => [keyOf(...of), name]));
    const { columns } = asked;
    const pool = [undefined, ...columns];
    for (const by of [[undefined], ...columns.map((column) => [column]), ...pairsOf(pool)]) {
      for (const set of selections(pool, by.length === 1)) this.consider(set, by);
    }
  }

  private bitOf(...columns: readonly (Column | undefined)[]): number {
    const index = this.keys.get(keyOf(...columns));
    return index === undefined ? 0 : 1 << index;
  }

  /** Tries what is set with what is cranked, once with the counter read and once without. Highest first. */
  private consider(setHighest: readonly (Column | undefined)[], byHighest: readonly (Column | undefined)[]): void {
    const set = [...setHighest].reverse();
    const by = [...byHighest].reverse();
    // How many rows there are is known without.
    if (by.length > 1 && set.includes(undefined) && by.includes(undefined)) return;
    const products = (s: Column | undefined) => by.reduce((bits, t) => bits | this.bitOf(s, t), 0);
    if (set.some((s) => products(s) === 0)) return;
    const inResult = set.reduce((bits, s) => bits | products(s), 0);
    const isSingle = set.length === 1 && by.length === 1;
    // Parts side by side all go the same way with a turn.
    if (set.length > 1 && set.some((s) => s?.isSigned)) return;
    if (by.length > 1 && [...set, ...by].some((column) => column?.isSigned)) return;
    const takesAway = set.some((s) => by.some((t) => this.totalOf(s, t).takesAway));
    if (takesAway && this.profile.subtract === 'none') {
      this.missed.push({ covers: inResult, limit: { is: 'cannot-subtract' } });
      return;
    }
    for (const isCounted of [false, true]) {
      const inCounter = isCounted ? by.reduce((bits, t) => bits | this.bitOf(t), 0) : 0;
      if (isCounted && inCounter === 0) continue;
      if (by.some((t) => set.every((s) => this.bitOf(s, t) === 0) && !(isCounted && this.bitOf(t) !== 0))) continue;
      if (isCounted && !this.countsTrue(set, by)) continue;
      const laid = isSingle ? this.single(set[0], by[0], isCounted) : this.apart(set, by, isCounted);
      if (!laid) continue;
      if ('limit' in laid) {
        if (!isCounted) this.missed.push({ covers: inResult, limit: laid.limit });
        continue;
      }
      this.found.push({ ...laid, covers: inResult | inCounter, cost: this.costOf(laid) });
    }
  }

  /** Whether the turns add up to the totals of what is cranked: each row is turned the way its number goes. */
  private countsTrue(set: readonly (Column | undefined)[], by: readonly (Column | undefined)[]): boolean {
    const { counter, counterCarry } = this.profile;
    if (counter === 0 || counterCarry !== 'carry') return false;
    for (let row = 0; row < this.asked.rows; row++) {
      const isTurned = by.some((t) => valueIn(t, row) !== 0n);
      if (set.some((s) => valueIn(s, row) < 0n)) return false;
      if (isTurned && set.every((s) => valueIn(s, row) === 0n)) return false;
    }
    return by.every((t) => this.totalOf(t, undefined).total >= 0n);
  }

  /** The total of a product, and the most that the register holds on the way: rows below zero come last. */
  private totalOf(a: Column | undefined, b: Column | undefined): Total {
    const key = keyOf(a, b);
    const ready = this.totals.get(key);
    if (ready) return ready;
    let total = 0n;
    let peak = 0n;
    let takesAway = false;
    for (let row = 0; row < this.asked.rows; row++) {
      const product = valueIn(a, row) * valueIn(b, row);
      if (product < 0n) takesAway = true;
      total += product;
      if (product > 0n) peak += product;
    }
    const all = { total, peak: total < 0n && -total > peak ? -total : peak, takesAway };
    this.totals.set(key, all);
    return all;
  }

  private field(s: Column | undefined, t: Column | undefined, up: number, times: 1 | 2 = 1): Field {
    const { total, peak } = this.totalOf(s, t);
    const key = keyOf(s, t);
    const sum = this.names.get(key) ?? (key || '1');
    const decimals = (s?.decimals ?? 0) + (t?.decimals ?? 0);
    return { sum, up, length: figuresOf(peak * BigInt(times)), times, decimals, total };
  }

  /** One number on the levers and one in the multiplier, at their markers. */
  private single(
    s: Column | undefined,
    t: Column | undefined,
    isCounted: boolean,
  ): Omit<Scheme, 'covers' | 'cost'> | { limit: Limit } | undefined {
    const { profile } = this;
    const inResult = this.field(s, t, 0);
    const inCounter = this.field(undefined, t, 0);
    const spare = (this.decimals ?? inResult.decimals) - inResult.decimals;
    if (spare < 0) return undefined;
    const needs = { result: inResult.length + spare, setting: longest(s), by: longest(t) };
    if (needs.result > profile.result) return { limit: places('result', profile.result, needs.result) };
    if (needs.setting > profile.setting) return { limit: places('setting', profile.setting, needs.setting) };
    const positions = Math.min(profile.carriage, profile.counter || profile.carriage);
    if (needs.by > positions) {
      return positions === profile.carriage
        ? { limit: places('carriage', positions, needs.by) }
        : { limit: places('counter', positions, needs.by) };
    }
    // Decimals beyond those of the numbers stand behind either of them.
    for (let more = 0; more <= spare; more++) {
      const below = spare - more;
      const counted = isCounted ? inCounter.length : needs.by;
      const hasCounterRoom =
        profile.counter === 0 || Math.max(counted, (t?.decimals ?? 0) + 1) + below <= profile.counter;
      if (needs.setting + more > profile.setting || needs.by + below > positions || !hasCounterRoom) continue;
      return {
        set: [{ column: s, up: 0 }],
        by: [{ column: t, up: 0 }],
        result: [padded(inResult, spare)],
        counter: isCounted ? [padded(inCounter, below)] : [],
        points: { setting: (s?.decimals ?? 0) + more, counter: (t?.decimals ?? 0) + below },
      };
    }
    return { limit: places('counter', profile.counter, needs.by + spare) };
  }

  /** Several numbers side by side: as near to each other as their totals let them. */
  private apart(
    set: readonly (Column | undefined)[],
    by: readonly (Column | undefined)[],
    isCounted: boolean,
  ): Omit<Scheme, 'covers' | 'cost'> | undefined {
    const { setting, counter, result, carriage } = this.profile;
    if (set.some((s) => by.some((t) => this.totalOf(s, t).total < 0n))) return undefined;
    const cells = set.map((s) =>
      by.map((t): Cell => {
        const [once, twice] = ([1, 2] as const).map((times) => this.field(s, t, 0, times).length);
        return { product: keyOf(s, t), once, twice };
      }),
    );
    const layout = layOut({
      set: set.map(longest),
      by: by.map(longest),
      cells,
      counted: isCounted ? by.map((t) => this.field(undefined, t, 0).length) : undefined,
      room: { setting, counter, result, positions: Math.min(carriage, counter || carriage) },
    });
    if (!layout) return undefined;
    const parts = (columns: readonly (Column | undefined)[], ups: readonly number[]) =>
      columns.map((column, i): Part => ({ column, up: ups[i] }));
    const [levers, multiplier] = [parts(set, layout.set), parts(by, layout.by)];
    return {
      set: levers,
      by: multiplier,
      result: this.fields(levers, multiplier),
      counter: isCounted ? multiplier.map(({ column, up }) => this.field(undefined, column, up)) : [],
      points: { setting: 0, counter: 0 },
    };
  }

  /** The totals that come about, lowest first. */
  private fields(set: readonly Part[], by: readonly Part[]): Field[] {
    const at = new Map<number, Field>();
    for (const s of set) {
      for (const t of by) {
        const up = s.up + t.up;
        at.set(up, this.field(s.column, t.column, up, at.has(up) ? 2 : 1));
      }
    }
    return [...at.values()].sort((a, b) => a.up - b.up);
  }

  private costOf({ set, by }: Pick<Scheme, 'set' | 'by'>): number {
    const { profile, asked } = this;
    const key = [
      ...by.map(({ column, up }) => `${column?.name ?? 1}@${up}`),
      '|',
      ...set.map((s) => s.column?.name ?? 1),
    ].join();
    const ready = this.costs.get(key);
    if (ready !== undefined) return ready;
    const bothWays = profile.subtract !== 'none' && (profile.counter === 0 || profile.counterCarry !== 'plain');
    const most = Math.min(profile.carriage, profile.counter || profile.carriage);
    let cost = 0;
    for (let row = 0; row < asked.rows; row++) {
      if (together(set, row) === 0n) continue;
      const multiplier = abs(together(by, row));
      cost += cheapestCranking({ multiplier, profile, subtracting: false, most, bothWays })?.cost ?? 0;
    }
    this.costs.set(key, cost);
    return cost;
  }
}

const places = (register: 'setting' | 'counter' | 'result' | 'carriage', has: number, needs: number): Limit => {
  return { is: 'places', register, has, needs };
};

/** Places that the longest number of a column takes, or the number 1. */
const longest = (column: Column | undefined): number => column?.length ?? 1;

/** With noughts behind it. */
const padded = (field: Field, more: number): Field => ({
  ...field,
  length: field.length + more,
  decimals: field.decimals + more,
  total: field.total * tenTo(more),
});

const pairsOf = <T>(all: readonly T[]): T[][] => all.flatMap((a) => all.flatMap((b) => (a === b ? [] : [[a, b]])));

/** Some of them, highest first: a few in any order, and more, where wanted, in their own. */
function* selections<T>(all: readonly T[], withMany: boolean): Generator<T[]> {
  for (const picked of subsets(all, withMany ? MOST_APART : MOST_IN_ANY_ORDER)) {
    if (picked.length > MOST_IN_ANY_ORDER) yield picked;
    else yield* orders(picked);
  }
}

function* subsets<T>(all: readonly T[], most: number, picked: T[] = [], from = 0): Generator<T[]> {
  if (picked.length > 0) yield picked;
  if (picked.length === most) return;
  for (let i = from; i < all.length; i++) yield* subsets(all, most, [...picked, all[i]], i + 1);
}

function* orders<T>(all: readonly T[]): Generator<T[]> {
  if (all.length < 2) yield [...all];
  else
    for (const [i, first] of all.entries())
      for (const rest of orders(all.filter((_, j) => j !== i))) yield [first, ...rest];
}
