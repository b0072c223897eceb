/** What sequences would catch of their machine's faults, kept as long as they and their machine stay as they are. */
import { finish, type Gradual } from '../../grammar/gradual.js';
import { MECHANISMS } from '../machine/index.js';
import { type Coverage, coverageOf } from '../proving/coverage.js';
import { type Unproved, unproved } from '../proving/script.js';
import { provingWording } from '../proving/wording/index.js';
import { type SequenceReport, workOf } from '../sequence/check.js';
import type { Reader } from './document.js';

/** The figures alone: the runs are kept elsewhere. */
export type Proof = Pick<Coverage, 'total' | 'byMechanism'>;

/** Invariant: a report never changes, so that what was found out of it holds until there is another one. */
const KNOWN = new WeakMap<SequenceReport, Proof | Unproved>();

/** Steps and turns of a sequence that is tried while somebody waits for a hover. */
const MOST_WORK = 3_000;

export function* proofOf(report: SequenceReport): Gradual<Proof | Unproved> {
  const known = KNOWN.get(report);
  if (known) return known;
  const why = unproved(report);
  const found = why ?? (yield* figures(report));
  KNOWN.set(report, found);
  return found;
}

function* figures({ runs }: SequenceReport): Gradual<Proof> {
  const { total, byMechanism } = yield* coverageOf(runs);
  return { total, byMechanism };
}

/** For a hover: what is known already, or is found out in no time. */
export function proofAtHand(report: SequenceReport): Proof | undefined {
  const known = KNOWN.get(report);
  const proof = known ?? (workOf(report) <= MOST_WORK ? finish(proofOf(report)) : undefined);
  return isProof(proof) ? proof : undefined;
}

export const isProof = (proof: Proof | Unproved | undefined): proof is Proof => typeof proof === 'object';

/** Everything on one line: in total, and by the parts of the machine. */
export function proofText({ total, byMechanism }: Proof, { locale }: Reader): string {
  const { catches, part, ofAll } = provingWording(locale);
  const parts = MECHANISMS.flatMap((one) => {
    const tally = byMechanism.get(one);
    return tally ? [`${part[one]} ${ofAll(tally)}`] : [];
  });
  return `${catches(total)}: ${parts.join(', ')}`;
}
