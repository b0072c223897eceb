/**
 * What would catch a fault that goes uncaught: one more reading where the machines already differ, or else a few steps
 * with a reading behind them.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { Section, Step } from '../../grammar/tree.js';
import { type Fault, newState } from '../machine/index.js';
import { isLooking } from '../sequence/looks.js';
import type { Point } from '../sequence/resumed.js';
import type { Frame } from '../sequence/tape.js';
import type { Course } from './course.js';
import type { Trial } from './coverage.js';
import { furtherSteps } from './further-steps.js';
import { isRegister, itemText, readingLine, whatDiffers } from './reading-steps.js';

/** Where something is to be added. */
export type Place =
  /** To what an `expect` reads already. */
  | { readonly is: 'into'; readonly step: Step }
  /** Behind a step as it is written; in the rounds of a `repeat` an `ask` may stand, and no `expect`. */
  | { readonly is: 'after'; readonly step: Step }
  | { readonly is: 'at-end' }
  /** In a sequence by itself: this one has a goal that must stand at its end. */
  | { readonly is: 'apart' };

export interface Addition {
  readonly place: Place;
  /** Steps as they are written; for `into` the item alone. The last one looks. */
  readonly lines: readonly string[];
}

/**
 * The shortest of the additions that were tried, and to which run; nothing where none of them catches the fault. Looking
 * where the machines differ anyway comes before further steps, which go behind the last run
 * that has no goal at its end.
 */
export function* additionFor(
  trials: readonly Trial[],
  fault: Fault,
): Gradual<(Addition & { readonly run: number }) | undefined> {
  let best: (Addition & { readonly run: number }) | undefined;
  const ends: Point[] = [];
  for (const [run, trial] of trials.entries()) {
    const look = yield* oneMoreLook(trial, fault);
    const { found, end } = look;
    if (end) ends.push(end);
    if (found && (!best || (found.place.is === 'into' && best.place.is !== 'into'))) best = { ...found, run };
  }
  if (best || ends.length < trials.length) return best;
  const open = trials.findLastIndex(({ course }) => !hasGoal(course));
  const run = open < 0 ? trials.length - 1 : open;
  const { course } = trials[run];
  const lines = yield* furtherSteps(course.run.order, fault, ...startsOf(course, ends[run]));
  return lines && { place: { is: hasGoal(course) ? 'apart' : 'at-end' }, lines, run };
}

/** Nothing may be put behind the steps of this one: its goal must stand at the end. */
export const hasGoal = ({ run }: Course): boolean => run.order.section.goals.length > 0;

const FRESH: Point = { state: newState(), happened: 0, rows: 0, turns: 0 };

/** From where on further steps are carried out: on the sound machine, and on a faulty one that has come to `end`. */
export const startsOf = (course: Course, end: Point): [sound: Point, faulty: Point] =>
  hasGoal(course) ? [FRESH, FRESH] : [course.end, end];

/** Also where the faulty machine comes to in the end, if nobody catches it before. */
export function* oneMoreLook(trial: Trial, fault: Fault): Gradual<{ found?: Addition; end?: Point }> {
  const { course } = trial;
  const { profile, section } = course.run.order;
  const hasCases = section.cases.length > 0;
  let found: Addition | undefined;
  const { end } = yield* trial.judge(fault, (at, sound, faulty) => {
    if (found?.place.is === 'into') return;
    const place = placeAfter(course, at);
    if (!place || (found && place.is !== 'into')) return;
    const isFixed = place.depth === 0 && !hasCases;
    const what = whatDiffers(sound, faulty, profile, isFixed && meansIt(place.step));
    if (!what) return;
    if (place.is === 'into' && isFixed) {
      found = { place: { is: 'into', step: place.step }, lines: [itemText(what, sound, profile)] };
    } else if (!found && !isLookedAtNext(course, at) && (isFixed || isRegister(what))) {
      found = { place: { is: 'after', step: place.step }, lines: [readingLine(what, sound, profile, isFixed)] };
    }
  });
  return { ...(found && { found }), ...(end && { end }) };
}

/** Then it is the next step, behind which one may look as well. */
const isLookedAtNext = ({ steps }: Course, at: number): boolean => at + 1 < steps.length && isLooking(steps[at + 1]);

/** Behind which step as written one may look once a step of the course is over; nowhere in a sequence run by this one. */
function placeAfter(course: Course, at: number) {
  const { tape, order } = course.run;
  const row = course.firstRows[at + 1] - 1;
  if (row < course.firstRows[at]) return undefined;
  let frame: Frame = tape.frameAt(row);
  let step = course.steps[at];
  if (frame.isOpened && frame.parent && frame.step) {
    step = frame.step;
    frame = frame.parent;
  }
  if (!isOwn(frame, order.section)) return undefined;
  return { is: step.syntax.kind === 'expect' ? 'into' : 'after', step, depth: frame.depth } as const;
}

/** An `expect` that says already that what happened was meant. */
const meansIt = ({ syntax }: Step): boolean =>
  syntax.kind === 'expect' &&
  syntax.items.some(({ kind }) => kind === 'overflow' || kind === 'overdraw' || kind === 'bell');

function isOwn(frame: Frame, section: Section): boolean {
  for (let one: Frame | undefined = frame; one; one = one.parent) if (one.section !== section) return false;
  return true;
}
