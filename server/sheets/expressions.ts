/** Arithmetic as people write it: what a sequence works out. */
import type { Expression } from '../../grammar/tree.js';
import type { Text } from './model.js';
import { formed } from './numbers.js';
import { numberText } from './placed.js';
import { tidy } from './spans.js';
import type { SheetWords } from './wording/index.js';

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** An expression with the signs of a language. `named` says what is printed for a parameter: its name or its number. */
export function expressionText(expression: Expression, named: (name: string) => Text, words: SheetWords): Text {
  const { numbers, arithmetic } = words;
  const text = (part: Expression): Text => {
    switch (part.kind) {
      case 'number':
        return [formed(numberText(part), numbers)];
      case 'name':
        return named(part.name);
      case 'group':
        return ['(', ...text(part.of), ')'];
      case 'negative':
        return ['−', ...text(part.of)];
      case 'sqrt':
        return isWhole(part.of) ? ['√', ...text(part.of)] : ['√(', ...text(part.of), ')'];
      case 'binary': {
        const { left, right, operator } = part;
        if (operator !== '^') return [...text(left), ` ${arithmetic.signs[operator]} `, ...text(right)];
        // Without brackets the power would be taken first, and the root of it.
        const base: Text = left.kind === 'sqrt' ? ['(', ...text(left), ')'] : text(left);
        if (right.kind === 'number' && !right.isValue) return [...base, superscript(right.figures)];
        return [...base, arithmetic.power, ...text(right)];
      }
    }
  };
  return tidy(text(expression));
}

/** What a root is taken of without a doubt, where no brackets say so. */
const isWhole = ({ kind }: Expression): boolean => kind === 'number' || kind === 'name' || kind === 'group';

const superscript = (figures: string): string => Array.from(figures, (figure) => SUPERSCRIPTS[Number(figure)]).join('');
