/** What is told once of all rounds of a `repeat`, where they are alike enough for that. */
import { print } from '../../grammar/printer.js';
import { LEVERS, POSITION } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { stateBefore } from '../sequence/rows.js';
import type { Text } from './model.js';
import { plainText } from './spans.js';
import type { Reading, Told, ToldStep } from './told.js';
import type { SheetWords } from './wording/index.js';

/** What is told of every round, with the readings of all of them; undefined where rounds differ. */
export function sameInAll(rounds: readonly (readonly Told[])[], run: CaseRun, words: SheetWords): Told[] | undefined {
  const [first, ...others] = rounds;
  if (others.some(({ length }) => length !== first.length)) return undefined;
  const all: Told[] = [];
  for (const [i, told] of first.entries()) {
    const same = rounds.map((round) => round[i]);
    if (told.is !== 'step') {
      if (same.some((one) => JSON.stringify(one) !== JSON.stringify(told))) return undefined;
      all.push(told);
      continue;
    }
    const steps = same.filter((one) => one.is === 'step');
    const text = steps.length === same.length ? textForAll(steps, run, words) : undefined;
    const readings = text && readingsOfAll(steps);
    if (!text || !readings) return undefined;
    all.push({ ...told, text, readings });
  }
  return all;
}

/**
 * A text that holds for all of these: a shift without the position that it leads to, levers with all that has to be
 * moved in some round.
 */
function textForAll(steps: readonly ToldStep[], run: CaseRun, words: SheetWords): Text | undefined {
  const [{ number, of, text }] = steps;
  if (steps.some((step) => step.number !== number || step.of?.kind !== of?.kind)) return undefined;
  const texts = steps.map((step) => plainText(step.text));
  if (texts.every((one) => one === texts[0])) return text;
  const written = steps.map((step) => step.of && print(step.of));
  if (!of || written.some((one) => one !== written[0])) return undefined;
  switch (of.kind) {
    case 'set':
    case 'dial':
      return longest(steps);
    case 'mode':
    case 'count':
    case 'auto-clear':
    case 'auto-divide':
      return steps.find(({ from, to }) => moves(run, from, to, LEVERS))?.text;
    case 'shift':
      if (of.half || of.way === 'out') return undefined;
      if (of.way === 'to') return steps.find(({ from, to }) => moves(run, from, to, POSITION))?.text;
      return [words.operating.shift(of.count?.kind === 'number' ? of.count.text : '1', of.way)];
    default:
      return undefined;
  }
}

const longest = (steps: readonly ToldStep[]): Text =>
  steps.reduce((most, { text }) => (plainText(text).length > plainText(most).length ? text : most), steps[0].text);

const moves = (run: CaseRun, from: number, to: number, what: number): boolean =>
  stateBefore(run, from)[what] !== run.tape.stateAt(to)[what];

function readingsOfAll(steps: readonly ToldStep[]): Reading[] | undefined {
  const [first, ...others] = steps;
  if (others.some(({ readings }) => readings.length !== first.readings.length)) return undefined;
  return first.readings.map((reading, i) => ({
    ...reading,
    states: steps.flatMap(({ readings }) => readings[i].states),
  }));
}
