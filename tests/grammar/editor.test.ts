/** What editors get: colouring, brackets and indentation, snippets. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { grammarText, SCOPE_OF_KIND, textMateGrammar } from '../../grammar/editor/textmate.js';
import { splitLines } from '../../grammar/sections.js';
import { WORDS, type WordKind, wordOf, wordsOf } from '../../grammar/tokens.js';
import { colour, scopeOf } from './colouring.js';
import { errorsIn } from './tree.js';

const file = (name: string): string => fileURLToPath(new URL(`../../grammar/editor/${name}`, import.meta.url));
const json = (name: string) => JSON.parse(readFileSync(file(name), 'utf8'));

describe('crank.tmLanguage.json', () => {
  it('is what textmate.ts builds', async () => {
    await expect(
      grammarText(),
      'Stale: regenerate with `npx vitest run tests/grammar/editor.test.ts --update`',
    ).toMatchFileSnapshot('../../grammar/editor/crank.tmLanguage.json');
  });

  /** Where a word of each kind stands. */
  const places: Record<WordKind, (word: string) => string[]> = {
    section: (word) => ['# before', `${word} "x"`],
    machine: (word) => ['machine oak-bench', `  ${word} 5`],
    step: (word) => ['sequence potting', `  ${word} 5`],
    register: (word) => ['sequence potting', `  ask ${word}`],
    detail: (word) => ['sequence potting', `  turn ${word}`.replace('turn turn', 'clear turn')],
  };
  const all = WORDS.flatMap((w) => w.kinds.map((kind) => [w.word, kind] as const));
  it.each(all)('shows “%s” as a %s', (word, kind) => {
    const lines = colour(textMateGrammar(), places[kind](word));
    expect(scopeOf(lines[1], word)).toBe(SCOPE_OF_KIND[kind]);
  });

  it.each(all.map(([word]) => word))('takes “%s” with a letter, a hyphen or a mark behind it for a name', (word) => {
    for (const name of [`${word}-x`, `${word}ä`, `${word}\u0301`, `x-${word}`, `ß${word}`, `${word}5`]) {
      const [, line] = colour(textMateGrammar(), ['sequence potting', `  set ${name}`]);
      expect(scopeOf(line, name), name).toBe('variable.parameter.crank');
    }
  });

  /** A line in a machine or in a sequence, and the innermost scopes of some of its parts. */
  const inSequence = (line: string) => colour(textMateGrammar(), ['sequence potting', line])[1];
  it.each<[string, Record<string, string>]>([
    ['  set 12_480.5 at 3', { '12_480.5': 'constant.numeric.value.crank', '3': 'constant.numeric.figures.crank' }],
    ["  set 12'480", { "12'480": 'constant.numeric.figures.crank' }],
    ['  expect result -42 as total', { '-': 'keyword.operator.arithmetic.crank', total: 'entity.name.label.crank' }],
    [
      '  run glass-area (rows, 5)',
      { 'glass-area': 'entity.name.function.sequence.crank', ',': 'punctuation.separator.crank' },
    ],
    ['  turn; shift right', { ';': 'punctuation.terminator.step.crank', shift: SCOPE_OF_KIND.step }],
    ['  repeat 3 { turn }', { '{': 'punctuation.section.braces.crank', turn: SCOPE_OF_KIND.step }],
    ['  goal result = 2 -sqrt(b)', { '=': 'keyword.operator.assignment.crank', sqrt: SCOPE_OF_KIND.detail }],
    ['  turn # set 5', { '# set 5': 'comment.line.number-sign.crank' }],
    ['  note "pots \\" # 5"', { '\\"': 'constant.character.escape.crank', ' # 5': 'string.quoted.double.crank' }],
    ['  auto-clear on', { 'auto-clear': SCOPE_OF_KIND.step, on: SCOPE_OF_KIND.detail }],
  ])('colours %s', (line, scopes) => {
    const pieces = inSequence(line);
    for (const [text, scope] of Object.entries(scopes)) expect(scopeOf(pieces, text), text).toBe(scope);
  });

  it('tells the same word in a machine and in a sequence apart', () => {
    const lines = [
      'machine oak-bench "T" like elm',
      '  count lever',
      'sequence potting (a = 3) on oak-bench',
      '  count plus',
    ];
    const [header, inMachine, sequence, inSteps] = colour(textMateGrammar(), lines);
    expect(scopeOf(header, 'oak-bench')).toBe('entity.name.type.machine.crank');
    expect(scopeOf(header, 'elm')).toBe('entity.name.type.machine.crank');
    expect(inMachine[1]).toEqual({ text: 'count', scopes: ['meta.machine.crank', SCOPE_OF_KIND.machine] });
    expect(scopeOf(sequence, 'potting')).toBe('entity.name.function.sequence.crank');
    expect(scopeOf(sequence, 'a')).toBe('variable.parameter.crank');
    expect(scopeOf(sequence, 'oak-bench')).toBe('entity.name.type.machine.crank');
    expect(inSteps[1]).toEqual({ text: 'count', scopes: ['meta.sequence.crank', SCOPE_OF_KIND.step] });
  });

  it('lets text that is not closed end with its line', () => {
    const [, , line] = colour(textMateGrammar(), ['sequence potting', '  note "open', '  turn 5']);
    expect(scopeOf(line, 'turn')).toBe(SCOPE_OF_KIND.step);
  });
});

describe('markdown.tmLanguage.json', () => {
  const fence = json('markdown.tmLanguage.json').repository.fence;
  /** `\G` is the place where an editor goes on; here that is always the start of the line. */
  const pattern = (text: string): RegExp => new RegExp(text.replaceAll('\\G', '^'), 'u');

  it('is put into Markdown and hands the fence to the notation', () => {
    const { injectTo, injectionSelector } = json('markdown.tmLanguage.json');
    expect(injectTo).toEqual(['text.html.markdown']);
    expect(injectionSelector).toBe('L:text.html.markdown');
    expect(fence.patterns[0].patterns).toEqual([{ include: textMateGrammar().scopeName }]);
  });

  it.each([
    ['```crank', true],
    ['~~~~ crank file=bay', true],
    ['  ```crank ', true],
    ['```crankcase', false],
    ['``crank', false],
    ['```text', false],
  ])('begins at %s: %s', (line, begins) => {
    expect(pattern(fence.begin).test(line)).toBe(begins);
  });

  it('ends at a fence of the same marks', () => {
    const end = pattern(fence.end.replace('\\3', '```'));
    const goesOn = pattern(fence.patterns[0].while);
    expect(end.test('```')).toBe(true);
    expect(end.test('  turn')).toBe(false);
    expect(goesOn.test('  turn')).toBe(true);
    expect(goesOn.test('```')).toBe(false);
  });
});

describe('language-configuration.json', () => {
  const configuration = json('language-configuration.json');
  const regExp = (at: { pattern: string; flags: string }) => new RegExp(at.pattern, at.flags);

  it('names the marks of the notation', () => {
    expect(configuration.comments.lineComment).toBe('#');
    const pairs = configuration.surroundingPairs;
    expect(pairs).toEqual(
      configuration.autoClosingPairs.map((pair: { open: string; close: string }) => [pair.open, pair.close]),
    );
    for (const bracket of configuration.brackets) expect(pairs).toContainEqual(bracket);
  });

  it('takes names and numbers for words as a whole', () => {
    const { pattern, flags } = configuration.wordPattern;
    const words = 'run größe-10 (12_480.5, стол) half-step'.match(new RegExp(pattern, `${flags}g`));
    expect(words).toEqual(['run', 'größe-10', '12_480.5', 'стол', 'half-step']);
  });

  it('folds and indents at the sections of the table', () => {
    const { folding, indentationRules } = configuration;
    const start = new RegExp(folding.markers.start);
    for (const word of wordsOf('section')) {
      expect(start.test(`${word} "x"`), word).toBe(true);
      expect(start.test(`${word}-x`), word).toBe(false);
      expect(regExp(indentationRules.decreaseIndentPattern).test(`  ${word} "x"`), word).toBe(true);
    }
    expect(start.test('turn')).toBe(false);
    expect(new RegExp(folding.markers.end).test('# ----')).toBe(true);
  });

  it.each([
    ['repeat 3 {', true],
    ['repeat 3 { # three rows', true],
    ['sequence bay', true],
    ['repeat 3 { turn }', false],
    ['note "{"', false],
    ['# {', false],
    ['turn', false],
  ])('indents the line after %s: %s', (line, indents) => {
    expect(regExp(configuration.indentationRules.increaseIndentPattern).test(line)).toBe(indents);
  });

  it('takes a closing brace back', () => {
    expect(regExp(configuration.indentationRules.decreaseIndentPattern).test('    }')).toBe(true);
    expect(regExp(configuration.indentationRules.decreaseIndentPattern).test('    turn }')).toBe(false);
  });
});

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}
const snippets = Object.entries<Snippet>(json('snippets.json'));

describe.each(snippets)('snippet %s', (_, { prefix, description, body }) => {
  const text = body.join('\n');

  it('parses without error once filled in by its defaults', () => {
    expect(prefix).not.toBe('');
    expect(description).not.toBe('');
    expect(errorsIn(within(filledIn(text)))).toEqual([]);
  });

  it('has no words of its own', () => {
    const own = text.replace(/\$\{[^}]*\}|\$\d/g, ' ').replace(/"[^"]*"/g, '');
    for (const word of own.match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []) expect(wordOf(word)?.word).toBe(word);
  });
});

it('there is a snippet for every section', () => {
  const prefixes = snippets.map(([, snippet]) => snippet.prefix);
  for (const word of wordsOf('section')) expect(prefixes).toContain(word);
});

/** A snippet with its gaps filled in by their defaults; of a choice, the first. */
function filledIn(text: string): string {
  const defaults = new Map<string, string>();
  for (const [, gap, value] of text.matchAll(/\$\{(\d+):([^}]*)\}/g)) defaults.set(gap, value);
  return text
    .replace(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, '$1')
    .replace(/\$\{(\d+):[^}]*\}|\$(\d+)/g, (_, a, b) => defaults.get(a ?? b) ?? '');
}

/** The snippet in the kind of section in which it belongs. */
function within(text: string): string {
  const first = /^\S+/.exec(splitLines(text)[0])?.[0] ?? '';
  const kinds = wordOf(first)?.kinds ?? [];
  if (kinds.includes('section')) return text;
  if (first === 'found') return `bench "Record" of potting on oak-bench\n${text}`;
  return kinds.includes('step') ? `sequence potting\n${text}` : `machine oak-bench\n${text}`;
}
