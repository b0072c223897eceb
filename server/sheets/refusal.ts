/**
 * Where no sheet is printed: what is wrong in the sequence would be wrong on paper.
 *
 * Invariant: a run with an error, or one that was not gone through to its end, is never printed. Warnings, information
 * and hints are: the machine does what is told, and the sheet tells what it then shows.
 */
import type { Section } from '../../grammar/tree.js';
import type { SequenceReport } from '../sequence/check.js';
import { type Finding, severityOf, syntaxFindings } from '../sequence/findings.js';
import { checkNames } from '../sequence/names.js';
import { messageOfFinding } from '../sequence/report.js';
import { wordingFor } from '../sequence/wording/index.js';
import { sheetWords } from './wording/index.js';

export type RefusalReason =
  /** There is no machine, or it can't be built. */
  | { readonly is: 'not-run' }
  | { readonly is: 'errors'; readonly findings: readonly Finding[] }
  /** Some case was not run, or not to its end; 0 are the defaults. */
  | { readonly is: 'broke-off'; readonly case: number }
  | { readonly is: 'too-long'; readonly steps: number; readonly limit: number };

export interface SheetRefusal {
  readonly refused: RefusalReason;
  /** The reason in the sheet's language. */
  readonly message: string;
}

export const refusal = (refused: RefusalReason, language: string): SheetRefusal => {
  const words = sheetWords(language).operating.refused;
  return { refused, message: text() };

  function text(): string {
    switch (refused.is) {
      case 'not-run':
        return words.notRun;
      case 'broke-off':
        return words.brokeOff(refused.case);
      case 'too-long':
        return words.tooLong(refused.steps, refused.limit);
      case 'errors': {
        const [first] = refused.findings;
        return words.errors(messageOfFinding(first, wordingFor(language)), refused.findings.length);
      }
    }
  }
};

/** What stands against printing a sequence; undefined where nothing does. */
export function flawIn(report: SequenceReport): RefusalReason | undefined {
  const findings = errorsIn(report);
  if (findings.length > 0) return { is: 'errors', findings };
  if (report.runs.length === 0) return { is: 'not-run' };
  const brokeOff = report.runs.find((run) => run.brokeOff);
  if (brokeOff) return { is: 'broke-off', case: brokeOff.order.case };
  // A file may use up what it can be given before all cases are run.
  const wanted = 1 + report.section.cases.length;
  return report.runs.length < wanted ? { is: 'broke-off', case: report.runs.length } : undefined;
}

/** Errors of the runs, and of all text that they rest on. */
const errorsIn = (report: SequenceReport): Finding[] => [
  ...unreadIn(report),
  ...[...report.findings, ...unknownIn(report)].filter((finding) => severityOf(finding) === 'error'),
];

/**
 * Errors of the text that runs rest on, of which they know nothing: a line that can't be read, or names what is not known,
 * is left out by a run.
 */
export const leftOutIn = (report: SequenceReport): Finding[] => [
  ...unreadIn(report),
  ...[...report.findings.filter((finding) => finding.case === undefined), ...unknownIn(report)].filter(
    (finding) => severityOf(finding) === 'error',
  ),
];

/** All text that the runs rest on. */
function sectionsIn({ section, machine, runs }: SequenceReport): Set<Section> {
  const sections = new Set<Section>([section, ...(machine ? [machine] : [])]);
  for (const { tape } of runs) for (const { section: within } of tape.frames) sections.add(within);
  return sections;
}

const unreadIn = (report: SequenceReport): Finding[] => [...sectionsIn(report)].flatMap(syntaxFindings);

/** Names that other sequences can't find where they are written. */
function unknownIn(report: SequenceReport): Finding[] {
  const [run] = report.runs;
  if (!run) return [];
  return [...sectionsIn(report)].flatMap((within) => {
    if (within === report.section || within.kind !== 'sequence') return [];
    return checkNames(
      within,
      (name) => run.order.resolve(name, within) !== undefined,
      () => [],
    );
  });
}
