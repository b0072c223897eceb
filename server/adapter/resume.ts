/** Going on in another run, because the text has changed. */
import { print } from '../../grammar/printer.js';
import type { Stand } from '../stepping/walk.js';
import type { Course } from './course.js';

/** Where another run of a changed text stands at the same step: the nearest one that reads the same, else the nearest. */
export function sameStand(before: Course, stand: Stand, now: Course): Stand {
  const { walk, timeline, stepped } = before;
  const own = walk.rowOf(stand);
  if (own >= walk.rows) return now.walk.end;
  // Done by hand between two turns, a step takes a row for itself and parts another one in two.
  const byHand = stepped.byHand.filter(({ row }) => row < own);
  const row = own - byHand.length - byHand.filter(({ afterTurns }) => afterTurns > 0).length;
  const text = print(timeline.run.tape.stepAt(own).syntax);
  const { tape } = now.timeline.run;
  for (let far = 0; far < Math.max(row + 1, tape.length); far++) {
    for (const one of [row - far, row + far]) {
      if (one >= 0 && one < tape.length && print(tape.stepAt(one).syntax) === text) {
        return now.walk.near(now.timeline.before(one), stand.depth);
      }
    }
  }
  return now.walk.near(now.timeline.before(Math.min(row, tape.length)), stand.depth);
}
