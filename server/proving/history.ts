/** Bench records of one script on one machine side by side: what changed from one to the next, and what each proves. */
import type { Gradual } from '../../grammar/gradual.js';
import type { BenchReport, Noted } from '../sequence/bench.js';
import type { FileReport } from '../sequence/file.js';
import type { Look, Looked } from '../sequence/looks.js';
import { type Diagnosis, diagnoseAmong, isTooLong } from './diagnosis.js';
import { faultsWithinReach, type Suspect, shownAt, suspectsOf } from './suspects.js';
import { labelAt } from './told.js';

/** One thing that is read, in every record that notes it. */
export interface LogRow {
  /** Which `expect`, counted from 0. */
  readonly at: number;
  readonly label?: string;
  readonly what: Looked;
  readonly sound: Look['shown'];
  /** What each record notes, in the order of the file; undefined where it notes nothing. */
  readonly found: readonly (Look['shown'] | undefined)[];
}

export interface LogEntry {
  readonly bench: BenchReport;
  readonly diagnosis: Diagnosis;
  /** Faults that what was found as on the sound machine leaves no room for. */
  readonly proved: number;
  /** Since the record in which each was last noted: wrong then and right now, right then and wrong now, wrong otherwise. */
  readonly mended: readonly LogRow[];
  readonly worse: readonly LogRow[];
  readonly otherwise: readonly LogRow[];
}

/** The records of one script on one machine, in the order of the file, which is taken for that of time. */
export interface BenchLog {
  readonly script: string;
  readonly machine: string;
  /** Faults within reach of the machine; 0 where the script takes too long to be tried with them. */
  readonly faults: number;
  readonly rows: readonly LogRow[];
  readonly entries: readonly LogEntry[];
}

/** Every script and machine of which there are records that can be compared. */
export function* benchLogs({ sections }: FileReport): Gradual<BenchLog[]> {
  const groups = new Map<string, BenchReport[]>();
  for (const { bench } of sections) {
    const header = bench?.section.header;
    if (!bench?.run || !header) continue;
    const key = `${header.of.name} ${header.on.name}`;
    groups.set(key, [...(groups.get(key) ?? []), bench]);
  }
  const logs: BenchLog[] = [];
  for (const benches of groups.values()) logs.push(yield* logOf(benches));
  return logs;
}

function* logOf(benches: readonly BenchReport[]): Gradual<BenchLog> {
  const [{ run, section }] = benches;
  if (!run) throw new Error('a record without a run');
  const { order } = run;
  const suspects = isTooLong(run) ? [] : yield* suspectsOf(run, faultsWithinReach(order.profile));
  const rows = rowsOf(benches);
  const entries: LogEntry[] = [];
  for (const [i, bench] of benches.entries()) {
    const diagnosis = yield* diagnoseAmong(bench, order, suspects);
    entries.push({ bench, diagnosis, proved: provedBy(bench, suspects), ...changes(rows, i) });
  }
  return {
    script: section.header?.of.name ?? '',
    machine: section.header?.on.name ?? '',
    faults: suspects.length,
    rows,
    entries,
  };
}

/** In the order in which the readings are taken. */
function rowsOf(benches: readonly BenchReport[]): LogRow[] {
  const rows = new Map<string, LogRow & { found: (Look['shown'] | undefined)[] }>();
  for (const [i, bench] of benches.entries()) {
    for (const { at, what, sound, shown } of bench.noted) {
      const key = `${at} ${what}`;
      const label = labelAt(bench, at);
      const row = rows.get(key) ?? { at, what, sound, found: benches.map(() => undefined), ...(label && { label }) };
      row.found[i] = shown;
      rows.set(key, row);
    }
  }
  return [...rows.values()].sort((a, b) => a.at - b.at);
}

function changes(rows: readonly LogRow[], i: number): Pick<LogEntry, 'mended' | 'worse' | 'otherwise'> {
  const mended: LogRow[] = [];
  const worse: LogRow[] = [];
  const otherwise: LogRow[] = [];
  for (const row of rows) {
    const now = row.found[i];
    const before = row.found.slice(0, i).findLast((shown) => shown !== undefined);
    if (now === undefined || before === undefined || now === before) continue;
    if (now === row.sound) mended.push(row);
    else if (before === row.sound) worse.push(row);
    else otherwise.push(row);
  }
  return { mended, worse, otherwise };
}

/** Whoever has one of these faults would have shown something else where the sound machine's reading was found. */
function provedBy({ noted, run }: BenchReport, suspects: readonly Suspect[]): number {
  const right = noted.filter(({ shown, sound }) => shown === sound);
  const shows = (one: Noted, { expectings }: Suspect) =>
    run !== undefined && shownAt(expectings, one.at, one.what, run.order.profile) !== one.sound;
  return suspects.filter((suspect) => right.some((one) => shows(one, suspect))).length;
}
