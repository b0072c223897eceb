/** The languages that the editor's features speak. */
import { de } from './de.js';
import { en, type Words } from './en.js';

export type { Words } from './en.js';

const LANGUAGES: Readonly<Record<string, Words>> = { en, de };

/** The words for a language tag such as `de-AT`; English where a language is not known. */
export const wordsFor = (locale: string | undefined): Words =>
  LANGUAGES[locale?.toLowerCase().split(/[-_]/)[0] ?? 'en'] ?? en;
