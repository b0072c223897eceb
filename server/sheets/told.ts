/** What is told of a run, step by step. */
import type { ExpectItem } from '../../grammar/tree.js';
import type { Register, State } from '../machine/index.js';
import type { Text } from './model.js';
import type { Single } from './outline.js';
import type { StageEnd } from './stages.js';

/** What is read, and where the machine stands then: more than once in the rounds of a `repeat`. */
export interface Reading {
  readonly of:
    | { readonly is: 'register'; readonly register: Register }
    | { readonly is: 'bell' | 'overflow' | 'overdraw' | 'parked' | 'carriage' };
  /** As the sequence has it, with numbers in place of parameters. */
  readonly item?: ExpectItem;
  readonly label?: string;
  /** A `stage` is one that the sequence does not name. */
  readonly why: 'expect' | 'ask' | 'stage';
  readonly states: readonly State[];
}

export interface ToldStep {
  readonly is: 'step';
  /** `3`, for its parts `3a`, `3b`, for theirs `3a1`. */
  readonly number: string;
  readonly text: Text;
  /** The single step that it tells, where it is one. */
  readonly of?: Single['syntax'];
  /** Rows of the tape, both included; `to` is below `from` where only others are announced. */
  readonly from: number;
  readonly to: number;
  readonly readings: readonly Reading[];
  /** Told once for several rounds: what the machine shows then is not always the same. */
  readonly inRounds: boolean;
  /** A stage of the work ends with it. */
  readonly ends?: StageEnd;
}

export type Told =
  | ToldStep
  | { readonly is: 'note' | 'caution'; readonly text: string }
  /** The steps below are those of a sequence with this title. */
  | { readonly is: 'part'; readonly title: string };

/** Which readings are given at the end of a stage, where the sequence names none. */
export type StageReadings = 'but the last' | 'all';
