/** `cranknote format`: the formatter, on files. */
import { format as formatText } from '../../grammar/formatter.js';
import { formatMarkdown } from '../../grammar/markdown.js';
import { readText, STANDARD_INPUT } from '../disk.js';
import { isMarkdown } from '../sequence/library.js';
import { findEntries } from './files.js';
import { oneByOne } from './one-by-one.js';
import { patchText } from './output/patch.js';
import { problemText } from './reading.js';
import { harmless, harmlessLines, type Terminal } from './terminal.js';
import { writeWhole } from './writing.js';

export interface FormatOptions {
  /** Only say what would change. */
  readonly check?: boolean;
}

type Outcome = 'same' | 'changed' | 'failed';

/**
 * Returns the exit code: 0 done (or nothing to do), 1 with `check` if something would change, 2 can't run, 130
 * interrupted: then every file is either formatted or as it was.
 */
export async function format(
  paths: readonly string[],
  { check = false }: FormatOptions,
  terminal: Terminal,
): Promise<number> {
  const entries = findEntries(paths.length > 0 ? paths : ['.']);
  const outcomes: Outcome[] = [];
  const count = (outcome: Outcome) => outcomes.filter((o) => o === outcome).length;
  const isInterrupted = await oneByOne(entries, 'files formatted', terminal, ({ file }) => {
    outcomes.push(check ? compare(file, terminal) : rewrite(file, terminal));
  });
  if (isInterrupted) {
    const done = `after ${outcomes.length} of ${entries.length} files`;
    terminal.err(`Interrupted ${done}. ${check ? 'No file was changed' : 'The others are as they were'}.\n`);
    return 130;
  }
  if (count('failed') > 0) return 2;
  if (!check) return 0;
  const all = `${entries.length} ${entries.length === 1 ? 'file' : 'files'}`;
  terminal.err(count('changed') === 0 ? 'Everything is formatted.\n' : `${count('changed')} of ${all} would change.\n`);
  return count('changed') === 0 ? 0 : 1;
}

function textsOf(file: string, terminal: Terminal): { readonly text: string; readonly formatted: string } | undefined {
  const read = readText(file);
  if ('text' in read) {
    return { text: read.text, formatted: isMarkdown(file) ? formatMarkdown(read.text) : formatText(read.text) };
  }
  terminal.err(`${problemText(file, read.problem)}\n`);
  return undefined;
}

/** Shows what would change, as a patch. */
function compare(file: string, terminal: Terminal): Outcome {
  const texts = textsOf(file, terminal);
  if (!texts) return 'failed';
  if (texts.formatted === texts.text) return 'same';
  const patch = patchText(file, texts.text, texts.formatted);
  // A program that takes the patch needs it to the letter, a terminal needs it without its control characters.
  terminal.out(terminal.isTerminal ? harmlessLines(patch) : patch);
  return 'changed';
}

function rewrite(file: string, terminal: Terminal): Outcome {
  const texts = textsOf(file, terminal);
  if (!texts) return 'failed';
  if (file === STANDARD_INPUT) {
    terminal.out(texts.formatted);
    return 'changed';
  }
  if (texts.formatted === texts.text) return 'same';
  try {
    writeWhole(file, texts.formatted);
  } catch {
    terminal.err(`${harmless(file)} can't be written and is left as it was.\n`);
    return 'failed';
  }
  terminal.out(`${harmless(file)} formatted.\n`);
  return 'changed';
}
