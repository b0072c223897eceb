/** Work on files that may be interrupted between two of them, so that each is either done or as it was. */
import { setImmediate } from 'node:timers/promises';
import { Progress, type Terminal } from './terminal.js';

/** Returns whether a signal came: then the files that were to come are left alone. */
export async function oneByOne<T>(
  all: readonly T[],
  what: string,
  terminal: Terminal,
  work: (one: T) => void,
): Promise<boolean> {
  const progress = new Progress(terminal);
  let isInterrupted = false;
  const interrupt = () => {
    isInterrupted = true;
  };
  process.on('SIGINT', interrupt).on('SIGTERM', interrupt);
  try {
    for (const [i, one] of all.entries()) {
      progress.at(i, all.length, what);
      work(one);
      // A signal comes through only between files.
      await setImmediate();
      if (isInterrupted) break;
    }
  } finally {
    process.off('SIGINT', interrupt).off('SIGTERM', interrupt);
    progress.end();
  }
  return isInterrupted;
}
