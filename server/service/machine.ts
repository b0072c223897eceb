/** The machine at the step of the cursor, for a panel beside the text: `cranknote/machine`, `cranknote/machineOrigin`. */
import type { Range } from 'vscode-languageserver';
import type { Gradual } from '../../grammar/gradual.js';
import type { CaseRun, SequenceReport } from '../sequence/check.js';
import { messageOfFinding } from '../sequence/report.js';
import type { PartName } from '../sheets/figure/index.js';
import { leftOutIn } from '../sheets/refusal.js';
import type { SteppedRun } from '../stepping/stepped-run.js';
import type { AnalysedDocument, Reader } from './document.js';
import { caseTitles } from './lens.js';
import { frameAt, type MachineFrame } from './machine/frame.js';
import { type GoneThrough, goneThrough, goneThroughInSession } from './machine/gone-through.js';
import { MOST_MOVED, type Move, momentAt, movedFrom } from './machine/moments.js';
import { type Origin, originOf } from './machine/origin.js';
import { onOneLine } from './markdown.js';
import { sequenceReport, shownRun } from './readings.js';
import {
  isCount,
  type Named,
  type Outline,
  outlineOf,
  type SequenceAsked,
  sequenceAsked,
  sequencesOf,
  sequenceWanted,
} from './sequences.js';
import { locationOf, locationOn } from './spots.js';

export interface MachineAsked extends SequenceAsked {
  /** The column of the cursor, where `line` is its line: what is shown is the step there. */
  readonly character?: number;
  /** 0 for the defaults; as it comes, the case whose readings are shown. */
  readonly case?: number;
  /** The moment that is wanted; with a cursor, the one that was shown before. */
  readonly moment?: number;
  /** Where to go from that moment, one after the other. */
  readonly moves?: readonly Move[];
  /** A session in which somebody goes through a sequence: where it stands, with whatever was done by hand in it. */
  readonly stepping?: string;
}

/** Such a session. */
export interface UnderWay {
  readonly uri: string;
  readonly sequence: string;
  /** Another one as soon as something is done by hand. */
  readonly stepped: SteppedRun;
  readonly stand: { readonly moment: number };
}

export interface MachineAnswer {
  /** The document: where a session is asked for, that which it goes through. */
  readonly uri: string;
  /** It is that of the session that was asked for. */
  readonly isStepping?: true;
  /** Whose machine it is; missing where the document has no such sequence. */
  readonly sequence?: string;
  readonly sequences: readonly Outline[];
  /** What its cases are called, the defaults first; and the one that is shown. */
  readonly cases: readonly string[];
  readonly case: number;
  /** Missing where the sequence can't be run. */
  readonly frame?: MachineFrame;
  /** Why there is none, or what of the text it leaves out, and where that can be mended. */
  readonly trouble?: { readonly message: string; readonly at?: { readonly uri: string; readonly range: Range } };
}

/** Moves that are made one after the other, at the most. */
const MOST_MOVES = 100;

/** What a client asks for; a text says what is wrong with it, to whoever wrote the client. */
export function machineAsked(sent: unknown): MachineAsked | string {
  const at = (typeof sent === 'object' && sent !== null ? sent : {}) as Readonly<Record<string, unknown>>;
  const subject = sequenceAsked(at);
  if (typeof subject === 'string') return subject;
  const numbers: { character?: number; case?: number; moment?: number } = {};
  for (const name of ['character', 'case', 'moment'] as const) {
    const value = at[name];
    if (value === undefined) continue;
    if (!isCount(value)) return `${name} is a whole number, counted from 0.`;
    numbers[name] = value;
  }
  const { stepping } = at;
  if (stepping !== undefined && typeof stepping !== 'string') return 'stepping is the name of a session.';
  const moves = at.moves ?? [];
  if (!Array.isArray(moves) || moves.length > MOST_MOVES || !moves.every(isMove))
    return `moves are up to ${MOST_MOVES} steps, turns or lines, each with a whole number count.`;
  return { ...subject, ...numbers, ...(moves.length > 0 && { moves }), ...(stepping !== undefined && { stepping }) };
}

const isMove = (move: unknown): move is Move => {
  const { by, count } = (typeof move === 'object' && move !== null ? move : {}) as Partial<Move>;
  const isWay = by === 'step' || by === 'turn' || by === 'line';
  return isWay && Number.isInteger(count) && Math.abs(count as number) <= MOST_MOVED;
};

/** A sequence with what was found of it, and one of its runs. */
interface Found {
  readonly named: Named;
  readonly report: SequenceReport;
  readonly run: CaseRun;
}

function runOf(document: AnalysedDocument, named: Named, asked: MachineAsked, reader: Reader) {
  const report = sequenceReport(document, named.section);
  const wished = asked.case === undefined ? undefined : report?.runs.find(({ order }) => order.case === asked.case);
  const run = wished ?? (report && shownRun(report, document, reader));
  return report && run ? { named, report, run } : undefined;
}

/**
 * The machine at a moment, or why there is none to show.
 *
 * @param underWay the session that is asked for, if there is such a one
 */
export function* shownMachine(
  document: AnalysedDocument,
  asked: MachineAsked,
  reader: Reader,
  underWay?: UnderWay,
): Gradual<MachineAnswer> {
  const all = sequencesOf(document);
  const answer: MachineAnswer = { uri: document.uri, sequences: all.map(outlineOf), cases: [], case: 0 };
  const named = sequenceWanted(all, underWay ?? asked);
  if (!named) return { ...answer, trouble: { message: missing(underWay ?? asked, reader) } };
  const { section, name } = named;
  const of = { ...answer, sequence: name.name, cases: caseTitles(section, reader.words) };
  if (underWay) {
    const gone = yield* goneThroughInSession(underWay.stepped);
    const frame = frameAt(
      document,
      gone,
      wantedMoment(gone, named, { moment: underWay.stand.moment, ...asked }),
      reader,
    );
    return { ...of, isStepping: true, case: underWay.stepped.run.order.case, frame };
  }
  const found = runOf(document, named, asked, reader);
  const trouble = troubleIn(document, named, found, reader);
  const told = { ...of, ...(trouble && { trouble }) };
  if (!found) return told;
  const gone = yield* goneThrough(found.run);
  const frame = frameAt(document, gone, wantedMoment(gone, named, asked), reader);
  return { ...told, case: found.run.order.case, frame };
}

function missing({ sequence }: { readonly sequence?: string }, { words: { machine } }: Reader): string {
  return sequence === undefined ? machine.noSequence : machine.noSuchSequence(onOneLine(sequence));
}

function wantedMoment(gone: GoneThrough, named: Named, asked: Omit<MachineAsked, 'uri'>): number {
  const { line, character, moment = 0, moves = [] } = asked;
  if (asked.sequence === undefined && line !== undefined && character !== undefined) {
    return movedFrom(momentAt(named, gone, line - named.line, character, asked.moment), moves, gone);
  }
  return movedFrom(moment, moves, gone);
}

/** What of the text the run rests on could not be read, or why there is no run. */
function troubleIn(
  document: AnalysedDocument,
  { section, name }: Named,
  found: Found | undefined,
  { words, wording }: Reader,
): MachineAnswer['trouble'] {
  const report = sequenceReport(document, section);
  const [first] = report ? leftOutIn(report) : [];
  if (found && !first) return undefined;
  const message = first && onOneLine(messageOfFinding(first, wording));
  const { machine } = words;
  return {
    message: found && message ? machine.leftOut(message) : (message ?? machine.notRun),
    at: first ? locationOf(document, first.at) : locationOn(document, section, 0, name),
  };
}

export interface OriginAsked extends MachineAsked {
  readonly part: string;
}

/** The name of a part is looked at when it is looked for. */
export function originAsked(sent: unknown): OriginAsked | string {
  const asked = machineAsked(sent);
  if (typeof asked === 'string') return asked;
  const { part } = sent as { readonly part?: unknown };
  return typeof part === 'string' ? { ...asked, part } : 'part is the name of a part of the machine.';
}

const PART =
  /^(?:(?:setting|counter|result)-\d{1,2}|marker-(?:setting|counter|result)|carriage|drive|count|auto-clear|auto-divide|bell)$/;

/** Where it is written that a part stands as it does at a moment; undefined where that can't be told. */
export function* originOfPart(
  document: AnalysedDocument,
  asked: OriginAsked,
  reader: Reader,
  underWay?: UnderWay,
): Gradual<{ readonly origin?: Origin }> {
  const named = sequenceWanted(sequencesOf(document), underWay ?? asked);
  const found = named && runOf(document, named, asked, reader);
  if (!named || !found || !PART.test(asked.part)) return {};
  const gone = yield* underWay ? goneThroughInSession(underWay.stepped) : goneThrough(found.run);
  const moment = wantedMoment(gone, named, { moment: underWay?.stand.moment ?? 0, ...asked });
  const origin = originOf(document, gone, moment, asked.part as PartName, found.report.machine);
  return origin ? { origin } : {};
}
