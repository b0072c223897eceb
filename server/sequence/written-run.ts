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
import { costOf, type Effort, effortOf } from './effort.js';
import { type Errand, MOST_SPAN, RANK } from './shorter.js';
import { hasAmpleRoom, type Registers, roomAbove, roomBelow } from './shorter-room.js';
import { leads, type Ways, type WrittenWay, waysOn } from './shorter-ways.js';
import type { Tape } from './tape.js';

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
/** Nor by ten in the place below, as long as a shift there and back costs no more than the nine that are added. */
const MOST_ADDED_TURNS = 9;

/** The steps since the last one that is none of these, and what they have come to. */
export class WrittenRun {
  isOpen = false;
  /** Runs looked at since this was last set to 0. */
  examined = 0;
  private readonly ways: Ways;
  private crank: Crank | undefined;
  private readonly before: State = newState();
  /** The row of its last step, and how carriage and drive stand behind that. */
  private last = 0;
  private position = 0;
  private isSubtracting = false;
  /** Adding less subtracting turns, by place. */
  private readonly figures: number[] = new Array(MOST_PLACES + 1).fill(0);
  private at = 0;
  private count = 0;
  private turns = 0;
  private shifts = 0;
  private levers = 0;
  private firstTurn: 1 | -1 | 0 = 0;
  private lowest = 1;
  private highest = 0;
  /** The highest lever that is set. */
  private lever = 1;

  constructor(
    private readonly profile: Profile,
    private readonly tape: Tape,
    private readonly found: Shorter[],
  ) {
    this.ways = waysOn(profile);
  }

  /** A run begins with a step, and with the state before it: not out of gear, nor with a button pressed. */
  open(at: number, before: State): void {
    if (before[POSITION] === 0 || has(before, AUTO_CLEAR | AUTO_DIVIDE)) return;
    this.isOpen = true;
    copy(before, this.before);
    this.position = before[POSITION];
    this.isSubtracting = has(before, SUBTRACTING);
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

  /** The next step and its row on the tape. What ended badly is none of the run, and nothing begins with it. */
  goOn({ syntax }: Step, row: number): void {
    if (!this.isOpen) return;
    const state = this.tape.lookAt(row);
    const position = state[POSITION];
    if (position === 0 || has(state, REFUSED | OVERFLOWED | OVERDRAWN)) return this.close();
    const isSubtracting = has(state, SUBTRACTING);
    if (syntax.kind === 'turn') {
      const turns = state[TURNS];
      if (turns > 0) {
        const sign = isSubtracting === syntax.back ? 1 : -1;
        this.turns += turns;
        this.figures[position] += sign * turns;
        if (this.firstTurn === 0) this.firstTurn = sign;
        if (position < this.lowest) this.lowest = position;
        if (position > this.highest) this.highest = position;
      }
    } else if (syntax.kind === 'shift') {
      this.shifts += syntax.half ? 1 : Math.abs(position - this.position);
    } else if (isSubtracting !== this.isSubtracting) this.levers++;
    this.count++;
    this.last = row;
    this.position = position;
    this.isSubtracting = isSubtracting;
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
    const effort = effortOf(profile, { turns, shifts, levers });
    this.found.push({ at: this.at, count: this.count, effort, steps: way.steps, shorter: way.effort });
  }

  /** Few turns in each place, all one way, on the shortest walk over those places: nothing can be cheaper. */
  private get isPlain(): boolean {
    const { before, position: to, figures, lowest, highest, profile } = this;
    const { turn, shift } = profile.effort;
    if (this.levers > 0 || 2 * shift > MOST_ADDED_TURNS * turn) return false;
    let turns = 0;
    for (let place = lowest; place <= highest; place++) {
      const figure = figures[place] * this.firstTurn;
      if (figure < 0 || figure > FEW_TURNS) return false;
      turns += figure;
    }
    const from = before[POSITION];
    const low = Math.min(from, to, lowest);
    const high = Math.max(from, to, highest);
    return (
      turns === this.turns && this.shifts === high - low + Math.min(from - low + high - to, high - from + to - low)
    );
  }

  /** The cheapest way that can be gone from these registers, if it costs less. */
  private cheaperThan(cost: number): WrittenWay | undefined {
    const errand = this.errand();
    if (!errand) return undefined;
    const most = cost * RANK;
    const known = this.ways.of(errand);
    if (known.least >= most) return undefined;
    const { free } = known;
    if (!free || free.rank >= most) return undefined;
    if (this.leads(free, errand)) return free;
    const { straight } = known;
    const isFit = straight && straight !== free && straight.rank < most && this.leads(straight, errand);
    const fit = isFit ? straight : undefined;
    // With no more room below than the straight way takes, there is none that is cheaper.
    const registers = this.registers(errand);
    const below = roomBelow(registers);
    const isNarrow = below <= Math.max(0, -errand.multiplier);
    if (isNarrow && (fit || !straight || straight.rank >= most)) return fit;
    const fitting = known.within({ lowest: -below, highest: roomAbove(registers) });
    return fitting && fitting.rank < (fit?.rank ?? most) && this.leads(fitting, errand) ? fitting : fit;
  }

  /** Whether a way does the same on the very machine. What the figures show need not be tried. */
  private leads(way: WrittenWay, errand: Errand): boolean {
    if (hasAmpleRoom(this.registers(errand), this.lever, way)) return true;
    this.crank ??= new Crank(this.profile);
    return leads(this.profile, this.crank, this.before, way, this.tape.lookAt(this.last));
  }

  private registers({ from }: Errand): Registers {
    const { profile, before } = this;
    return { profile, state: before, base: before[POSITION] - from, countsUp: this.countsUp() };
  }

  /** What the run does, with places counted from the lowest that it comes to; undefined if that spans too many. */
  private errand(): Errand | undefined {
    const { profile, before, position: to, figures, turns } = this;
    const from = before[POSITION];
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
      driveTo: this.isSubtracting ? 1 : 0,
      multiplier,
      places: Math.max(0, Math.min(this.highestPlace() - base, MOST_SPAN)),
      firstTurn: takesSense ? this.firstTurn : 0,
    };
    if (counter === 0 || counterCarry !== 'plain') return errand;
    return { ...errand, figures: figures.slice(base + 1, this.highest + 1) };
  }

  /** The highest position in which the counter has a wheel and no lever that is set stands past the result's end. */
  private highestPlace(): number {
    const { profile, before } = this;
    const { setting, carriage, result, counter } = profile;
    let lever = setting;
    while (lever > 1 && figureAt(before, SETTING, lever) === 0) lever--;
    this.lever = lever;
    const places = Math.min(carriage, result - lever + 1);
    return counter > 0 ? Math.min(places, counter) : places;
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
