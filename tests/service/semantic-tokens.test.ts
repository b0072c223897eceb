/** What each word is, for colours. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ParsedDocument } from '../../server/service/document.js';
import { deltaOf, semanticTokens, TOKEN_LEGEND } from '../../server/service/semantic-tokens.js';
import { anyFileText } from '../grammar/generate.js';
import { openMarked } from './editor.js';

interface Decoded {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly type: string;
  readonly modifiers: string[];
}

function decode(data: readonly number[]): Decoded[] {
  const tokens: Decoded[] = [];
  let line = 0;
  let from = 0;
  for (let i = 0; i < data.length; i += 5) {
    const [down, right, length, type, bits] = data.slice(i, i + 5);
    from = down === 0 ? from + right : right;
    line += down;
    const modifiers = TOKEN_LEGEND.tokenModifiers.filter((_, bit) => bits & (1 << bit));
    tokens.push({ line, from, to: from + length, type: TOKEN_LEGEND.tokenTypes[type], modifiers });
  }
  return tokens;
}

const read = ({ lines }: ParsedDocument, data: readonly number[]): string[] =>
  decode(data).map(
    ({ line, from, to, type, modifiers }) => `${lines[line].slice(from, to)} ${[type, ...modifiers].join('.')}`,
  );

/** What a client insists on: whole fives, in order, on their line, one beside the other. */
function expectSound(document: ParsedDocument, data: readonly number[]): void {
  expect(data.length % 5).toBe(0);
  let before = { line: 0, to: 0 };
  for (const token of decode(data)) {
    expect(token.type).toBeDefined();
    expect(token.to).toBeGreaterThan(token.from);
    expect(token.to).toBeLessThanOrEqual(document.lines[token.line].length);
    if (token.line === before.line) expect(token.from).toBeGreaterThanOrEqual(before.to);
    else expect(token.line).toBeGreaterThan(before.line);
    before = token;
  }
}

describe('the tokens', () => {
  it('say what each word is', () => {
    const { document } = openMarked(
      [
        'use "m.crank"',
        'machine m "Desk" like office # wide',
        '  result 13 reach 9',
        'sequence s (a = 3) on m',
        '  case a = 4',
        '  goal result = -a ^ 2.5',
        '  note "Turn"; expect counter a as sum',
        '  run s (a)',
        'bench "May" of s on m',
        '  found sum result 5',
      ].join('\n'),
    );
    expect(read(document, semanticTokens(document))).toEqual([
      'use keyword',
      '"m.crank" string',
      'machine keyword',
      'm class.declaration',
      '"Desk" string.documentation',
      'like keyword',
      'office class',
      '# wide comment',
      'result property',
      '13 number',
      'reach keyword',
      '9 number',
      'sequence keyword',
      's function.declaration',
      'a parameter.declaration',
      '= operator',
      '3 number',
      'on keyword',
      'm class',
      'case keyword',
      'a parameter.modification',
      '= operator',
      '4 number',
      'goal keyword',
      'result property',
      '= operator',
      '- operator',
      'a parameter',
      '^ operator',
      '2.5 number',
      'note keyword',
      '"Turn" string.documentation',
      'expect keyword',
      'counter property',
      'a parameter',
      'as keyword',
      'sum label.declaration',
      'run keyword',
      's function',
      'a parameter',
      'bench keyword',
      '"May" string.documentation',
      'of keyword',
      's function',
      'on keyword',
      'm class',
      'found keyword',
      'sum label',
      'result property',
      '5 number',
    ]);
  });

  it('stand in lines that can not be read as well, as far as that goes', () => {
    const { document } = openMarked('sequence s\n  turn bakc 5 "open');
    expect(read(document, semanticTokens(document)).slice(2)).toEqual(['turn keyword', '5 number', '"open string']);
  });

  it('of a page are those in its fences', () => {
    const { document } = openMarked('turn 5\n\n> ```crank\n> sequence s\n>   turn 5\n> ```\n\nturn 5\n', {}, 'page.md');
    expect(read(document, semanticTokens(document))).toEqual([
      'sequence keyword',
      's function.declaration',
      'turn keyword',
      '5 number',
    ]);
  });

  it('of a range are those on its lines', () => {
    const { document } = openMarked('sequence s\n  turn 1\n  turn 2\n  turn 3\nsequence t\n  turn 4\n');
    const on = (from: number, to: number) => {
      const range = { start: { line: from, character: 0 }, end: { line: to, character: 3 } };
      return decode(semanticTokens(document, range));
    };
    const all = decode(semanticTokens(document));
    for (const [from, to] of [
      [0, 0],
      [2, 3],
      [3, 4],
      [5, 99],
      [50, 60],
    ]) {
      expect(on(from, to)).toEqual(all.filter(({ line }) => from <= line && line <= to));
    }
  });

  it.each(readdirSync('samples').filter((name) => /\.(?:crank|md)$/.test(name)))('of %s are sound', (name) => {
    const { document } = openMarked(readFileSync(`samples/${name}`, 'utf8'), {}, name);
    const data = semanticTokens(document);
    expect(data.length).toBeGreaterThan(0);
    expectSound(document, data);
  });

  it('of any text are sound', () => {
    fc.assert(
      fc.property(fc.oneof(anyFileText, fc.string({ unit: 'binary' })), (text) => {
        const { document } = openMarked(text);
        expectSound(document, semanticTokens(document));
      }),
      { numRuns: 60 },
    );
  });

  it('are none on a line that is too long to be read', () => {
    const { document } = openMarked(`sequence s\n  note "${'x'.repeat(5_000)}"\n  turn`);
    expect(read(document, semanticTokens(document))).toEqual([
      'sequence keyword',
      's function.declaration',
      'turn keyword',
    ]);
  });
});

describe('the difference of tokens', () => {
  const apply = (data: readonly number[], edits: ReturnType<typeof deltaOf>) => {
    const result = [...data];
    for (const { start, deleteCount, data: added = [] } of edits) result.splice(start, deleteCount, ...added);
    return result;
  };

  it('is nothing where nothing changed, and otherwise what changed', () => {
    const of = (text: string) => semanticTokens(openMarked(text).document);
    const [before, after] = [of('sequence s\n  turn 1\n  turn 2\n'), of('sequence s\n  turn 1; clear all\n  turn 2\n')];
    expect(deltaOf(before, before)).toEqual([]);
    expect(deltaOf(before, after)).toEqual([{ start: 20, deleteCount: 0, data: after.slice(20, 30) }]);
  });

  it('leads from any tokens to any others', () => {
    const tokens = fc
      .array(fc.tuple(fc.nat(1), fc.nat(2), fc.nat(2), fc.nat(1), fc.nat(1)), { maxLength: 6 })
      .map((fives) => fives.flat());
    fc.assert(
      fc.property(tokens, tokens, (before, after) => {
        const edits = deltaOf(before, after);
        expect(apply(before, edits)).toEqual(after);
        for (const { start, deleteCount } of edits) expect([start % 5, deleteCount % 5]).toEqual([0, 0]);
      }),
    );
  });
});
