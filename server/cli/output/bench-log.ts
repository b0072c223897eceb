/** Bench records side by side, for a person, for other programs, and as a page. */
import type { BenchLog } from '../../proving/history.js';
import type { ToldLog } from '../../proving/told-log.js';
import { provingWording } from '../../proving/wording/index.js';
import { toldOf } from '../../sequence/looks.js';
import type { Block, Sheet } from '../../sheets/model.js';
import { sheetWords } from '../../sheets/wording/index.js';
import { harmless, paragraph, type Terminal } from '../terminal.js';
import { aligned } from './aligned.js';

export function logText({ title, rows, records }: ToldLog, terminal: Terminal): string {
  const { colors } = terminal;
  const { logColumns } = provingWording('en');
  const left = (text: string) => ({ text: harmless(text), left: true });
  const head = [logColumns.reading, logColumns.sound, ...records.map((_, i) => String(i + 1))].map(left);
  const table = aligned([
    head,
    ...rows.map(({ reading, sound, found }) => [reading, sound, ...found.map(({ text }) => text)].map(left)),
  ]);
  const lines = [
    colors.bold(harmless(title)),
    '',
    ...table.map((line, i) => `  ${i === 0 ? colors.dim(line) : line}`),
    ...records.flatMap((record, i) => [
      '',
      `  ${colors.bold(`${i + 1}  ${harmless(record.title)}`)}`,
      (record.verdict === 'pass' ? colors.green : colors.yellow)(paragraph(record.summary, '     ', terminal)),
      ...record.remarks.map((remark) => paragraph(harmless(remark), '     ', terminal)),
    ]),
  ];
  return `${lines.join('\n')}\n`;
}

/** Format 1: a key is never given another meaning. */
export function logJson(file: string, logs: readonly BenchLog[], told: readonly ToldLog[]): string {
  const all = logs.map(({ script, machine, faults, rows, entries }, i) => ({
    sequence: script,
    machine,
    faults,
    readings: rows.map(({ at, label, what, sound, found }) => ({
      number: at + 1,
      ...(label !== undefined && { label }),
      what,
      sound: toldOf(sound),
      found: found.map((shown) => (shown === undefined ? null : toldOf(shown))),
    })),
    records: told[i].records.map(({ title, verdict, summary, remarks }, k) => ({
      title,
      verdict,
      summary,
      remarks,
      proved: entries[k].proved,
    })),
  }));
  return `${JSON.stringify({ format: 1, file, logs: all }, null, 2)}\n`;
}

/** As a page in the manner of the sheets, with a part for every script. */
export function logSheet(logs: readonly ToldLog[], language: string): Sheet {
  const wording = provingWording(language);
  const { page } = sheetWords(language);
  const blocks = logs.flatMap(({ title, rows, records }, i): Block[] => [
    ...(i > 0 ? ([{ is: 'page' }] as const) : []),
    { is: 'heading', level: 2, text: [logs.length > 1 ? title : wording.recordsHeading] },
    { is: 'paragraph', text: [wording.cautionText], isFine: true },
    ...records.flatMap((record, k): Block[] => [
      { is: 'heading', level: 3, text: [`${k + 1}  ${record.title}`] },
      { is: 'paragraph', text: [{ strong: record.summary }] },
      { is: 'list', items: record.remarks.map((remark) => [remark]) },
    ]),
    { is: 'heading', level: 2, text: [wording.readingsHeading] },
    {
      is: 'table',
      caption: wording.logCaption,
      columns: [wording.logColumns.reading, wording.logColumns.sound, ...records.map((_, k) => String(k + 1))].map(
        (head) => ({
          head,
        }),
      ),
      rows: rows.map(({ reading, sound, found }) => [
        [reading],
        [sound],
        ...found.map(({ text, isSound }) => (isSound || text === '' ? [text] : [{ strong: text }])),
      ]),
    },
  ]);
  const [{ title }] = logs;
  return { kind: 'log', language, title: logs.length > 1 ? page.kinds.log : title, blocks, foot: page.kinds.log };
}
