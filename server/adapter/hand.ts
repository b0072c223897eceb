/** What somebody does by hand in the middle of a session: the run is made anew, with it in its place. */
import type { Gradual } from '../../grammar/gradual.js';
import { print } from '../../grammar/printer.js';
import type { StepSyntax } from '../../grammar/tree.js';
import { has, REFUSED } from '../machine/index.js';
import type { Reader } from '../service/document.js';
import { changes } from '../service/readings.js';
import type { ByHand } from '../stepping/stepped-run.js';
import type { Stand } from '../stepping/walk.js';
import { type Course, courseOf } from './course.js';

/** What came of it, or why nothing did, in a sentence. */
export type Outcome =
  | { readonly course: Course; readonly stand: Stand; readonly said: readonly string[] }
  | { readonly refused: string };

/** Does some steps by hand where one stands, one after the other; none of them, if the machine can't do one. */
export function* doByHand(
  course: Course,
  stand: Stand,
  steps: readonly StepSyntax[],
  reader: Reader,
): Gradual<Outcome> {
  const { byHand } = reader.words.stepping;
  const said: string[] = [];
  let now: { readonly course: Course; readonly stand: Stand } = { course, stand };
  for (const step of steps) {
    if (now.course.walk.isEnd(now.stand)) return { refused: byHand.atEnd };
    const done = yield* doOne(now.course, now.stand, step, reader);
    if ('refused' in done) return done;
    said.push(...done.said.filter((text) => !said.includes(text)));
    now = done;
  }
  return { ...now, said };
}

function* doOne(course: Course, stand: Stand, step: StepSyntax, reader: Reader): Gradual<Outcome> {
  const { byHand } = reader.words.stepping;
  const { timeline, stepped, errand } = course;
  const done = timeline.done(stand.moment);
  const own: ByHand = done.isWhole
    ? { row: done.row + 1, afterTurns: 0, step }
    : { row: done.row + 1, afterTurns: done.turns, step };
  const kept = stepped.byHand.filter(({ row }) => timeline.after(row) <= stand.moment);
  const next = yield* courseOf(errand, [...kept, own]);
  if (next.stepped.byHand.length <= kept.length) return { refused: byHand.notDone };
  const { tape } = next.timeline.run;
  const messages = next.stepped.happenings
    .filter(({ row }) => row === own.row)
    .map(({ facts }) => reader.wording.messageOf(facts));
  if (has(tape.lookAt(own.row), REFUSED)) return { refused: messages[0] ?? byHand.nothing };
  const moment = next.timeline.after(own.row);
  const before = timeline.stateAt(stand.moment);
  const changed = changes(before, next.timeline.stateAt(moment), errand.order.profile, reader.words);
  const text = changed.length > 0 ? `${changed.join(', ')}.` : byHand.nothing;
  return {
    course: next,
    stand: next.walk.near(moment, stand.depth),
    said: [
      byHand.done(print(tape.stepAt(own.row).syntax), text),
      ...messages,
      ...(kept.length < stepped.byHand.length ? [byHand.dropped] : []),
    ],
  };
}
