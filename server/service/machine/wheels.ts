/** Which parts of a machine somebody has to look at where something goes wrong. */
import type { ExpectItem, ExpectStep } from '../../../grammar/tree.js';
import {
  figuresIn,
  hasSignedWheels,
  POSITION,
  type Profile,
  pointOf,
  type Register,
  type State,
  textOf,
} from '../../machine/index.js';
import { compare, unitsExpected } from '../../sequence/expects.js';
import type { Facts, FactsOf } from '../../sequence/findings.js';
import { stateBefore } from '../../sequence/rows.js';
import type { Run } from '../../sequence/run.js';
import type { PartName } from '../../sheets/figure/index.js';
import { canBeRead, happenedBefore } from '../inlay.js';
import type { Noticed } from './gone-through.js';

/** Parts that the figure of this machine may lack are named as well: nothing is marked then. */
export function partsOf({ row, facts, goal }: Noticed, run: Run): PartName[] {
  const { profile } = run.order;
  const state = row < run.tape.length ? stateBefore(run, row) : run.state;
  if (goal) return unlike(unitsOf(goal.goal, pointOf(run.state, goal.register)), run.state, profile, goal.register);
  if (facts.code === 'reading-differs') return differing(run, row, state);
  return partsIn(facts, state, profile);
}

function partsIn(facts: Facts, state: State, profile: Profile): PartName[] {
  switch (facts.code) {
    case 'result-overflow':
    case 'result-overdraw':
    case 'dial-too-long':
      return [`result-${profile.result}`];
    case 'carry-short':
      // The wheel that misses its carry.
      return [`result-${Math.min(profile.result, facts.place + 1)}`];
    case 'counter-overflow':
    case 'counter-underflow':
      return [`counter-${facts.wheel ?? facts.places}`];
    case 'digits-off-end':
      return setLevers(state, profile)
        .filter((lever) => facts.position + lever - 1 > profile.result)
        .map(leverName);
    case 'setting-too-long':
      return [leverName(profile.setting)];
    case 'places-overlap':
      return [leverName(facts.place)];
    case 'transfer-onto-setting':
      return setLevers(state, profile).map(leverName);
    case 'transfer-loses-digits':
      return lost(facts, state, profile);
    case 'carriage-end':
    case 'carriage-parked':
    case 'turn-not-counted':
    case 'transfer-position':
      return ['carriage'];
    case 'no-such-place':
      return facts.register === 'carriage' ? ['carriage'] : [`${facts.register}-${profile[facts.register]}`];
    case 'too-many-decimals':
      return [facts.marker > 0 ? `marker-${facts.register}` : `${facts.register}-1`];
    case 'points-disagree':
      return ['marker-setting', 'marker-counter', 'marker-result'];
    case 'auto-clear-repeat':
      return ['auto-clear'];
    case 'never-stops':
      return facts.why === 'off' ? ['auto-divide'] : ['carriage'];
    case 'never-overdraws':
    case 'divide-in-add-mode':
      return ['drive'];
    default:
      return [];
  }
}

const leverName = (lever: number): PartName => `setting-${lever}`;

/** Levers that do not stand at zero, from the units up. */
const setLevers = (state: State, profile: Profile): number[] =>
  figuresFrom(state, profile, 'setting').flatMap((figure, i) => (figure === '0' ? [] : [i + 1]));

/** The units first, a negative figure with its sign. */
const figuresFrom = (state: State, profile: Profile, register: Register): string[] =>
  figuresIn(textOf(state, profile, register)).reverse();

/** Figures for which there is no lever, or which have a sign. */
function lost({ register }: FactsOf<'transfer-loses-digits'>, state: State, profile: Profile): PartName[] {
  const below = register === 'result' ? state[POSITION] - 1 : 0;
  return figuresFrom(state, profile, register).flatMap((figure, i): PartName[] => {
    const isTaken = i >= below && i < below + profile.setting && !figure.startsWith('-');
    return figure === '0' || isTaken ? [] : [`${register}-${i + 1}`];
  });
}

/** What an `expect` will not find: wheels of registers, the place of the carriage, or where an overflow would show. */
function differing(run: Run, row: number, state: State): PartName[] {
  const step = run.tape.stepAt(row).syntax;
  if (step.kind !== 'expect') return [];
  const { profile } = run.order;
  const happened = happenedBefore(run, row);
  return (step as ExpectStep).items.flatMap((item) => {
    if (!canBeRead(item, run) || !compare(item, state, happened, profile)) return [];
    return partsUnlike(item, state, profile);
  });
}

function partsUnlike(item: ExpectItem, state: State, profile: Profile): PartName[] {
  switch (item.kind) {
    case 'register': {
      if (item.figures.kind !== 'number') return [];
      const { register } = item;
      const expected = unitsExpected(item.figures, item.negative, state, profile, register);
      // It has decimals for which the marker leaves no place.
      return expected === undefined ? [`${register}-1`] : unlike(expected, state, profile, register);
    }
    case 'carriage':
    case 'parked':
      return ['carriage'];
    case 'overflow':
    case 'overdraw':
      return [`result-${profile.result}`];
    case 'bell':
      return [];
  }
}

/** The wheels on which another figure would have to stand. */
function unlike(expected: bigint, state: State, profile: Profile, register: Register): PartName[] {
  const places = profile[register];
  const room = 10n ** BigInt(places);
  const isSigned = hasSignedWheels(profile, register);
  // Below zero there are nines at the left, where wheels have no sign.
  const units = expected < 0n && !isSigned ? expected + room : expected;
  const [sign, number] = units < 0n ? ['-', -units] : ['', units];
  if (units >= room || number >= room || (units < 0n && !isSigned)) return [`${register}-${places}`];
  const wanted = number.toString().padStart(places, '0');
  return figuresFrom(state, profile, register).flatMap((figure, i): PartName[] => {
    const digit = wanted[places - 1 - i];
    return figure === (digit === '0' ? digit : sign + digit) ? [] : [`${register}-${i + 1}`];
  });
}

/** A decimal number in units of the last decimal that a marker leaves; what is finer is cut off. */
function unitsOf(number: string, decimals: number): bigint {
  const [whole, rest = ''] = number.split('.');
  return BigInt(whole + rest.slice(0, decimals).padEnd(decimals, '0'));
}
