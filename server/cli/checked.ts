/** Reads and checks what a command names: the beginning that `check` and `trace` have in common. */
import type { WholeReport } from '../sequence/file-report.js';
import type { Library } from '../sequence/library.js';
import { type Entry, findEntries, loadAll } from './files.js';
import { harmless, Progress, type Terminal } from './terminal.js';

export interface Checked {
  readonly library: Library;
  /** The texts of the files that could be read. */
  readonly files: ReadonlyMap<string, string>;
  readonly reports: readonly WholeReport[];
  /** How many could not be read; what is wrong with each has been said. */
  readonly unreadable: number;
}

export const checkAll = (paths: readonly string[], terminal: Terminal): Checked =>
  checkEntries(findEntries(paths), terminal);

export function checkEntries(entries: readonly Entry[], terminal: Terminal): Checked {
  let unreadable = 0;
  const complain = (message: string) => {
    unreadable++;
    terminal.err(`${message}\n`);
  };
  const { library, files } = loadAll(entries, complain);
  const progress = new Progress(terminal);
  const reports = [...files.keys()].map((file, i) =>
    library.check(file, (done, all) => {
      progress.at(done, all, `sections of ${harmless(file)}, file ${i + 1} of ${files.size}`);
    }),
  );
  progress.end();
  return { library, files, reports, unreadable };
}
