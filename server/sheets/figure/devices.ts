/** The levers and buttons that a machine has besides those of the setting, and where they stand. */
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasDriveLever,
  hasHalfSteps,
  POSITION,
  type Profile,
  type Register,
  type State,
  SUBTRACTING,
} from '../../machine/index.js';
import type { FigureData } from '../model.js';
import type { SheetWords } from '../wording/index.js';

export type DeviceKind = 'drive' | 'count' | 'auto-clear' | 'auto-divide';

/** The bits by which a machine knows where they stand. */
export const DEVICE_BITS: Readonly<Record<DeviceKind, number>> = {
  drive: SUBTRACTING,
  count: COUNT_MINUS,
  'auto-clear': AUTO_CLEAR,
  'auto-divide': AUTO_DIVIDE,
};

export interface Device {
  readonly is: DeviceKind;
  readonly name: string;
  readonly now: string;
  /** Where it stood, if it was moved. */
  readonly before?: string;
}

/** Only those that the machine has, in the order in which they are drawn and told. */
export function devicesOf({ profile, before, after }: FigureData, { figure }: SheetWords): Device[] {
  const { devices } = figure;
  const drive = profile.subtract === 'lift' ? devices.crank : devices.drive;
  const all = [
    { is: 'drive', isThere: hasDriveLever(profile), ...drive },
    { is: 'count', isThere: profile.count === 'lever', ...devices.count },
    { is: 'auto-clear', isThere: profile.autoClear, ...devices.autoClear },
    { is: 'auto-divide', isThere: profile.autoDivide, ...devices.autoDivide },
  ] as const;
  return all
    .filter(({ isThere }) => isThere)
    .map(({ is, name, on, off }) => {
      const bit = DEVICE_BITS[is];
      const now = has(after, bit) ? on : off;
      const isMoved = has(before, bit) !== has(after, bit);
      return { is, name, now, ...(isMoved && { before: has(before, bit) ? on : off }) };
    });
}

/** The registers that a machine has, from the levers down. */
export const registersOf = ({ counter }: Profile): readonly Register[] =>
  counter > 0 ? ['setting', 'result', 'counter'] : ['setting', 'result'];

/** Result places that the tens carry comes to, both ends included; undefined where it comes to none. */
export function carryRange({ reach, result }: Profile, position: number): readonly [number, number] | undefined {
  const to = Math.min(result, reach === undefined ? result : position + reach - 1);
  return position > 0 && position < to ? [position + 1, to] : undefined;
}

/** Places that the carriage stands right of where lever 1 is over its place 1: half ones on a half-step machine. */
export function placesRight(profile: Profile, state: State): number {
  const position = state[POSITION];
  if (!hasHalfSteps(profile)) return position - 1;
  return (position === 0 ? 0.5 : position + (has(state, SUBTRACTING) ? 0.5 : 0)) - 1;
}
