/** The text of what is asked, and the table's numbers, as sums of whole numbers. */
import { LineReader } from '../../../grammar/lines.js';
import type { Expression } from '../../../grammar/tree.js';
import { type Amount, amount, figuresOf, unitsAt } from '../amount.js';
import type { Table } from '../table.js';
import { type ListLimit, MOST_ROWS, MOST_SUMS } from './order.js';

/** Why a list can't be planned. */
export class ListStuck extends Error {
  constructor(readonly limit: ListLimit) {
    super(limit.is);
  }
}

/** A column in units of its last decimal. */
export interface Column {
  readonly name: string;
  readonly units: readonly bigint[];
  readonly decimals: number;
  /** Places that its longest number takes, signs aside. */
  readonly length: number;
  /** Some of its numbers are below zero. */
  readonly isSigned: boolean;
}
/** A column, or a product of two, added up over all rows. */
export interface Sum {
  /** As it is told: `x`, `x^2`, `x*y`. */
  readonly name: string;
  readonly of: readonly [Column] | readonly [Column, Column];
}
export interface Asked {
  /** The columns of the sums, in the order in which they are named. */
  readonly columns: readonly Column[];
  readonly sums: readonly Sum[];
  readonly rows: number;
}

/** Reads what is asked. Throws `ListStuck` with what is wrong with it. */
export function readAsked(expression: string, table: Table): Asked {
  const rows = table.rows.length;
  if (rows === 0) throw new ListStuck({ is: 'no-rows' });
  if (rows > MOST_ROWS) throw new ListStuck({ is: 'rows', has: rows, most: MOST_ROWS });
  const names = table.columns.map((name) => name.normalize());
  const texts = partsOf(expression);
  if (texts.length === 0) throw new ListStuck({ is: 'no-sums' });
  const products = texts.map((text) => productOf(text));
  for (const name of products.flat()) {
    if (!names.includes(name)) throw new ListStuck({ is: 'unknown-column', name, columns: table.columns });
  }
  const used = [...new Set(products.flat())];
  const columns = used.map((name) => columnOf(table, names.indexOf(name)));
  const column = (name: string) => columns[used.indexOf(name)];
  const sums = new Map<string, Sum>();
  for (const [first, second] of products) {
    const name = second === undefined ? first : first === second ? `${first}^2` : `${first}*${second}`;
    const key = second === undefined ? first : [first, second].sort().join('*');
    if (sums.has(key)) continue;
    sums.set(key, { name, of: second === undefined ? [column(first)] : [column(first), column(second)] });
  }
  if (sums.size > MOST_SUMS) throw new ListStuck({ is: 'sums', has: sums.size, most: MOST_SUMS });
  return { columns, sums: [...sums.values()], rows };
}

/** Parts between commas that stand in no parentheses. */
function partsOf(text: string): string[] {
  const parts: string[] = [];
  let depth = 0;
  let from = 0;
  for (let i = 0; i <= text.length; i++) {
    if (text[i] === '(') depth++;
    if (text[i] === ')') depth--;
    if (i < text.length && (text[i] !== ',' || depth > 0)) continue;
    parts.push(text.slice(from, i).trim());
    from = i + 1;
  }
  return parts.length === 1 && parts[0] === '' ? [] : parts;
}

/** The names of one column or two in `sum( … )`; `n`, the number of rows, is told anyway and none is asked. */
function productOf(text: string): string[] {
  const inner = /^sum\s*\((.*)\)$/s.exec(text)?.[1].replace(/\s+/g, ' ');
  const notOne = new ListStuck({ is: 'not-a-sum', text });
  if (inner === undefined || inner.includes(';')) throw notOne;
  const { items, errors, comment } = new LineReader().read(`goal result = ${inner}`, 'sequence');
  const [goal] = items;
  if (errors.length > 0 || comment || goal?.kind !== 'goal') throw notOne;
  const factors = factorsOf(goal.expression);
  if (!factors || factors.length > 2) throw notOne;
  return factors;
}

function factorsOf(expression: Expression): string[] | undefined {
  switch (expression.kind) {
    case 'name':
      return [expression.name.normalize()];
    case 'group':
      return factorsOf(expression.of);
    case 'binary': {
      const { operator, left, right } = expression;
      const first = factorsOf(left);
      if (!first) return undefined;
      if (operator === '^') {
        const isSquare = right.kind === 'number' && !right.isValue && BigInt(right.figures) === 2n;
        return isSquare && first.length === 1 ? [...first, ...first] : undefined;
      }
      const second = operator === '*' ? factorsOf(right) : undefined;
      return second && [...first, ...second];
    }
    default:
      return undefined;
  }
}

function columnOf(table: Table, at: number): Column {
  const name = table.columns[at];
  const numbers = table.rows.map((row, i) => {
    if (row.length <= at) throw new ListStuck({ is: 'short-row', row: i + 1, has: row.length, needs: at + 1 });
    const number = numberOf(row[at]);
    if (!number) throw new ListStuck({ is: 'not-a-number', row: i + 1, column: name, text: row[at] });
    return number;
  });
  const decimals = Math.max(...numbers.map((number) => number.decimals));
  const units = numbers.map((number) => unitsAt(number, decimals));
  return {
    name,
    units,
    decimals,
    length: Math.max(...units.map(figuresOf)),
    isSigned: units.some((unit) => unit < 0n),
  };
}

/** A number as the notation writes it, perhaps with a sign before it. */
function numberOf(text: string): Amount | undefined {
  const [, sign, whole, fraction = ''] = /^\s*([-−+]?)\s*(\d[\d_']*)(?:\.(\d[\d_']*))?\s*$/.exec(text) ?? [];
  if (whole === undefined) return undefined;
  const bare = (digits: string) => digits.replace(/[_']/g, '');
  const units = BigInt(bare(whole) + bare(fraction));
  return amount(sign === '' || sign === '+' ? units : -units, bare(fraction).length);
}
