/** Words of the notation that may come next in a step, a header or a record, the fitting ones first. */
import type { NextToken } from '../../../grammar/parser.js';
import { REGISTERS, wordOf, wordsOf } from '../../../grammar/tokens.js';
import type { Profile, Register } from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import { shownOf } from '../../sequence/looks.js';
import type { Reader } from '../document.js';
import { happenedBefore } from '../inlay.js';
import { readingText, registersOf } from '../readings.js';
import { firstSentence, lackOf } from './abilities.js';
import { type Candidate, type Tier, wordCandidate } from './candidate.js';
import { type Context, wordsOfItem } from './context.js';

/** Steps that name registers, each of them once. */
const NAMES_ONCE: ReadonlySet<string> = new Set(['clear', 'ask', 'points', 'expect', 'found']);

const isRegister = (word: string): word is Register => (REGISTERS as readonly string[]).includes(word);

export interface WordSurroundings {
  readonly reader: Reader;
  /** The machine of the sequence, where there is one. */
  readonly profile: Profile | undefined;
  /** What the machine has done up to here; asked for only where something is read. */
  readonly shown: () => CaseRun | undefined;
}

export function wordCandidates(
  context: Context,
  next: readonly NextToken[],
  { reader, profile, shown }: WordSurroundings,
): Candidate[] {
  const begun = wordsOfItem(context);
  const words = [...new Set(next.map(({ token }) => token))].filter(
    (token) => wordOf(token) && isOffered(token, begun),
  );
  const reads = begun[0] === 'expect' || begun[0] === 'ask';
  const run = reads && words.some((word) => isRegister(word)) ? shown() : undefined;
  return words.map((word): Candidate => {
    const lack = profile && context.rule === 'step' ? lackOf([...begun, word], profile) : undefined;
    if (lack) return wordCandidate(word, 'unable', reader, firstSentence(lack, reader));
    const reading = run && profile && isRegister(word) ? readingIn(run, profile, word) : undefined;
    return wordCandidate(word, tierOf(word, begun, context, run), reader, reading);
  });
}

function isOffered(word: string, begun: readonly string[]): boolean {
  if (word === 'at') return !begun.at(-1)?.includes('.');
  const isNamed = begun.includes(word);
  return !(isNamed && NAMES_ONCE.has(begun[0]) && (isRegister(word) || word === 'carriage'));
}

const readingIn = ({ state }: CaseRun, profile: Profile, register: Register): string | undefined =>
  registersOf(profile).includes(register) ? readingText(state, profile, register) : undefined;

function tierOf(word: string, begun: readonly string[], { placed, line }: Context, run: CaseRun | undefined): Tier {
  const { section } = placed;
  if (section.kind !== 'sequence') return 'first';
  if (begun.length === 0) {
    if (word === 'case') return section.header?.parameters.length ? 'later' : 'odd';
    return word === 'goal' ? 'later' : 'first';
  }
  if (begun[0] === 'goal' && isRegister(word)) {
    const own = line - placed.line;
    return section.goals.some((goal) => goal.line !== own && goal.syntax.register === word) ? 'odd' : 'first';
  }
  if (begun[0] === 'expect' && run && !isRegister(word) && word !== 'as') {
    return isSeen(word, run) ? 'later' : 'odd';
  }
  return 'first';
}

/** Whether `expect` with this word would be met. */
const isSeen = (word: string, run: CaseRun): boolean =>
  !isEvent(word) ||
  shownOf(word, { state: run.state, happened: happenedBefore(run, run.tape.length) }, run.order.profile) === true;

const EVENTS = ['bell', 'overflow', 'overdraw', 'parked'] as const;
const isEvent = (word: string): word is (typeof EVENTS)[number] => (EVENTS as readonly string[]).includes(word);

/** The words that open a section. */
export const sectionCandidates = (tier: Tier, reader: Reader): Candidate[] =>
  wordsOf('section').map((word) => wordCandidate(word, tier, reader));
