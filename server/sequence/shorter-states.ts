/**
 * The states that a search has come to, in arrays that are made once: a search is over in some microseconds, and to
 * make its memory afresh would take longer than that.
 */

/** States that a search looks at, at most: mostly it looks at twenty. */
export const MOST_STATES = 600;
/** Totals of turns lie between this and less than nothing by as much. */
export const MOST_TOTAL = 2 ** 45;

/** To each state looked at there are seven more at most that are come to from it. */
const MOST_ENTRIES = MOST_STATES * 7 + 1;
/** A power of two that leaves the table more than half empty. */
const SLOTS = 16_384;

export class Reached {
  // One entry a state that was come to: where, with what total, how dearly, from which one and by which move.
  readonly nodes = new Int32Array(MOST_ENTRIES);
  readonly totals = new Float64Array(MOST_ENTRIES);
  readonly ranks = new Float64Array(MOST_ENTRIES);
  readonly dones = new Int32Array(MOST_ENTRIES);
  readonly befores = new Int32Array(MOST_ENTRIES);
  readonly made = new Uint8Array(MOST_ENTRIES);
  readonly times = new Int32Array(MOST_ENTRIES);
  /** What has been done and what is left at the least. */
  private readonly sums = new Float64Array(MOST_ENTRIES);
  /** The slot of the entry's state. */
  private readonly homes = new Int32Array(MOST_ENTRIES);
  private size = 0;
  /** By node and total, one more than the entry that came there most cheaply; 0 where there is none. */
  private readonly slots = new Int32Array(SLOTS);
  /** Entries still to be looked at, as a heap: the least sum first, of equals the one that came last. */
  private readonly heap = new Int32Array(MOST_ENTRIES);
  private waiting = 0;

  get isDone(): boolean {
    return this.waiting === 0;
  }

  clear(): void {
    for (let entry = 0; entry < this.size; entry++) this.slots[this.homes[entry]] = 0;
    this.size = 0;
    this.waiting = 0;
  }

  /** Whether nobody has come there yet, or only more dearly. */
  isCheaper(node: number, total: number, rank: number): boolean {
    const known = this.slots[this.slotOf(node, total)];
    return known === 0 || rank < this.ranks[known - 1];
  }

  add(
    node: number,
    total: number,
    rank: number,
    sum: number,
    done: number,
    before: number,
    move: number,
    times: number,
  ): void {
    const entry = this.size++;
    this.nodes[entry] = node;
    this.totals[entry] = total;
    this.ranks[entry] = rank;
    this.sums[entry] = sum;
    this.dones[entry] = done;
    this.befores[entry] = before;
    this.made[entry] = move;
    this.times[entry] = times;
    const home = this.slotOf(node, total);
    this.homes[entry] = home;
    this.slots[home] = entry + 1;
    this.rise(entry);
  }

  /** The entry to be looked at next; −1 if somebody has come there more cheaply since. */
  next(): number {
    const { heap } = this;
    const first = heap[0];
    this.waiting--;
    this.sink(heap[this.waiting]);
    return this.slots[this.homes[first]] === first + 1 ? first : -1;
  }

  /** The slot of a state: its own, or the empty one that it would get. */
  private slotOf(node: number, total: number): number {
    const { slots, nodes, totals } = this;
    const high = Math.floor(total / 65_536) | 0;
    let slot = (Math.imul(node, 0x9e37_79b1) ^ Math.imul(total | 0, 0x85eb_ca6b) ^ Math.imul(high, 0xc2b2_ae35)) >>> 18;
    for (;;) {
      const entry = slots[slot] - 1;
      if (entry < 0 || (nodes[entry] === node && totals[entry] === total)) return slot;
      slot = (slot + 1) & (SLOTS - 1);
    }
  }

  private isBefore(a: number, b: number): boolean {
    return this.sums[a] < this.sums[b] || (this.sums[a] === this.sums[b] && a > b);
  }

  private rise(entry: number): void {
    const { heap } = this;
    let i = this.waiting++;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!this.isBefore(entry, heap[parent])) break;
      heap[i] = heap[parent];
      i = parent;
    }
    heap[i] = entry;
  }

  private sink(entry: number): void {
    const { heap, waiting } = this;
    let i = 0;
    for (let child = 1; child < waiting; child = 2 * i + 1) {
      if (child + 1 < waiting && this.isBefore(heap[child + 1], heap[child])) child++;
      if (!this.isBefore(heap[child], entry)) break;
      heap[i] = heap[child];
      i = child;
    }
    heap[i] = entry;
  }
}
