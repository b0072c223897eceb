/** Arithmetic as people write it, for what is wanted in an exercise. */
import type { Expression } from '../../grammar/tree.js';
import type { Names } from './exercise-sentences.js';
import type { Text } from './model.js';
import { formed } from './numbers.js';
import { numberText } from './placed.js';
import type { SheetWords } from './wording/index.js';

/** An expression with the signs of a language; parameters by the names that they have on the sheet. */
export function expressionText(expression: Expression, names: Names, words: SheetWords): Text {
  const { exercise, numbers } = words;
  const told = (part: Expression): Text => expressionText(part, names, words);
  const grouped = (part: Expression): Text => ['(', ...told(part), ')'];
  switch (expression.kind) {
    case 'number':
      return [formed(numberText(expression), numbers)];
    case 'name':
      return [{ strong: names.get(expression.name) ?? expression.name }];
    case 'group':
      return grouped(expression.of);
    case 'negative':
      return ['−', ...told(expression.of)];
    case 'sqrt':
      return exercise.root(expression.of.kind === 'binary' ? grouped(expression.of) : told(expression.of));
    case 'binary': {
      const left = told(expression.left);
      const right = told(expression.right);
      if (expression.operator === '^') return exercise.power(left, right);
      const signs = { '+': ' + ', '-': ' − ', '*': exercise.times, '/': exercise.dividedBy };
      return [...left, signs[expression.operator], ...right];
    }
  }
}
