/**
 * What one product, or two added up or taken away, cost at the least: every row of turns, shifts and changes of the drive
 * is tried, cheapest first. Nothing of the planner's is used here.
 */

/** A machine as far as it matters here: positions, places, and what the hand pays. */
export interface Small {
  readonly setting: number;
  readonly counter: number;
  readonly counterKind: 'carry' | 'plain' | 'signed';
  readonly result: number;
  readonly carriage: number;
  readonly subtract: 'reverse' | 'lever' | 'lift' | 'half-step' | 'none';
  readonly count: 'follow' | 'first';
  readonly effort: { readonly turn: number; readonly shift: number; readonly lever: number };
}

export interface Product {
  readonly sign: 1 | -1;
  readonly a: number;
  readonly b: number;
}

/** Where the carriage stands and whether the drive subtracts. */
interface Place {
  readonly position: number;
  readonly subtracts: boolean;
}

/** Places in which a product may begin or end, with what it cost to get there. */
type Places = Map<string, { place: Place; cost: number; counted: readonly number[] }>;

const keyOf = ({ position, subtracts }: Place, counted: readonly number[]): string =>
  `${position} ${subtracts} ${counted.join(',')}`;

/** The least that the sum of the products can cost, with levers left as they were found; undefined if more than `most`. */
export function cheapest(machine: Small, products: readonly Product[], most: number): number | undefined {
  let least: number | undefined;
  for (const order of products.length === 2 ? [products, [products[1], products[0]]] : [products]) {
    const home: Place = { position: 1, subtracts: false };
    const counted = new Array<number>(machine.counter).fill(0);
    let places: Places = new Map([[keyOf(home, counted), { place: home, cost: 0, counted }]]);
    let result = 0;
    for (const product of order) {
      places = afterProduct(machine, product, places, result, least ?? most);
      result += product.sign * product.a * product.b;
    }
    for (const { place, cost } of places.values()) {
      const all = cost + (place.subtracts ? changeCost(machine) : 0);
      if (all <= most && all < (least ?? Number.POSITIVE_INFINITY)) least = all;
    }
  }
  return least;
}

const changeCost = ({ subtract, effort }: Small): number => {
  if (subtract === 'reverse' || subtract === 'none') return 0;
  return subtract === 'half-step' ? Math.min(effort.shift, effort.lever) : effort.lever;
};

function afterProduct(machine: Small, { sign, a, b }: Product, from: Places, result: number, most: number): Places {
  const ends: Places = new Map();
  for (const [set, by] of a === b
    ? [[a, b]]
    : [
        [a, b],
        [b, a],
      ]) {
    if (String(set).length > machine.setting) continue;
    for (const start of from.values()) {
      // The counter may go on from where it stands, or be cleared, which costs nothing.
      const counts = start.counted.some((figure) => figure !== 0)
        ? [start.counted, start.counted.map(() => 0)]
        : [start.counted];
      for (const counted of counts) turned(machine, { set, by, sign, result, most }, { ...start, counted }, ends);
    }
  }
  return ends;
}

interface Turning {
  readonly set: number;
  readonly by: number;
  readonly sign: 1 | -1;
  readonly result: number;
  readonly most: number;
}

interface Standing {
  readonly place: Place;
  readonly cost: number;
  /** Turns that were made so far, times the place value of their positions. */
  readonly done: number;
  readonly counted: readonly number[];
  /** Whether turns that subtract count up, if the counter takes that from its first turn. */
  readonly countsBack: boolean | undefined;
}

/** Goes through all rows of turns and shifts with one number set, cheapest first, and keeps the ends that make the product. */
function turned(
  machine: Small,
  { set, by, sign, result, most }: Turning,
  { place, cost, counted }: { place: Place; cost: number; counted: readonly number[] },
  ends: Places,
): void {
  const { effort, carriage } = machine;
  const cleared = counted.every((figure) => figure === 0);
  const first: Standing = {
    place,
    cost,
    done: 0,
    counted,
    countsBack: machine.count === 'first' && cleared ? undefined : false,
  };
  const rows: Standing[][] = [];
  const put = (standing: Standing): void => {
    if (standing.cost > most) return;
    rows[standing.cost] ??= [];
    rows[standing.cost].push(standing);
  };
  put(first);
  const seen = new Set<string>();
  const limit = 10 ** machine.result;
  for (let spent = 0; spent <= most; spent++) {
    // Rows grow while they are gone through: a turn may cost nothing.
    for (let i = 0; i < (rows[spent]?.length ?? 0); i++) {
      const now = rows[spent][i];
      const key = `${keyOf(now.place, now.counted)} ${now.done} ${now.countsBack}`;
      if (seen.has(key)) continue;
      seen.add(key);
      if (now.done === sign * by) {
        const end = keyOf(now.place, now.counted);
        if ((ends.get(end)?.cost ?? Number.POSITIVE_INFINITY) > now.cost) ends.set(end, now);
      }
      const { position, subtracts } = now.place;
      const turn = (adds: boolean): void => {
        const step = (adds ? 1 : -1) * 10 ** (position - 1);
        const value = result + (now.done + step) * set;
        if (value < 0 || value >= limit) return;
        const countsBack = now.countsBack ?? !adds;
        const after = count(machine, now.counted, position, adds === !countsBack ? 1 : -1);
        if (after) put({ ...now, cost: now.cost + effort.turn, done: now.done + step, counted: after, countsBack });
      };
      if (machine.subtract === 'reverse') {
        turn(true);
        turn(false);
      } else turn(!subtracts);
      for (const by of [-1, 1]) {
        const to = position + by;
        if (to >= 1 && to <= carriage)
          put({ ...now, place: { position: to, subtracts }, cost: now.cost + effort.shift });
      }
      if (machine.subtract === 'reverse' || machine.subtract === 'none') continue;
      put({ ...now, place: { position, subtracts: !subtracts }, cost: now.cost + effort.lever });
      if (machine.subtract !== 'half-step') continue;
      // Half a place: 2p adds, 2p + 1 subtracts.
      for (const half of [-1, 1]) {
        const at = 2 * position + (subtracts ? 1 : 0) + half;
        const to = Math.floor(at / 2);
        if (to >= 1 && to <= carriage)
          put({ ...now, place: { position: to, subtracts: at % 2 === 1 }, cost: now.cost + effort.shift });
      }
    }
  }
}

/** The counter's wheels after a turn, the units first; undefined where it would run over or below zero. */
function count(
  { counter, counterKind }: Small,
  wheels: readonly number[],
  position: number,
  by: 1 | -1,
): number[] | undefined {
  if (counter === 0) return [];
  if (position > counter) return undefined;
  const after = [...wheels];
  after[position - 1] += by;
  const figure = after[position - 1];
  if (counterKind === 'plain') return figure >= 0 && figure <= 9 ? after : undefined;
  if (counterKind === 'signed') return Math.abs(figure) <= 9 ? after : undefined;
  for (let i = position - 1; i < counter; i++) {
    if (after[i] >= 0 && after[i] <= 9) return after;
    if (i + 1 === counter) return undefined;
    after[i + 1] += after[i] > 9 ? 1 : -1;
    after[i] += after[i] > 9 ? -10 : 10;
  }
  return undefined;
}
