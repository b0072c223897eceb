/** Where numbers stand side by side, on the levers and in the multiplier, so that no total runs into the next. */

/** A total of a product: which it is, and the places that it takes once, or twice over where two of it meet. */
export interface Cell {
  readonly product: string;
  readonly once: number;
  readonly twice: number;
}

/** Numbers lowest first, by the places that the longest of each takes. */
export interface LayoutOrder {
  readonly set: readonly number[];
  /** One number or two. */
  readonly by: readonly number[];
  /** Totals by what is set and what is cranked. */
  readonly cells: readonly (readonly Cell[])[];
  /** Places of the totals of what is cranked, where the counter is read. */
  readonly counted: readonly number[] | undefined;
  /** Places of the registers; `positions` are those in which the carriage can turn and the counter counts. */
  readonly room: {
    readonly setting: number;
    readonly counter: number;
    readonly result: number;
    readonly positions: number;
  };
}

/** How many places up the units of each number stand. */
export interface Layout {
  readonly set: readonly number[];
  readonly by: readonly number[];
}

/** The layout with the fewest totals in the result, and among those the shortest; undefined where none has room. */
export function layOut(order: LayoutOrder): Layout | undefined {
  const { by, counted, room } = order;
  let best: (Layout & { readonly totals: number; readonly end: number }) | undefined;
  const consider = (set: readonly number[], byUps: readonly number[]) => {
    const placed = totalsOf(order, set, byUps);
    if (!placed) return;
    const end = Math.max(...placed.map((one) => one.up + one.length));
    if (best && (placed.length - best.totals || end - best.end) >= 0) return;
    best = { set, by: byUps, totals: placed.length, end };
  };
  if (by.length === 1) {
    if (by[0] <= room.positions && (!counted || counted[0] <= room.counter)) spread(order, [0], [0], consider);
    return best;
  }
  const [low, high] = by;
  for (let up = Math.max(low, counted?.[0] ?? 0); up + high <= room.positions; up++) {
    if (counted && up + counted[1] > room.counter) break;
    spread(order, [0], [0, up], consider);
  }
  return best;
}

/** Goes through the places that the numbers on the levers may have; what already runs together is not gone on with. */
function spread(
  order: LayoutOrder,
  placed: readonly number[],
  by: readonly number[],
  consider: (set: readonly number[], by: readonly number[]) => void,
): void {
  const { set, room } = order;
  const last = placed.length - 1;
  if (placed[last] + set[last] > room.setting || !totalsOf(order, placed, by)) return;
  if (placed.length === set.length) return consider(placed, by);
  const next = set[placed.length];
  for (let up = placed[last] + set[last]; up + next <= room.setting; up++) spread(order, [...placed, up], by, consider);
}

interface Placed {
  readonly product: string;
  readonly up: number;
  readonly length: number;
  readonly isTwice: boolean;
}

/** The totals of numbers that stand so; undefined where two meet, or one has no room. */
function totalsOf({ cells, room }: LayoutOrder, set: readonly number[], by: readonly number[]): Placed[] | undefined {
  const totals: Placed[] = [];
  for (let i = 0; i < set.length; i++) {
    for (let j = 0; j < by.length; j++) {
      const { product, once, twice } = cells[i][j];
      const up = set[i] + by[j];
      const there = totals.findIndex((one) => one.up === up);
      if (there < 0) {
        totals.push({ product, up, length: once, isTwice: false });
      } else {
        if (totals[there].product !== product || totals[there].isTwice) return undefined;
        totals[there] = { product, up, length: twice, isTwice: true };
      }
    }
  }
  for (const a of totals) {
    if (a.up + a.length > room.result) return undefined;
    for (const b of totals) if (a !== b && a.up <= b.up && a.up + a.length > b.up) return undefined;
  }
  return totals;
}
