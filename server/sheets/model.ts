/**
 * What is printed, as data: a sheet is a row of blocks, and each format makes its own of them.
 *
 * Invariant: text here is as it is to be read, never markup. Whoever renders it escapes it, in one place a format.
 */
import type { Profile, State } from '../machine/index.js';

export const SHEET_KINDS = ['operating', 'exercise', 'key', 'bench'] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];
/** What else is printed in the manner of a sheet, of several records and not of one sequence. */
export type PageKind = SheetKind | 'log';
export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];
/** Figures at every step, where a stage of the work ends, or nowhere. */
export const FIGURE_CHOICES = ['all', 'stages', 'none'] as const;
export type FigureChoice = (typeof FIGURE_CHOICES)[number];

/** What a sheet is where nothing else is asked for, from the command line and in the editor alike. */
export const DEFAULT_SHEET = { kind: 'operating', format: 'html', paper: 'a4', figures: 'stages' } as const satisfies {
  readonly kind: SheetKind;
  readonly format: string;
  readonly paper: Paper;
  readonly figures: FigureChoice;
};

/** A piece of a line. A `reading` is what a register shows, a `blank` is a line to write on. */
export type Span =
  | string
  | { readonly strong: string }
  | { readonly reading: string }
  | { readonly code: string }
  /** So many figures wide. */
  | { readonly blank: number; readonly label: string };
export type Text = readonly Span[];

/** A machine that is drawn: before and after something, which may be one and the same state. */
export interface FigureData {
  readonly profile: Profile;
  readonly before: State;
  readonly after: State;
  /** The bell rang in between. */
  readonly rang: boolean;
}

export interface SheetStep {
  /** As it is printed: `3`, or `3a` where a step has parts. */
  readonly number: string;
  readonly text: Text;
  /** What the machine shows now, or a blank for it. */
  readonly readings?: readonly Text[];
  readonly remarks?: readonly { readonly is: 'note' | 'caution'; readonly text: Text }[];
  readonly figure?: FigureData;
}

export interface Column {
  readonly head: string;
  /** Figures stand at the right. */
  readonly isFigures?: boolean;
  /** To be filled in by hand: so many millimetres wide, 8…80. */
  readonly blank?: number;
}

/**
 * What stands in a cell of a table. In a column to be filled in a cell of no pieces is left to the hand, and one that holds
 * an empty text stays empty. Where there is `null`, the cell before it takes its room.
 */
export type Cell = Text | null;

export type Block =
  | { readonly is: 'heading'; readonly level: 2 | 3; readonly text: Text }
  | { readonly is: 'paragraph'; readonly text: Text; readonly isFine?: boolean }
  | { readonly is: 'note' | 'caution'; readonly text: Text }
  /** A head above cautions that hold for the whole sheet. */
  | { readonly is: 'cautions'; readonly title: string; readonly items: readonly Text[] }
  | { readonly is: 'list'; readonly items: readonly Text[] }
  | { readonly is: 'steps'; readonly steps: readonly SheetStep[] }
  | {
      readonly is: 'table';
      readonly caption: string;
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly Cell[])[];
    }
  | { readonly is: 'figure'; readonly figure: FigureData; readonly caption: Text }
  /** Lines to be filled in by hand, each with its label; with a number of `lines` they go right across the page. */
  | {
      readonly is: 'fields';
      readonly fields: readonly { readonly label: string; readonly value?: string; readonly lines?: number }[];
    }
  /** What follows begins on a new page where there are pages. */
  | { readonly is: 'page' };

export interface Sheet {
  readonly kind: PageKind;
  /** `en`, `de`, … */
  readonly language: string;
  readonly title: string;
  readonly subtitle?: string;
  readonly blocks: readonly Block[];
  /** For the foot of each page, beside title and page number: the machine, or the title again. */
  readonly foot: string;
}
