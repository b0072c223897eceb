/**
 * A script that catches every fault of a machine that can act at all.
 *
 * It is made part by part, each by what fits that part, and of what can be tried next the act is taken that catches the
 * most for its effort. What is then not needed is taken out again, and what comes out is run on every faulty machine.
 */
import type { Gradual } from '../../../grammar/gradual.js';
import { type Fault, keyOf, MECHANISMS, type MechanismPart, mechanismOf, type Profile } from '../../machine/index.js';
import { type Effort, effortOf } from '../../sequence/effort.js';
import { faultsWithinReach } from '../suspects.js';
import {
  bellActs,
  carryActs,
  clearingActs,
  counterActs,
  leverActs,
  MOST_TURNS_FOR_ONE,
  transferActs,
} from './acts/index.js';
import { leastEffort } from './bound.js';
import { type LeverPass, leverPass } from './levers.js';
import { type Placed, withFewReadings, withNothingNeedless, withoutNeedless } from './prune.js';
import { type Act, BEARABLE, Rehearsal } from './rehearsal.js';
import { isCaughtBy, replaySound, type Shown } from './replay.js';

/** One part of a script: what it was made for, and its lines. */
export interface ProvingScript {
  readonly profile: Profile;
  readonly groups: readonly { readonly part: MechanismPart; readonly lines: readonly Placed['line'][] }[];
  /** What the sound machine shows at each look, from the first. */
  readonly shown: Shown;
  readonly effort: Effort;
  readonly least: Effort;
  readonly caught: readonly Fault[];
  /** Within reach, and not to be caught with as many turns as a person may be asked for. */
  readonly uncaught: readonly Fault[];
  /** What a check remarks in it, as bits of `Noticed`; 0 on nearly every machine. */
  readonly remarked: number;
}

const ACTS: Readonly<Record<MechanismPart, (profile: Profile) => Generator<Act>>> = {
  levers: leverActs,
  'tens-carry': carryActs,
  counter: counterActs,
  clearing: clearingActs,
  transfer: transferActs,
  bell: bellActs,
};

/** For all parts of a machine, or for some. */
export function* provingScript(profile: Profile, parts: readonly MechanismPart[] = MECHANISMS): Gradual<ProvingScript> {
  let best: ProvingScript | undefined;
  for (const order of ORDERS) {
    const ordered = order.filter((part) => parts.includes(part));
    for (const choice of CHOICES) {
      const script = yield* scriptWith(profile, ordered, choice);
      if (!best || isBetter(script, best)) best = script;
    }
  }
  return best as ProvingScript;
}

/** How an act is chosen. */
interface Choice {
  /** How much its effort weighs against what it catches. */
  readonly thrift: number;
  /** What a fault of another part counts, that is caught on the way. */
  readonly others: number;
}

/** No one way is the best on every machine: each is tried. */
const CHOICES: readonly Choice[] = [
  { thrift: 1, others: 0.5 },
  { thrift: 0.5, others: 0.5 },
  { thrift: 0, others: 0.5 },
  { thrift: 1, others: 3 },
];
/** The carriage begins in position 1, where a carry runs the furthest: to look after that first may save its way back. */
const ORDERS: readonly (readonly MechanismPart[])[] = [
  MECHANISMS,
  ['tens-carry', 'bell', 'levers', 'counter', 'clearing', 'transfer'],
];

/** Catches more, or is remarked less, or takes less effort, or has fewer readings. */
function isBetter(one: ProvingScript, other: ProvingScript): boolean {
  const ranks = (script: ProvingScript) => [
    script.uncaught.length,
    script.remarked === 0 ? 0 : 1,
    script.effort.cost,
    script.shown.flat().length,
  ];
  const theirs = ranks(other);
  const at = ranks(one).findIndex((rank, i) => rank !== theirs[i]);
  return at >= 0 && ranks(one)[at] < theirs[at];
}

function* scriptWith(profile: Profile, parts: readonly MechanismPart[], choice: Choice): Gradual<ProvingScript> {
  const wanted = faultsWithinReach(profile).filter((fault) => parts.includes(mechanismOf(fault)));
  const at = new Rehearsal(profile, wanted);
  const placed: Placed[] = [];
  let group = 0;
  let act = 0;
  const take = () => {
    for (const line of at.lines) placed.push({ line, group, act });
    at.lines = [];
    act++;
  };
  at.do('clear all');
  take();
  let borne = 0;
  for (const part of parts) {
    group = parts.indexOf(part);
    if (part === 'levers') {
      const pass = bestPass(at, parts);
      if (pass) pass(at);
      take();
    }
    for (const bearable of [0, BEARABLE]) {
      const more = yield* greedy(at, part, bearable, choice, take);
      if (more && bearable !== 0) borne |= bearable;
    }
    at.rest();
    take();
  }
  const caught = keysLeft(wanted, at.uncaught);
  const pruning = { profile, faults: caught, borne };
  const lean = withFewReadings(yield* withoutNeedless(placed, pruning), pruning);
  const readable = withNothingNeedless(lean, pruning);
  return finished(profile, wanted, parts, readable, borne);
}

const keysLeft = (all: readonly Fault[], without: readonly Fault[]): Fault[] => {
  const left = new Set(without.map(keyOf));
  return all.filter((fault) => !left.has(keyOf(fault)));
};

/** The pass over the levers with as much on the way as can be had cleanly. */
function bestPass(at: Rehearsal, parts: readonly MechanismPart[]): Act | undefined {
  const { profile } = at;
  const counts = parts.includes('counter') && profile.counter > 0 ? Math.min(profile.counter, profile.carriage) : 1;
  const full: LeverPass = {
    positions: counts,
    autoClear: profile.autoClear && parts.includes('clearing'),
    transfer: profile.transferResult !== 'none' && parts.includes('transfer'),
    leavesOne: counts > 1 && profile.counterCarry === 'carry',
  };
  const tries = [full, { ...full, leavesOne: false }, { ...full, positions: 1, leavesOne: false, transfer: false }];
  const fitting = tries.find((pass) => at.attempt((to) => leverPass(to, pass)).remarked === 0);
  return fitting && ((to) => leverPass(to, fitting));
}

/** Acts are done until none catches any more of the part. Returns whether any was. */
function* greedy(
  at: Rehearsal,
  part: MechanismPart,
  borne: number,
  { thrift, others }: Choice,
  take: () => void,
): Gradual<boolean> {
  let isAny = false;
  while (at.uncaught.some((fault) => mechanismOf(fault) === part)) {
    let best: Act | undefined;
    let worth = 0;
    for (const act of ACTS[part](at.profile)) {
      yield;
      const { caught, cost, remarked, turns } = at.attempt(act);
      if (remarked < 0 || (remarked & ~borne) !== 0 || turns > MOST_TURNS_FOR_ONE + FEW_TURNS) continue;
      const own = caught.filter((fault) => mechanismOf(fault) === part).length;
      if (own === 0) continue;
      const value = (own + (caught.length - own) * others) / (cost + COST_OF_A_READING) ** thrift;
      if (value > worth) [best, worth] = [act, value];
    }
    if (!best) return isAny;
    best(at);
    take();
    isAny = true;
  }
  return isAny;
}

/** Turns besides those that fill a register. */
const FEW_TURNS = 30;
/** Looking takes no effort, and is not nothing. */
const COST_OF_A_READING = 0.5;

function finished(
  profile: Profile,
  wanted: readonly Fault[],
  parts: readonly MechanismPart[],
  placed: readonly Placed[],
  borne: number,
): ProvingScript {
  const lines = placed.map(({ line }) => line);
  const replay = replaySound(profile, lines, borne);
  if (!replay) throw new Error('a proving script can’t be cranked');
  const { hand, shown } = replay;
  const caught = wanted.filter((fault) => isCaughtBy(profile, lines, fault, shown));
  const uncaught = keysLeft(wanted, caught);
  const { turns, shifts, leversMoved: levers } = hand;
  const groups = parts.map((part, i) => ({
    part,
    lines: placed.filter(({ group }) => group === i).map(({ line }) => line),
  }));
  return {
    profile,
    groups: groups.filter((one) => one.lines.length > 0),
    shown,
    effort: effortOf(profile, { turns, shifts, levers }),
    least: leastEffort(profile, caught, borne === 0),
    caught,
    uncaught,
    remarked: hand.noticed & BEARABLE & borne,
  };
}
