/** `cranknote trace`: what the machine shows after every step. */
import { nearest } from '../../grammar/nearest.js';
import type { SequenceSection } from '../../grammar/tree.js';
import type { FileReport } from '../sequence/file.js';
import { grouped } from '../sequence/grouped.js';
import type { Library } from '../sequence/library.js';
import { traceOf, type Wanted, wantedFindings, wantedRuns } from '../sequence/trace.js';
import { checkAll } from './checked.js';
import { checkFault, withFault } from './fault.js';
import { CannotRun } from './files.js';
import { Source } from './output/excerpt.js';
import { faultJson } from './output/fault-json.js';
import { figureText } from './output/figure.js';
import { summarise } from './output/summary.js';
import { findingText, summaryText } from './output/text.js';
import { harmless, harmlessJson, type Terminal } from './terminal.js';

export const TRACE_FORMATS = ['text', 'json'] as const;

export interface TraceOptions extends Wanted {
  readonly format: (typeof TRACE_FORMATS)[number];
  /** What is wrong with the machine: a fault as it is written. */
  readonly fault?: string;
}

/** Returns the exit code: 0 however much was found, for this command shows and does not judge; 2 can't run. */
export function trace(paths: readonly string[], options: TraceOptions, terminal: Terminal): number {
  const { library, files, reports, unreadable } = checkAll(paths, terminal);
  if (unreadable > 0) return 2;
  if (reports.length === 0) {
    throw new CannotRun('There is nothing to run: no .crank file, and no Markdown page with a block marked crank.');
  }
  checkWanted(reports, options);
  if (options.fault !== undefined) {
    checkFault(
      options.fault,
      reports.flatMap((report) => wantedRuns(report, options)),
    );
  }
  if (options.format === 'json') {
    if (reports.length !== 1) throw new CannotRun('The JSON format is that of one file: name a single one.');
    const traced = traceOf(library, reports[0], options);
    const shown = options.fault === undefined ? traced : faultJson(library, reports[0], traced, options, options.fault);
    terminal.out(harmlessJson(`${JSON.stringify(shown, null, 2)}\n`));
    return 0;
  }
  const source = new Source(files);
  const findings = reports.flatMap((report) => traceFile(library, report, options, source, terminal));
  const shown = reports.map(({ sequences }) => ({
    sequences: sequences.filter(({ section }) => isNamed(section, options)),
  }));
  terminal.out(summaryText(summarise(shown, findings)));
  return 0;
}

/** The figures of a file's sequences, each with what was found in it; what stands in none comes first. */
function traceFile(library: Library, report: FileReport, wanted: TraceOptions, source: Source, terminal: Terminal) {
  const { fault } = wanted;
  const findings = wantedFindings(library, report, wanted);
  const runs = wantedRuns(report, wanted);
  if (runs.length === 0 && findings.length === 0) return findings;
  terminal.out(`${terminal.colors.inverse(` ${harmless(report.file)} `)}\n\n`);
  const names = new Set(report.sequences.flatMap(({ section }) => section.header?.name.name ?? []));
  const figures = grouped(runs, ({ order }) => order.section.header?.name.name);
  const told = grouped(findings, ({ sequence }) =>
    sequence !== undefined && names.has(sequence) ? sequence : undefined,
  );
  for (const name of [undefined, ...names]) {
    for (const run of figures.get(name) ?? []) {
      const faulty = fault === undefined ? undefined : (withFault(run, fault) ?? 'none');
      terminal.out(`${figureText(library, report.file, run, terminal, faulty)}\n`);
    }
    for (const finding of told.get(name) ?? []) terminal.out(`${findingText(finding, source, terminal)}\n`);
  }
  return findings;
}

const isNamed = ({ header }: SequenceSection, { sequence }: Wanted): boolean =>
  sequence === undefined || header?.name.name === sequence;

/** A name that no sequence has, or a case that there is not, is a slip worth telling. */
function checkWanted(reports: readonly FileReport[], wanted: Wanted): void {
  if (wanted.sequence === undefined && wanted.case === undefined) return;
  const sequences = reports.flatMap(({ sequences }) => sequences);
  const named = sequences.filter(({ section }) => isNamed(section, wanted));
  if (named.length === 0) throw new CannotRun(noSequence(sequences, wanted.sequence));
  const cases = named.reduce((most, { section }) => Math.max(most, section.cases.length), 0);
  if (wanted.case !== undefined && wanted.case > cases) {
    throw new CannotRun(
      `There is no case ${wanted.case}: ${cases === 0 ? 'only the defaults, case 0' : `cases go from 0 (the defaults) to ${cases}`}.`,
    );
  }
}

/** Names in a message; a reader finds no name in a longer list. */
const MOST_NAMES = 20;

export function noSequence(sequences: FileReport['sequences'], wanted: string | undefined): string {
  const names = [...new Set(sequences.flatMap(({ section }) => section.header?.name.name ?? []))];
  if (names.length === 0 || wanted === undefined) return 'There is no sequence in what was named.';
  const near = nearest(wanted, names);
  if (near !== undefined) return `There is no sequence ${wanted}. Did you mean ${near}?`;
  const more = names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : '';
  return `There is no sequence ${wanted}. There ${names.length === 1 ? 'is' : 'are'}: ${names.slice(0, MOST_NAMES).join(', ')}${more}.`;
}
