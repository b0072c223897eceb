/** A sequence that is gone through: its run with all that was noticed, and where its steps are written. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Section, SequenceSection } from '../../grammar/tree.js';
import type { State } from '../machine/index.js';
import { provingWording } from '../proving/wording/index.js';
import { judge, nameOf, type SequenceReport } from '../sequence/check.js';
import { faultOn, isFaultProblem } from '../sequence/fault-text.js';
import { allSteps } from '../sequence/names.js';
import { argumentValues } from '../sequence/nested.js';
import type { RunOrder } from '../sequence/run.js';
import type { Values } from '../sequence/substitute.js';
import type { Frame } from '../sequence/tape.js';
import type { AnalysedDocument, Reader } from '../service/document.js';
import { sequenceReport } from '../service/readings.js';
import { type Named, sequencesOf, sequenceWanted } from '../service/sequences.js';
import type { Scene } from '../stepping/conditions.js';
import { type ByHand, type Happening, type SteppedRun, stepThrough } from '../stepping/stepped-run.js';
import { Timeline } from '../stepping/timeline.js';
import { type Stand, Walk } from '../stepping/walk.js';
import { nameOfUri } from './addresses.js';

/** What somebody wants to go through. */
export interface Wanted {
  readonly uri: string;
  readonly sequence?: string;
  /** Where no name is given: the sequence that this line belongs to, from 0; else the first that can be run. */
  readonly line?: number;
  /** 0 for the defaults. */
  readonly case: number;
  /** As it is written. */
  readonly fault?: string;
}

/** A sequence that can be run, with what it is run for. */
export interface Errand {
  readonly document: AnalysedDocument;
  readonly report: SequenceReport;
  readonly order: RunOrder;
}

/** The errand, or why there is none, in a sentence. */
export function errandFor(document: AnalysedDocument | undefined, wanted: Wanted, reader: Reader): Errand | string {
  const { launch } = reader.words.stepping;
  if (!document) return launch.noFile(nameOfUri(wanted.uri));
  const { sequences } = document.report;
  if (sequences.length === 0) return launch.noSequences;
  const report = chosen(document, wanted);
  if (!report) return launch.noSequence(wanted.sequence ?? '');
  const { runs, section } = report;
  if (runs.length === 0) return launch.notRun(nameOf(report));
  const run = runs.find(({ order }) => order.case === wanted.case);
  if (!run) return launch.noCase(nameOf(report), wanted.case, section.cases.length);
  if (wanted.fault === undefined) return { document, report, order: run.order };
  const fault = faultOn(run.order.profile, wanted.fault);
  if (isFaultProblem(fault)) return provingWording(reader.locale).faultProblem(fault, run.order.profile.name);
  return { document, report, order: { ...run.order, fault } };
}

function chosen(document: AnalysedDocument, wanted: Wanted): SequenceReport | undefined {
  const all = sequencesOf(document);
  const runs = ({ section }: Named) => (sequenceReport(document, section)?.runs.length ?? 0) > 0;
  const isNamed = wanted.sequence !== undefined || wanted.line !== undefined;
  const found = isNamed ? sequenceWanted(all, wanted) : (all.find(runs) ?? all[0]);
  return found && sequenceReport(document, found.section);
}

/** Runs an errand, with steps done by hand in it. */
export function* courseOf(errand: Errand, byHand: readonly ByHand[] = []): Gradual<Course> {
  return new Course(errand, yield* stepThrough(errand.order, byHand));
}

export class Course {
  readonly timeline: Timeline;
  readonly walk: Walk;
  /** What was noticed, with what shows at the end alone: goals that are missed, levers that are left. */
  readonly happenings: readonly Happening[];
  /** Every sequence whose steps may be carried out: its own, and those that are run from there. */
  readonly sections: ReadonlySet<SequenceSection>;
  private readonly handRows: ReadonlySet<number>;
  private readonly places = new Map<Section, { readonly uri: string; readonly line: number }>();
  private readonly values = new Map<Frame, Values>();

  constructor(
    readonly errand: Errand,
    readonly stepped: SteppedRun,
  ) {
    this.timeline = new Timeline(stepped.run);
    this.walk = new Walk(this.timeline);
    this.happenings = [...stepped.happenings, ...atTheEnd(stepped, nameOf(errand.report))];
    this.sections = sectionsFrom(errand.order);
    this.handRows = new Set(stepped.byHand.map(({ row }) => row));
    this.place();
  }

  get name(): string {
    return nameOf(this.errand.report);
  }

  /** Looks up where its sections stand now: while somebody writes, they move. */
  place(document = this.errand.document): void {
    const { library, uriOf, file, uri } = document;
    for (const section of this.sections) {
      const home = library.fileOf(section) ?? file;
      this.places.set(section, { uri: home === file ? uri : uriOf(home), line: library.lineOf(section) });
    }
  }

  /** Where a section stands: its file, and its first line there. */
  placeOf(section: Section): { readonly uri: string; readonly line: number } {
    return this.places.get(section) ?? { uri: this.errand.document.uri, line: 0 };
  }

  /** The row is a step that somebody did by hand. */
  isByHand(row: number): boolean {
    return this.handRows.has(row);
  }

  stateAt({ moment }: Stand): State {
    return this.timeline.stateAt(moment);
  }

  /** What can be read where one stands. */
  sceneAt(stand: Stand, frame = this.walk.framesAt(stand).at(-1), state = this.stateAt(stand)): Scene {
    return { state, profile: this.errand.order.profile, values: this.valuesIn(frame) };
  }

  /** The parameters' values inside a frame. */
  valuesIn(frame: Frame | undefined): Values {
    if (!frame?.parent) return this.errand.order.values;
    const known = this.values.get(frame);
    if (known) return known;
    const syntax = frame.step?.syntax;
    const isOther = syntax?.kind === 'run' && frame.section.kind === 'sequence';
    const values = isOther
      ? (argumentValues(frame.section as SequenceSection, syntax.args) ?? new Map())
      : this.valuesIn(frame.parent);
    this.values.set(frame, values);
    return values;
  }

  /** Whether another run would be of the very same sequences on the same machine. */
  isOf({ order }: Errand): boolean {
    const others = sectionsFrom(order);
    const isSame = others.size === this.sections.size && [...others].every((section) => this.sections.has(section));
    return isSame && order.profile === this.errand.order.profile;
  }

  /** The same, where files were read again and hold the same text. */
  readsLike({ order }: Errand): boolean {
    const textOf = (sections: ReadonlySet<SequenceSection>) =>
      [...sections].map(({ lines }) => lines.map(({ text }) => text).join('\n')).join('\n\n');
    const isSame = textOf(sectionsFrom(order)) === textOf(this.sections);
    return isSame && JSON.stringify(order.profile) === JSON.stringify(this.errand.order.profile);
  }
}

function atTheEnd({ run }: SteppedRun, name: string): Happening[] {
  const { section } = run.order;
  const engaged = run.notices
    .findings(section, name, run.order.case)
    .filter(({ facts }) => facts.code === 'left-engaged');
  return [...engaged, ...judge(run, name)].map(({ facts, at, related = [] }) => ({
    row: run.tape.length,
    facts,
    at,
    related,
  }));
}

function sectionsFrom({ section, resolve }: RunOrder): Set<SequenceSection> {
  const found = new Set([section]);
  for (const one of found) {
    for (const { syntax } of allSteps(one.steps)) {
      const other = syntax.kind === 'run' ? resolve(syntax.name.name, one) : undefined;
      if (other) found.add(other);
    }
  }
  return found;
}
