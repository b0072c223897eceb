/** What a machine has: registers, carriage, levers and buttons. Plain data. */
import { MOST_PLACES } from './figures.js';

/** How the counter's wheels hang together. */
export type CounterCarry = 'carry' | 'plain' | 'signed';
/** How the machine is put to subtract. */
export type SubtractWay = 'reverse' | 'lever' | 'half-step' | 'lift' | 'none';
/** In which sense a turn is counted. */
export type CountWay = 'follow' | 'lever' | 'first';

export interface Profile {
  readonly name: string;
  readonly title?: string;
  /** Setting levers, 1…20. */
  readonly setting: number;
  /** Places of the revolution counter, 0…20; 0 where there is none. */
  readonly counter: number;
  readonly counterCarry: CounterCarry;
  /** Places of the result register, 1…20. */
  readonly result: number;
  /** The result wheels can be set by hand. */
  readonly dials: boolean;
  /** Places covered by the tens carry, counted from the carriage's position; the whole register if undefined. */
  readonly reach?: number;
  /** Working positions of the carriage, 1…20. */
  readonly carriage: number;
  readonly subtract: SubtractWay;
  readonly count: CountWay;
  /** The carriage can be shifted out of gear, to the left of position 1. */
  readonly park: boolean;
  readonly bell: boolean;
  readonly autoClear: boolean;
  readonly autoDivide: boolean;
  readonly transferResult: 'none' | 'anywhere' | 'at 1';
  readonly transferCounter: boolean;
  readonly effort: EffortWeights;
  /** The machine's own wording of steps, by the words of the step. */
  readonly phrases: Readonly<Record<string, string>>;
}

/** What work costs: whole numbers, 0 or more. */
export interface EffortWeights {
  readonly turn: number;
  readonly shift: number;
  readonly lever: number;
}
export const DEFAULT_EFFORT: EffortWeights = { turn: 1, shift: 1, lever: 2 };

/** A lever (or the carriage, or the crank itself lifted) puts the drive to subtract. */
export const hasDriveLever = (p: Profile): boolean =>
  p.subtract === 'lever' || p.subtract === 'half-step' || p.subtract === 'lift';
/** Wheels that show negative figures: the register reads the sum of its figures, and needs no complement. */
export const hasSignedWheels = (p: Profile, register: 'setting' | 'counter' | 'result'): boolean =>
  register === 'counter' && p.counterCarry === 'signed';
/** The carriage moves by half places. */
export const hasHalfSteps = (p: Profile): boolean => p.subtract === 'half-step';
/** The leftmost place the carriage can be shifted to by hand: 0 is out of gear. */
export const leftmost = (p: Profile): 0 | 1 => (p.park || hasHalfSteps(p) ? 0 : 1);

/** A contradiction in a profile, named by the line that has it. */
export type Contradiction =
  | { readonly is: 'out-of-range'; readonly line: string; readonly lowest: number; readonly highest: number }
  | { readonly is: 'missing'; readonly line: 'setting' | 'result' }
  | {
      readonly is: 'reach-below-setting' | 'result-below-setting' | 'carriage-past-result' | 'divide-needs-lever';
      readonly line: string;
    };

/** What is wrong with a profile by itself; an empty list is a machine that can be built. */
export function contradictions(p: Profile): Contradiction[] {
  const found: Contradiction[] = [];
  const within = (line: string, value: number, lowest: number) => {
    if (!Number.isInteger(value) || value < lowest || value > MOST_PLACES) {
      found.push({ is: 'out-of-range', line, lowest, highest: MOST_PLACES });
    }
  };
  within('setting', p.setting, 1);
  within('counter', p.counter, 0);
  within('result', p.result, 1);
  if (found.length > 0) return found;
  if (p.reach !== undefined && p.reach < p.setting) found.push({ is: 'reach-below-setting', line: 'result' });
  // Where it is not written, the number of positions follows from these two: what is wrong is said of them.
  if (p.result < p.setting) return [...found, { is: 'result-below-setting', line: 'result' }];
  within('carriage', p.carriage, 1);
  if (p.carriage > p.result) found.push({ is: 'carriage-past-result', line: 'carriage' });
  if (p.autoDivide && !hasDriveLever(p)) found.push({ is: 'divide-needs-lever', line: 'auto-divide' });
  return found;
}
