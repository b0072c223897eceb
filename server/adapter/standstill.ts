/** A session that stands still: the machine as it is there, and what one is inside of. */
import type { State } from '../machine/index.js';
import { type Effort, effortOf } from '../sequence/effort.js';
import type { Frame } from '../sequence/tape.js';
import type { Scene } from '../stepping/conditions.js';
import type { Stand } from '../stepping/walk.js';
import type { Course } from './course.js';

export class Standstill {
  readonly state: State;
  /** The innermost first, as a stack is shown. */
  readonly frames: readonly Frame[];

  constructor(
    readonly course: Course,
    readonly stand: Stand,
  ) {
    this.state = course.stateAt(stand);
    this.frames = course.walk.framesAt(stand).reverse();
  }

  /** What can be read in a frame, counted from the innermost. */
  scene(frame = 0): Scene {
    return this.course.sceneAt(this.stand, this.frames[frame] ?? this.frames[0], this.state);
  }

  /** The bell rang in the turn or step that led here. */
  get rang(): boolean {
    return this.course.timeline.glimpse(this.stand.moment).rang;
  }

  /** What the operator has done so far, with the turns of a step that is under way. */
  get effort(): Effort {
    const { timeline, stepped, errand } = this.course;
    const { row, turns, isWhole } = timeline.done(this.stand.moment);
    if (isWhole) return stepped.effortAfter(row);
    const before = stepped.effortAfter(row - 1);
    return effortOf(errand.order.profile, { ...before, turns: before.turns + turns });
  }

  /** Steps that are done, of all that the run has. */
  get steps(): { readonly done: number; readonly all: number } {
    const { row, isWhole } = this.course.timeline.done(this.stand.moment);
    return { done: isWhole ? row + 1 : row, all: this.course.walk.rows };
  }
}
