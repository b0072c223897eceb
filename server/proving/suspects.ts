/**
 * What a machine shows at the readings of a script with each of its faults.
 *
 * Invariant: whoever wants to know how a faulty machine runs asks here, so that a quicker way of running them serves all.
 */
import type { Gradual } from '../../grammar/gradual.js';
import { type Fault, faultsOf, isWithinReach, type Profile } from '../machine/index.js';
import { type Expecting, expectingsIn, type Look, type Looked, shownOf } from '../sequence/looks.js';
import { type RunOrder, runGradually } from '../sequence/run.js';

/** A machine with one fault, and where somebody looks at it. */
export interface Suspect {
  readonly fault: Fault;
  /** As far as it comes: a step that never ends is the last. */
  readonly expectings: readonly Expecting[];
  readonly brokeOff: boolean;
}

/** The faults that a machine can have and that can ever act. */
export const faultsWithinReach = (profile: Profile): Fault[] =>
  faultsOf(profile).filter((fault) => isWithinReach(fault, profile));

/** The script once with each fault, with pauses. */
export function* suspectsOf(order: RunOrder, faults: readonly Fault[]): Gradual<Suspect[]> {
  const suspects: Suspect[] = [];
  for (const fault of faults) {
    const done = yield* runGradually({ ...order, fault });
    suspects.push({ fault, expectings: expectingsIn(done), brokeOff: done.brokeOff });
    yield;
  }
  return suspects;
}

/** What is shown at one `expect`; undefined where the machine never comes there. */
export function shownAt(
  expectings: readonly Expecting[],
  at: number,
  what: Looked,
  profile: Profile,
): Look['shown'] | undefined {
  const expecting = expectings[at];
  return expecting && shownOf(what, expecting, profile);
}
