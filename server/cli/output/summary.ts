/** How much was checked and how much was found. */

import type { FileReport } from '../../sequence/file.js';
import { rankOf, type Severity } from '../../sequence/findings.js';
import type { ReportedFinding } from '../../sequence/report.js';

export interface Summary {
  readonly files: number;
  readonly sequences: number;
  readonly errors: number;
  readonly warnings: number;
  readonly information: number;
  readonly hints: number;
}

/** What `check` hands to its outputs. */
export interface Findings {
  readonly reports: readonly FileReport[];
  readonly findings: readonly ReportedFinding[];
  readonly summary: Summary;
}

export function summarise(
  reports: readonly Pick<FileReport, 'sequences'>[],
  findings: readonly ReportedFinding[],
): Summary {
  const of = (severity: Severity) => findings.filter((finding) => finding.severity === severity).length;
  return {
    files: reports.length,
    sequences: reports.reduce((sum, { sequences }) => sum + sequences.length, 0),
    errors: of('error'),
    warnings: of('warning'),
    information: of('information'),
    hints: of('hint'),
  };
}

/** Whether anything was found that is as grave as `level`, or graver. */
export const fails = (findings: readonly ReportedFinding[], level: Severity): boolean =>
  findings.some(({ severity }) => rankOf(severity) <= rankOf(level));
