/** The published figures that the tests read. */
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Decimal } from 'decimal.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Data sets of others: kept beside the checkout, not part of it. */
const BESIDE = resolve(ROOT, '../shared/checks');

/** Decimal arithmetic with room for every figure met here. */
export const Exact = Decimal.clone({ precision: 80 });

/** Why a test that needs them is skipped. */
export const NOT_BESIDE = 'the data set is kept beside the checkout, not part of it, and is not there';

export type Row = Readonly<Record<string, string>>;

/** A table kept with these tests. */
export const table = (name: string): Row[] => rowsOf(readFileSync(resolve(ROOT, 'tests/published/data', name), 'utf8'));

/** A table kept beside the checkout, or undefined where it is missing. */
export function tableBeside(name: string): Row[] | undefined {
  const path = resolve(BESIDE, name);
  return existsSync(path) ? rowsOf(readFileSync(path, 'utf8')) : undefined;
}

/** Lines after the comments; the first names the columns. Quotes may enclose a field. */
function rowsOf(text: string): Row[] {
  const [header, ...lines] = text.split(/\r?\n/).filter((line) => line !== '' && !line.startsWith('#'));
  const names = fieldsOf(header);
  return lines.map((line) => {
    const fields = fieldsOf(line);
    if (fields.length !== names.length) throw new Error(`${names.length} columns expected: ${line}`);
    return Object.fromEntries(names.map((name, i) => [name, fields[i]]));
  });
}

const fieldsOf = (line: string): string[] =>
  Array.from(line.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g), ([, quoted, plain]) => quoted ?? plain);

/** `12.50` with 2 decimals is 1250: a decimal number in units of its last place. */
export function unitsOf(decimal: string, decimals: number): bigint {
  const [whole, fraction = ''] = decimal.split('.');
  if (fraction.length > decimals) throw new Error(`${decimal} has more than ${decimals} decimals`);
  return BigInt(whole + fraction.padEnd(decimals, '0'));
}
