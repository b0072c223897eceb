/** `cranknote check`: what is wrong with files, and what is noticed when their sequences are run. */
import { finish } from '../../grammar/gradual.js';
import { linesIn } from '../../grammar/sections.js';
import type { Severity } from '../sequence/findings.js';
import type { Library } from '../sequence/library.js';
import { inOrder, type ReportedFinding, reportFinding, reportFindings } from '../sequence/report.js';
import { type FileVerdicts, verdictsOn } from '../sequence/verdicts.js';
import { withInsets } from '../weave/findings.js';
import { checkAll } from './checked.js';
import { Source } from './output/excerpt.js';
import { toGithub, toJson, toSarif } from './output/formats.js';
import { toJunit } from './output/junit.js';
import { type Findings, fails, summarise } from './output/summary.js';
import { findingText, summaryText } from './output/text.js';
import type { Terminal } from './terminal.js';

export const CHECK_FORMATS = ['text', 'json', 'junit', 'sarif', 'github'] as const;

export interface CheckOptions {
  readonly format: (typeof CHECK_FORMATS)[number];
  readonly level: Severity;
}

/** Returns the exit code: 0 clean, 1 something found, 2 a file can't be read. */
export function check(paths: readonly string[], options: CheckOptions, terminal: Terminal, version: string): number {
  const { library, files, reports: checked, unreadable } = checkAll(paths.length > 0 ? paths : ['.'], terminal);
  const reports = checked.map((report) => finish(withInsets(library, report)));
  const verdicts = new Map(reports.map((report) => [report.file, verdictsOn(library, report, options.level)]));
  const findings = [
    ...reports.flatMap((report) => reportFindings(library, report)),
    ...obstaclesElsewhere(library, verdicts),
  ];
  const found: Found = { reports, findings, summary: summarise(reports, findings), library, verdicts };
  // Where nothing could be read, the messages have said it all.
  if (files.size > 0 || unreadable === 0 || options.format !== 'text') write(found, files, options, terminal, version);
  if (unreadable > 0) return 2;
  return fails(findings, options.level) ? 1 : 0;
}

/** What check hands to its outputs. */
interface Found extends Findings {
  readonly library: Library;
  /** By file. */
  readonly verdicts: ReadonlyMap<string, FileVerdicts>;
}

/**
 * What stands in the way of sequences and is in a file that is used and not checked itself: a sequence that could not be
 * run would go for one in which nothing was found.
 */
function obstaclesElsewhere(library: Library, verdicts: Found['verdicts']): ReportedFinding[] {
  const told = new Map<string, ReportedFinding>();
  for (const { sequences } of verdicts.values()) {
    for (const { outcome, failures } of sequences) {
      for (const finding of outcome === 'not-run' ? failures : []) {
        const file = library.fileOf(finding.at.section);
        if (file === undefined || verdicts.has(file)) continue;
        const reported = reportFinding(library, file, finding);
        told.set(`${file}:${reported.line}:${reported.column} ${reported.code}`, reported);
      }
    }
  }
  return inOrder([...told.values()]);
}

/** The texts of the files in which something was found. */
const textsOf = ({ findings, library }: Found, files: ReadonlyMap<string, string>): ReadonlyMap<string, string> =>
  new Map(findings.map(({ file }) => [file, files.get(file) ?? linesIn(library.tree(file)).join('\n')]));

function write(
  found: Found,
  files: ReadonlyMap<string, string>,
  { format }: CheckOptions,
  terminal: Terminal,
  version: string,
): void {
  switch (format) {
    case 'json':
      return terminal.out(toJson(found));
    case 'junit':
      return terminal.out(toJunit(found.library, found.verdicts));
    case 'sarif':
      return terminal.out(toSarif(found, version));
    case 'github':
      return terminal.out(toGithub(found));
    case 'text': {
      const source = new Source(textsOf(found, files));
      for (const finding of found.findings) terminal.out(`${findingText(finding, source, terminal)}\n`);
      return terminal.out(summaryText(found.summary));
    }
  }
}
