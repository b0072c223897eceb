/** Sheets for tests: made of a few lines of notation or of the samples. */
import { readdirSync, readFileSync } from 'node:fs';
import type { SequenceReport } from '../../server/sequence/check.js';
import { Library } from '../../server/sequence/library.js';
import type { FigureChoice, Sheet, SheetKind, SheetStep, Text } from '../../server/sheets/model.js';
import { isSheetRefused, type SheetRefusal, sheetOf } from '../../server/sheets/sheet.js';
import { checkText } from '../marked.js';

export interface Wish {
  readonly language?: string;
  readonly figures?: FigureChoice;
}

export const ordered = (
  kind: SheetKind,
  report: SequenceReport,
  { language = 'en', figures = 'none' }: Wish = {},
): Sheet | SheetRefusal => sheetOf({ kind, report, file: 'test.crank', language, figures });

/** A sheet that must not be refused. */
export function made(kind: SheetKind, report: SequenceReport, wish: Wish = {}): Sheet {
  const sheet = ordered(kind, report, wish);
  if (isSheetRefused(sheet)) throw new Error(sheet.message);
  return sheet;
}

/** The last sequence of a text. */
export function lastIn(text: string): SequenceReport {
  const report = checkText(text).report.sequences.at(-1);
  if (!report) throw new Error('There is no sequence in this text.');
  return report;
}

const FOLDER = new URL('../../samples/', import.meta.url);

/** Every sequence of the samples that is meant to be right, with its file. */
export function sampleSequences(): { readonly name: string; readonly report: SequenceReport }[] {
  const library = new Library();
  const files = readdirSync(FOLDER).filter((name) => /\.(?:crank|md)$/.test(name));
  for (const file of files) library.set(file, readFileSync(new URL(file, FOLDER), 'utf8'));
  return files
    .filter((file) => file !== 'mistakes.crank')
    .flatMap((file) => library.check(file).sequences)
    .map((report) => ({ name: report.section.header?.name.name ?? '', report }));
}

export const stepsOf = (sheet: Sheet): SheetStep[] =>
  sheet.blocks.flatMap((block) => (block.is === 'steps' ? block.steps : []));

/** All that is read on a sheet. */
export function textsOf(sheet: Sheet): Text[] {
  return sheet.blocks.flatMap((block): Text[] => {
    switch (block.is) {
      case 'steps':
        return block.steps.flatMap(({ text, readings = [] }) => [text, ...readings]);
      case 'table':
        return [
          [block.caption],
          ...block.columns.map(({ head }): Text => [head]),
          ...block.rows.flat().map((cell) => cell ?? []),
        ];
      case 'list':
        return [...block.items];
      case 'cautions':
        return [[block.title], ...block.items];
      case 'figure':
        return [block.caption];
      case 'fields':
        return block.fields.map(({ label }): Text => [label]);
      case 'page':
        return [];
      default:
        return [block.text];
    }
  });
}

/** With ordinary blanks in place of those that do not break. */
export const plain = (text: string): string => text.replaceAll('\u202f', ' ');
