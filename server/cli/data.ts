/** Reads a table of numbers from a file of comma-separated values, as spreadsheets write them. */
import { LineReader } from '../../grammar/lines.js';
import { splitLines } from '../../grammar/sections.js';
import { readText, STANDARD_INPUT } from '../disk.js';
import type { Table } from '../planning/table.js';
import { CannotRun } from './files.js';
import { problemText } from './reading.js';

/**
 * A table from a file; `-` is standard input. Throws, with row and column, where something in it is no number.
 *
 * The first row has the names of the columns. Commas part cells, or semicolons where the first row has one: then a
 * comma may stand for the decimal point. Blank lines and lines that begin with # are passed over.
 */
export function readTable(file: string): Table {
  const source = file === '-' ? STANDARD_INPUT : file;
  const read = readText(source);
  if ('problem' in read) throw new CannotRun(problemText(source, read.problem));
  return tableOf(read.text, file === '-' ? 'Standard input' : file);
}

/** The same from a text; messages name where it comes from. */
export function tableOf(text: string, source: string): Table {
  const lines = splitLines(text.replace(/^\ufeff/, ''))
    .map((line, i) => ({ line, number: i + 1 }))
    .filter(({ line }) => line.trim() !== '' && !line.trimStart().startsWith('#'));
  if (lines.length < 2) throw new CannotRun(`${source} has no row of numbers below a row of names.`);
  const [head, ...rest] = lines;
  const separator = head.line.includes(';') ? ';' : ',';
  const columns = cellsOf(head.line, separator);
  checkNames(columns, source);
  const rows = rest.map(({ line, number }) => {
    const cells = cellsOf(line, separator);
    if (cells.length !== columns.length) {
      throw new CannotRun(
        `${source}, line ${number}: there are ${cells.length} cells, and ${columns.length} columns have a name.`,
      );
    }
    return cells.map((cell, c) => {
      const written = separator === ';' ? cell.replace(',', '.') : cell;
      if (/^-?\d+(?:\.\d+)?$/.test(written)) return written;
      const what = cell === '' ? 'nothing stands' : `“${cell.slice(0, 40)}” is no number`;
      throw new CannotRun(`${source}, line ${number}, column ${columns[c]}: ${what} here. Write it as in 12.5.`);
    });
  });
  return { columns, rows };
}

/** Cells without the blanks and quotation marks around them. */
const cellsOf = (line: string, separator: string): string[] =>
  line.split(separator).map((cell) => /^\s*"?(.*?)"?\s*$/s.exec(cell)?.[1].trim() ?? '');

/** An expression names the columns, so their names must be names of the notation, each but once. */
function checkNames(columns: readonly string[], source: string): void {
  const reader = new LineReader();
  for (const [c, column] of columns.entries()) {
    const [item] = reader.read(`goal result = ${column}`, 'sequence').items;
    const isName = item?.kind === 'goal' && item.expression.kind === 'name' && item.expression.name === column;
    if (!isName) {
      const shown = column === '' ? 'Nothing' : `“${column.slice(0, 40)}”`;
      throw new CannotRun(
        `${source}: ${shown} can't be the name of column ${c + 1}. A name is a letter, then letters, digits and hyphens.`,
      );
    }
    if (columns.indexOf(column) !== c) throw new CannotRun(`${source}: two columns are called ${column}.`);
  }
}
