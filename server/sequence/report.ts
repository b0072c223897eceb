/** Findings as other programs read them: with file, line and column counted from 1, and a message. */

import type { FileReport } from './file.js';
import { type Code, type Finding, type Place, type Severity, severityOf } from './findings.js';
import type { Library } from './library.js';
import * as english from './wording/en.js';
import type { Wording } from './wording/index.js';

/** Part of format 1 of `check` and `trace`: a key is never given another meaning. */
export interface ReportedFinding {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly code: Code;
  readonly severity: Severity;
  readonly sequence?: string;
  /** Only where it comes from another run than that with the defaults. */
  readonly case?: number;
  readonly message: string;
  readonly related?: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
}

/** The findings of a file from its top, those at one place by their codes. */
export function reportFindings(library: Library, report: FileReport, wording: Wording = english): ReportedFinding[] {
  const reported = report.findings.map((finding) => reportFinding(library, report.file, finding, wording));
  reported.sort((a, b) => a.line - b.line || a.column - b.column || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0));
  if (report.untold > 0) {
    const last = reported[reported.length - 1];
    const message = wording.messageOf({ code: 'too-long', what: 'findings', limit: report.untold });
    const { file, line, column, endLine, endColumn } = last;
    reported.push({ file, line, column, endLine, endColumn, code: 'too-long', severity: 'error', message });
  }
  return reported;
}

/** What a finding says, with the number of rounds where it is told of several at once. */
export const messageOfFinding = ({ facts, rounds }: Finding, { messageOf, roundsText }: Wording): string =>
  rounds === undefined ? messageOf(facts) : `${messageOf(facts)} ${roundsText(rounds)}`;

function reportFinding(library: Library, file: string, finding: Finding, wording: Wording): ReportedFinding {
  const { facts, at, sequence, related } = finding;
  const line = library.lineOf(at.section) + at.line + 1;
  return {
    file,
    line,
    column: at.from + 1,
    endLine: line,
    endColumn: at.to + 1,
    code: facts.code,
    severity: severityOf(finding),
    ...(sequence !== undefined && { sequence }),
    ...(finding.case ? { case: finding.case } : {}),
    message: messageOfFinding(finding, wording),
    ...(related && {
      related: related.map(({ at: other, why }) => ({ ...placeOf(library, other), message: wording.relatedText[why] })),
    }),
  };
}

function placeOf(library: Library, { section, line, from }: Place): { file: string; line: number; column: number } {
  return { file: library.fileOf(section) ?? '', line: library.lineOf(section) + line + 1, column: from + 1 };
}
