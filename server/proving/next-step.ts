/**
 * What to try next: the reading that splits the faults still in question best. A reading that the script asks for and
 * nobody noted comes first, then another register at one of its readings, then a few steps of their own.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { Fault, Profile } from '../machine/index.js';
import type { BenchReport } from '../sequence/bench.js';
import { type Look, type Looked, lookedIn } from '../sequence/looks.js';
import type { RunOrder } from '../sequence/run.js';
import { probesOn, shownByProbe } from './probes.js';
import { type Suspect, shownAt } from './suspects.js';

/** Where to look. */
export type NextLook =
  /** At a reading of the script, counted from 0; `isAsked` where its `expect` names that. */
  | { readonly is: 'reading'; readonly at: number; readonly what: Looked; readonly isAsked: boolean }
  /** After some steps of their own, which begin by clearing. */
  | { readonly is: 'steps'; readonly steps: readonly string[]; readonly what: Looked };

/** Faults that show the same there; nothing where they never come so far. */
export interface Class {
  readonly shown?: Look['shown'];
  readonly faults: readonly Fault[];
}

export type NextStep =
  | { readonly is: 'look'; readonly look: NextLook; readonly classes: readonly Class[] }
  /** Nothing that is known to be tried tells them apart. */
  | { readonly is: 'alike' };

interface Candidate {
  readonly look: NextLook;
  readonly shown: (suspect: Suspect) => Look['shown'] | undefined;
}

/** For two suspects or more. */
export function* nextStep(bench: BenchReport, order: RunOrder, suspects: readonly Suspect[]): Gradual<NextStep> {
  const { profile } = order;
  for (const candidates of [askedReadings(bench, profile), otherReadings(bench, profile)]) {
    const best = yield* bestOf(candidates, suspects);
    if (best) return best;
  }
  return (yield* bestOf(probing(profile), suspects)) ?? { is: 'alike' };
}

/** The candidate that leaves the fewest in question on the average; undefined if none splits them at all. */
function* bestOf(candidates: Iterable<Candidate>, suspects: readonly Suspect[]): Gradual<NextStep | undefined> {
  let best: NextStep | undefined;
  let least = suspects.length * suspects.length;
  for (const { look, shown } of candidates) {
    yield;
    const classes = split(suspects, shown);
    const left = classes.reduce((sum, { faults }) => sum + faults.length ** 2, 0);
    if (left >= least) continue;
    least = left;
    best = { is: 'look', look, classes };
    if (classes.length === suspects.length) break;
  }
  return best;
}

/** The suspects by what they show, in the order in which that comes up. */
export function split(suspects: readonly Suspect[], shownOf: (suspect: Suspect) => Look['shown'] | undefined): Class[] {
  const classes = new Map<Look['shown'] | undefined, Fault[]>();
  for (const suspect of suspects) {
    const shown = shownOf(suspect);
    const others = classes.get(shown);
    if (others) others.push(suspect.fault);
    else classes.set(shown, [suspect.fault]);
  }
  return Array.from(classes, ([shown, faults]) => ({ faults, ...(shown !== undefined && { shown }) }));
}

const LOOKED: readonly Looked[] = ['result', 'counter', 'setting', 'bell'];

function* askedReadings(bench: BenchReport, profile: Profile): Generator<Candidate> {
  for (const [at, { step }] of bench.expectings.entries()) {
    for (const item of step.syntax.items) {
      const what = lookedIn(item);
      if (!isNoted(bench, at, what)) yield readingAt(at, what, true, profile);
    }
  }
}

/** What the script does not ask for at its readings, and could be read there all the same. */
function* otherReadings(bench: BenchReport, profile: Profile): Generator<Candidate> {
  const looked = LOOKED.filter((what) => (what === 'bell' ? profile.bell : what !== 'counter' || profile.counter > 0));
  for (const at of bench.expectings.keys()) {
    for (const what of looked) if (!isNoted(bench, at, what)) yield readingAt(at, what, false, profile);
  }
}

const isNoted = ({ noted }: BenchReport, at: number, what: Looked): boolean =>
  noted.some((one) => one.at === at && one.what === what);

const readingAt = (at: number, what: Looked, isAsked: boolean, profile: Profile): Candidate => ({
  look: { is: 'reading', at, what, isAsked },
  shown: ({ expectings }) => shownAt(expectings, at, what, profile),
});

function* probing(profile: Profile): Generator<Candidate> {
  for (const probe of probesOn(profile)) {
    for (const what of probe.looks) {
      yield {
        look: { is: 'steps', steps: probe.steps, what },
        shown: ({ fault }) => shownByProbe(profile, probe, fault, what),
      };
    }
  }
}
