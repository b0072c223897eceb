/**
 * Cheapest ways that were found once, and what becomes of them on a machine.
 *
 * A way hangs on nothing but what turns, shifts and levers cost and on what is to be done: whoever multiplies by 18 from
 * position 2 again, in whatever sequence, goes the same way.
 */
import {
  COUNTER,
  type Crank,
  has,
  hasSignedWheels,
  LEVERS,
  NEGATIVE,
  numberIn,
  OF_THE_STEP,
  POSITION,
  type Profile,
  RESULT,
  type State,
  SUBTRACTING,
  setDrive,
} from '../machine/index.js';
import { type Effort, effortOf } from './effort.js';
import { cheapestWay, type Errand, type Hands, handsOf, Move, type Room, type Way } from './shorter.js';
import { leastOf } from './shorter-bound.js';
import { directWay } from './shorter-direct.js';

/** A way as it is written: one step a line. */
export interface WrittenWay extends Way {
  readonly steps: readonly string[];
  readonly effort: Effort;
  /** So many figures has what the turns come to at the least and at the most. */
  readonly figuresBelow: number;
  readonly figuresAbove: number;
}

/** An errand and what was found out about it, each thing when it is first asked for; null where there is no way. */
export class KnownErrand {
  /** A rank that no way can undercut. */
  readonly least: number;
  private straightWay: WrittenWay | null | undefined;
  private freeWay: WrittenWay | null | undefined;

  constructor(
    private readonly profile: Profile,
    private readonly hands: Hands,
    private readonly errand: Errand,
  ) {
    this.least = leastOf(hands, errand);
  }

  /** The cheapest way that never takes the total below both ends, however much is in the registers. */
  get straight(): WrittenWay | undefined {
    if (this.straightWay === undefined) {
      const lowest = Math.min(0, this.errand.multiplier);
      this.straightWay = this.within({ lowest, highest: Number.POSITIVE_INFINITY }) ?? null;
    }
    return this.straightWay ?? undefined;
  }

  /** The cheapest way of all. */
  get free(): WrittenWay | undefined {
    if (this.freeWay === undefined) {
      const { straight } = this;
      // Where the straight way is as cheap as any, there is no need to look for a freer one.
      const isCheapest = straight !== undefined && straight.rank <= this.least;
      const room = { lowest: Number.NEGATIVE_INFINITY, highest: Number.POSITIVE_INFINITY };
      this.freeWay = isCheapest ? straight : (this.within(room) ?? null);
    }
    return this.freeWay ?? undefined;
  }

  /** The cheapest way within some room. */
  within(room: Room): WrittenWay | undefined {
    const { profile, hands, errand, least } = this;
    const way = directWay(hands, errand, least, room) ?? cheapestWay(hands, errand, room);
    return way && written(profile, hands, errand, way);
  }
}

/** Errands that are kept; then it begins afresh. */
const MOST_ERRANDS = 20_000;
const MOST_TURNS_IN_A_STEP = 999;

/** All that is known for machines on which a turn, a shift and a lever cost the same. */
export class Ways {
  readonly hands: Hands;
  private readonly known = new Map<number | string, Map<number, KnownErrand>>();
  private size = 0;

  constructor(private readonly profile: Profile) {
    this.hands = handsOf(profile);
  }

  /** What is known of an errand, from whatever sequence it was asked for before. */
  of(errand: Errand): KnownErrand {
    const { from, to, driveFrom, driveTo, places, firstTurn, figures, multiplier } = errand;
    const key = ((((from * 32 + to) * 2 + driveFrom) * 2 + driveTo) * 32 + places) * 3 + firstTurn + 1;
    const group = figures ? `${key} ${figures}` : key;
    let ways = this.known.get(group);
    if (!ways) {
      ways = new Map();
      this.known.set(group, ways);
    }
    let known = ways.get(multiplier);
    if (!known) {
      if (++this.size > MOST_ERRANDS) {
        this.known.clear();
        this.known.set(group, ways);
        ways.clear();
        this.size = 1;
      }
      known = new KnownErrand(this.profile, this.hands, errand);
      ways.set(multiplier, known);
    }
    return known;
  }
}

const WAYS = new Map<string, Ways>();
const MOST_MACHINES = 100;
/** The same by the machine itself, which is asked for anew with every run. */
const waysOfMachine = new WeakMap<Profile, Ways>();

export function waysOn(profile: Profile): Ways {
  let ways = waysOfMachine.get(profile);
  if (ways) return ways;
  const { turn, shift, lever } = profile.effort;
  const key = `${profile.subtract} ${turn} ${shift} ${lever}`;
  ways = WAYS.get(key);
  if (!ways) {
    if (WAYS.size >= MOST_MACHINES) WAYS.clear();
    ways = new Ways(profile);
    WAYS.set(key, ways);
  }
  waysOfMachine.set(profile, ways);
  return ways;
}

/** Undefined where a step would have more turns than can be written. */
function written(profile: Profile, hands: Hands, errand: Errand, way: Way): WrittenWay | undefined {
  const { moves, times } = way;
  const steps: string[] = [];
  const count = { turns: 0, shifts: 0, levers: 0 };
  let drive = errand.driveFrom;
  for (let i = 0; i < moves.length; i++) {
    const move = moves[i];
    const counted = times[i] === 1 ? '' : ` ${times[i]}`;
    switch (move) {
      case Move.add:
      case Move.subtract:
        if (times[i] > MOST_TURNS_IN_A_STEP) return undefined;
        steps.push(`turn${move === Move.subtract && hands.drive === 'both' ? ' back' : ''}${counted}`);
        count.turns += times[i];
        break;
      case Move.right:
      case Move.left:
        steps.push(`shift ${move === Move.right ? 'right' : 'left'}${counted}`);
        count.shifts += times[i];
        break;
      default: {
        const isRight = move === Move.halfRight || (move === Move.change && drive === 0);
        const isHalf = move !== Move.change || hands.changesByHalf;
        steps.push(isHalf ? `shift ${isRight ? 'right' : 'left'} half` : `mode ${drive === 0 ? 'subtract' : 'add'}`);
        if (isHalf) count.shifts++;
        else count.levers++;
        drive = drive === 0 ? 1 : 0;
      }
    }
  }
  const { rank, lowest, highest } = way;
  const effort = effortOf(profile, count);
  const room = { figuresBelow: figuresOf(lowest), figuresAbove: figuresOf(highest) };
  return { moves, times, rank, lowest, highest, steps, effort, ...room };
}

/** How many figures a whole number has; 0 for nothing. */
function figuresOf(n: number): number {
  let figures = 0;
  for (let rest = Math.abs(n); rest > 0; rest = Math.floor(rest / 10)) figures++;
  return figures;
}

/** Whether a way leads from one state to the other on the very machine, with nothing to be noticed on it. */
export function leads(profile: Profile, crank: Crank, from: State, way: Way, to: State): boolean {
  const state = from.slice();
  const { moves, times } = way;
  for (let i = 0; i < moves.length; i++) {
    const move = moves[i];
    switch (move) {
      case Move.add:
      case Move.subtract: {
        const back = (move === Move.subtract) !== has(state, SUBTRACTING);
        for (let turn = 0; turn < times[i]; turn++) if (crank.turn(state, back) !== 0) return false;
        break;
      }
      case Move.change:
        setDrive(state, !has(state, SUBTRACTING));
        break;
      default:
        state[POSITION] += move === Move.right || move === Move.halfRight ? times[i] : -times[i];
        if (move === Move.halfRight || move === Move.halfLeft) setDrive(state, move === Move.halfLeft);
    }
  }
  if (state[POSITION] !== to[POSITION] || (state[LEVERS] ^ to[LEVERS]) & ~OF_THE_STEP) return false;
  for (let i = 0; i < 3; i++) if (state[RESULT + i] !== to[RESULT + i]) return false;
  if (hasSignedWheels(profile, 'counter')) {
    return numberIn(state, profile, 'counter') === numberIn(to, profile, 'counter');
  }
  for (let i = 0; i < 3; i++) if (state[COUNTER + i] !== to[COUNTER + i]) return false;
  return state[NEGATIVE] === to[NEGATIVE];
}
