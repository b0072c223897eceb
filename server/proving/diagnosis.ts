/**
 * What a bench record says of the machine: sound as far as was looked, or which single faults explain all that was found.
 *
 * Invariant: a reading that was not noted explains nothing and excludes nothing.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { Fault, Profile } from '../machine/index.js';
import { type BenchReport, isPass, type Noted } from '../sequence/bench.js';
import { workOf } from '../sequence/check.js';
import { type Look, lookedIn } from '../sequence/looks.js';
import type { Run, RunOrder } from '../sequence/run.js';
import { type NextStep, nextStep } from './next-step.js';
import { MOST_WORK } from './script.js';
import { faultsWithinReach, type Suspect, shownAt, suspectsOf } from './suspects.js';

/** A fault and how it fits what was found. */
export interface Fitting {
  readonly fault: Fault;
  /** How many of the readings noted it explains. */
  readonly explained: number;
  /** The first reading noted that it does not explain, and what it would have shown there (nothing: it never comes so far). */
  readonly parts?: Parting;
}

export interface Parting {
  readonly noted: Noted;
  readonly shown?: Look['shown'];
}

export type Verdict =
  /** There is no reading that could be used. */
  | 'nothing-noted'
  /** The script takes too long to be tried with every fault. */
  | 'too-long'
  /** All that was noted is as on the sound machine. */
  | 'pass'
  /** Some single faults explain all that was noted. */
  | 'explained'
  /** No single fault does. */
  | 'unexplained';

export interface Diagnosis {
  readonly verdict: Verdict;
  readonly noted: readonly Noted[];
  /** Where the sound machine parts from what was found; none in a pass. */
  readonly soundParts?: Parting;
  /** Faults that explain all, the likeliest first; in a pass those that nothing noted would have shown. */
  readonly explaining: readonly Fitting[];
  /** Where none does: those that explain the most, if any explains more than the sound machine. */
  readonly nearest: readonly Fitting[];
  /** How many faults the machine can have that can ever act. */
  readonly faults: number;
  /** What to try next to tell those that explain all from one another. */
  readonly next?: NextStep;
}

/** Undefined where the script can't be run on the record's machine; why, its findings say. */
export function* diagnose(bench: BenchReport): Gradual<Diagnosis | undefined> {
  const { run, noted } = bench;
  if (!run) return undefined;
  const isIdle = noted.length === 0 || isTooLong(run);
  const suspects = isIdle ? [] : yield* suspectsOf(run, faultsWithinReach(run.order.profile));
  return yield* diagnoseAmong(bench, run.order, suspects);
}

/** Whether a script takes too much work to be tried with every fault. */
export const isTooLong = (run: Run): boolean => workOf({ runs: [run] }) > MOST_WORK;

/** The same where it is known what the script shows with each fault: several records may be of one script. */
export function* diagnoseAmong(bench: BenchReport, order: RunOrder, suspects: readonly Suspect[]): Gradual<Diagnosis> {
  const { noted } = bench;
  const base = { noted, faults: suspects.length, nearest: [], explaining: [] };
  if (noted.length === 0) return { ...base, verdict: 'nothing-noted' };
  if (bench.run && isTooLong(bench.run)) return { ...base, verdict: 'too-long' };
  const fits = suspects.map((suspect) => ({ suspect, ...fittingOf(suspect, noted, order.profile) }));
  const all = fits.filter(({ parts }) => parts === undefined);
  if (isPass(bench)) return { ...base, verdict: 'pass', explaining: all.map(withoutSuspect) };
  const soundFit = fitting(noted, ({ sound }) => sound);
  const soundParts = soundFit.parts;
  const common = { ...base, ...(soundParts && { soundParts }) };
  if (all.length === 0) {
    const most = Math.max(...fits.map(({ explained }) => explained));
    const nearest = most > soundFit.explained ? fits.filter(({ explained }) => explained === most) : [];
    return { ...common, verdict: 'unexplained', nearest: nearest.map(withoutSuspect) };
  }
  const ranked = rank(
    all.map(({ suspect }) => suspect),
    bench,
    order,
  );
  const next = ranked.length > 1 ? yield* nextStep(bench, order, ranked) : undefined;
  const explaining = ranked.map(({ fault }) => ({ fault, explained: noted.length }));
  return { ...common, verdict: 'explained', explaining, ...(next && { next }) };
}

const withoutSuspect = ({ fault, explained, parts }: Fitting): Fitting => ({
  fault,
  explained,
  ...(parts && { parts }),
});

function fittingOf({ fault, expectings }: Suspect, noted: readonly Noted[], profile: Profile): Fitting {
  return { fault, ...fitting(noted, ({ at, what }) => shownAt(expectings, at, what, profile)) };
}

/** How a machine that shows this fits what was noted. */
function fitting(
  noted: readonly Noted[],
  shownOf: (one: Noted) => Look['shown'] | undefined,
): Pick<Fitting, 'explained' | 'parts'> {
  let explained = 0;
  let parts: Parting | undefined;
  const inOrder = [...noted].sort((a, b) => a.at - b.at);
  for (const one of inOrder) {
    const shown = shownOf(one);
    if (shown === one.shown) explained++;
    else parts ??= { noted: one, ...(shown !== undefined && { shown }) };
  }
  return { explained, ...(parts && { parts }) };
}

/**
 * Who cranks a script notes what looks wrong. A fault that would have shown at many readings that nobody noted is less
 * likely than one that shows where something was noted, and nowhere else.
 */
function rank(suspects: readonly Suspect[], { expectings, noted }: BenchReport, { profile }: RunOrder): Suspect[] {
  const isNoted = new Set(noted.map(({ at, what }) => `${at} ${what}`));
  const unseen = (suspect: Suspect): number => {
    let parting = 0;
    for (const [at, { step }] of expectings.entries()) {
      for (const item of step.syntax.items) {
        const what = lookedIn(item);
        if (isNoted.has(`${at} ${what}`)) continue;
        const sound = shownAt(expectings, at, what, profile);
        if (sound !== shownAt(suspect.expectings, at, what, profile)) parting++;
      }
    }
    return parting;
  };
  return suspects
    .map((suspect) => ({ suspect, weight: unseen(suspect) }))
    .sort((a, b) => a.weight - b.weight)
    .map(({ suspect }) => suspect);
}
