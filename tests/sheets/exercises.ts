/** Exercise sheets for tests: made of a few lines of notation, and read as their reader sees them. */
import { finish } from '../../grammar/gradual.js';
import type { SequenceReport } from '../../server/sequence/check.js';
import { exerciseSheet } from '../../server/sheets/exercise.js';
import { toHtml } from '../../server/sheets/html.js';
import { keySheetGradually } from '../../server/sheets/key.js';
import { toMarkdown } from '../../server/sheets/markdown.js';
import type { Block, Sheet, Text } from '../../server/sheets/model.js';
import { plainText } from '../../server/sheets/spans.js';
import { sheetWords } from '../../server/sheets/wording/index.js';
import { checkText } from '../marked.js';

export const reportOf = (text: string): SequenceReport => {
  const report = checkText(text).report.sequences.at(-1);
  if (!report || report.runs.length === 0) throw new Error('There is no sequence that can be run.');
  return report;
};

const orderOf = (report: SequenceReport, kind: 'exercise' | 'key', language: string) =>
  ({ kind, report, file: 'test.crank', language, figures: 'all' }) as const;

export const exerciseOf = (report: SequenceReport, language = 'en'): Sheet =>
  exerciseSheet(orderOf(report, 'exercise', language));
export const keyOf = (report: SequenceReport, language = 'en'): Sheet =>
  finish(keySheetGradually(orderOf(report, 'key', language)));

/** As it is printed, in both formats. */
export function printed(sheet: Sheet): string {
  const words = sheetWords(sheet.language);
  return `${toHtml(sheet, words, { paper: 'a4' })}\n${toMarkdown(sheet, words)}`;
}

/** A line as it is read; a line to write on is as many low lines as it has room for figures. */
export const shown = (text: Text): string =>
  plainText(text.map((span) => (typeof span === 'object' && 'blank' in span ? '_'.repeat(span.blank) : span)));

/** A block as the lines that its reader sees. */
export function linesOf(block: Block): string[] {
  switch (block.is) {
    case 'heading':
      return [`${'#'.repeat(block.level)} ${shown(block.text)}`];
    case 'paragraph':
      return [shown(block.text)];
    case 'note':
    case 'caution':
      return [`${block.is}: ${shown(block.text)}`];
    case 'cautions':
      return [block.title, ...block.items.map(shown)];
    case 'list':
      return block.items.map((item) => `- ${shown(item)}`);
    case 'steps':
      return block.steps.map(({ number, text, readings = [] }) =>
        [`${number} ${shown(text)}`, ...readings.map(shown)].join(' | '),
      );
    case 'table':
      return [
        block.columns.map(({ head }) => head),
        ...block.rows.map((row) => row.map((cell) => shown(cell ?? []))),
      ].map((row) => row.join(' | '));
    case 'figure':
      return [`[${shown(block.caption)}]`];
    case 'fields':
      return block.fields.map(({ label, value = '' }) => `${label}: ${value}`);
    case 'page':
      return [];
  }
}

/** What stands below a heading, up to the next of its level or above it. */
export function below(sheet: Sheet, heading: string): string[] {
  const at = sheet.blocks.findIndex((block) => block.is === 'heading' && shown(block.text) === heading);
  if (at < 0) throw new Error(`There is no heading ${heading}`);
  const first = sheet.blocks[at];
  const level = first.is === 'heading' ? first.level : 2;
  const rest = sheet.blocks.slice(at + 1);
  const end = rest.findIndex((block) => block.is === 'heading' && block.level <= level);
  return rest.slice(0, end < 0 ? rest.length : end).flatMap(linesOf);
}
