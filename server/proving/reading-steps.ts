/** How somebody reads off what differs on a machine with a fault. */
import {
  OVERDRAWN,
  OVERFLOWED,
  POSITION,
  type Profile,
  RANG,
  REGISTERS,
  type Register,
  WRAPS,
} from '../machine/index.js';
import { readingOf } from '../sequence/hands.js';
import { type Looked, type Moment, showsOtherwise } from '../sequence/looks.js';

export const isRegister = (what: Looked): what is Register => (REGISTERS as readonly string[]).includes(what);

/**
 * The reading to take: registers first, and of what happened only what can be expected, that it did. The result is left
 * alone while it stands below zero or past its top, unless that has just happened and can be expected: a reading says that
 * it is meant to stay so. Fixed: every time somebody looks there the machine shows the same.
 */
export function whatDiffers(sound: Moment, faulty: Moment, profile: Profile, isFixed: boolean): Looked | undefined {
  const { state, happened } = sound;
  const hasWrapped = (happened & (OVERFLOWED | OVERDRAWN)) !== 0;
  const candidates: readonly Looked[] = [
    ...(state[WRAPS] === 0 || (isFixed && hasWrapped) ? (['result'] as const) : []),
    ...(profile.counter > 0 ? (['counter'] as const) : []),
    'setting',
    ...(state[POSITION] > 0 ? (['carriage'] as const) : (['parked'] as const)),
    ...(profile.bell && happened & RANG ? (['bell'] as const) : []),
    ...(happened & OVERFLOWED ? (['overflow'] as const) : []),
    ...(happened & OVERDRAWN ? (['overdraw'] as const) : []),
  ];
  return candidates.find((what) => showsOtherwise(what, sound, faulty, profile));
}

/** A reading as an `expect` asks for it. */
export function itemText(what: Looked, { state }: Moment, profile: Profile): string {
  if (what === 'carriage') return `carriage ${state[POSITION]}`;
  return isRegister(what) ? `${what} ${readingOf(state, profile, what)}` : what;
}

/** Steps that read something, and say that an overflow or overdraw in the step before is meant; fixed: in every run the same. */
export function readingLines(what: Looked, moment: Moment, profile: Profile, isFixed: boolean): string[] {
  const { happened, state } = moment;
  const meant =
    state[WRAPS] === 0 ? [] : happened & OVERFLOWED ? ['overflow'] : happened & OVERDRAWN ? ['overdraw'] : [];
  const others = what === 'overflow' || what === 'overdraw' || what === 'bell' ? [] : meant;
  if (isFixed || !isRegister(what)) return [`expect ${[...others, itemText(what, moment, profile)].join(' ')}`];
  return [`ask ${what}`];
}
