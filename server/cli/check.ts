/** `cranknote check`: what is wrong with files, and what is noticed when their sequences are run. */
import { finish } from '../../grammar/gradual.js';
import type { Severity } from '../sequence/findings.js';
import { reportFindings } from '../sequence/report.js';
import { withInsets } from '../weave/findings.js';
import { checkAll } from './checked.js';
import { Source } from './output/excerpt.js';
import { toGithub, toJson, toJunit, toSarif } from './output/formats.js';
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
  const findings = reports.flatMap((report) => reportFindings(library, report));
  const found: Findings = { reports, findings, summary: summarise(reports, findings) };
  // Where nothing could be read, the messages have said it all.
  if (files.size > 0 || unreadable === 0 || options.format !== 'text') write(found, files, options, terminal, version);
  if (unreadable > 0) return 2;
  return fails(findings, options.level) ? 1 : 0;
}

function write(
  found: Findings,
  files: ReadonlyMap<string, string>,
  { format }: CheckOptions,
  terminal: Terminal,
  version: string,
): void {
  switch (format) {
    case 'json':
      return terminal.out(toJson(found));
    case 'junit':
      return terminal.out(toJunit(found));
    case 'sarif':
      return terminal.out(toSarif(found, version));
    case 'github':
      return terminal.out(toGithub(found));
    case 'text': {
      const source = new Source(files);
      for (const finding of found.findings) terminal.out(`${findingText(finding, source, terminal)}\n`);
      return terminal.out(summaryText(found.summary));
    }
  }
}
