/** The languages in which findings are told. Another language is another file with the same exports. */
import * as de from './de.js';
import * as en from './en.js';

/** Everything that is said of findings, in one language. */
export type Wording = typeof en;

export const WORDINGS: ReadonlyMap<string, Wording> = new Map<string, Wording>([
  ['en', en],
  ['de', de],
]);

/** The wording for a language tag such as `de-AT`; English where a language is not known. */
export const wordingFor = (locale: string | undefined): Wording => WORDINGS.get(languageOf(locale)) ?? en;

/** The language of a tag, in small letters. */
export const languageOf = (locale: string | undefined): string => locale?.toLowerCase().split(/[-_]/)[0] ?? 'en';
