/** `cranknote diagnose`: what bench records say of the machines on which they were made. */
import { finish } from '../../grammar/gradual.js';
import { diagnose as diagnoseOne } from '../proving/diagnosis.js';
import { tell } from '../proving/told.js';
import { provingWording } from '../proving/wording/index.js';
import { reportFindings } from '../sequence/report.js';
import { checkAll } from './checked.js';
import { CannotRun } from './files.js';
import { type Diagnosed, diagnosisJson, diagnosisText } from './output/diagnosed.js';
import { Source } from './output/excerpt.js';
import { findingText } from './output/text.js';
import { harmlessJson, Progress, type Terminal } from './terminal.js';

export const DIAGNOSE_FORMATS = ['text', 'json'] as const;

export interface DiagnoseOptions {
  readonly format: (typeof DIAGNOSE_FORMATS)[number];
}

const wording = provingWording('en');

/** Returns the exit code: 0 every record is a pass, 1 one is not or can't be compared, 2 can't run. */
export function diagnose(paths: readonly string[], { format }: DiagnoseOptions, terminal: Terminal): number {
  const { library, files, reports, unreadable } = checkAll(paths.length > 0 ? paths : ['.'], terminal);
  if (unreadable > 0) return 2;
  const benches = reports.flatMap(({ file, sections }) =>
    sections.flatMap(({ bench }) => (bench ? [{ file, bench }] : [])),
  );
  if (benches.length === 0) {
    throw new CannotRun('There is no bench record in what was named: a section bench "Title" of NAME on NAME.');
  }
  const progress = new Progress(terminal);
  const diagnosed = benches.map(({ file, bench }, i): Diagnosed => {
    progress.at(i, benches.length, 'records');
    const line = library.lineOf(bench.section) + 1;
    return { file, line, bench, told: tell(bench, finish(diagnoseOne(bench)), wording) };
  });
  progress.end();
  if (format === 'json') terminal.out(harmlessJson(diagnosisJson(diagnosed)));
  else {
    const source = new Source(files);
    const mistakes = reports.flatMap((report) => reportFindings(library, report));
    for (const one of diagnosed) {
      terminal.out(diagnosisText(one, terminal));
      // What is wrong with the record itself; where it differs from the sound machine is told above.
      const last = one.line + one.bench.section.lines.length;
      for (const finding of mistakes) {
        const isOwn = finding.file === one.file && finding.line >= one.line && finding.line < last;
        if (isOwn && finding.code !== 'found-differs') terminal.out(`${findingText(finding, source, terminal)}\n`);
      }
    }
  }
  return diagnosed.every(({ told }) => told.verdict === 'pass') ? 0 : 1;
}
