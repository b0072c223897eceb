/** The trace for other programs: format 1. A key is never given another meaning. */
import { print } from '../../grammar/printer.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  POSITION,
  type Profile,
  RANG,
  type State,
  SUBTRACTING,
  TURNS,
  textOf,
  WRAPS,
} from '../machine/index.js';
import type { CaseRun } from './check.js';
import type { Effort } from './effort.js';
import type { FileReport } from './file.js';
import { pointsOf } from './hands.js';
import type { Library } from './library.js';
import { type ReportedFinding, reportFindings } from './report.js';
import type { Run } from './run.js';
import type { Wording } from './wording/index.js';

export interface TracedStep {
  /** The line on which the step, or the step that it stands for, is written. */
  readonly line: number;
  /** The file, where it is another one than the traced. */
  readonly file?: string;
  readonly step: string;
  readonly turns: number;
  readonly setting: string;
  readonly counter: string;
  readonly result: string;
  /** 0 out of gear. */
  readonly position: number;
  readonly drive: 'add' | 'subtract';
  readonly count: 'plus' | 'minus';
  readonly autoClear: boolean;
  readonly autoDivide: boolean;
  readonly points: { readonly setting: number; readonly counter: number; readonly result: number };
  readonly wraps: number;
  readonly bell: boolean;
}

export interface TracedSequence {
  readonly name: string;
  readonly machine: string;
  readonly case: number;
  readonly steps: readonly TracedStep[];
  readonly goals: readonly { register: string; goal: string; reading: string; met?: string }[];
  readonly effort: Effort;
}

export interface Trace {
  readonly format: 1;
  readonly file: string;
  readonly sequences: readonly TracedSequence[];
  readonly findings: readonly ReportedFinding[];
}

/** Which of the runs are wanted; all where nothing is named. */
export interface Wanted {
  readonly sequence?: string;
  readonly case?: number;
}

/** The runs of a file that are wanted, in the order of the file. */
export function wantedRuns(report: FileReport, wanted: Wanted): CaseRun[] {
  return report.sequences
    .filter(({ section }) => wanted.sequence === undefined || section.header?.name.name === wanted.sequence)
    .flatMap(({ runs }) => runs.filter(({ order }) => wanted.case === undefined || order.case === wanted.case));
}

export function traceOf(library: Library, report: FileReport, wanted: Wanted = {}): Trace {
  const sequences = wantedRuns(report, wanted).map((run) => traceRun(library, report.file, run));
  return { format: 1, file: report.file, sequences, findings: wantedFindings(library, report, wanted) };
}

/** What was found in the runs that are wanted, and on the names of their sequences. */
export function wantedFindings(
  library: Library,
  report: FileReport,
  wanted: Wanted,
  wording?: Wording,
): ReportedFinding[] {
  const ofCase = (findings: FileReport['findings']) => [
    ...findings.filter((finding) => finding.case === undefined),
    ...wantedRuns(report, wanted).flatMap((run) => run.findings),
  ];
  const { file, sections, blocks, sequences } = report;
  const chosen =
    wanted.case === undefined
      ? report
      : { file, sections, blocks, sequences, findings: ofCase(report.findings), untold: 0 };
  const found = reportFindings(library, chosen, wording);
  return wanted.sequence === undefined ? found : found.filter(({ sequence }) => sequence === wanted.sequence);
}

function traceRun(library: Library, file: string, run: CaseRun): TracedSequence {
  return { ...nameOf(run), steps: stepsOf(library, file, run), goals: run.goals, effort: run.effort };
}

/** Every step of a run as it was carried out. */
export function stepsOf(library: Library, file: string, run: Run): TracedStep[] {
  const { profile } = run.order;
  const steps: TracedStep[] = [];
  for (let row = 0; row < run.tape.length; row++) {
    steps.push({ ...writtenAt(library, file, run, row), ...stateText(run.tape.stateAt(row), profile) });
  }
  return steps;
}

/** Which run it is, in the formats for other programs. */
export function nameOf({ order }: CaseRun): Pick<TracedSequence, 'name' | 'machine' | 'case'> {
  return { name: order.section.header?.name.name ?? '', machine: order.profile.name, case: order.case };
}

/** Where the step of a row is written, and what it is. */
export function writtenAt(library: Library, file: string, run: Run, row: number) {
  const step = run.tape.stepAt(row);
  const { section } = run.tape.frameAt(row);
  const home = library.fileOf(section) ?? file;
  const line = library.lineOf(section) + step.line + 1;
  return { line, ...(home !== file && { file: home }), step: print(step.syntax) };
}

/** Everything that a machine shows. */
export function stateText(state: State, profile: Profile): Omit<TracedStep, 'line' | 'file' | 'step'> {
  return {
    turns: state[TURNS],
    setting: textOf(state, profile, 'setting'),
    counter: textOf(state, profile, 'counter'),
    result: textOf(state, profile, 'result'),
    position: state[POSITION],
    drive: has(state, SUBTRACTING) ? 'subtract' : 'add',
    count: has(state, COUNT_MINUS) ? 'minus' : 'plus',
    autoClear: has(state, AUTO_CLEAR),
    autoDivide: has(state, AUTO_DIVIDE),
    points: pointsOf(state),
    wraps: state[WRAPS],
    bell: has(state, RANG),
  };
}
