/**
 * What an exercise sheet must not tell: the readings that are to be found, whatever form they are written in.
 *
 * Invariant: a text of the author's that holds such a number is not printed on an exercise sheet, unless the number is
 * given for the task anyway.
 */
import type { Argument } from '../../grammar/tree.js';
import { numberIn, type Register, type State, textOf } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { readingOf } from '../sequence/hands.js';
import { argumentsOf } from '../sequence/substitute.js';

/** A number that begins like an answer and has at least so many figures gives it away, cut off or rounded. */
const TELLING_FIGURES = 3;
/** Numbers parted by blanks may be one number in groups: so many groups are looked at together. */
const MOST_GROUPS = 12;

interface Known {
  readonly answers: ReadonlySet<string>;
  readonly given: ReadonlySet<string>;
}

/** The answers to all exercises of a sheet. */
export class Answers {
  private readonly cases: readonly Known[];

  constructor(runs: readonly CaseRun[], atEnd: readonly Register[]) {
    this.cases = runs.map((run) => ({
      answers: new Set(answersOf(run, atEnd).flatMap(formsOf)),
      given: new Set(givenIn(run).flatMap(formsOf)),
    }));
  }

  /** Whether a text holds an answer to one of the exercises that is not also a number given for that exercise. */
  areToldBy(text: string): boolean {
    const numbers = numbersIn(text);
    return this.cases.some(({ answers, given }) =>
      numbers.some((number) => {
        const forms = formsOf(number);
        if (forms.some((form) => answers.has(form) && !given.has(form))) return true;
        if (forms.some((form) => given.has(form))) return false;
        return forms.some((form) => [...answers].some((answer) => beginsLike(form, answer)));
      }),
    );
  }
}

/** Every reading that is asked for or expected, and the goals' values, as they might be written. */
export function answersOf({ tape, order, goals, state }: CaseRun, atEnd: readonly Register[]): string[] {
  const { profile } = order;
  const found: string[] = [];
  const add = (at: State, register: Register) => {
    if (profile[register] === 0) return;
    found.push(readingOf(at, profile, register), numberIn(at, profile, register).toString());
    found.push(textOf(at, profile, register).replaceAll('-', ''));
  };
  for (let row = 0; row < tape.length; row++) {
    const { syntax } = tape.stepAt(row);
    if (syntax.kind !== 'ask' && syntax.kind !== 'expect') continue;
    for (const item of syntax.items) {
      if (!('register' in item)) continue;
      add(tape.stateAt(row), item.register);
      if ('figures' in item && item.figures.kind === 'number') found.push(item.figures.text);
    }
  }
  for (const register of atEnd) add(state, register);
  for (const { goal, reading } of goals) found.push(goal, reading);
  return found;
}

/** Numbers that the exercise names itself: those of its steps, but for readings. */
export function givenIn({ tape, order }: CaseRun): string[] {
  const found = [...order.values.values()].map(({ text }) => text);
  const add = (argument: Argument) => {
    if (argument.kind === 'number') found.push(argument.text);
  };
  // What a `multiply` or `divide` was opened out into is not printed, and may be an answer.
  for (const { step } of tape.frames) if (step) argumentsOf(step.syntax).forEach(add);
  for (let row = 0; row < tape.length; row++) {
    const { syntax } = tape.stepAt(row);
    if (syntax.kind !== 'expect' && !tape.frameAt(row).isOpened) argumentsOf(syntax).forEach(add);
  }
  return found;
}

/** A number by its figures: as it stands, and without noughts at the end of its decimals. */
function formsOf(number: string): string[] {
  const plain = number.replace(/[^\d.,]/g, '');
  const all = figuresOf(plain);
  return /[.,]/.test(plain) ? [all, figuresOf(plain.replace(/[.,]?0+$/, ''))] : [all];
}

const figuresOf = (text: string): string => text.replace(/\D/g, '').replace(/^0+(?=.)/, '') || '0';

/** Numbers in a text. What stands in groups may be one number or several. */
function numbersIn(text: string): string[] {
  const chains = text.normalize('NFKC').match(/\d+(?:[ _'’.,]\d+)*/gu) ?? [];
  return chains.flatMap((chain) => {
    const groups = chain.split(' ');
    const found: string[] = [];
    for (let from = 0; from < groups.length; from++) {
      for (let to = from + 1; to <= Math.min(groups.length, from + MOST_GROUPS); to++) {
        found.push(groups.slice(from, to).join(''));
      }
    }
    return found;
  });
}

/** The same number cut off or rounded. */
function beginsLike(form: string, answer: string): boolean {
  const told = form.replace(/0+$/, '');
  if (told.length < TELLING_FIGURES || told.length >= answer.length) return false;
  if (answer.startsWith(told)) return true;
  if (answer[told.length] < '5') return false;
  return (BigInt(answer.slice(0, told.length)) + 1n).toString() === told;
}
