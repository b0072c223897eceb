/** The languages in which sheets are printed. */
import { languageOf } from '../../sequence/wording/index.js';
import * as de from './de.js';
import * as en from './en.js';

/** Everything that sheets say, in one language. */
export type SheetWords = typeof en;

const WORDINGS: ReadonlyMap<string, SheetWords> = new Map<string, SheetWords>([
  ['en', en],
  ['de', de],
]);

/** Languages that sheets are printed in. */
export const SHEET_LANGUAGES = [...WORDINGS.keys()];

/** The words for a language tag such as `de-AT`; English where a language is not known. */
export const sheetWords = (language: string | undefined): SheetWords => WORDINGS.get(languageOf(language)) ?? en;
