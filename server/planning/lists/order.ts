/** What is asked of a list and what comes out. Plain data. */
import type { Profile } from '../../machine/index.js';
import type { Effort } from '../../sequence/effort.js';
import type { Decision, Limit, PlannedLine, Remark } from '../order.js';
import type { Table } from '../table.js';

/** Rows that a list may have. */
export const MOST_ROWS = 2_000;
/** Sums that may be asked of one list. */
export const MOST_SUMS = 12;

export interface ListOrder {
  /** One sum or several, such as `sum(x), sum(x^2), sum(x*y)`: columns, their squares and products of two. */
  readonly expression: string;
  readonly table: Table;
  readonly profile: Profile;
  /** Decimals of the result where one sum stands in it alone; as many as it takes, if undefined. */
  readonly decimals?: number | undefined;
}

/** A total in places of a register, counted from the right. */
export interface Standing {
  readonly register: 'counter' | 'result';
  readonly from: number;
  readonly to: number;
  /** What is added up, such as `x^2`. */
  readonly sum: string;
  /** 2 where the total stands there twice, as products of two columns do in a square. */
  readonly times: 1 | 2;
  /** Decimals of these places as a number of their own. */
  readonly decimals: number;
}

/** What is said to the operator of a list, beside what is said in every plan. */
export type ListRemark =
  | Remark
  /** A pass through the list begins. */
  | { readonly is: 'pass'; readonly pass: number; readonly of: number }
  /** The rows that come next, counted from 1, and the columns that are worked with. */
  | { readonly is: 'rows'; readonly rows: readonly number[]; readonly columns: readonly string[] }
  /** What comes next takes away: rows below zero are left for the end, so that no register goes below zero before. */
  | { readonly is: 'rows-below-zero' }
  /** The counter gets a start, so that turns that count backwards do not bring it below zero; it is not read. */
  | { readonly is: 'counter-ahead' }
  | ({ readonly is: 'standing' } & Standing)
  /** The totals are to be read off, since the registers are cleared for the next pass. */
  | { readonly is: 'read-off'; readonly sums: readonly { readonly name: string; readonly value: string }[] };

export type ListLine = PlannedLine | { readonly remark: ListRemark };

export interface ListGoal {
  readonly register: 'counter' | 'result';
  readonly expression: string;
}

/** Once through the list, from cleared registers. */
export interface ListPass {
  readonly lines: readonly ListLine[];
  /** What its registers show at its end. */
  readonly goals: readonly ListGoal[];
  readonly standings: readonly Standing[];
  readonly effort: Effort;
}

export interface ListPlan {
  /** All passes, one behind the other. */
  readonly lines: readonly ListLine[];
  /** What the registers show at the end: the goals of the last pass. */
  readonly goals: readonly ListGoal[];
  /** Every sum that was asked, in that order, exactly, and `n`, the number of rows, where no column of theirs is called so. */
  readonly sums: readonly { readonly name: string; readonly value: string }[];
  readonly passes: readonly ListPass[];
  readonly effort: Effort;
  /** Totals that are read off before the registers are cleared for another pass. */
  readonly written: number;
  readonly decisions: readonly Decision[];
}

/** What stands in the way of a list: the machine, or what was asked. Rows count from 1. */
export type ListLimit =
  | Limit
  | { readonly is: 'rows' | 'sums' | 'steps' | 'turns'; readonly has: number; readonly most: number }
  | { readonly is: 'no-rows' | 'no-sums' }
  | { readonly is: 'short-row'; readonly row: number; readonly has: number; readonly needs: number }
  | { readonly is: 'not-a-number'; readonly row: number; readonly column: string; readonly text: string }
  /** No column, square or product of two columns. */
  | { readonly is: 'not-a-sum'; readonly text: string }
  | { readonly is: 'unknown-column'; readonly name: string; readonly columns: readonly string[] }
  | { readonly is: 'too-few-decimals'; readonly has: number; readonly needs: number };

export type ListRefusal = { readonly refused: ListLimit };
export type PlannedList = ListPlan | ListRefusal;

export const isListRefused = (planned: PlannedList): planned is ListRefusal => 'refused' in planned;
