/** Several bench records in words: the same for a terminal, JSON and a page. */
import { faultText } from '../sequence/fault-text.js';
import { type Told, toldOf } from '../sequence/looks.js';
import type { BenchLog, LogEntry, LogRow } from './history.js';
import type { ProvingWording } from './wording/index.js';

export interface ToldLog {
  readonly title: string;
  readonly rows: readonly ToldRow[];
  readonly records: readonly ToldRecord[];
}

export interface ToldRow {
  /** `2 nines: result`. */
  readonly reading: string;
  readonly sound: string;
  readonly found: readonly { readonly text: string; readonly isSound: boolean }[];
}

export interface ToldRecord {
  readonly title: string;
  readonly verdict: LogEntry['diagnosis']['verdict'];
  readonly summary: string;
  /** What explains it, what changed, what it proves. */
  readonly remarks: readonly string[];
}

/** Faults that are named of one record. */
const MOST_NAMED = 6;

export function tellLog({ script, machine, faults, rows, entries }: BenchLog, wording: ProvingWording): ToldLog {
  /** Of a register the figures alone: which one, the row says. */
  const shownText = ({ what }: LogRow, shown: Told) =>
    typeof shown === 'boolean' || what === 'carriage' ? wording.lookText({ what, shown }) : String(shown);
  return {
    title: wording.logTitle(script, machine),
    rows: rows.map((row) => ({
      reading: wording.logReading(row.at + 1, row.label, row.what),
      sound: shownText(row, toldOf(row.sound)),
      found: row.found.map((shown) => ({
        text: shown === undefined ? '' : shown === row.sound ? wording.asSound : shownText(row, toldOf(shown)),
        isSound: shown === row.sound,
      })),
    })),
    records: entries.map((entry) => toldRecord(entry, faults, wording)),
  };
}

function toldRecord(entry: LogEntry, faults: number, wording: ProvingWording): ToldRecord {
  const { bench, diagnosis, proved, mended, worse, otherwise } = entry;
  const named = (rows: readonly LogRow[]) =>
    rows
      .map(
        ({ at, label, what, sound }) =>
          `${wording.readingName(at, label)}, ${wording.lookText({ what, shown: toldOf(sound) })}`,
      )
      .join('; ');
  const explaining = diagnosis.verdict === 'explained' ? diagnosis.explaining : [];
  const rest = explaining.length - MOST_NAMED;
  const some = explaining
    .slice(0, MOST_NAMED)
    .map(({ fault }) => `${faultText(fault)} (${wording.faultSentence(fault)})`);
  const listed = some.join('; ') + (rest > 0 ? ` ${wording.moreText(rest)}` : '');
  return {
    title: bench.section.header?.title.value ?? '',
    verdict: diagnosis.verdict,
    summary: wording.verdictText(diagnosis),
    remarks: [
      ...(explaining.length > 0 ? [wording.explainedBy(listed)] : []),
      ...(mended.length > 0 ? [wording.mendedText(named(mended))] : []),
      ...(worse.length > 0 ? [wording.worseText(named(worse))] : []),
      ...(otherwise.length > 0 ? [wording.otherwiseText(named(otherwise))] : []),
      // A pass has said so in its summary.
      ...(faults > 0 && diagnosis.verdict !== 'pass' ? [wording.provedText(proved, faults)] : []),
    ],
  };
}
