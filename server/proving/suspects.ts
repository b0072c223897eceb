/**
 * What a machine shows at the readings of a script with each of its faults.
 *
 * Invariant: whoever wants to know how a faulty machine runs asks here, so that a quicker way of running them serves all.
 */
import type { Gradual } from '../../grammar/gradual.js';
import { type Fault, faultsOf, isWithinReach, type Profile } from '../machine/index.js';
import { type Expecting, expectingsIn, type Look, type Looked, type Moment, shownOf } from '../sequence/looks.js';
import { type Run, runGradually } from '../sequence/run.js';
import { Acts } from './acts.js';
import { Course } from './course.js';
import { Trial } from './coverage.js';

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

/**
 * The script with each fault, with pauses. Up to where a fault may act the machine is the sound one, which the run of
 * coverage makes use of; where rounds were left out, or the sound machine broke off, all is
 * cranked from the start.
 */
export function* suspectsOf(sound: Run, faults: readonly Fault[]): Gradual<Suspect[]> {
  const suspects: Suspect[] = [];
  const course = new Course(sound);
  const trial = sound.tape.leftRounds || sound.brokeOff ? undefined : new Trial(course, yield* Acts.in(course));
  const expectings = expectingsIn(sound);
  const indices = course.steps.flatMap(({ syntax }, at) => (syntax.kind === 'expect' ? [at] : []));
  for (const fault of faults) {
    suspects.push(yield* trial ? resumed(trial, fault, expectings, indices) : whole(sound, fault));
    yield;
  }
  return suspects;
}

/** Where the two machines stand apart, the faulty one's own; elsewhere it shows what the sound one does. */
function* resumed(
  trial: Trial,
  fault: Fault,
  sound: readonly Expecting[],
  indices: readonly number[],
): Gradual<Suspect> {
  const { steps } = trial.course;
  const own = new Map<number, Moment>();
  const { caught } = yield* trial.judge(
    fault,
    (at, _, { state, happened }) => {
      if (steps[at].syntax.kind === 'expect') own.set(at, { state: state.slice(), happened });
    },
    true,
  );
  const brokeOff = caught?.neverEnds === true;
  const reached = brokeOff ? sound.filter(({ row }) => row <= caught.row) : sound;
  const expectings = reached.map((one, i): Expecting => ({ ...one, ...own.get(indices[i]) }));
  return { fault, expectings, brokeOff };
}

/** The same by cranking all of it. */
function* whole({ order }: Run, fault: Fault): Gradual<Suspect> {
  const done = yield* runGradually({ ...order, fault });
  return { fault, expectings: expectingsIn(done), brokeOff: done.brokeOff };
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
