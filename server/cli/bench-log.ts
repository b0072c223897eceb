/** `cranknote bench-log`: several records of one script side by side. */
import { finish } from '../../grammar/gradual.js';
import { benchLogs } from '../proving/history.js';
import { tellLog } from '../proving/told-log.js';
import { provingWording } from '../proving/wording/index.js';
import { toHtml } from '../sheets/html.js';
import { sheetWords } from '../sheets/wording/index.js';
import { checkAll } from './checked.js';
import { CannotRun } from './files.js';
import { logJson, logSheet, logText } from './output/bench-log.js';
import { harmlessJson, type Terminal } from './terminal.js';

export const BENCH_LOG_FORMATS = ['text', 'json', 'html'] as const;

export interface BenchLogOptions {
  readonly format: (typeof BENCH_LOG_FORMATS)[number];
  readonly language: string;
}

/** Returns the exit code: 0 the last record of every script is a pass, 1 one is not, 2 can't run. */
export function benchLog(file: string, { format, language }: BenchLogOptions, terminal: Terminal): number {
  const { reports, unreadable } = checkAll([file], terminal);
  if (unreadable > 0) return 2;
  if (reports.length > 1) throw new CannotRun(`${file} stands for ${reports.length} files: name a single one.`);
  const logs = reports.flatMap((report) => finish(benchLogs(report)));
  if (logs.length === 0) {
    throw new CannotRun(
      'There is no bench record that could be compared; cranknote check says what is wrong with one.',
    );
  }
  const told = logs.map((log) => tellLog(log, provingWording(format === 'html' ? language : 'en')));
  if (format === 'json') terminal.out(harmlessJson(logJson(reports[0].file, logs, told)));
  else if (format === 'text') terminal.out(told.map((log) => logText(log, terminal)).join('\n'));
  else terminal.out(toHtml(logSheet(told, language), sheetWords(language), { paper: 'a4' }));
  return logs.every(({ entries }) => entries.at(-1)?.diagnosis.verdict === 'pass') ? 0 : 1;
}
