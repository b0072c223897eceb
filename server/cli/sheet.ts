/** `cranknote sheet`: what is printed of a sequence. */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { nameOf } from '../sequence/check.js';
import { toHtml } from '../sheets/html.js';
import { toMarkdown } from '../sheets/markdown.js';
import type { FigureChoice, Paper, Sheet, SheetKind } from '../sheets/model.js';
import { isSheetRefused, sheetOf } from '../sheets/sheet.js';
import { sheetWords } from '../sheets/wording/index.js';
import { checkAll } from './checked.js';
import { CannotRun } from './files.js';
import { toPdf } from './pdf.js';
import { harmless, type Terminal } from './terminal.js';
import { noSequence } from './trace.js';
import { writeNew } from './writing.js';

export const SHEET_FORMATS = ['html', 'markdown', 'pdf'] as const;
export type SheetFormat = (typeof SHEET_FORMATS)[number];

export interface SheetOptions {
  readonly sequence?: string;
  readonly kind: SheetKind;
  readonly format: SheetFormat;
  readonly language: string;
  readonly paper: Paper;
  readonly figures: FigureChoice;
  readonly out?: string;
}

const ENDING: Readonly<Record<SheetFormat, string>> = { html: 'html', markdown: 'md', pdf: 'pdf' };

/** Returns the exit code: 0 every sheet is made, 1 a sequence has none for what is wrong in it, 2 can't run. */
export async function sheet(file: string, options: SheetOptions, terminal: Terminal): Promise<number> {
  const { reports, unreadable } = checkAll([file], terminal);
  if (unreadable > 0) return 2;
  const all = reports.flatMap((report) => report.sequences.map((sequence) => ({ file: report.file, sequence })));
  const wanted = all.filter(({ sequence }) => options.sequence === undefined || nameOf(sequence) === options.sequence);
  if (wanted.length === 0)
    throw new CannotRun(
      noSequence(
        all.map(({ sequence }) => sequence),
        options.sequence,
      ),
    );
  if (options.out === undefined) checkPrintable(wanted.length, options, terminal);
  let code = 0;
  for (const { file: from, sequence } of wanted) {
    const made = sheetOf({ ...options, report: sequence, file: from });
    if (isSheetRefused(made)) {
      terminal.err(`${harmless(nameOf(sequence))}: ${made.message}\n`);
      code = 1;
      continue;
    }
    const content = await contentOf(made, options);
    if (options.out === undefined) terminal.out(content);
    else write(options.out, `${nameOf(sequence)}.${options.kind}.${ENDING[options.format]}`, content, terminal);
  }
  return code;
}

/** One sheet goes to standard output as it is; more need a folder, and a terminal is no place for a PDF. */
function checkPrintable(sheets: number, { format }: SheetOptions, { isTerminal }: Terminal): void {
  if (sheets > 1) {
    throw new CannotRun(
      `There are ${sheets} sequences: name one with --sequence, or a folder for all of them with --out.`,
    );
  }
  if (format === 'pdf' && isTerminal) throw new CannotRun('A PDF needs a place: name a folder with --out.');
}

async function contentOf(made: Sheet, { format, paper }: SheetOptions): Promise<string | Uint8Array> {
  const words = sheetWords(made.language);
  if (format === 'markdown') return toMarkdown(made, words);
  const html = toHtml(made, words, { paper });
  return format === 'html' ? html : toPdf(html);
}

function write(folder: string, name: string, content: string | Uint8Array, terminal: Terminal): void {
  const file = path.join(folder, name);
  try {
    mkdirSync(folder, { recursive: true });
    writeNew(file, content);
  } catch {
    throw new CannotRun(`${harmless(file)} can't be written.`);
  }
  terminal.out(`${harmless(file)}\n`);
}
