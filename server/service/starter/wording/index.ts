/** The languages in which a file can be begun. They stand apart, so that the command line has no more than it needs. */
import { languageOf } from '../../../sequence/wording/index.js';
import { starter as de } from './de.js';
import { starter as en } from './en.js';

export type StarterWords = typeof en;

const LANGUAGES: ReadonlyMap<string, StarterWords> = new Map([
  ['en', en],
  ['de', de],
]);
export const STARTER_LANGUAGES = [...LANGUAGES.keys()];

/** The words for a language tag such as `de-AT`; English where a language is not known. */
export const starterWords = (locale: string | undefined): StarterWords => LANGUAGES.get(languageOf(locale)) ?? en;
