/** The languages in which proving is told. Another language is another file with the same exports. */
import { languageOf } from '../../sequence/wording/index.js';
import * as de from './de.js';
import * as en from './en.js';

/** Everything that is said of faults and of what a sequence proves, in one language. */
export type ProvingWording = typeof en;

const WORDINGS: ReadonlyMap<string, ProvingWording> = new Map<string, ProvingWording>([
  ['en', en],
  ['de', de],
]);

/** The wording for a language tag such as `de-AT`; English where a language is not known. */
export const provingWording = (locale: string | undefined): ProvingWording => WORDINGS.get(languageOf(locale)) ?? en;
