/** `cranknote format`: the formatter, on files. */
import { chmodSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { createTwoFilesPatch } from 'diff';
import { formatMarkdown } from '../../grammar/markdown.js';
import { format as formatText } from '../../grammar/printer.js';
import { isMarkdown } from '../sequence/library.js';
import { findEntries, problemText, readText, STANDARD_INPUT } from './files.js';
import { Progress, type Terminal } from './terminal.js';

export interface FormatOptions {
  /** Only say what would change. */
  readonly check: boolean;
}

/** Returns the exit code: 0 done (or nothing to do), 1 with `check` if something would change, 2 can't run. */
export function format(paths: readonly string[], { check }: FormatOptions, terminal: Terminal): number {
  const entries = findEntries(paths.length > 0 ? paths : ['.']);
  const progress = new Progress(terminal);
  let unreadable = 0;
  let changed = 0;
  for (const [i, { file }] of entries.entries()) {
    progress.at(i, entries.length, 'files formatted');
    const read = readText(file);
    if ('problem' in read) {
      unreadable++;
      terminal.err(`${problemText(file, read.problem)}\n`);
      continue;
    }
    const formatted = isMarkdown(file) ? formatMarkdown(read.text) : formatText(read.text);
    if (file === STANDARD_INPUT && !check) terminal.out(formatted);
    if (formatted === read.text || (file === STANDARD_INPUT && !check)) continue;
    changed++;
    if (check) {
      terminal.out(createTwoFilesPatch(file, file, read.text, formatted, 'as it is', 'formatted'));
      continue;
    }
    try {
      writeWhole(file, formatted);
      terminal.out(`${file} formatted.\n`);
    } catch {
      unreadable++;
      terminal.err(`${file} can't be written and is left as it was.\n`);
    }
  }
  progress.end();
  if (unreadable > 0) return 2;
  if (check)
    terminal.err(
      changed === 0 ? 'Everything is formatted.\n' : `${changed} of ${entries.length} files would change.\n`,
    );
  return check && changed > 0 ? 1 : 0;
}

/** Writes beside the file and then puts the new one in its place, so that it is never half written. */
function writeWhole(file: string, text: string): void {
  const real = realpathSync(file);
  const { mode } = statSync(real);
  const beside = path.join(path.dirname(real), `.${path.basename(real)}.${process.pid}.new`);
  const wipe = () => rmSync(beside, { force: true });
  const interrupted = () => {
    wipe();
    process.exit(130);
  };
  process.once('SIGINT', interrupted).once('SIGTERM', interrupted);
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    chmodSync(beside, mode);
    renameSync(beside, real);
  } catch (error) {
    wipe();
    throw error;
  } finally {
    process.off('SIGINT', interrupted).off('SIGTERM', interrupted);
  }
}
