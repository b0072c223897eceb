/** What a fix may know of a finding: where it stands, the step that it is about, and the run in which it was noticed. */
import type { TextEdit } from 'vscode-languageserver';
import type { OnLine, Placed, SequenceSection, Span, Step } from '../../../grammar/tree.js';
import type { Profile, State } from '../../machine/index.js';
import type { CaseRun, SequenceReport } from '../../sequence/check.js';
import type { Code, FactsOf, Finding } from '../../sequence/findings.js';
import { allSteps } from '../../sequence/names.js';
import { stateBefore } from '../../sequence/rows.js';
import type { AnalysedDocument } from '../document.js';
import type { Words } from '../wording/index.js';
import { Draft } from './edits.js';

/** A way to mend a finding. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** It is evident: what the writer most likely meant. */
  readonly isPreferred?: boolean;
  /** It changes nothing that the machine does or somebody reads: it may be made unseen, with all others of its kind. */
  readonly isSafe?: boolean;
}

/** A finding and where it stands. */
export interface Around {
  readonly document: AnalysedDocument;
  readonly words: Words['actions'];
  readonly draft: Draft;
  readonly placed: Placed;
  readonly finding: Finding;
  /** The line of its section and the columns. */
  readonly at: OnLine<Span>;
}

/** The same with what it says. */
export interface Subject<C extends Code = Code> extends Around {
  readonly facts: FactsOf<C>;
}

/** A step of a sequence that has been run, on which something was found. */
export interface AroundStep extends Around {
  readonly section: SequenceSection;
  readonly report: SequenceReport;
  readonly profile: Profile;
  /** The run in which it was noticed first. */
  readonly run: CaseRun;
  readonly step: Step;
  /** The rows of that run in which the step was carried out. */
  readonly rows: readonly number[];
  /** What the machine showed before the first of them; undefined where there is none. */
  readonly before: State | undefined;
}

export interface StepSubject<C extends Code = Code> extends AroundStep {
  readonly facts: FactsOf<C>;
}

export function subjectOf(
  document: AnalysedDocument,
  placed: Placed,
  finding: Finding,
  words: Words['actions'],
): Around {
  const { line, from, to } = finding.at;
  const at = { line, syntax: { from, to } };
  return { document, words, draft: new Draft(document, placed), placed, finding, at };
}

/** The same for a finding on a step; undefined for one that is told at a step and happens in another sequence. */
export function onStep(around: Around, report: SequenceReport | undefined): AroundStep | undefined {
  const { placed, finding } = around;
  const { section } = placed;
  const run = report?.runs[finding.case ?? 0];
  if (section.kind !== 'sequence' || !report?.profile || !run) return undefined;
  if (finding.related?.some(({ why }) => why === 'in-the-sequence')) return undefined;
  const step = stepAt(section, finding.at);
  if (!step) return undefined;
  const rows = rowsOfStep(run, step);
  const before = rows.length > 0 ? stateBefore(run, rows[0]) : undefined;
  return { ...around, section, report, profile: report.profile, run, step, rows, before };
}

/** The step that begins at a place of its section. */
export function stepAt(section: SequenceSection, { line, from }: { line: number; from: number }): Step | undefined {
  for (const step of allSteps(section.steps)) if (step.line === line && step.syntax.from === from) return step;
  return undefined;
}

/** Every row of a run in which a written step was carried out; of one that stands for others, the rows of those. */
export function rowsOfStep({ order, tape }: CaseRun, { line, syntax }: Step): number[] {
  const rows: number[] = [];
  for (let row = 0; row < tape.length; row++) {
    const made = tape.stepAt(row);
    if (made.line !== line) continue;
    const frame = tape.frameAt(row);
    const written = frame.isOpened ? frame.step : made;
    if (frame.section === order.section && written?.line === line && written.syntax.from === syntax.from)
      rows.push(row);
  }
  return rows;
}

/** The steps among which a step stands, and its number among them. */
export function neighboursOf(section: SequenceSection, step: Step): { readonly among: readonly Step[]; at: number } {
  const search = (steps: readonly Step[]): { among: readonly Step[]; at: number } | undefined => {
    const at = steps.indexOf(step);
    if (at >= 0) return { among: steps, at };
    for (const { body } of steps) {
      const found = body && search(body);
      if (found) return found;
    }
    return undefined;
  };
  return search(section.steps) ?? { among: [step], at: 0 };
}

/** Where a step ends: a `repeat` with its closing brace. */
export const endOfStep = (step: Step): OnLine<Span> => step.close ?? { line: step.line, syntax: step.syntax };
