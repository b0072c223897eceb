/** Whether a sequence can be judged, and what would catch the faults that it leaves uncaught. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Fault } from '../machine/index.js';
import { type SequenceReport, workOf } from '../sequence/check.js';
import { isLooking } from '../sequence/looks.js';
import type { Run } from '../sequence/run.js';
import { type Addition, additionFor, type Place } from './additions.js';
import type { Coverage } from './coverage.js';

/** Steps and turns of a script beyond which it is not tried on every fault. */
export const MOST_WORK = 250_000;

export type Unproved =
  /** Nobody reads anything in it. */
  | 'nobody-looks'
  /** It can't be run, or one of its steps never ends. */
  | 'not-run'
  | 'too-long';

/** Why there is nothing to be said of what a sequence catches; undefined if there is. */
export function unproved({ profile, runs }: Pick<SequenceReport, 'profile' | 'runs'>): Unproved | undefined {
  if (!profile || runs.length === 0 || runs.some(({ brokeOff }) => brokeOff)) return 'not-run';
  if (!runs.some(looksAnywhere)) return 'nobody-looks';
  return workOf({ runs }) > MOST_WORK ? 'too-long' : undefined;
}

function looksAnywhere({ tape }: Run): boolean {
  for (let row = 0; row < tape.length; row++) if (isLooking(tape.stepAt(row))) return true;
  return false;
}

/** What would catch some faults, the same for all of them. */
export interface Proposal {
  /** Nothing where no few steps were found. */
  readonly addition?: Addition & { readonly run: number };
  readonly faults: readonly Fault[];
}

/** For each fault within reach that goes uncaught the shortest addition, those that are the same put together, the least to add first. */
export function* proposalsFor({ judged, trials }: Coverage): Gradual<Proposal[]> {
  const proposals = new Map<string, Proposal & { faults: Fault[] }>();
  for (const { fault, caught, isWithinReach } of judged) {
    if (caught || !isWithinReach) continue;
    const addition = yield* additionFor(trials, fault);
    const step = addition && 'step' in addition.place ? addition.place.step : undefined;
    const key = addition ? `${addition.run} ${step?.line} ${step?.syntax.from} ${addition.lines.join('; ')}` : '';
    const known = proposals.get(key);
    if (known) known.faults.push(fault);
    else proposals.set(key, { ...(addition && { addition }), faults: [fault] });
    yield;
  }
  const rank = ({ addition }: Proposal) => (addition ? PLACES.indexOf(addition.place.is) : PLACES.length);
  return [...proposals.values()].sort((a, b) => rank(a) - rank(b));
}

/** From what is least to add to what is most. */
const PLACES: readonly Place['is'][] = ['into', 'after', 'at-end', 'apart'];
