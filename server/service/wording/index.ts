/** The languages that the editor's features speak. */
import { languageOf } from '../../sequence/wording/index.js';
import { de } from './de.js';
import { en, type Words } from './en.js';

export type { Words } from './en.js';

const LANGUAGES: ReadonlyMap<string, Words> = new Map([
  ['en', en],
  ['de', de],
]);

/** The words for a language tag such as `de-AT`; English where a language is not known. */
export const wordsFor = (locale: string | undefined): Words => LANGUAGES.get(languageOf(locale)) ?? en;
