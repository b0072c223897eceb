/** Which fixes there are for which finding. */
import type { Gradual } from '../../../grammar/gradual.js';
import type { Placed } from '../../../grammar/tree.js';
import type { SequenceReport } from '../../sequence/check.js';
import type { Code, Facts, Finding } from '../../sequence/findings.js';
import type { AnalysedDocument } from '../document.js';
import type { Words } from '../wording/index.js';
import * as hands from './fixes-hands.js';
import { badInsetFixes, staleInsetFixes } from './fixes-insets.js';
import { profileFixes } from './fixes-machine.js';
import * as names from './fixes-names.js';
import * as numbers from './fixes-numbers.js';
import { readingFixes } from './fixes-readings.js';
import { syntaxFixes } from './fixes-text.js';
import * as turns from './fixes-turns.js';
import {
  type Around,
  type AroundStep,
  type Fix,
  onStep,
  type StepSubject,
  type Subject,
  subjectOf,
} from './subject.js';
import { type Budget, prove } from './trial.js';

type TextFixes = { readonly [C in Code]?: (subject: Subject<C>) => Fix[] };
type StepFixes = { readonly [C in Code]?: (subject: StepSubject<C>) => Fix[] };

/** For what is told of the text, whether or not it is run. */
const TEXT_FIXES: TextFixes = {
  syntax: syntaxFixes,
  'unknown-name': names.unknownNameFixes,
  'duplicate-name': names.duplicateNameFixes,
  'no-machine': names.noMachineFixes,
  'file-not-found': names.fileFixes,
  'bad-profile': profileFixes,
  'not-on-this-machine': hands.notHereFixes,
  unused: names.unusedFixes,
  'stale-inset': staleInsetFixes,
  'bad-inset': badInsetFixes,
};

/** For what is noticed at a step in a run. */
const STEP_FIXES: StepFixes = {
  'wrong-arguments': numbers.argumentFixes,
  'setting-too-long': numbers.tooLongFixes,
  'dial-too-long': numbers.tooLongFixes,
  'places-overlap': numbers.overlapFixes,
  'no-such-place': numbers.placeFixes,
  'too-many-decimals': numbers.decimalsFixes,
  'one-way-crank': turns.oneWayFixes,
  'carriage-end': hands.carriageEndFixes,
  'carriage-parked': hands.parkedFixes,
  'result-overflow': (subject) => turns.meantFix(subject, 'overflow'),
  'result-overdraw': turns.overdrawFixes,
  'overflow-restored': (subject) => turns.meantFix(subject, 'overflow'),
  'overdraw-restored': (subject) => turns.meantFix(subject, 'overdraw'),
  'counter-overflow': turns.counterOverflowFixes,
  'counter-underflow': turns.counterUnderflowFixes,
  'divide-in-add-mode': turns.addModeFixes,
  'auto-clear-repeat': (subject) => [hands.putBefore(subject, ['auto-clear off'])],
  'never-overdraws': turns.neverOverdrawsFixes,
  'never-stops': turns.neverStopsFixes,
  'transfer-position': (subject) => [hands.putBefore(subject, ['shift to 1'])],
  'transfer-onto-setting': (subject) => [hands.putBefore(subject, ['clear setting'])],
  'quotient-as-complement': turns.quotientFixes,
  'points-disagree': hands.pointsFixes,
  'reading-differs': readingFixes,
  'idle-turn': turns.idleFixes,
  'many-turns': turns.shiftFixes,
  'assumes-clear': hands.clearFixes,
  'left-engaged': hands.engagedFixes,
  'shorter-sequence': turns.shorterFixes,
};

/**
 * The fixes for a finding, the evident one first. What was noticed in a run is mended on trial, and nothing is offered
 * that leaves the finding as it is; what brings new errors is not called evident.
 */
export function* fixesFor(
  document: AnalysedDocument,
  placed: Placed,
  finding: Finding,
  words: Words['actions'],
  report: SequenceReport | undefined,
  budget: Budget,
): Gradual<Fix[]> {
  const fixes = untriedFixes(subjectOf(document, placed, finding, words), finding.facts, report);
  if (finding.case === undefined || !report) return fixes;
  const tried: Fix[] = [];
  for (const fix of fixes) {
    const proof = yield* prove(document, placed, fix.edits, finding, report, budget);
    if (proof === 'mended') tried.push(fix);
    else if (proof !== 'not-mended') tried.push({ ...fix, isPreferred: false, isSafe: false });
  }
  return tried;
}

/** The fixes that may be made unseen, not tried: they change nothing that a run could show. */
export const safeFixesFor = (
  document: AnalysedDocument,
  placed: Placed,
  finding: Finding,
  words: Words['actions'],
  report: SequenceReport | undefined,
): Fix[] =>
  untriedFixes(subjectOf(document, placed, finding, words), finding.facts, report).filter(
    ({ isPreferred, isSafe }) => isPreferred && isSafe,
  );

/** Codes some of whose fixes are safe: there is no need to look at other findings for those. */
export const isPossiblySafe = (code: Code): boolean =>
  code === 'syntax' ||
  code === 'bad-profile' ||
  code === 'not-on-this-machine' ||
  code === 'carriage-end' ||
  code === 'stale-inset';

function untriedFixes(around: Around, facts: Facts, report: SequenceReport | undefined): Fix[] {
  const { code } = facts;
  // A table has for each code a function of its own facts: that the two belong together is not seen by the types.
  const ofText = TEXT_FIXES[code] as ((subject: Around & { facts: Facts }) => Fix[]) | undefined;
  if (ofText) return ofText({ ...around, facts });
  const ofStep = STEP_FIXES[code] as ((subject: AroundStep & { facts: Facts }) => Fix[]) | undefined;
  const onThis = ofStep && onStep(around, report);
  return ofStep && onThis ? ofStep({ ...onThis, facts }) : [];
}
