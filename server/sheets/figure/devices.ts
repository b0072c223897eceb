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

export interface Device {
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
    { bit: SUBTRACTING, isThere: hasDriveLever(profile), ...drive },
    { bit: COUNT_MINUS, isThere: profile.count === 'lever', ...devices.count },
    { bit: AUTO_CLEAR, isThere: profile.autoClear, ...devices.autoClear },
    { bit: AUTO_DIVIDE, isThere: profile.autoDivide, ...devices.autoDivide },
  ];
  return all
    .filter(({ isThere }) => isThere)
    .map(({ bit, name, on, off }) => {
      const now = has(after, bit) ? on : off;
      return has(before, bit) === has(after, bit) ? { name, now } : { name, now, before: has(before, bit) ? on : off };
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
