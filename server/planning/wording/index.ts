/** The languages in which plans are told. Another language is another file with the same exports. */
import { languageOf } from '../../sequence/wording/index.js';
import * as de from './de.js';
import * as en from './en.js';

/** Everything that is said of plans, in one language. */
export type PlanWording = typeof en;

const WORDINGS: ReadonlyMap<string, PlanWording> = new Map<string, PlanWording>([
  ['en', en],
  ['de', de],
]);

/** The wording for a language tag such as `de-AT`; English where a language is not known. */
export const planWording = (locale: string | undefined): PlanWording => WORDINGS.get(languageOf(locale)) ?? en;
