/** Where the command line writes, and whether that is a terminal. */
import { createColors } from 'picocolors';
import stringWidth from 'string-width';
import wrapAnsi from 'wrap-ansi';

export interface Terminal {
  out(content: string | Uint8Array): void;
  err(text: string): void;
  readonly colors: ReturnType<typeof createColors>;
  /** Somebody is reading standard output as it comes. */
  readonly isTerminal: boolean;
  /** How many columns a line of it has; endless where it is no terminal. */
  readonly columns: number;
  /** Somebody is watching standard error. */
  readonly showsProgress: boolean;
}

export function openTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      // A reader that goes away, as `head` does, is no mistake of ours; there is nobody left to tell.
      if (error.code === 'EPIPE') process.exit();
      if (stream === stdout) stderr.write(`The output can't be written in full: ${reason(error)}.\n`);
      process.exit(2);
    });
  }
  const isPlain = (env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb';
  return {
    out: (content) => void stdout.write(content),
    err: (text) => void stderr.write(text),
    colors: createColors(stdout.isTTY === true && !isPlain),
    isTerminal: stdout.isTTY === true,
    columns: stdout.isTTY === true && stdout.columns > MARGIN ? stdout.columns : Number.POSITIVE_INFINITY,
    showsProgress: stderr.isTTY === true,
  };
}

const reason = ({ code, message }: NodeJS.ErrnoException): string =>
  code === 'ENOSPC' ? 'there is no room left' : message;

/**
 * Text from a file, a file's name or a word of the command, safe to show: nothing in it can move the cursor, change
 * colours or the order of the letters. Joiners stay, for scripts that need them.
 */
export const harmless = (text: string): string =>
  text.replace(/\t/g, ' ').replace(/(?![\u200c\u200d])[\p{C}\p{Zl}\p{Zp}]/gu, '\ufffd');

/** The same for several lines. */
export const harmlessLines = (text: string): string => text.split('\n').map(harmless).join('\n');

/** JSON says the same with control characters written as escapes, and then can be shown as well. */
export const harmlessJson = (json: string): string =>
  json.replace(/[\u007f-\u009f]/g, (c) => `\\u00${c.charCodeAt(0).toString(16)}`);

/** A terminal narrower than this is left to break lines as it likes. */
const MARGIN = 20;

/** Prose, indented, and broken between words where the terminal would break it anywhere. */
export function paragraph(text: string, indent: string, { columns }: Pick<Terminal, 'columns'>): string {
  const lines = columns === Number.POSITIVE_INFINITY ? text : wrapAnsi(text, columns - indent.length);
  return indent + lines.replaceAll('\n', `\n${indent}`);
}

/** Columns that a text takes on a terminal. */
export const widthOf = (text: string): number => stringWidth(text);

/** Says how far a long command has come, from its second second on, and wipes it away at the end. */
export class Progress {
  private readonly start = Date.now();
  private told = 0;

  constructor(private readonly terminal: Terminal) {}

  /** May be called as often as one likes: it looks at the clock and mostly says nothing. */
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
