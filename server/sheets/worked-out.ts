/** What a sequence works out, as it is written on paper. */
import type { Expression } from '../../grammar/tree.js';
import type { Values } from '../sequence/substitute.js';
import { formed } from './numbers.js';
import { numberText } from './placed.js';
import type { SheetWords } from './wording/index.js';

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** An expression with the signs of arithmetic; parameters as their numbers where there are values for them. */
export function expressionText(expression: Expression, values: Values | undefined, words: SheetWords): string {
  const { numbers, operating } = words;
  const text = (e: Expression): string => expressionText(e, values, words);
  switch (expression.kind) {
    case 'number':
      return formed(numberText(expression), numbers);
    case 'name': {
      const value = values?.get(expression.name);
      return value ? formed(numberText(value), numbers) : expression.name;
    }
    case 'group':
      return `(${text(expression.of)})`;
    case 'negative':
      return `−${text(expression.of)}`;
    case 'sqrt':
      return `√(${text(expression.of)})`;
    case 'binary': {
      const { left, right, operator } = expression;
      if (operator !== '^') return `${text(left)} ${operating.signs[operator]} ${text(right)}`;
      if (right.kind === 'number' && !right.isValue) return text(left) + superscript(right.figures);
      return `${text(left)} ^ ${text(right)}`;
    }
  }
}

const superscript = (figures: string): string => Array.from(figures, (figure) => SUPERSCRIPTS[Number(figure)]).join('');
