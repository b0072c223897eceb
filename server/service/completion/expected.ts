/** The very reading for `expect`, as the machine shows it there. */
import { CompletionItemKind } from 'vscode-languageserver';
import { REGISTERS } from '../../../grammar/tokens.js';
import { POSITION, type Profile, type Register } from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import type { Reader } from '../document.js';
import { registersOf } from '../readings.js';
import type { Candidate } from './candidate.js';
import { type Context, wordsOfItem } from './context.js';
import { writtenReadings } from './outlook.js';

/** Readings behind the name of a register, a minus, or `carriage`. */
export function expectedCandidates(
  context: Context,
  { state }: CaseRun,
  profile: Profile,
  reader: Reader,
): Candidate[] {
  const begun = wordsOfItem(context);
  const isNegative = begun.at(-1) === '-';
  const asked = begun.at(isNegative ? -2 : -1) ?? '';
  const { shownHere } = reader.words.completion;
  const candidate = (label: string, i: number): Candidate => ({
    label,
    kind: CompletionItemKind.Value,
    tier: i === 0 ? 'first' : 'later',
    detail: shownHere,
  });
  if (asked === 'carriage' && !isNegative && state[POSITION] > 0) return [candidate(String(state[POSITION]), 0)];
  const register = REGISTERS.find((name): name is Register => name === asked);
  if (!register || !registersOf(profile).includes(register)) return [];
  const readings = writtenReadings(state, profile, register);
  const fitting = isNegative ? readings.filter((reading) => reading.isNegative) : readings;
  return fitting.map(({ text, isNegative: below }, i) => candidate(below && !isNegative ? `-${text}` : text, i));
}
