/** The languages in which adaptations are told. */
import { languageOf } from '../../../sequence/wording/index.js';
import type { AdaptWording } from '../facts.js';
import { german } from './de.js';
import { english } from './en.js';

const WORDINGS: ReadonlyMap<string, AdaptWording> = new Map([
  ['en', english],
  ['de', german],
]);

/** The wording for a language tag such as `de-AT`; English where a language is not known. */
export const adaptWording = (language: string | undefined): AdaptWording =>
  WORDINGS.get(languageOf(language)) ?? english;
