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
import type { Effort } from './run.js';
import { cheapestWay, type Errand, type Hands, handsOf, Move, type Room, type Way } from './shorter.js';

/** A way as it is written: one step a line. */
export interface WrittenWay extends Way {
  readonly steps: readonly string[];
  readonly effort: Effort;
}

/** The cheapest ways of an errand; null where none was found. */
interface Known {
  /** With no more room than it takes to turn straight from nothing to the multiplier, and beyond it. */
  straight?: WrittenWay | null;
  /** With all the room there may be. */
  free?: WrittenWay | null;
}

/** Ways that are kept; then it begins afresh. */
const MOST_WAYS = 20_000;
const MOST_TURNS_IN_A_STEP = 999;

/** All that is known for machines on which a turn, a shift and a lever cost the same. */
export class Ways {
  readonly hands: Hands;
  private readonly known = new Map<number | string, Map<number, Known>>();
  private size = 0;

  constructor(private readonly profile: Profile) {
    this.hands = handsOf(profile);
  }

  /** The cheapest way that never takes the total below both ends, however much is in the registers. */
  straight(errand: Errand): WrittenWay | undefined {
    const known = this.of(errand);
    if (known.straight === undefined) {
      const room = { lowest: Math.min(0, errand.multiplier), highest: Number.POSITIVE_INFINITY };
      known.straight = this.within(errand, room) ?? null;
    }
    return known.straight ?? undefined;
  }

  /** The cheapest way of all. */
  free(errand: Errand): WrittenWay | undefined {
    const known = this.of(errand);
    if (known.free === undefined) {
      const room = { lowest: Number.NEGATIVE_INFINITY, highest: Number.POSITIVE_INFINITY };
      known.free = this.within(errand, room) ?? null;
    }
    return known.free ?? undefined;
  }

  /** The cheapest way within some room. */
  within(errand: Errand, room: Room): WrittenWay | undefined {
    const way = cheapestWay(this.hands, errand, room);
    return way && written(this.profile, this.hands, errand, way);
  }

  private of(errand: Errand): Known {
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
      if (++this.size > MOST_WAYS) {
        this.known.clear();
        this.size = 0;
      }
      known = {};
      ways.set(multiplier, known);
    }
    return known;
  }
}

const WAYS = new Map<string, Ways>();
const MOST_MACHINES = 100;

export function waysOn(profile: Profile): Ways {
  const { turn, shift, lever } = profile.effort;
  const key = `${profile.subtract} ${turn} ${shift} ${lever}`;
  let ways = WAYS.get(key);
  if (!ways) {
    if (WAYS.size >= MOST_MACHINES) WAYS.clear();
    ways = new Ways(profile);
    WAYS.set(key, ways);
  }
  return ways;
}

/** Undefined where a step would have more turns than can be written. */
function written(profile: Profile, hands: Hands, errand: Errand, way: Way): WrittenWay | undefined {
  const steps: string[] = [];
  const count = { turns: 0, shifts: 0, levers: 0 };
  let drive = errand.driveFrom;
  const { moves } = way;
  for (let i = 0, next = 0; i < moves.length; i = next) {
    const move = moves[i];
    while (next < moves.length && moves[next] === move) next++;
    const times = next - i;
    const counted = times === 1 ? '' : ` ${times}`;
    switch (move) {
      case Move.add:
      case Move.subtract:
        if (times > MOST_TURNS_IN_A_STEP) return undefined;
        steps.push(`turn${move === Move.subtract && hands.drive === 'both' ? ' back' : ''}${counted}`);
        count.turns += times;
        break;
      case Move.right:
      case Move.left:
        steps.push(`shift ${move === Move.right ? 'right' : 'left'}${counted}`);
        count.shifts += times;
        break;
      default: {
        next = i + 1;
        const isRight = move === Move.halfRight || (move === Move.change && drive === 0);
        const isHalf = move !== Move.change || hands.changesByHalf;
        steps.push(isHalf ? `shift ${isRight ? 'right' : 'left'} half` : `mode ${drive === 0 ? 'subtract' : 'add'}`);
        if (isHalf) count.shifts++;
        else count.levers++;
        drive = drive === 0 ? 1 : 0;
      }
    }
  }
  return { ...way, steps, effort: { ...count, cost: costOf(profile, count) } };
}

export function costOf(profile: Profile, { turns, shifts, levers }: Omit<Effort, 'cost'>): number {
  const { turn, shift, lever } = profile.effort;
  return turn * turns + shift * shifts + lever * levers;
}

/** Whether a way leads from one state to the other on the very machine, with nothing to be noticed on it. */
export function leads(profile: Profile, crank: Crank, from: State, way: Way, to: State): boolean {
  const state = from.slice();
  for (const move of way.moves) {
    switch (move) {
      case Move.add:
      case Move.subtract: {
        const back = (move === Move.subtract) !== has(state, SUBTRACTING);
        if (crank.turn(state, back) !== 0) return false;
        break;
      }
      case Move.change:
        setDrive(state, !has(state, SUBTRACTING));
        break;
      default:
        state[POSITION] += move === Move.right || move === Move.halfRight ? 1 : -1;
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
