/** What the registers show at the end of a pass, as arithmetic: row by row where that is short, else as a number. */
import { decimalText } from '../../sequence/readings.js';
import { amount, plainText } from '../amount.js';
import type { Asked } from './asked.js';
import type { ListGoal } from './order.js';
import { type Part, type Scheme, together } from './schemes.js';
import { rowsOf, shown } from './work.js';

/** A longer sum than that is given as its total. */
const LONGEST_SUM = 3_000;

/** Goals of a pass: of the result, and of the counter where it is read. */
export function goalsOf(scheme: Scheme, asked: Asked): ListGoal[] {
  const { set, by, points, result, counter } = scheme;
  const isSingle = set.length === 1 && by.length === 1;
  const factor = (parts: readonly Part[], row: number) => {
    const units = together(parts, row);
    return plainText(amount(units < 0n ? -units : units, isSingle ? (parts[0].column?.decimals ?? 0) : 0));
  };
  const rows = rowsOf(scheme, asked).map(({ row, sign }) => ({ sign, set: factor(set, row), by: factor(by, row) }));
  const product = (a: string, b: string) => (a === '1' ? b : b === '1' ? a : `${a} * ${b}`);
  const goal = (register: 'counter' | 'result', terms: readonly Term[], decimals: number): ListGoal => {
    const total = shown(register === 'result' ? result : counter);
    return { register, expression: summed(terms) ?? decimalText(total, decimals) };
  };
  const products = rows.map(({ sign, set: a, by: b }) => ({ sign, text: product(a, b) }));
  const goals = [goal('result', products, points.setting + points.counter)];
  if (counter.length === 0) return goals;
  const turns = rows.map(({ sign, by: text }) => ({ sign, text }));
  return [...goals, goal('counter', turns, points.counter)];
}

interface Term {
  readonly sign: 1 | -1;
  readonly text: string;
}

/** Undefined where it is too long to be read. */
function summed(terms: readonly Term[]): string | undefined {
  if (terms.length === 0) return '0';
  const signed = terms.map(({ sign, text }, i) => (i === 0 ? (sign < 0 ? '-' : '') : sign < 0 ? ' - ' : ' + ') + text);
  const text = signed.join('');
  return text.length <= LONGEST_SUM ? text : undefined;
}
