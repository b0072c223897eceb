/**
 * What a sequence would catch: each fault of its machine tried by itself, and every reading compared.
 *
 * No fault is cranked from the start. A machine with a fault does what the sound one does up to the first step in which
 * the fault may act (acts.ts): it is taken up there from the sound machine's state, and cranked until a reading differs
 * or both stand alike again, which leads on to the next step in which it may act. So a fault costs a look at what is kept
 * of every step, and those steps alone in which the two machines differ.
 */
import type { Gradual } from '../../grammar/gradual.js';
import {
  type Fault,
  faultsOf,
  isWithinReach,
  LEVERS,
  MECHANISMS,
  type MechanismPart,
  mechanismOf,
  OF_THE_STEP,
  OVERDRAWN,
  OVERFLOWED,
  type Profile,
  RANG,
  type State,
  TURNS,
  WRAPS,
} from '../machine/index.js';
import { isLooking, lookingsIn, type Moment, partingOf, seesDifference } from '../sequence/looks.js';
import { type Point, Resumed } from '../sequence/resumed.js';
import { type Run, runGradually } from '../sequence/run.js';
import { Acts } from './acts.js';
import { Course } from './course.js';

/** Where a fault is caught first. */
export interface Caught {
  /** Which of the runs, counted from 0. */
  readonly run: number;
  /** The row of the sound machine's tape in which somebody reads something else, or which never ends with the fault. */
  readonly row: number;
  readonly neverEnds: boolean;
}

export interface Judged {
  readonly fault: Fault;
  readonly isWithinReach: boolean;
  /** Undefined where nobody would notice. */
  readonly caught?: Caught;
}

export interface Tally {
  readonly caught: number;
  /** All that are within reach. */
  readonly all: number;
}

export interface Coverage {
  readonly profile: Profile;
  /** The runs, to try more on them. */
  readonly trials: readonly Trial[];
  /** Every fault of the machine, in the order of `faultsOf`. */
  readonly judged: readonly Judged[];
  readonly total: Tally;
  /** Only parts that the machine has. */
  readonly byMechanism: ReadonlyMap<MechanismPart, Tally>;
}

/** Steps and turns that a fault may take between two pauses of the judge. */
const WORK_BETWEEN_PAUSES = 20_000;

/**
 * Judges runs of the sound machine together as one script: a fault is caught if any of them catches it. They are all of
 * one machine, at least one, and none broke off.
 */
export function* coverageOf(runs: readonly Run[]): Gradual<Coverage> {
  const { profile } = runs[0].order;
  const trials: Trial[] = [];
  for (const run of runs) {
    const course = new Course(run);
    trials.push(new Trial(course, yield* Acts.in(course)));
  }
  const judged: Judged[] = [];
  for (const fault of faultsOf(profile)) {
    judged.push({ fault, isWithinReach: isWithinReach(fault, profile), ...(yield* judge(trials, fault)) });
    yield;
  }
  return { profile, trials, judged, ...tallied(judged) };
}

function* judge(trials: readonly Trial[], fault: Fault): Gradual<{ caught?: Caught }> {
  for (const [run, trial] of trials.entries()) {
    const { caught } = yield* trial.judge(fault);
    if (caught) return { caught: { run, ...caught } };
  }
  return {};
}

function tallied(judged: readonly Judged[]): Pick<Coverage, 'total' | 'byMechanism'> {
  const within = judged.filter((one) => one.isWithinReach);
  const tally = (some: readonly Judged[]): Tally => ({
    caught: some.filter(({ caught }) => caught !== undefined).length,
    all: some.length,
  });
  const byMechanism = new Map<MechanismPart, Tally>();
  for (const part of MECHANISMS) {
    const ofPart = within.filter(({ fault }) => mechanismOf(fault) === part);
    if (ofPart.length > 0) byMechanism.set(part, tally(ofPart));
  }
  return { total: tally(within), byMechanism };
}

/** Where the two machines stand after a step, if they do not stand alike; good only while it is called. */
export type Apart = (at: number, sound: Moment, faulty: Moment) => void;

/** What became of a machine with a fault: it was caught, or it came to the end. */
export type Verdict =
  | { readonly caught: Omit<Caught, 'run'>; readonly end?: undefined }
  | { readonly caught?: undefined; readonly end: Point };

/** One run, in which faults are tried one after the other. */
export class Trial {
  constructor(
    readonly course: Course,
    private readonly acts: Acts,
  ) {}

  /**
   * Whether a fault is caught, and where; `apart` is told of every step before that after which the machines differ. With
   * `goesOn` it is cranked to the end although it is caught, and only a step that never ends is told as that.
   */
  *judge(fault: Fault, apart?: Apart, goesOn = false): Gradual<Verdict> {
    const { course, acts } = this;
    const { profile } = course.run.order;
    // Where rounds were left out, a machine with a fault might have carried them out.
    if (course.run.tape.leftRounds) return yield* judgeWhole(course.run, fault);
    let at = acts.next(fault, 0);
    if (at === course.length) return { end: course.pointBefore(at) };
    const faulty = new Resumed({ ...course.run.order, fault });
    faulty.take(course.pointBefore(at));
    let untilPause = WORK_BETWEEN_PAUSES;
    while (at < course.length) {
      const step = course.steps[at];
      if (!faulty.carryOutStep(step)) return { caught: { row: lastRowOf(course, at), neverEnds: true } };
      const sound = course.momentAfter(at);
      if (!goesOn && isLooking(step) && seesDifference(step, sound, faulty, profile)) {
        return { caught: { row: course.firstRows[at], neverEnds: false } };
      }
      at++;
      if (standAlike(sound, faulty)) {
        const from = course.pointBefore(at);
        at = acts.next(fault, at);
        const to = course.pointBefore(at);
        faulty.skip(to, to.rows - from.rows, to.turns - from.turns);
      } else apart?.(at - 1, sound, faulty);
      untilPause -= 1 + faulty.state[TURNS];
      if (untilPause > 0) continue;
      untilPause = WORK_BETWEEN_PAUSES;
      yield;
    }
    return { end: faulty.point };
  }
}

/** The same by cranking all of it. */
function* judgeWhole(sound: Run, fault: Fault): Gradual<Verdict> {
  const faulty = yield* runGradually({ ...sound.order, fault });
  const at = partingOf(sound, faulty);
  if (at === undefined) return { end: new Course(faulty).end };
  const neverEnds = at >= lookingsIn(faulty).length;
  return { caught: { row: neverEnds ? Math.max(0, faulty.tape.length - 1) : lookingsIn(sound)[at].row, neverEnds } };
}

/** A step that stands for others may have no row of its own: then it is the one before. */
const lastRowOf = ({ firstRows }: Course, at: number): number => Math.max(0, firstRows[at + 1] - 1);

/** What of the step before may still be read. */
const READABLE = RANG | OVERFLOWED | OVERDRAWN;

/** Whether two machines will go on alike: all is the same that any later step may depend on. */
function standAlike(one: Moment, other: Moment): boolean {
  return ((one.happened ^ other.happened) & READABLE) === 0 && isSame(one.state, other.state);
}

function isSame(one: State, other: State): boolean {
  if (((one[LEVERS] ^ other[LEVERS]) & ~OF_THE_STEP) !== 0) return false;
  // Wraps are told and decide nothing.
  for (let i = 0; i < WRAPS; i++) if (i !== LEVERS && one[i] !== other[i]) return false;
  return true;
}
