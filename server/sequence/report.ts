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
  const reported = inOrder(report.findings.map((finding) => reportFinding(library, report.file, finding, wording)));
  const untold = untoldIn(report);
  const last = reported.at(-1);
  if (untold && last) {
    const { file, line, column, endLine, endColumn } = last;
    const message = wording.messageOf(untold.facts);
    reported.push({ file, line, column, endLine, endColumn, code: untold.facts.code, severity: 'error', message });
  }
  return reported;
}

/** From the top, those at one place by their codes. */
export const inOrder = (reported: readonly ReportedFinding[]): ReportedFinding[] =>
  reported.toSorted(
    (a, b) => a.line - b.line || a.column - b.column || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0),
  );

/** That there are more findings than can be told, which is one as well. */
export function untoldIn({ findings, untold }: FileReport): Finding | undefined {
  const last = findings.at(-1);
  return last && untold > 0 ? { facts: { code: 'too-long', what: 'findings', limit: untold }, at: last.at } : undefined;
}

/** What a finding says, with the number of rounds where it is told of several at once. */
export const messageOfFinding = ({ facts, rounds }: Finding, { messageOf, roundsText }: Wording): string =>
  rounds === undefined ? messageOf(facts) : `${messageOf(facts)} ${roundsText(rounds)}`;

/** A finding of a file as other programs read it. */
export function reportFinding(
  library: Library,
  file: string,
  finding: Finding,
  wording: Wording = english,
): ReportedFinding {
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
