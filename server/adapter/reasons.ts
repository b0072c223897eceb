/** Why a session has stopped, as a client is told. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { CODES } from '../sequence/findings.js';
import type { Reader } from '../service/document.js';
import type { Happening } from '../stepping/stepped-run.js';
import type { Halt, Stop } from '../stepping/stops.js';
import { isSameStand } from '../stepping/walk.js';
import type { Breakpoints } from './breakpoints.js';
import type { Course } from './course.js';

/** The protocol's word for it, and what a person reads. */
export interface Reason {
  readonly reason: string;
  readonly description?: string;
  readonly text?: string;
}

export function reasonOf({ stand, stop }: Halt, course: Course, marks: Breakpoints, reader: Reader): Reason {
  const { stepping } = reader.words;
  if (stop && stop.noticed.length > 0) {
    const description = reader.wording.severityText[CODES[stop.noticed[0].facts.code]];
    return { reason: 'exception', description, text: saysOf(stop.noticed, reader) };
  }
  if (stop?.isChange) {
    const names = stop.marks.flatMap((id) => marks.nameOf(id) ?? []);
    return { reason: 'data breakpoint', description: stepping.changed(names.join(', ')) };
  }
  if (stop) return { reason: 'breakpoint' };
  const { walk, stepped } = course;
  if (walk.isEnd(stand)) {
    return { reason: 'step', description: stepped.run.brokeOff ? stepping.brokeOff : stepping.ended };
  }
  return { reason: 'step', ...(isSameStand(stand, walk.start) && { description: stepping.entry }) };
}

/** What was found where it stopped last. */
export function exceptionInfo(stop: Stop | undefined, reader: Reader): DebugProtocol.ExceptionInfoResponse['body'] {
  const noticed = stop?.noticed ?? [];
  return {
    exceptionId: noticed[0]?.facts.code ?? '',
    description: saysOf(noticed, reader),
    breakMode: 'always',
  };
}

const saysOf = (noticed: readonly Happening[], { wording }: Reader): string =>
  noticed.map(({ facts }) => wording.messageOf(facts)).join('\n');
