/** The trace for other programs, with what a machine that has a fault shows beside it. */
import { pairs } from '../../sequence/beside.js';
import type { CaseRun } from '../../sequence/check.js';
import { faultText } from '../../sequence/fault-text.js';
import type { FileReport } from '../../sequence/file.js';
import type { Library } from '../../sequence/library.js';
import { lookingsIn, partingOf } from '../../sequence/looks.js';
import { stepsOf, type Trace, type TracedStep, wantedRuns } from '../../sequence/trace.js';
import { type Faulty, withFault } from '../fault.js';
import type { TraceOptions } from '../trace.js';

/** A sequence on a machine that can't have the fault is as it was. */
export function faultJson(library: Library, report: FileReport, trace: Trace, options: TraceOptions, text: string) {
  const runs = wantedRuns(report, options);
  const sequences = trace.sequences.map((sequence, i) => {
    const faulty = withFault(runs[i], text);
    return faulty ? { ...sequence, faulty: faultyOf(library, report.file, runs[i], faulty, sequence.steps) } : sequence;
  });
  return { ...trace, sequences };
}

function faultyOf(
  library: Library,
  file: string,
  run: CaseRun,
  { fault, run: other }: Faulty,
  sound: readonly TracedStep[],
) {
  const besides = new Map(pairs(run, other).map((pair) => [pair.faulty, pair.sound]));
  const steps = stepsOf(library, file, other).map((step, row) => {
    const beside = besides.get(row);
    return { ...step, beside: beside ?? null, differs: beside === undefined ? [] : differing(sound[beside], step) };
  });
  const { brokeOff, effort } = other;
  return { fault: faultText(fault), steps, effort, brokeOff, caught: caughtAt(run, other) };
}

/** The keys of a row that say something else. */
const differing = (sound: TracedStep, faulty: TracedStep): string[] =>
  Object.entries(faulty).flatMap(([key, value]) =>
    JSON.stringify(value) === JSON.stringify(sound[key as keyof TracedStep]) ? [] : [key],
  );

/** The row of the sound machine whose reading differs, `null` where no reading does, `end` where a step never ends. */
function caughtAt(run: CaseRun, faulty: Faulty['run']): number | 'end' | null {
  const at = partingOf(run, faulty);
  if (at === undefined) return null;
  return lookingsIn(faulty)[at] ? lookingsIn(run)[at].row : 'end';
}
