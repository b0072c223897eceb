/** `cranknote check`: what is wrong with files, and what is noticed when their sequences are run. */
import type { Severity } from '../sequence/findings.js';
import { type ReportedFinding, reportFindings } from '../sequence/report.js';
import { findEntries, loadAll, watchOf } from './files.js';
import { Source } from './output/excerpt.js';
import { toGithub, toJson, toJunit, toSarif } from './output/formats.js';
import { type Checked, fails, summarise } from './output/summary.js';
import { findingText, summaryText } from './output/text.js';
import { Progress, type Terminal } from './terminal.js';

export const CHECK_FORMATS = ['text', 'json', 'junit', 'sarif', 'github'] as const;

export interface CheckOptions {
  readonly format: (typeof CHECK_FORMATS)[number];
  readonly level: Severity;
}

/** Returns the exit code: 0 clean, 1 something found, 2 a file can't be read. */
export function check(paths: readonly string[], options: CheckOptions, terminal: Terminal, version: string): number {
  let unreadable = 0;
  const complain = (message: string) => {
    unreadable++;
    terminal.err(`${message}\n`);
  };
  const { library, files } = loadAll(findEntries(paths.length > 0 ? paths : ['.']), complain);
  const progress = new Progress(terminal);
  const findings: ReportedFinding[] = [];
  const reports = [...files.keys()].map((file, i) => {
    const report = library.check(file, watchOf(progress, file, i, files.size));
    findings.push(...reportFindings(library, report));
    return report;
  });
  progress.end();
  const checked: Checked = { reports, findings, summary: summarise(reports, findings) };
  // Where nothing could be read, the messages have said it all.
  if (files.size > 0 || unreadable === 0 || options.format !== 'text')
    write(checked, files, options, terminal, version);
  if (unreadable > 0) return 2;
  return fails(findings, options.level) ? 1 : 0;
}

function write(
  checked: Checked,
  files: ReadonlyMap<string, string>,
  { format }: CheckOptions,
  terminal: Terminal,
  version: string,
): void {
  switch (format) {
    case 'json':
      return terminal.out(toJson(checked));
    case 'junit':
      return terminal.out(toJunit(checked));
    case 'sarif':
      return terminal.out(toSarif(checked, version));
    case 'github':
      return terminal.out(toGithub(checked));
    case 'text': {
      const source = new Source(files);
      for (const finding of checked.findings) terminal.out(`${findingText(finding, source, terminal)}\n`);
      return terminal.out(summaryText(checked.summary));
    }
  }
}
