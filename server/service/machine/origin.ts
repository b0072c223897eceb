/** Where in the text it is written that a part of the machine stands as it does: `cranknote/machineOrigin`. */
import type { Range } from 'vscode-languageserver';
import type { MachineSection, ProfileSyntax } from '../../../grammar/tree.js';
import { has, LEVERS, POSITION, pointOf, RANG, type State, textOf } from '../../machine/index.js';
import { type Place, placeOn } from '../../sequence/findings.js';
import type { Run } from '../../sequence/run.js';
import { DEVICE_BITS, type DeviceKind, type PartName } from '../../sheets/figure/index.js';
import type { ParsedDocument } from '../document.js';
import { locationOf } from '../spots.js';
import type { GoneThrough } from './gone-through.js';

export interface Origin {
  readonly uri: string;
  readonly range: Range;
  /** The moment at which it came to stand so; missing where no step has moved it. */
  readonly moment?: number;
}

/** The step by which a part came to stand as it does at a moment; else the line of the machine that says that it is there. */
export function originOf(
  document: ParsedDocument,
  gone: GoneThrough,
  moment: number,
  part: PartName,
  machine: MachineSection | undefined,
): Origin | undefined {
  const { timeline, stepped } = gone;
  const { row, isWhole } = timeline.done(moment);
  const shows = showing(part, stepped.run);
  let last = -1;
  let before = shows(timeline.stateAt(0));
  for (let at = 0; at <= row; at++) {
    // Of a step that is under way the turns that are made count.
    const state = at < row || isWhole ? stepped.run.tape.lookAt(at) : timeline.stateAt(moment);
    const now = shows(state);
    if (part === 'bell' ? now === RANG : now !== before) last = at;
    before = now;
  }
  if (last >= 0) {
    const at = last === row ? timeline.clamped(moment) : timeline.after(last);
    return { ...locationOf(document, placeOfRow(gone, last)), moment: at };
  }
  const place = machine && lineOf(document, machine, part);
  return place && locationOf(document, place);
}

/** Where the step of a row is written, be it in another sequence. */
export function placeOfRow({ written }: GoneThrough, row: number): Place {
  const { step, frame } = written.writtenStep(row);
  return placeOn(frame.section, step.line, step.syntax);
}

/** What a part shows, as something that can be compared. */
function showing(part: PartName, { order: { profile } }: Run): (state: State) => string | number {
  const [kind, which] = part.split('-', 2);
  if (part === 'carriage') return (state) => state[POSITION];
  if (part === 'bell') return (state) => state[LEVERS] & RANG;
  if (isDevice(part)) return (state) => Number(has(state, DEVICE_BITS[part]));
  if (kind === 'marker') return (state) => pointOf(state, which as 'setting');
  const place = Number(which);
  // A negative figure has its sign before it.
  return (state) =>
    textOf(state, profile, kind as 'setting')
      .match(/-?\d/g)
      ?.at(-place) ?? '';
}

const isDevice = (part: PartName): part is DeviceKind => Object.hasOwn(DEVICE_BITS, part);

/** The lines of a machine that say how a part is, the first that there is. */
function keysOf(part: PartName): string[] {
  if (isDevice(part)) return part === 'drive' ? ['subtract'] : [part];
  if (part === 'carriage') return ['carriage', 'counter', 'result'];
  if (part === 'bell') return ['bell'];
  return [part.startsWith('marker-') ? part.slice(7) : part.replace(/-\d+$/, '')];
}

/** That line, in the machine itself or in one that it is like; else the machine's name. */
function lineOf(document: ParsedDocument, machine: MachineSection, part: PartName): Place | undefined {
  const { lines } = document.library.machine(machine);
  const wanted = keysOf(part).flatMap((key) => lines.get(key) ?? [])[0];
  const found = wanted && writtenIn(document, machine, wanted);
  const name = machine.header?.name;
  return found ?? (name && placeOn(machine, 0, name));
}

/** Machines that are like one another in a row, at the most. */
const MOST_LIKE = 50;

function writtenIn(document: ParsedDocument, machine: MachineSection, line: ProfileSyntax): Place | undefined {
  const { library } = document;
  let section: MachineSection | undefined = machine;
  for (let i = 0; section && i < MOST_LIKE; i++) {
    const entry = section.entries.find(({ syntax }) => syntax === line);
    if (entry) return placeOn(section, entry.line, entry.syntax);
    const like: string | undefined = section.header?.like?.name;
    const file = library.fileOf(section);
    section = like !== undefined && file !== undefined ? library.scope(file).machine(like) : undefined;
  }
  return undefined;
}
