/** What a file may be begun for, and on which machines that can be done. */
import type { Profile } from '../../machine/index.js';

export const TASKS = ['multiply', 'divide', 'add', 'subtract', 'exercise', 'instruction', 'bench'] as const;
export type Task = (typeof TASKS)[number];

/** A machine that can be shifted multiplies and divides place by place; without a counter nothing shows a quotient. */
export const multiplies = ({ carriage, counter }: Profile): boolean => carriage > 1 && counter > 0;

export const suits = (task: Task, profile: Profile): boolean =>
  (task !== 'multiply' && task !== 'divide') || multiplies(profile);

/** Numbers of a calculation; its sequence is planned for the machine, so that no reading stands here. */
export interface Sum {
  readonly register: 'counter' | 'result';
  readonly expression: string;
  /** Names with what they stand for at first, and then in each case. */
  readonly parameters?: Readonly<Record<string, readonly number[]>>;
}

export const SUMS = {
  multiply: { register: 'result', expression: '24.5 * 17.2' },
  divide: { register: 'counter', expression: '86.45 / 7' },
  add: { register: 'result', expression: '48.35 + 7.90 + 112.05 + 26.40 + 3.75' },
  subtract: { register: 'result', expression: '8650 - 3275' },
  instruction: { register: 'result', expression: '1250 + 340 - 415' },
} as const satisfies Partial<Readonly<Record<Task, Sum>>>;

/** The numbers of an exercise: two factors or, on a machine that can't be shifted, two slips. */
export const EXERCISES = {
  product: [
    [23, 14, 105, 254],
    [45, 52, 31, 403],
  ],
  sum: [
    [325, 2060, 781],
    [148, 975, 6330],
  ],
} as const;
