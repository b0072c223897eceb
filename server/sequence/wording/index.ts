/** The languages in which findings are told. Another language is another file with the same exports. */
import * as de from './de.js';
import * as en from './en.js';

/** Everything that is said of findings, in one language. */
export type Wording = typeof en;

export const WORDINGS: Readonly<Record<string, Wording>> = { en, de };

/** The wording for a language tag such as `de-AT`; English where a language is not known. */
export const wordingFor = (locale: string | undefined): Wording =>
  WORDINGS[locale?.toLowerCase().split(/[-_]/)[0] ?? 'en'] ?? en;
