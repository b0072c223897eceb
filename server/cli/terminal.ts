/** Where the command line writes, and whether that is a terminal. */
import { createColors } from 'picocolors';
import stringWidth from 'string-width';

export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  readonly colors: ReturnType<typeof createColors>;
  /** Somebody is watching standard error. */
  readonly showsProgress: boolean;
}

export function openTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  // A reader that goes away is no mistake of ours; there is nobody left to tell.
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
      process.exit();
    });
  }
  const isPlain = (env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb';
  return {
    out: (text) => void stdout.write(text),
    err: (text) => void stderr.write(text),
    colors: createColors(stdout.isTTY === true && !isPlain),
    showsProgress: stderr.isTTY === true,
  };
}

/** Text from a file, safe to show: nothing in it can move the cursor or change colours. */
export const harmless = (text: string): string =>
  text.replace(/\t/g, ' ').replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cn}]/gu, '\ufffd');

/** Columns that a text takes on a terminal. */
export const widthOf = (text: string): number => stringWidth(text);

/** Says how far a long command has come, from its second second on, and wipes it away at the end. */
export class Progress {
  private readonly start = Date.now();
  private told = 0;

  constructor(private readonly terminal: Terminal) {}

  at(done: number, all: number, what: string): void {
    const now = Date.now();
    if (!this.terminal.showsProgress || now - this.start < 1_000 || now - this.told < 100) return;
    this.told = now;
    this.terminal.err(`\r\u001b[K${done} of ${all} ${what} …`);
  }

  end(): void {
    if (this.told > 0) this.terminal.err('\r\u001b[K');
  }
}
