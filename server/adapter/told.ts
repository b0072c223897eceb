/** What is read off a machine that stands still, as short text. */

import { pointOf, textOf } from '../machine/index.js';
import type { GoalProblem } from '../sequence/findings.js';
import { valueText } from '../sequence/goals.js';
import type { Reader } from '../service/document.js';
import { grouped, readingText } from '../service/readings.js';
import { amountOf, isSo, type Looked, type Question, type Scene, type Sum, wheelAt } from '../stepping/conditions.js';

/** The answer to a question; `hasValue` is false where there is none, and the text says so. */
export interface Answer {
  readonly text: string;
  readonly hasValue: boolean;
  /** A whole register, which can be looked into wheel by wheel. */
  readonly register?: Looked['register'];
}

export function answerTo(question: Question, scene: Scene, { words }: Reader): Answer {
  if (question.is !== 'sum') {
    return { text: isSo(question, scene) ? words.stepping.yes : words.stepping.no, hasValue: true };
  }
  const looked = onlyLook(question.sum);
  if (looked && looked.place === undefined) {
    const { register } = looked;
    return { text: registerText(scene, register), hasValue: true, register };
  }
  if (looked?.place !== undefined) {
    return { text: String(wheelAt(scene.state, scene.profile, looked.register, looked.place)), hasValue: true };
  }
  const value = amountOf(question.sum, scene);
  if (isProblem(value)) return { text: words.stepping.noValue, hasValue: false };
  return { text: grouped(valueText(value, pointOf(scene.state, 'result'))), hasValue: true };
}

const isProblem = (value: unknown): value is GoalProblem => typeof value === 'string';

/** The register or wheel that a sum is, if it is nothing else. */
function onlyLook({ expression, looked }: Sum): Looked | undefined {
  return expression.kind === 'name' ? looked.get(expression.name) : undefined;
}

/** The figures of a register and, where that says more, what they read. */
export function registerText({ state, profile }: Scene, register: Looked['register']): string {
  const figures = textOf(state, profile, register);
  return `${figures} = ${readingText(state, profile, register)}`;
}
