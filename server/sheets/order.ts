/** What a sheet is made of. */
import type { SequenceReport } from '../sequence/check.js';
import type { FigureChoice, SheetKind } from './model.js';

export interface SheetOrder {
  readonly kind: SheetKind;
  /** A sequence and its runs, as a check of its file gives them; runs must not be empty. */
  readonly report: SequenceReport;
  /** The sequences that it runs are found as in the check. */
  readonly file: string;
  /** A language tag; English where a language is not known. */
  readonly language: string;
  readonly figures: FigureChoice;
}
