/** A file that a command makes where it is told to. */
import { existsSync } from 'node:fs';
import { CannotRun } from './files.js';
import { writeNew } from './writing.js';

/** Throws where there is a file already. */
export function refuseExisting(out: string, otherwise = ''): void {
  if (!existsSync(out)) return;
  throw new CannotRun(`${out} is there already: name a file that is not, or move the other away${otherwise}.`);
}

/** Throws, with the reason, where it can't be written. */
export function writeOut(out: string, text: string): void {
  try {
    writeNew(out, text);
  } catch (error) {
    throw new CannotRun(`${out} can't be written: ${error instanceof Error ? error.message : String(error)}.`);
  }
}
