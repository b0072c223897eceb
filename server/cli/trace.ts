/** `cranknote trace`: what the machine shows after every step. */
import type { FileReport, Library } from '../sequence/library.js';
import { reportFindings } from '../sequence/report.js';
import { traceOf, type Wanted, wantedRuns } from '../sequence/trace.js';
import { CannotRun, findEntries, loadAll } from './files.js';
import { Source } from './output/excerpt.js';
import { figureText } from './output/figure.js';
import { summarise } from './output/summary.js';
import { findingText, summaryText } from './output/text.js';
import { harmless, Progress, type Terminal } from './terminal.js';

export const TRACE_FORMATS = ['text', 'json'] as const;

export interface TraceOptions extends Wanted {
  readonly format: (typeof TRACE_FORMATS)[number];
}

/** Returns the exit code: 0 however much was found, for this command shows and does not judge; 2 can't run. */
export function trace(paths: readonly string[], options: TraceOptions, terminal: Terminal): number {
  let unreadable = 0;
  const complain = (message: string) => {
    unreadable++;
    terminal.err(`${message}\n`);
  };
  const { library, files } = loadAll(findEntries(paths), complain);
  if (unreadable > 0) return 2;
  const progress = new Progress(terminal);
  const reports = [...files.keys()].map((file, i) => {
    progress.at(i, files.size, 'files run');
    return library.check(file);
  });
  progress.end();
  checkWanted(reports, options);
  if (options.format === 'json') {
    if (reports.length !== 1) throw new CannotRun('The JSON format is that of one file: name a single one.');
    terminal.out(`${JSON.stringify(traceOf(library, reports[0], options), null, 2)}\n`);
    return 0;
  }
  const source = new Source(files);
  const findings = reports.flatMap((report) => traceFile(library, report, options, source, terminal));
  terminal.out(summaryText(summarise(reports, findings)));
  return 0;
}

/** The figures of a file's sequences, and what was found in it. */
function traceFile(library: Library, report: FileReport, wanted: Wanted, source: Source, terminal: Terminal) {
  const findings = reportFindings(library, report).filter(
    ({ sequence }) => wanted.sequence === undefined || sequence === wanted.sequence,
  );
  const runs = wantedRuns(report, wanted);
  if (runs.length === 0 && findings.length === 0) return findings;
  const { colors } = terminal;
  terminal.out(`${colors.inverse(` ${harmless(report.file)} `)}\n\n`);
  for (const run of runs) terminal.out(`${figureText(library, report.file, run, terminal)}\n`);
  for (const finding of findings) terminal.out(`${findingText(finding, source, terminal)}\n`);
  return findings;
}

/** A name that no sequence has, or a case that there is not, is a slip worth telling. */
function checkWanted(reports: readonly FileReport[], wanted: Wanted): void {
  if (wanted.sequence === undefined && wanted.case === undefined) return;
  const sequences = reports.flatMap(({ sequences }) => sequences);
  const named = sequences.filter(
    ({ section }) => wanted.sequence === undefined || section.header?.name.name === wanted.sequence,
  );
  if (named.length === 0) {
    const names = sequences.flatMap(({ section }) => section.header?.name.name ?? []);
    throw new CannotRun(
      `There is no sequence ${wanted.sequence}. There ${names.length === 1 ? 'is' : 'are'}: ${names.join(', ') || 'none'}.`,
    );
  }
  const cases = Math.max(...named.map(({ section }) => section.cases.length));
  if (wanted.case !== undefined && wanted.case > cases) {
    throw new CannotRun(
      `There is no case ${wanted.case}: ${cases === 0 ? 'only the defaults, case 0' : `cases go from 0 (the defaults) to ${cases}`}.`,
    );
  }
}
