/** What is said of plans for lists, in English. */
import { shortNumber } from '../../sequence/wording/en.js';
import { cleanText } from '../../sequence/wording/shared.js';
import type { ListLimit, ListRemark } from '../lists/order.js';
import { rangesOf } from './ranges.js';

/** The text of a `note`: what is said of lists alone, or nothing where it is said of every plan. */
export function listRemark(remark: ListRemark): string | undefined {
  switch (remark.is) {
    case 'pass':
      return `Pass ${remark.pass} of ${remark.of} through the list.`;
    case 'rows':
      return `${remark.rows.length === 1 ? 'Row' : 'Rows'} ${list(rangesOf(remark.rows, ' to '))}: ${list(remark.columns.map(cleanText))}.`;
    case 'rows-below-zero':
      return 'The rows from here on take away: turn the other way.';
    case 'counter-ahead':
      return 'The counter gets a start, so that it does not go below zero. It is not read.';
    case 'standing': {
      const { register, from, to, sum, times, decimals } = remark;
      const places = from === to ? `Place ${from}` : `Places ${from} to ${to}`;
      const marker =
        decimals === 0 ? '' : `, the last ${decimals === 1 ? 'one behind' : `${decimals} behind`} the point`;
      return `${places} of the ${register}: ${times === 2 ? 'twice ' : ''}the sum of ${cleanText(sum)}${marker}.`;
    }
    case 'read-off':
      return `Write down: ${remark.sums.map(({ name, value }) => `the sum of ${cleanText(name)} is ${shortNumber(value)}`).join(', ')}.`;
    default:
      return undefined;
  }
}

/** What stands in the way of a list alone, or nothing where it may stand in the way of every plan. */
export function listLimit(limit: ListLimit): string | undefined {
  switch (limit.is) {
    case 'rows':
      return `The list has ${limit.has} rows, and ${limit.most} are the most. Split it and add up the totals.`;
    case 'sums':
      return `${limit.has} sums are asked for, and ${limit.most} are the most. Ask for some at a time.`;
    case 'steps':
    case 'turns':
      return `The list takes ${limit.has} ${limit.is}, and a sequence may have ${limit.most}. Split the list.`;
    case 'no-rows':
      return 'The list has no rows.';
    case 'no-sums':
      return 'Say which sums are wanted, such as "sum(x), sum(x^2), sum(x*y)".';
    case 'short-row':
      return `Row ${limit.row} has ${limit.has} numbers, and ${limit.needs} are needed.`;
    case 'not-a-number':
      return `Row ${limit.row}, column ${cleanText(limit.column)}: “${cleanText(limit.text)}” is no number.`;
    case 'not-a-sum':
      return `“${cleanText(limit.text)}” is no sum that can be made from a list. It is written sum(x), sum(x^2) or sum(x*y).`;
    case 'unknown-column':
      return `There is no column ${cleanText(limit.name)}. There ${limit.columns.length === 1 ? 'is' : 'are'}: ${list(limit.columns.map(cleanText))}.`;
    case 'too-few-decimals':
      return `The totals have ${limit.needs} decimals, and ${limit.has} are asked for. A sum is not cut off: ask for ${limit.needs}.`;
    default:
      return undefined;
  }
}

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
