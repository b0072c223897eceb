/** `cranknote coverage`: which faults of the machine sequences would catch, and what would catch the others. */

import { finish } from '../../grammar/gradual.js';
import { nearest } from '../../grammar/nearest.js';
import { coverageOf } from '../proving/coverage.js';
import { proposalsFor, unproved } from '../proving/script.js';
import { nameOf } from '../sequence/check.js';
import { grouped } from '../sequence/grouped.js';
import { checkAll } from './checked.js';
import { CannotRun } from './files.js';
import type { Judgement, LeftOut, Script, Written } from './judgement.js';
import { coverageText } from './output/coverage.js';
import { coverageJson } from './output/coverage-json.js';
import { coveragePage } from './output/coverage-page.js';
import { Progress, type Terminal } from './terminal.js';
import { noSequence } from './trace.js';

export const COVERAGE_FORMATS = ['text', 'json', 'html'] as const;

export interface CoverageOptions {
  readonly on?: string;
  readonly sequence?: string;
  readonly together?: boolean;
  readonly format: (typeof COVERAGE_FORMATS)[number];
}

/** Returns the exit code: 0 however much is caught, 1 where a sequence could not be judged, 2 can't run. */
export function coverage(paths: readonly string[], options: CoverageOptions, terminal: Terminal): number {
  const { library, reports, unreadable } = checkAll(paths.length > 0 ? paths : ['.'], terminal);
  if (unreadable > 0) return 2;
  const all = reports.flatMap(({ file, sequences }) => sequences.map((report) => ({ file, report })));
  const wanted = wantedOf(all, options);
  const reasons = new Map(wanted.map((one) => [one, unproved(one.report)]));
  const leftOut = wanted.flatMap((one): LeftOut[] => {
    const why = reasons.get(one);
    return why ? [{ ...one, why }] : [];
  });
  const proved = wanted.filter((one) => reasons.get(one) === undefined);
  const scripts = judged(options.together ? byMachine(proved) : proved.map((one) => [one]), terminal);
  const judgement: Judgement = { library, scripts, leftOut };
  terminal.out(written(judgement, options, terminal));
  return leftOut.some(({ why }) => why !== 'nobody-looks') ? 1 : 0;
}

function written(judgement: Judgement, { format }: CoverageOptions, terminal: Terminal): string {
  switch (format) {
    case 'json':
      return coverageJson(judgement);
    case 'html':
      return coveragePage(judgement);
    case 'text':
      return coverageText(judgement, terminal);
  }
}

function wantedOf(all: readonly Written[], { on, sequence }: CoverageOptions): Written[] {
  const named = all.filter(({ report }) => sequence === undefined || nameOf(report) === sequence);
  if (named.length === 0) {
    throw new CannotRun(
      noSequence(
        all.map(({ report }) => report),
        sequence,
      ),
    );
  }
  const wanted = named.filter(({ report }) => on === undefined || report.profile?.name === on);
  if (wanted.length > 0 || on === undefined) return wanted;
  const machines = new Set(named.flatMap(({ report }) => report.profile?.name ?? []));
  const near = nearest(on, machines);
  throw new CannotRun(`No sequence here is cranked on ${on}.${near ? ` Did you mean ${near}?` : ''}`);
}

/** A machine of one file is another one than that of another file, were they called the same. */
const byMachine = (sequences: readonly Written[]): Written[][] => [
  ...grouped(sequences, ({ report }) => report.profile).values(),
];

function judged(scripts: readonly (readonly Written[])[], terminal: Terminal): Script[] {
  const progress = new Progress(terminal);
  const done = scripts.map((sequences, i): Script => {
    progress.at(i, scripts.length, 'scripts');
    const found = finish(coverageOf(sequences.flatMap(({ report }) => report.runs)));
    return { profile: found.profile, sequences, coverage: found, proposals: finish(proposalsFor(found)) };
  });
  progress.end();
  return done;
}
