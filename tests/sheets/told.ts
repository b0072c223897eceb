/** The sentences of a sequence, step by step as it is run. */
import type { StepSyntax } from '../../grammar/tree.js';
import { newState, type Profile, type State } from '../../server/machine/index.js';
import type { CaseRun } from '../../server/sequence/check.js';
import type { Text } from '../../server/sheets/model.js';
import { stepSentence } from '../../server/sheets/sentences.js';
import { plainText } from '../../server/sheets/spans.js';
import { sheetWords } from '../../server/sheets/wording/index.js';
import { checkText } from '../marked.js';

export interface ToldRow {
  readonly step: StepSyntax;
  readonly at: { readonly before: State; readonly after: State; readonly profile: Profile };
}

/** Every row of a run with the states around it. */
export function* rowsOf({ tape, order }: CaseRun): Generator<ToldRow> {
  for (let row = 0; row < tape.length; row++) {
    const before = row === 0 ? newState() : tape.stateAt(row - 1);
    yield { step: tape.stepAt(row).syntax, at: { before, after: tape.stateAt(row), profile: order.profile } };
  }
}

/** The rows of the last sequence of a text, run with its defaults. */
export function rowsIn(text: string): ToldRow[] {
  const run = checkText(text).report.sequences.at(-1)?.runs[0];
  if (!run) throw new Error('Nothing in this text can be run');
  return [...rowsOf(run)];
}

export const sentenceOf = ({ step, at }: ToldRow, language: string): Text =>
  stepSentence(step, at, sheetWords(language));

/** The sentences of the last sequence, as they are read; figures are grouped by an ordinary blank. */
export const told = (text: string, language = 'en'): string[] =>
  rowsIn(text).map((row) => plainText(sentenceOf(row, language)).replaceAll('\u202f', ' '));

/** Sentences of the steps as they are written, those that hold others among them, beside a machine that has just been cleared. */
export function toldAsWritten(text: string, language = 'en'): string[] {
  const report = checkText(text).report.sequences.at(-1);
  if (!report?.profile) throw new Error('Nothing in this text can be run');
  const at = { before: newState(), after: newState(), profile: report.profile };
  return report.section.steps.map(({ syntax }) => plainText(stepSentence(syntax, at, sheetWords(language))));
}
