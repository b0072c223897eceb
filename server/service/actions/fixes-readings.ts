/** Fixes for readings that differ from what the machine shows. */

import type { TextEdit } from 'vscode-languageserver';
import type { ExpectItem, RegisterReading } from '../../../grammar/tree.js';
import {
  hasSignedWheels,
  numberIn,
  POSITION,
  type Profile,
  pointOf,
  type Register,
  type State,
} from '../../machine/index.js';
import { compare } from '../../sequence/expects.js';
import { CODES } from '../../sequence/findings.js';
import { decimalText } from '../../sequence/readings.js';
import { substitute } from '../../sequence/substitute.js';
import { happenedBefore } from '../inlay.js';
import { type AroundStep, type Fix, rowsOfStep, type StepSubject } from './subject.js';

/** Every item of the step that differs is mended at once. */
export function readingFixes(subject: StepSubject<'reading-differs'>): Fix[] {
  const { draft, step, words, report, profile } = subject;
  const { line, syntax } = step;
  if (syntax.kind !== 'expect') return [];
  const edits: TextEdit[] = [];
  const titles: string[] = [];
  const dropped: ExpectItem[] = [];
  for (const [i, item] of syntax.items.entries()) {
    const wanted = new Set<string | undefined>();
    let differs = false;
    for (const run of report.runs) {
      for (const row of rowsOfStep(run, step)) {
        const state = run.tape.stateAt(row);
        const made = substitute(syntax, run.order.values);
        const asked = made.kind === 'expect' ? made.items[i] : item;
        differs ||= compare(asked, state, happenedBefore(run, row), profile) !== undefined;
        wanted.add(newText(item, state, profile));
      }
    }
    if (!differs) continue;
    const [text] = wanted;
    // What differs from one case or round to the next has no single reading; neither has a parameter.
    if (wanted.size !== 1 || text === undefined) return [];
    if (text === '') dropped.push(item);
    else {
      const at = figuresSpan(item);
      titles.push(item.kind === 'register' ? `${item.register} ${text}` : text);
      edits.push(draft.replace({ line, syntax: at }, text));
    }
  }
  if (dropped.length === syntax.items.length) {
    return [{ title: words.leaveOut(draft.text(line).slice(syntax.from, syntax.to)), edits: [draft.remove(step)] }];
  }
  for (const { from, to } of dropped) {
    const blanks = /\s*$/.exec(draft.text(line).slice(0, from))?.[0].length ?? 0;
    edits.push(draft.replace({ line, syntax: { from: from - blanks, to } }, ''));
  }
  if (edits.length === 0) return [];
  const title =
    titles.length > 0
      ? words.expectReading(titles.join(' '))
      : words.leaveOut(dropped.map(({ from, to }) => draft.text(line).slice(from, to)).join(', '));
  return [{ title, edits, isPreferred: titles.length > 0 && !followsFromError(subject) }];
}

/** What stands wrong may come of an error further up: then the reading need not be it. */
function followsFromError({ report, section, finding }: AroundStep): boolean {
  const { line, from } = finding.at;
  const isAbove = (at: { line: number; from: number }) => at.line < line || (at.line === line && at.from < from);
  if (section.errors.some((error) => isAbove({ line: error.line, from: error.syntax.from }))) return true;
  return report.findings.some(({ facts: { code }, at }) => {
    return CODES[code] === 'error' && code !== 'reading-differs' && code !== 'goal-missed' && isAbove(at);
  });
}

function figuresSpan(item: ExpectItem): { from: number; to: number } {
  if (item.kind === 'register') return { from: signStart(item), to: item.figures.to };
  return item;
}

/** Where the figures begin, with their minus. */
const signStart = (item: RegisterReading): number =>
  item.negative ? item.from + item.register.length : item.figures.from;

/** What is to stand in place of an item: '' if it goes, undefined if there is no telling. */
function newText(item: ExpectItem, state: State, profile: Profile): string | undefined {
  switch (item.kind) {
    case 'register':
      if (item.figures.kind === 'name') return undefined;
      return (item.negative ? ' ' : '') + readingText(item.register, item.figures.text, item.negative, state, profile);
    case 'carriage':
    case 'parked': {
      if (item.kind === 'carriage' && item.position.kind === 'name') return undefined;
      const label = item.label ? ` as ${item.label.name}` : '';
      return (state[POSITION] === 0 ? 'parked' : `carriage ${state[POSITION]}`) + label;
    }
    default:
      return '';
  }
}

/**
 * A register's reading as a number is written that stood there before: a value with its decimals or a digit string, a
 * complement with a minus if that was so and it is one, noughts in front and grouping kept.
 */
export function readingText(
  register: Register,
  like: string,
  wasNegative: boolean,
  state: State,
  profile: Profile,
): string {
  let units = numberIn(state, profile, register);
  const modulus = 10n ** BigInt(profile[register]);
  if (wasNegative && units * 2n > modulus && !hasSignedWheels(profile, register)) units -= modulus;
  const sign = units < 0n ? '-' : '';
  const size = units < 0n ? -units : units;
  const marker = pointOf(state, register);
  if (!like.includes('.')) {
    const width = like.startsWith('0') ? like.replace(/[_']/g, '').length : 1;
    return sign + regrouped(size.toString().padStart(width, '0'), like);
  }
  const decimals = (like.split('.')[1] ?? '').replace(/[_']/g, '').length;
  let [whole, rest = ''] = decimalText(size, marker).split('.');
  while (rest.length > Math.max(1, decimals) && rest.endsWith('0')) rest = rest.slice(0, -1);
  rest = rest.padEnd(Math.max(1, Math.min(decimals, marker || decimals)), '0');
  whole = regrouped(whole, like.split('.')[0]);
  return `${sign}${whole}.${rest}`;
}

/** Figures in groups from the right, by the mark and of the size that another number has. */
function regrouped(figures: string, like: string): string {
  const mark = /[_']/.exec(like)?.[0];
  if (!mark) return figures;
  const size = like.length - 1 - Math.max(like.lastIndexOf('_'), like.lastIndexOf("'"));
  return figures.replace(new RegExp(`\\B(?=(?:\\d{${size}})+$)`, 'g'), mark);
}
