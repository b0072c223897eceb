/** An expression given as a word of the command. */
import { LineReader } from '../../grammar/lines.js';
import type { Expression, LineSyntax, Span, TextError } from '../../grammar/tree.js';
import { namesIn } from '../sequence/names.js';
import { cleanText } from '../sequence/wording/shared.js';
import { markedLine } from './output/excerpt.js';

/** The line that an expression is read in: what a goal may be, may be planned. */
const BEFORE = 'goal result = ';

/** Why a text is no expression, and the text with marks under what can't be read. */
export interface Slip {
  readonly message: string;
  readonly marked: readonly string[];
}

/** The expression that a text is, or what is wrong with it. */
export function expressionOf(text: string): Expression | Slip {
  const shown = text.replace(/\s/g, ' ');
  if (shown.trim() === '') {
    return { message: 'There is nothing to plan: write an expression, such as "24.5 * 17.2".', marked: [] };
  }
  const line = new LineReader().read(BEFORE + shown, 'sequence');
  const slip = slipOf(line);
  // What nobody could read is not shown either.
  if (line.errors[0]?.problem.is === 'line-too-long' && slip) return { message: slip.message, marked: [] };
  if (slip) return marked(shown, slip.message, slip);
  const [item] = line.items;
  if (item?.kind !== 'goal') return marked(shown, NOT_ONE, { from: BEFORE.length, to: BEFORE.length + 1 });
  const name = namesIn(item.expression)[0];
  return name
    ? marked(shown, `${cleanText(name.name)} is not a number. Write the number that it stands for.`, name)
    : item.expression;
}

const FORMS = 'An expression is made of numbers, + - * / ^, parentheses and sqrt( ).';
const NOT_ONE = `One expression is wanted. ${FORMS}`;

function marked(text: string, message: string, { from, to }: Span): Slip {
  const start = Math.min(Math.max(0, from - BEFORE.length), Math.max(0, text.length - 1));
  return { message, marked: markedLine(text, start, Math.max(start + 1, to - BEFORE.length)) };
}

function slipOf({ text, items, comment, errors }: LineSyntax): (Span & { readonly message: string }) | undefined {
  if (errors.length > 0) return { message: problemText(errors[0], text), from: errors[0].from, to: errors[0].to };
  if (comment) return { message: 'A # begins a comment, which has no place here.', from: comment.from, to: comment.to };
  if (items.length > 1) return { message: NOT_ONE, from: items[1].from, to: items[1].to };
  return undefined;
}

/** Signs that people write and the notation does not know, with those that it does. */
const OTHER_SIGNS: Readonly<Record<string, string>> = {
  '×': 'Multiply with *.',
  '·': 'Multiply with *.',
  '⋅': 'Multiply with *.',
  '÷': 'Divide with /.',
  ':': 'Divide with /.',
  '−': 'Subtract with a hyphen, -.',
  '–': 'Subtract with a hyphen, -.',
  ',': 'Write the decimal point as a point; digits are grouped with _ or an apostrophe.',
  '√': 'Write a root as sqrt( ).',
  '²': 'Write a power with ^, as in 3^2.',
  '³': 'Write a power with ^, as in 2^3.',
  '=': 'Write what is to be worked out alone, without =.',
};

function problemText({ problem, from, to }: TextError, text: string): string {
  switch (problem.is) {
    case 'line-too-long':
      return 'This expression is longer than anybody could crank: 4,000 characters are the most.';
    case 'too-deep':
      return 'This is nested too deep to be read. Work out the inner part by itself.';
    case 'number-point':
      return 'A number has its point between digits: 0.5, not .5; 24, not 24.';
    default: {
      const found = text.slice(from, to);
      const sign = OTHER_SIGNS[[...found][0] ?? ''];
      if (sign !== undefined) return `“${cleanText(found)}” is not read. ${sign}`;
      const isEnd = problem.is === 'form' && problem.found === '';
      if (isEnd) return isOpen(text) ? 'A parenthesis is opened and not closed.' : `This is not finished. ${FORMS}`;
      return found === ')' && !isOpen(text.slice(0, to - 1))
        ? 'This parenthesis closes none.'
        : `“${cleanText(found)}” does not fit here. ${FORMS}`;
    }
  }
}

const isOpen = (text: string): boolean => text.split('(').length > text.split(')').length;
