/** What is asked of the planner and what it answers. Plain data; wording/ makes sentences of it. */
import type { Expression } from '../../grammar/tree.js';
import type { Profile } from '../machine/index.js';
import type { Effort } from '../sequence/effort.js';
import type { Values } from '../sequence/substitute.js';

/** Ways of working that somebody may ask for by name; without a name the planner chooses. */
export const METHODS = [
  'automatic',
  'restoring',
  'non-restoring',
  'building-up',
  'odd-numbers',
  'five-fold',
  'divide-and-average',
] as const;
export type Method = (typeof METHODS)[number];
/** A way of taking a root; the others are ways of dividing. */
export const isRootMethod = (method: Method): boolean =>
  method === 'odd-numbers' || method === 'five-fold' || method === 'divide-and-average';

export interface PlanOrder {
  readonly expression: Expression;
  readonly profile: Profile;
  /** Values of the names in the expression: the defaults first, then each case. Empty where it has none. */
  readonly values: readonly Values[];
  /** In which register the answer is wanted; where it comes about by itself, if undefined. */
  readonly register?: 'counter' | 'result' | undefined;
  /** Decimals of an answer that does not end, 0…20; as many as the machine has room for, if undefined. */
  readonly decimals?: number | undefined;
  readonly method?: Method | undefined;
  /** Round at the last decimal by half a unit set beforehand, instead of cutting off. */
  readonly isRounded?: boolean | undefined;
}

/** A remark to the operator, or a number that is written down; told by wording/. */
export type Remark =
  | { readonly is: 'sum-of-products'; readonly terms: number }
  | { readonly is: 'dividend' | 'divide' | 'half-unit' | 'root-climbs' }
  | { readonly is: 'write-down'; readonly register: 'counter' | 'result'; readonly reading: string }
  | { readonly is: 'building-up'; readonly dividend: string }
  | { readonly is: 'root'; readonly method: Method; readonly of: string }
  | { readonly is: 'first-guess'; readonly guess: string }
  | { readonly is: 'power'; readonly base: string; readonly exponent: number; readonly chain: readonly number[] }
  | { readonly is: 'complement'; readonly of: string }
  | { readonly is: 'in-parts'; readonly number: string; readonly parts: readonly string[] }
  | { readonly is: 'fair-copy'; readonly decimals: number }
  | { readonly is: 'points-moved'; readonly places: number; readonly over: string; readonly under: string }
  | { readonly is: 'columns-apart'; readonly places: number };

/** A line of the sequence: a step as it is written, or a remark that becomes a `note`. */
export type PlannedLine = { readonly step: string } | { readonly remark: Remark };

/** What stands in the way: a register or the carriage has too few places, or the machine lacks something. */
export type Limit =
  | {
      readonly is: 'places';
      readonly register: 'setting' | 'counter' | 'result' | 'carriage';
      readonly has: number;
      readonly needs: number;
    }
  | { readonly is: 'below-zero'; readonly register: 'counter' | 'result' }
  | { readonly is: 'runs-over'; readonly register: 'counter' | 'result' }
  | { readonly is: 'reach'; readonly places: number }
  | { readonly is: 'no-counter' | 'cannot-subtract' | 'quotient-as-complement' | 'parameters' | 'not-met' }
  | { readonly is: 'method'; readonly method: Method }
  /** There is nothing in the expression that could be worked out that way. */
  | { readonly is: 'nothing-for-method'; readonly method: Method }
  /** The expression itself has no value, or none that any machine could hold. */
  | {
      readonly is: 'no-value';
      readonly why: 'divides-by-zero' | 'root-of-negative' | 'power-not-whole' | 'too-large' | 'unknown-name';
    };

/** What would do instead. Machines of the library that can are found by `compare`. */
export type WayOut =
  | { readonly is: 'fewer-decimals'; readonly decimals: number }
  | { readonly is: 'split'; readonly number: string; readonly parts: readonly string[] };

/** A way of doing a part of the work, as an explanation names it. */
export interface Alternative {
  readonly way: string;
  readonly cost?: number;
  /** Numbers that it has the operator write down and set again. */
  readonly written?: number;
  /** Why it can't be done so. */
  readonly limit?: Limit;
  readonly isChosen: boolean;
}
/** Something that the planner decided, with what it decided between. */
export interface Decision {
  readonly about: Topic;
  readonly alternatives: readonly Alternative[];
  readonly why: Reason;
}
/**
 * Why a way was taken: it is the only one that can be done, it has the fewest numbers to write down, it costs the least
 * effort, it has the fewest steps among equals, or the machine does it by itself.
 */
export type Reason = 'only' | 'written' | 'effort' | 'steps' | 'by-itself';
export type Topic = 'layout' | 'dividend' | 'division' | 'root' | 'power' | 'product' | 'form' | 'list';

export interface Plan {
  readonly lines: readonly PlannedLine[];
  readonly register: 'counter' | 'result';
  /** Decimals of that register at the end. */
  readonly decimals: number;
  /** What it reads at the end, at its marker. */
  readonly reading: string;
  /** Figures of the reading that count, from the first that is not 0. */
  readonly figures: number;
  readonly isExact: boolean;
  readonly effort: Effort;
  /** Numbers that the operator writes down and sets again. */
  readonly written: number;
  readonly decisions: readonly Decision[];
  /** The goal as it is written, where it is not the expression itself (a half unit was added, say). */
  readonly goal: string;
}
export type Refusal = { readonly refused: Limit; readonly wayOut?: WayOut };
export type Planned = Plan | Refusal;

export const isRefused = (planned: Planned): planned is Refusal => 'refused' in planned;
