/** The frames of a session that stands still: what one is inside of, and where that is written. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { print } from '../../grammar/printer.js';
import type { Span, Step } from '../../grammar/tree.js';
import { TURNS } from '../machine/index.js';
import { wholeOf } from '../sequence/readings.js';
import type { Frame } from '../sequence/tape.js';
import type { Reader } from '../service/document.js';
import { onOneLine } from '../service/markdown.js';
import type { Stand } from '../stepping/walk.js';
import { sourceOf } from './addresses.js';
import type { Course } from './course.js';
import type { Positions } from './positions.js';

/** A frame with its name; lines and columns from 0. */
export interface FrameTold {
  readonly frame: Frame;
  readonly name: string;
  readonly uri: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** The frames of a stand, the innermost first: its name says the step that is looked at. */
export function framesTold(course: Course, stand: Stand, reader: Reader): FrameTold[] {
  const frames = course.walk.framesAt(stand);
  const told = frames.map((frame, i): FrameTold => {
    const inner = frames[i + 1];
    const step = inner ? inner.step : course.walk.stepAt(stand);
    const name = inner ? nameOfFrame(course, frame, reader) : nameOfInnermost(course, stand, frame, reader);
    return { frame, name, ...placeIn(course, frame, step) };
  });
  return told.reverse();
}

/** The same as a client is told of it, by a number that it is known by. */
export function stackFrameOf(
  { name, uri, line, from, to }: FrameTold,
  id: number,
  positions: Positions,
): DebugProtocol.StackFrame {
  const { line: endLine, column: endColumn } = positions.told(line, to);
  return { id, name: onOneLine(name), source: sourceOf(uri), ...positions.told(line, from), endLine, endColumn };
}

/** Where a step is written; a step that stands nowhere is that which it belongs to. */
function placeIn(course: Course, frame: Frame, step: Step | undefined): Omit<FrameTold, 'frame' | 'name'> {
  const outer = frame.isOpened ? frame.step : undefined;
  const { uri, line } = course.placeOf(frame.section);
  const { section } = frame;
  const last = section.kind === 'sequence' ? section.steps.at(-1) : undefined;
  const at = outer ?? step ?? last;
  if (!at) return { uri, line, from: 0, to: 0 };
  const { from, to }: Span = at.syntax;
  return { uri, line: line + at.line, from, to };
}

function nameOfFrame(course: Course, frame: Frame, { words }: Reader): string {
  const { frames } = words.stepping;
  const { parent, step } = frame;
  if (!parent || !step) {
    const { order } = course.errand;
    return order.case > 0 ? frames.inCase(course.name, order.case) : course.name;
  }
  const round = roundOf(frame);
  const text = withoutBrace(print(step.syntax));
  return round ? frames.round(text, ...round) : text;
}

/** The step that is looked at, and what one is inside of: a list has little room. */
function nameOfInnermost(course: Course, stand: Stand, frame: Frame, reader: Reader): string {
  const { frames } = reader.words.stepping;
  const step = nameOfStep(course, stand, course.walk.stepAt(stand), reader);
  const round = roundOf(frame);
  return round ? frames.inRound(step, ...round) : frames.inside(step, nameOfFrame(course, frame, reader));
}

/** Which round of a `repeat` it is, and of how many. */
function roundOf({ step, round }: Frame): readonly [number, number] | undefined {
  if (step?.syntax.kind !== 'repeat' || round === undefined) return undefined;
  const { count } = step.syntax;
  return [round, count.kind === 'number' ? (wholeOf(count) ?? round) : round];
}

function nameOfStep(course: Course, stand: Stand, step: Step | undefined, { words }: Reader): string {
  const { frames } = words.stepping;
  if (!step) return frames.end;
  const { walk, timeline } = course;
  const row = walk.rowOf(stand);
  const written = withoutBrace(print(step.syntax));
  const isHand = !walk.isBeforeOthers(stand) && course.isByHand(row);
  const text = isHand ? frames.byHand(written) : written;
  if (stand.isDone) return frames.done(text);
  if (!walk.isMidway(stand)) return text;
  const isCounted = step.syntax.kind === 'turn' && step.syntax.until === undefined;
  const all = isCounted ? timeline.run.tape.lookAt(row)[TURNS] : undefined;
  return frames.made(text, timeline.done(stand.moment).turns, all);
}

/** What a `repeat` holds stands in frames of its own. */
const withoutBrace = (text: string): string => text.replace(/\s*\{$/, '');
