/** A row of written steps and what it comes to, and whether the same can be done more cheaply. */
import type { Step } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  Crank,
  figureAt,
  has,
  MOST_PLACES,
  newState,
  numberIn,
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  type Profile,
  REFUSED,
  SENSE_ADD,
  SENSE_SUBTRACT,
  SETTING,
  STATE_SIZE,
  type State,
  SUBTRACTING,
  showsZero,
  TURNS,
} from '../machine/index.js';
import type { Effort } from './run.js';
import { type Errand, MOST_SPAN, RANK, type Room } from './shorter.js';
import { atLeast } from './shorter-bound.js';
import { costOf, leads, type Ways, type WrittenWay, waysOn } from './shorter-ways.js';

/** A run of steps that could be shorter. */
export interface Shorter {
  /** The first of its steps, counted among those of the sequence, and how many they are. */
  readonly at: number;
  readonly count: number;
  readonly effort: Effort;
  readonly shorter: Effort;
  readonly steps: readonly string[];
}

/** So many turns in each place at most, all one way, are never made more cheaply by turning the other way. */
const FEW_TURNS = 4;
/** The steps since the last one that is none of these, and what they have come to. */
export class WrittenRun {
  isOpen = false;
  /** Runs looked at since this was last set to 0. */
  examined = 0;
  private readonly ways: Ways;
  private crank: Crank | undefined;
  private readonly before: State = newState();
  private readonly after: State = newState();
  /** Adding less subtracting turns, by place. */
  private readonly figures = new Int32Array(MOST_PLACES + 1);
  private at = 0;
  private count = 0;
  private turns = 0;
  private shifts = 0;
  private levers = 0;
  private firstTurn: 1 | -1 | 0 = 0;
  private lowest = 1;
  private highest = 0;

  constructor(
    private readonly profile: Profile,
    private readonly found: Shorter[],
  ) {
    this.ways = waysOn(profile);
  }

  open(at: number, before: State): void {
    if (before[POSITION] === 0 || has(before, AUTO_CLEAR | AUTO_DIVIDE)) return;
    this.isOpen = true;
    copy(before, this.before);
    copy(before, this.after);
    for (let place = this.lowest; place <= this.highest; place++) this.figures[place] = 0;
    this.at = at;
    this.count = 0;
    this.turns = 0;
    this.shifts = 0;
    this.levers = 0;
    this.firstTurn = 0;
    this.lowest = MOST_PLACES + 1;
    this.highest = 0;
  }

  /** The next step and the state behind it. What ended badly is none of the run, and nothing begins with it. */
  goOn({ syntax }: Step, state: State): void {
    if (!this.isOpen) return;
    const position = state[POSITION];
    if (position === 0 || has(state, REFUSED | OVERFLOWED | OVERDRAWN)) return this.close();
    if (syntax.kind === 'turn') {
      const turns = state[TURNS];
      if (turns > 0) {
        const sign = has(state, SUBTRACTING) === syntax.back ? 1 : -1;
        this.turns += turns;
        this.figures[position] += sign * turns;
        if (this.firstTurn === 0) this.firstTurn = sign;
        if (position < this.lowest) this.lowest = position;
        if (position > this.highest) this.highest = position;
      }
    } else if (syntax.kind === 'shift') {
      this.shifts += syntax.half ? 1 : Math.abs(position - this.after[POSITION]);
    } else if (has(state, SUBTRACTING) !== has(this.after, SUBTRACTING)) this.levers++;
    this.count++;
    copy(state, this.after);
  }

  /** The run is at its end: it is found if there is a cheaper one. */
  close(): void {
    if (!this.isOpen) return;
    this.isOpen = false;
    const { turns, shifts, levers, profile } = this;
    if (this.isPlain) return;
    // To move the lever to and fro is left to whoever does it; it counts where something is turned between.
    if (turns === 0 && levers > 0) return;
    // A turn with all levers at zero is told for itself.
    if (turns > 0 && showsZero(this.before, 'setting')) return;
    this.examined++;
    const { hands } = this.ways;
    // Half a place is the same movement, whichever way it is written.
    const changes = hands.changesByHalf ? { shifts: shifts + levers, levers: 0 } : { shifts, levers };
    const most = costOf(profile, { turns, ...changes });
    const way = this.cheaperThan(most);
    if (!way) return;
    const effort = { turns, shifts, levers, cost: costOf(profile, { turns, shifts, levers }) };
    this.found.push({ at: this.at, count: this.count, effort, steps: way.steps, shorter: way.effort });
  }

  /** Few turns in each place, all one way, on the shortest walk over those places: nothing can be cheaper. */
  private get isPlain(): boolean {
    const { before, after, figures, lowest, highest, profile } = this;
    const { turn, shift } = profile.effort;
    if (this.levers > 0 || 2 * shift > 9 * turn) return false;
    let turns = 0;
    for (let place = lowest; place <= highest; place++) {
      const figure = figures[place] * this.firstTurn;
      if (figure < 0 || figure > FEW_TURNS) return false;
      turns += figure;
    }
    const from = before[POSITION];
    const to = after[POSITION];
    const low = Math.min(from, to, lowest);
    const high = Math.max(from, to, highest);
    return (
      turns === this.turns && this.shifts === high - low + Math.min(from - low + high - to, high - from + to - low)
    );
  }

  private cheaperThan(cost: number): WrittenWay | undefined {
    const errand = this.errand();
    if (!errand) return undefined;
    const { ways } = this;
    const most = cost * RANK;
    const least = atLeast(ways.hands, errand, errand.from, errand.driveFrom, errand.multiplier);
    if (least >= most) return undefined;
    const straight = ways.straight(errand);
    // Where the straight way is as cheap as any, there is no need to look for a freer one.
    const free = straight && straight.rank <= least ? straight : ways.free(errand);
    if (!free || free.rank >= most) return undefined;
    if (this.leads(free)) return free;
    const room = this.room(errand);
    const isFit = straight && straight !== free && straight.rank < most && this.leads(straight);
    const isNarrow = room.lowest >= Math.min(0, errand.multiplier);
    if (isNarrow && (isFit || !straight || straight.rank >= most)) return isFit ? straight : undefined;
    const fitting = ways.within(errand, room);
    const limit = isFit ? straight.rank : most;
    if (fitting && fitting.rank < limit && this.leads(fitting)) return fitting;
    return isFit ? straight : undefined;
  }

  private leads(way: WrittenWay): boolean {
    this.crank ??= new Crank(this.profile);
    return leads(this.profile, this.crank, this.before, way, this.after);
  }

  /** What the run does, with places counted from the lowest that it comes to; undefined if that spans too many. */
  private errand(): Errand | undefined {
    const { profile, before, after, figures, turns } = this;
    const from = before[POSITION];
    const to = after[POSITION];
    const base = Math.min(from, to, this.lowest) - 1;
    if (this.highest - base > MOST_SPAN) return undefined;
    let multiplier = 0;
    for (let place = this.highest; place > base; place--) multiplier = multiplier * 10 + figures[place];
    if (Math.abs(multiplier) > Number.MAX_SAFE_INTEGER / 10) return undefined;
    const { counter, counterCarry, count } = profile;
    const takesSense = count === 'first' && turns > 0 && !has(before, SENSE_ADD | SENSE_SUBTRACT);
    const errand: Errand = {
      from: from - base,
      to: to - base,
      driveFrom: has(before, SUBTRACTING) ? 1 : 0,
      driveTo: has(after, SUBTRACTING) ? 1 : 0,
      multiplier,
      places: Math.max(0, Math.min(highestPlace(profile, before) - base, MOST_SPAN)),
      firstTurn: takesSense ? this.firstTurn : 0,
    };
    if (counter === 0 || counterCarry !== 'plain') return errand;
    return { ...errand, figures: Array.from(figures.subarray(base + 1, this.highest + 1)) };
  }

  /** How far the turns may take the result, and a counter with carry, from what they show. */
  private room({ from }: Errand): Room {
    const { profile, before } = this;
    const unit = 10n ** BigInt(before[POSITION] - from);
    const step = numberIn(before, profile, 'setting') * unit;
    const shows = numberIn(before, profile, 'result');
    let lowest = shows / step;
    let highest = (10n ** BigInt(profile.result) - 1n - shows) / step;
    if (profile.counter > 0 && profile.counterCarry === 'carry') {
      const counted = numberIn(before, profile, 'counter');
      const below = counted / unit;
      const above = (10n ** BigInt(profile.counter) - 1n - counted) / unit;
      const [down, up] = this.countsUp() ? [below, above] : [above, below];
      if (down < lowest) lowest = down;
      if (up < highest) highest = up;
    }
    return { lowest: -Number(lowest), highest: Number(highest) };
  }

  /** Whether adding turns are counted up. */
  private countsUp(): boolean {
    const { profile, before } = this;
    switch (profile.count) {
      case 'follow':
        return true;
      case 'lever':
        return !has(before, COUNT_MINUS);
      case 'first':
        return has(before, SENSE_ADD | SENSE_SUBTRACT) ? has(before, SENSE_ADD) : this.firstTurn > 0;
    }
  }
}

/** For sixteen numbers quicker than by the array's own means. */
function copy(from: State, to: State): void {
  for (let i = 0; i < STATE_SIZE; i++) to[i] = from[i];
}

/** The highest position in which the counter has a wheel and no lever that is set stands past the result's end. */
function highestPlace(profile: Profile, state: State): number {
  let lever = profile.setting;
  while (lever > 1 && figureAt(state, SETTING, lever) === 0) lever--;
  const places = Math.min(profile.carriage, profile.result - lever + 1);
  return profile.counter > 0 ? Math.min(places, profile.counter) : places;
}
