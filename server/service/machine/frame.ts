/** What a panel shows of a moment: the step, the machine drawn part by part, and what is or will be wrong. */
import type { Range } from 'vscode-languageserver';
import { print } from '../../../grammar/printer.js';
import type { Argument } from '../../../grammar/tree.js';
import { TURNS } from '../../machine/index.js';
import { provingWording } from '../../proving/wording/index.js';
import type { Severity } from '../../sequence/findings.js';
import { wholeOf } from '../../sequence/readings.js';
import { stateBefore } from '../../sequence/rows.js';
import type { Frame } from '../../sequence/tape.js';
import { type FigureInParts, figureInParts, type PartName } from '../../sheets/figure/index.js';
import type { FigureData } from '../../sheets/model.js';
import { stepSentence } from '../../sheets/sentences.js';
import { plainText } from '../../sheets/spans.js';
import { type SheetWords, sheetWords } from '../../sheets/wording/index.js';
import { framesAround } from '../../stepping/written.js';
import type { ParsedDocument, Reader } from '../document.js';
import { effortText } from '../lens.js';
import { onOneLine } from '../markdown.js';
import { changes } from '../readings.js';
import { locationOf } from '../spots.js';
import type { GoneThrough, Noticed } from './gone-through.js';
import { placeOfRow } from './origin.js';
import { PartNames } from './part-names.js';
import { partsOf } from './wheels.js';

/** Something that is wrong, or will be. */
export interface MachineRemark {
  readonly level: Severity;
  /** When: with the next step, or now. */
  readonly when: string;
  readonly message: string;
  /** Where it is marked in the figure, in words; missing where nothing is. */
  readonly marked?: string;
}

/** A part of the figure with its name for whoever does not see it; the box is in the units of the drawing. */
export interface MachinePart {
  readonly part: PartName;
  readonly label: string;
  readonly box: FigureInParts['parts'][number]['box'];
}

export interface MachineFrame {
  /** From 0; there are as many as `moments`. */
  readonly moment: number;
  readonly moments: number;
  /** How many steps have been begun. */
  readonly steps: number;
  /** The step that was carried out last; missing before the first one. */
  readonly step?: {
    /** As it is carried out, in the notation. */
    readonly text: string;
    /** The same as a sentence. */
    readonly sentence: string;
    readonly at: { readonly uri: string; readonly range: Range };
  };
  /** Which step of how many, which turn and round, within what. */
  readonly where: string;
  readonly effort: string;
  /** What it has changed. */
  readonly changed: string;
  readonly remarks: readonly MachineRemark[];
  readonly figure: Omit<FigureInParts, 'parts'> & { readonly parts: readonly MachinePart[] };
}

/** Remarks of a moment; a step says no more of itself. */
const MOST_REMARKS = 6;

export function frameAt(document: ParsedDocument, gone: GoneThrough, moment: number, reader: Reader): MachineFrame {
  const { timeline, stepped } = gone;
  const { run } = stepped;
  const { profile } = run.order;
  const { row } = timeline.done(moment);
  const { before, after, rang } = timeline.glimpse(moment);
  const data: FigureData = { profile, before, after, rang };
  const sheet = sheetWords(reader.locale);
  const told = toldAt(gone, moment, reader);
  const heeded = new Set(told.flatMap(({ parts }) => parts));
  const figure = figureInParts(data, sheet, 'machine', (part) => heeded.has(part));
  const names = new PartNames(data, sheet, reader);
  const step = row < 0 ? undefined : stepOf(document, gone, row, sheet);
  const changed = changes(before, after, profile, reader.words);
  if (rang) changed.push(reader.words.readings.bell);
  return {
    moment,
    moments: timeline.length,
    steps: row + 1,
    ...(step && { step }),
    where: whereText(gone, moment, reader),
    effort: reader.words.machine.effort(effortText({ effort: effortAt(gone, moment), brokeOff: false }, reader.words)),
    changed: changed.length > 0 || row < 0 ? changed.join(', ') : reader.words.machine.nothing,
    remarks: told.map((one) => remarkOf(one, names, reader)),
    figure: {
      ...figure,
      parts: figure.parts.map(({ name, box }) => {
        const label = names.nameOf(name);
        return { part: name, label: heeded.has(name) ? reader.words.machine.parts.heeded(label) : label, box };
      }),
    },
  };
}

function stepOf(
  document: ParsedDocument,
  gone: GoneThrough,
  row: number,
  sheet: SheetWords,
): NonNullable<MachineFrame['step']> {
  const { run } = gone.stepped;
  const { syntax } = run.tape.stepAt(row);
  const place = { before: stateBefore(run, row), after: run.tape.stateAt(row), profile: run.order.profile };
  return {
    text: onOneLine(print(syntax)),
    sentence: onOneLine(plainText(stepSentence(syntax, place, sheet))),
    at: locationOf(document, placeOfRow(gone, row)),
  };
}

function effortAt({ stepped, timeline }: GoneThrough, moment: number) {
  const { row, turns, isWhole } = timeline.done(moment);
  if (isWhole) return stepped.effortAfter(row);
  const before = stepped.effortAfter(row - 1);
  const cost = before.cost + turns * stepped.run.order.profile.effort.turn;
  return { ...before, turns: before.turns + turns, cost };
}

function whereText({ timeline, stepped }: GoneThrough, moment: number, { words, locale }: Reader): string {
  const { run } = stepped;
  const { row, turns } = timeline.done(moment);
  const { machine } = words;
  const fault = run.order.fault ? [machine.fault(provingWording(locale).faultSentence(run.order.fault))] : [];
  if (row < 0) return [machine.atStart, ...fault].join(' · ');
  const all = run.tape.lookAt(row)[TURNS];
  const around = framesAround(run, row).flatMap((frame) => {
    const { round, step } = frame;
    if (round !== undefined) return [machine.round(round, roundsOf(frame))];
    return step ? [machine.within(onOneLine(print(step.syntax)))] : [];
  });
  const turn = all > 1 ? [machine.turn(turns, all)] : [];
  return [machine.step(row + 1, run.tape.length), ...around, ...turn, ...fault].join(' · ');
}

function roundsOf({ step }: Frame): number | undefined {
  const count: Argument | undefined = step?.syntax.kind === 'repeat' ? step.syntax.count : undefined;
  return count?.kind === 'number' ? wholeOf(count) : undefined;
}

/** What is told at a moment, with the parts that are to be marked for it. */
interface Told {
  readonly noticed: Noticed;
  readonly when: string;
  readonly parts: readonly PartName[];
}

/** What will be wrong with the next step, and behind it what is wrong now. */
function toldAt(gone: GoneThrough, moment: number, { words: { machine } }: Reader): Told[] {
  const { run } = gone.stepped;
  const next = gone.after(moment).filter(isGrave);
  const now = gone.by(moment).filter((one) => one.level !== 'hint' && !next.some(({ facts }) => facts === one.facts));
  const when = gone.timeline.done(moment).isWhole ? machine.next : machine.further;
  return [
    ...next.map((noticed) => ({ noticed, when, parts: partsOf(noticed, run) })),
    ...now.map((noticed) => ({ noticed, when: machine.now, parts: isGrave(noticed) ? partsOf(noticed, run) : [] })),
  ].slice(0, MOST_REMARKS);
}

const isGrave = ({ level }: Noticed): boolean => level === 'error' || level === 'warning';

function remarkOf({ noticed, when, parts }: Told, names: PartNames, { words, wording }: Reader): MachineRemark {
  const marked = names.placesOf(parts);
  return {
    level: noticed.level,
    when,
    message: onOneLine(wording.messageOf(noticed.facts)),
    ...(marked && { marked: words.machine.marked(marked) }),
  };
}
