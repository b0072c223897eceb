/**
 * Going through a run: where one may stand in it, and which stand is the next one.
 *
 * A stand is a moment and how deep one looks at it. `repeat`, `run`, `multiply` and `divide` keep no row of their own:
 * where the first row inside them begins, one may stand before the whole of it, or inside.
 *
 * Invariant: stands have an order, and every way to go leads from one of them to another of the same run.
 */
import type { Step } from '../../grammar/tree.js';
import type { Frame } from '../sequence/tape.js';
import type { Timeline } from './timeline.js';

export interface Stand {
  /** As the timeline counts them. */
  readonly moment: number;
  /** The depth of the frame in which one stands; 0 in the sequence itself. */
  readonly depth: number;
  /** The step that led here is still looked at, for something was noticed in it. */
  readonly isDone?: true;
}

export const isSameStand = (a: Stand, b: Stand): boolean =>
  a.moment === b.moment && a.depth === b.depth && a.isDone === b.isDone;

export class Walk {
  /** The frame of each row, by its number. */
  private readonly frameIds: Int32Array;

  constructor(readonly timeline: Timeline) {
    const { tape } = timeline.run;
    this.frameIds = new Int32Array(tape.length);
    for (let row = 0; row < tape.length; row++) this.frameIds[row] = tape.frameAt(row).id;
  }

  get rows(): number {
    return this.frameIds.length;
  }

  get start(): Stand {
    return this.firstAt(0);
  }

  get end(): Stand {
    return { moment: this.timeline.length - 1, depth: 0 };
  }

  /** Past the last step. */
  isEnd({ moment, isDone }: Stand): boolean {
    return moment === this.timeline.length - 1 && !isDone;
  }

  /** Turns of the step are made, and others are left. */
  isMidway({ moment, isDone }: Stand): boolean {
    return !isDone && !this.timeline.done(moment).isWhole;
  }

  /** The row that is looked at: the next one, or that which is under way or just done. */
  rowOf({ moment, isDone }: Stand): number {
    return isDone ? this.timeline.done(moment).row : this.timeline.next(moment);
  }

  /** The frame in which a row's own step stands. */
  frameOf(row: number): Frame {
    const { frames } = this.timeline.run.tape;
    return frames[row < this.rows ? this.frameIds[row] : 0];
  }

  /** The frames in which one stands, the sequence itself first. */
  framesAt(stand: Stand): Frame[] {
    return this.chainOf(this.rowOf(stand)).slice(0, stand.depth + 1);
  }

  /** The step that is looked at: one of a row, or one that holds or stands for others. Undefined at the end. */
  stepAt(stand: Stand): Step | undefined {
    const row = this.rowOf(stand);
    if (row >= this.rows) return undefined;
    const chain = this.chainOf(row);
    return stand.depth < chain.length - 1 ? chain[stand.depth + 1].step : this.timeline.run.tape.stepAt(row);
  }

  /** One stands before a step that holds or stands for others. */
  isBeforeOthers(stand: Stand): boolean {
    const row = this.rowOf(stand);
    return row < this.rows && !stand.isDone && stand.depth < this.frameOf(row).depth;
  }

  /** The stand at which a row's own step is done and still looked at. */
  doneAt(row: number): Stand {
    return { moment: this.timeline.after(row), depth: this.frameOf(row).depth, isDone: true };
  }

  /** All stands before a row is begun, the outermost first. */
  standsBefore(row: number): Stand[] {
    const moment = this.timeline.before(row);
    if (row >= this.rows) return [this.end];
    const first = this.firstDepth(row);
    return Array.from({ length: this.frameOf(row).depth - first + 1 }, (_, i) => ({ moment, depth: first + i }));
  }

  /** A stand at a moment that is as deep as wanted, if there is one. */
  near(moment: number, depth: number): Stand {
    const clamped = this.timeline.clamped(moment);
    const first = this.firstAt(clamped);
    return { moment: clamped, depth: Math.max(first.depth, Math.min(depth, this.lastAt(clamped).depth)) };
  }

  /** Negative where the first comes before the second. */
  compare(a: Stand, b: Stand): number {
    const rank = ({ depth, isDone }: Stand) => (isDone ? -1 : depth);
    return a.moment - b.moment || rank(a) - rank(b);
  }

  // --- ways to go ---------------------------------------------------------------------------------------------------

  /** The very next one: inside, a turn further, or a step further. Undefined at the end. */
  into(stand: Stand): Stand | undefined {
    if (stand.isDone) return this.firstAt(stand.moment);
    if (stand.depth < this.lastAt(stand.moment).depth) return { moment: stand.moment, depth: stand.depth + 1 };
    return this.isEnd(stand) ? undefined : this.firstAt(stand.moment + 1);
  }

  /** The one that leads here by `into`. Undefined at the start. */
  outOf(stand: Stand): Stand | undefined {
    if (!stand.isDone && stand.depth > this.firstAt(stand.moment).depth) {
      return { moment: stand.moment, depth: stand.depth - 1 };
    }
    return stand.moment > 0 ? this.lastAt(stand.moment - 1) : undefined;
  }

  /** Past the present line, and all that is inside it. Undefined at the end. */
  over(stand: Stand): Stand | undefined {
    if (this.isEnd(stand)) return undefined;
    const { depth } = stand;
    for (let row = this.rowOf(stand) + 1; row < this.rows; row++) {
      const first = this.firstDepth(row);
      if (first > depth) continue;
      const next = { moment: this.timeline.before(row), depth: first };
      if (!this.isSameLine(stand, next)) return next;
    }
    return this.end;
  }

  /** Past all rounds of what one is inside of; within a step of several turns, past that step. Undefined at the end. */
  out(stand: Stand): Stand | undefined {
    if (this.isEnd(stand)) return undefined;
    const row = this.rowOf(stand);
    if (this.isMidway(stand)) return this.firstAt(this.timeline.after(row));
    for (let next = row + 1; next < this.rows && stand.depth > 0; next++) {
      const first = this.firstDepth(next);
      if (first < stand.depth) return { moment: this.timeline.before(next), depth: first };
    }
    return this.end;
  }

  /**
   * Back to the line before, as `over` leads here; within a step's turns by one turn, and from the first step inside
   * something to the whole of it. Undefined at the start.
   */
  back(stand: Stand): Stand | undefined {
    const row = this.rowOf(stand);
    if (stand.isDone) return { moment: this.timeline.before(row), depth: stand.depth };
    if (this.isMidway(stand)) return { moment: stand.moment - 1, depth: stand.depth };
    if (row < this.rows && stand.depth > this.firstDepth(row)) return { moment: stand.moment, depth: stand.depth - 1 };
    let found = this.standAbove(row, stand.depth);
    for (let line = found; line && this.firstDepth(this.rowOf(line)) === line.depth; ) {
      line = this.standAbove(this.rowOf(line), line.depth);
      if (!line || !this.isSameLine(found as Stand, line)) break;
      found = line;
    }
    return found;
  }

  /** The last stand before a row that is no deeper. */
  private standAbove(row: number, depth: number): Stand | undefined {
    for (let above = row - 1; above >= 0; above--) {
      if (this.firstDepth(above) > depth) continue;
      return { moment: this.timeline.before(above), depth: Math.min(depth, this.frameOf(above).depth) };
    }
    return undefined;
  }

  /** Two steps of one frame stand on one line. What `multiply` stands for has no lines: each step counts as one. */
  private isSameLine(a: Stand, b: Stand): boolean {
    const frame = this.framesAt(a).at(-1);
    if (a.depth !== b.depth || frame?.isOpened || frame !== this.framesAt(b).at(-1)) return false;
    return this.stepAt(a)?.line === this.stepAt(b)?.line;
  }

  private firstAt(moment: number): Stand {
    const { isWhole } = this.timeline.done(moment);
    const row = this.timeline.next(moment);
    return { moment, depth: isWhole ? this.firstDepth(row) : this.frameOf(row).depth };
  }

  private lastAt(moment: number): Stand {
    return { moment, depth: this.frameOf(this.timeline.next(moment)).depth };
  }

  /** How deep one stands before anything that begins with a row. */
  private firstDepth(row: number): number {
    const frame = this.frameOf(row);
    if (row >= this.rows || (row > 0 && this.frameIds[row] === this.frameIds[row - 1])) return frame.depth;
    const before = row > 0 ? this.frameOf(row - 1) : undefined;
    let { depth } = frame;
    for (let inner = frame; inner.parent; inner = inner.parent) {
      // A further round has begun, or what is around it has begun before.
      if ((inner.round ?? 1) > 1 || ancestor(before, inner.depth) === inner) break;
      depth = inner.depth - 1;
    }
    return depth;
  }

  private chainOf(row: number): Frame[] {
    const chain: Frame[] = [];
    for (let frame: Frame | undefined = this.frameOf(row); frame; frame = frame.parent) chain.push(frame);
    return chain.reverse();
  }
}

function ancestor(frame: Frame | undefined, depth: number): Frame | undefined {
  let found = frame;
  while (found && found.depth > depth) found = found.parent;
  return found?.depth === depth ? found : undefined;
}
