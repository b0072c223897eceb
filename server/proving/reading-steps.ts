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
 * The reading to take: registers first, and of what happened only what can be expected, that it did. While the result
 * stands below zero or past its top, a reading of it says that it is meant to, and so does one of what happened: that is
 * left to steps that mean it.
 */
export function whatDiffers(sound: Moment, faulty: Moment, profile: Profile, isMeant: boolean): Looked | undefined {
  const { state, happened } = sound;
  const isWithin = state[WRAPS] === 0;
  const tellsWhat = isWithin || isMeant;
  const candidates: readonly Looked[] = [
    ...(isWithin || (isMeant && happened & WRAPPED) ? (['result'] as const) : []),
    ...(profile.counter > 0 ? (['counter'] as const) : []),
    'setting',
    ...(state[POSITION] > 0 ? (['carriage'] as const) : (['parked'] as const)),
    ...(tellsWhat && profile.bell && happened & RANG ? (['bell'] as const) : []),
    ...(tellsWhat && happened & OVERFLOWED ? (['overflow'] as const) : []),
    ...(tellsWhat && happened & OVERDRAWN ? (['overdraw'] as const) : []),
  ];
  return candidates.find((what) => showsOtherwise(what, sound, faulty, profile));
}

const WRAPPED = OVERFLOWED | OVERDRAWN;

/** A reading as an `expect` asks for it. */
export function itemText(what: Looked, { state }: Moment, profile: Profile): string {
  if (what === 'carriage') return `carriage ${state[POSITION]}`;
  return isRegister(what) ? `${what} ${readingOf(state, profile, what)}` : what;
}

/** A step that reads something: the same in every run and round, or asked for each time. */
export const readingLine = (what: Looked, moment: Moment, profile: Profile, isFixed: boolean): string =>
  isFixed || !isRegister(what) ? `expect ${itemText(what, moment, profile)}` : `ask ${what}`;

/** The same behind steps of one's own: an overflow or overdraw in the last of them is meant. */
export function meantReading(what: Looked, moment: Moment, profile: Profile, isFixed: boolean): string {
  const { happened, state } = moment;
  const line = readingLine(what, moment, profile, isFixed);
  const tellsItself = what === 'overflow' || what === 'overdraw' || what === 'bell';
  if (!isFixed || tellsItself || state[WRAPS] === 0 || !(happened & WRAPPED)) return line;
  return line.replace('expect', `expect ${happened & OVERFLOWED ? 'overflow' : 'overdraw'}`);
}
