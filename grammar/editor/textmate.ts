/**
 * The colouring of `.crank` text in editors that read TextMate grammars, made from the table of words.
 *
 * Invariant: crank.tmLanguage.json is what `grammarText` returns; tests/grammar/editor.test.ts fails when it is stale
 * and writes it anew with `--update`.
 * Invariant: every pattern means the same to Oniguruma and to a JavaScript RegExp with the flag `u`, so that the tests
 * can colour text with the very patterns that editors get.
 */
import { WORDS, type WordKind, wordsOf } from '../tokens.js';

/** What editors are to show a part of the text as. */
export interface Scoped {
  readonly name: string;
}
/** One rule: a match on one line, a stretch from `begin` to `end`, a reference, or a list of rules. */
export interface TextMateRule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Readonly<Record<string, Scoped>>;
  readonly beginCaptures?: Readonly<Record<string, Scoped>>;
  readonly endCaptures?: Readonly<Record<string, Scoped>>;
  readonly include?: string;
  readonly patterns?: readonly TextMateRule[];
}
export interface TextMateGrammar {
  readonly name: string;
  readonly scopeName: string;
  readonly patterns: readonly TextMateRule[];
  readonly repository: Readonly<Record<string, TextMateRule>>;
}

/** The scope of a word of each kind. */
export const SCOPE_OF_KIND: Readonly<Record<WordKind, string>> = {
  section: 'keyword.control.section.crank',
  machine: 'support.type.machine.crank',
  step: 'support.function.step.crank',
  register: 'variable.language.register.crank',
  detail: 'keyword.other.detail.crank',
};
const MACHINE_NAME = 'entity.name.type.machine.crank';
const SEQUENCE_NAME = 'entity.name.function.sequence.crank';
const LABEL_NAME = 'entity.name.label.crank';

const PART_OF_NAME = '[\\p{L}\\p{M}\\p{N}-]';
const BEFORE = `(?<!${PART_OF_NAME})`;
const AFTER = `(?!${PART_OF_NAME})`;
const BLANK = '[\\t\\p{Zs}]';
/** Longer words first: what stands behind a word is checked, but `half` must not be tried on `half-step` for nothing. */
const oneOf = (words: readonly string[]): string =>
  `(?:${[...words].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).join('|')})`;
const allWords = WORDS.map((w) => w.word);
const ANY_NAME = `\\p{L}${PART_OF_NAME}*`;
/** A name, but no word of the notation. */
const NAME = `(?!${oneOf(allWords)}${AFTER})${ANY_NAME}`;
const DIGITS = "[0-9]+(?:[_'][0-9]+)*";
/** Where an item of a line begins; the mark before it, if any, is group 1 or 2. */
const ITEM_START = `(?:^|(;)|([{}]))${BLANK}*`;
const ITEM_MARKS = {
  1: { name: 'punctuation.terminator.step.crank' },
  2: { name: 'punctuation.section.braces.crank' },
} as const;

const include = (...names: string[]): TextMateRule[] => names.map((name) => ({ include: `#${name}` }));

/** From a section's header to the line on which the next section begins. */
const section = (word: string, nameScope: string | undefined, patterns: TextMateRule[]): TextMateRule => ({
  name: `meta.${word}.crank`,
  begin: `^${BLANK}*(${word})${AFTER}${nameScope ? `(?:${BLANK}+(${NAME}))?` : ''}`,
  beginCaptures: { 1: { name: SCOPE_OF_KIND.section }, ...(nameScope && { 2: { name: nameScope } }) },
  end: `^(?=${BLANK}*${oneOf(wordsOf('section'))}${AFTER})`,
  patterns,
});

/** A word and the name that follows it. */
const named = (words: readonly string[], wordScope: string, nameScope: string): TextMateRule => ({
  match: `${BEFORE}(${oneOf(words)})${BLANK}+(${NAME})`,
  captures: { 1: { name: wordScope }, 2: { name: nameScope } },
});

const itemsOf = (kind: 'machine' | 'step'): TextMateRule => ({
  match: `${ITEM_START}(${oneOf(wordsOf(kind))})${AFTER}`,
  captures: { ...ITEM_MARKS, 3: { name: SCOPE_OF_KIND[kind] } },
});

/** Builds the grammar. */
export function textMateGrammar(): TextMateGrammar {
  const steps = include('comment', 'string', 'run', 'step', 'inside');
  return {
    name: 'Cranknote',
    scopeName: 'source.crank',
    patterns: include('comment', ...wordsOf('section'), 'string'),
    repository: {
      use: section('use', undefined, include('comment', 'string')),
      machine: section('machine', MACHINE_NAME, include('comment', 'string', 'line', 'inside')),
      sequence: section('sequence', SEQUENCE_NAME, steps),
      bench: section('bench', undefined, steps),
      comment: { name: 'comment.line.number-sign.crank', match: '#.*$' },
      string: {
        name: 'string.quoted.double.crank',
        begin: '"',
        end: '(")|$',
        patterns: [
          { name: 'constant.character.escape.crank', match: '\\\\["\\\\]' },
          { name: 'invalid.illegal.escape.crank', match: '\\\\' },
        ],
      },
      line: itemsOf('machine'),
      step: itemsOf('step'),
      run: {
        match: `${ITEM_START}(run)${BLANK}+(${NAME})`,
        captures: { ...ITEM_MARKS, 3: { name: SCOPE_OF_KIND.step }, 4: { name: SEQUENCE_NAME } },
      },
      // What stands behind the first word of an item, and in a header.
      inside: { patterns: include('named', 'register', 'detail', 'root', 'number', 'name', 'operator', 'mark') },
      named: {
        patterns: [
          named(['like', 'on'], SCOPE_OF_KIND.detail, MACHINE_NAME),
          named(['of'], SCOPE_OF_KIND.detail, SEQUENCE_NAME),
          named(['as'], SCOPE_OF_KIND.detail, LABEL_NAME),
          // What was found belongs to a reading, by its label.
          named(['found'], SCOPE_OF_KIND.step, LABEL_NAME),
        ],
      },
      register: { name: SCOPE_OF_KIND.register, match: `${BEFORE}${oneOf(wordsOf('register'))}${AFTER}` },
      detail: { name: SCOPE_OF_KIND.detail, match: `${BEFORE}${oneOf(allWords)}${AFTER}` },
      // The one word that may stand right behind a minus.
      root: { name: SCOPE_OF_KIND.detail, match: `(?<![\\p{L}\\p{M}\\p{N}])sqrt${AFTER}` },
      number: {
        patterns: [
          { name: 'constant.numeric.value.crank', match: `(?<!\\p{L})${DIGITS}\\.${DIGITS}` },
          { name: 'constant.numeric.figures.crank', match: `(?<!\\p{L})${DIGITS}` },
        ],
      },
      name: { name: 'variable.parameter.crank', match: ANY_NAME },
      operator: {
        patterns: [
          { name: 'keyword.operator.assignment.crank', match: '=' },
          { name: 'keyword.operator.arithmetic.crank', match: '[-+*/^]' },
        ],
      },
      mark: {
        patterns: [
          { name: ITEM_MARKS[1].name, match: ';' },
          { name: ITEM_MARKS[2].name, match: '[{}]' },
          { name: 'punctuation.section.parens.crank', match: '[()]' },
          { name: 'punctuation.separator.crank', match: ',' },
        ],
      },
    },
  };
}

/** The grammar as the text of crank.tmLanguage.json. */
export const grammarText = (): string => `${JSON.stringify(textMateGrammar(), null, 2)}\n`;
