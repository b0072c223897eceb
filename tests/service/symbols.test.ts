/** The outline of a document, and names among all files. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DocumentSymbol, type Range, SymbolKind } from 'vscode-languageserver';
import { documentSymbols, workspaceSymbols } from '../../server/service/symbols.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { anyFileText } from '../grammar/generate.js';
import { openMarked } from './editor.js';

const words = wordsFor('en');

const outline = (symbols: readonly DocumentSymbol[], indent = ''): string[] =>
  symbols.flatMap(({ name, detail, children }) => [
    `${indent}${name}${detail ? ` | ${detail}` : ''}`,
    ...outline(children ?? [], `${indent}  `),
  ]);

const outlineOf = (text: string) => outline(documentSymbols(openMarked(text).document, words));

const isWithin = (inner: Range, outer: Range): boolean => {
  const isBefore = (a: Range['start'], b: Range['start']) =>
    a.line < b.line || (a.line === b.line && a.character <= b.character);
  return isBefore(outer.start, inner.start) && isBefore(inner.end, outer.end);
};

/** What a client insists on: names, and ranges within ranges. */
function expectSound(symbols: readonly DocumentSymbol[], outer: Range): void {
  for (const { name, range, selectionRange, children } of symbols) {
    expect(name).not.toBe('');
    expect(isWithin(range, outer)).toBe(true);
    expect(isWithin(selectionRange, range)).toBe(true);
    expectSound(children ?? [], range);
  }
}
const anywhere: Range = { start: { line: 0, character: 0 }, end: { line: 1e9, character: 0 } };

describe('the outline', () => {
  it('has machines with their lines, sequences with cases, labels and repetitions, and benches', () => {
    const text = [
      '# Glass',
      'use "machines.crank"',
      'machine desk "On the desk" like wide',
      '  setting 8; result 13 dials',
      '  no bell',
      'sequence panes "Panes of a roof" (rows = 3, each = 5) on desk',
      '  case rows = 4, each = 6',
      '  case rows = 5',
      '  expect counter 3 as turns result -15 as sum bell',
      '  repeat 3 { turn; expect bell as rang }',
      '  expect carriage 1 as home',
      'bench "In March" of panes on desk',
      '  found sum result 15',
    ].join('\n');
    expect(outlineOf(text)).toEqual([
      'desk | On the desk',
      '  setting 8',
      '  result 13 dials',
      '  no bell',
      'panes | Panes of a roof',
      '  case 1 | rows = 4, each = 6',
      '  case 2 | rows = 5',
      '  turns | counter 3',
      '  sum | result -15',
      '  repeat 3',
      '    rang | bell',
      '  home | carriage 1',
      'In March | panes, desk',
      '  found sum result 15',
    ]);
  });

  it('ranges from the header to the last line that is its own', () => {
    const text = 'sequence s\n  turn\n\n# about t\nsequence t\n  turn   \n\n';
    const symbols = documentSymbols(openMarked(text).document, words);
    expect(symbols.map(({ range }) => range)).toEqual([
      { start: { line: 0, character: 0 }, end: { line: 1, character: 6 } },
      { start: { line: 4, character: 0 }, end: { line: 5, character: 6 } },
    ]);
    expect(symbols[0].selectionRange).toEqual({ start: { line: 0, character: 9 }, end: { line: 0, character: 10 } });
    expect(symbols[0].kind).toBe(SymbolKind.Function);
  });

  it('keeps what can not be read', () => {
    expect(outlineOf('sequence\n  repeat 2 {\n  turn\n  machine 5 5\n    nothing\nbench "" of s on m')).toEqual([
      'sequence',
      '  repeat 2',
      'machine 5 5',
      'bench | s, m',
    ]);
  });

  it.each(readdirSync('samples').filter((name) => /\.(?:crank|md)$/.test(name)))('of %s is sound', (name) => {
    const { document } = openMarked(readFileSync(`samples/${name}`, 'utf8'), {}, name);
    const symbols = documentSymbols(document, words);
    expect(symbols.length).toBeGreaterThan(0);
    expectSound(symbols, anywhere);
  });

  it('of any text is sound', () => {
    fc.assert(
      fc.property(fc.oneof(anyFileText, fc.string({ unit: 'binary' })), (text) => {
        expectSound(documentSymbols(openMarked(text).document, words), anywhere);
      }),
      { numRuns: 60 },
    );
  });
});

describe('names among all files', () => {
  const files = {
    'machines.crank': 'machine pinwheel-10 "On the desk"\n  setting 10\nmachine drum-8\n  setting 8\n',
    'stores.crank':
      'sequence pots "Pots"\n  expect result 5 as pieces\nsequence plant-pots\nbench "Drum" of pots on drum-8\n',
  };
  const { document } = openMarked('sequence p-o-t-s\n  expect bell as pots-too\n', files);
  const found = (query: string, limit?: number) =>
    workspaceSymbols(document.library, document.uriOf, query, limit).map(({ name }) => name);

  it('are those that begin with what was typed, then those that have it, then those with its letters', () => {
    expect(found('pots')).toEqual(['pots', 'pots-too', 'plant-pots', 'p-o-t-s']);
    expect(found('PIN 10')).toEqual(['pinwheel-10']);
    expect(found('drum')).toEqual(['drum-8', 'Drum']);
    expect(found('xyz')).toEqual([]);
  });

  it('are all where nothing was typed, and never more than wanted', () => {
    expect(found('')).toHaveLength(8);
    expect(found('', 3)).toHaveLength(3);
    expect(found('pots', 1)).toEqual(['pots']);
  });

  it('say where they stand and what they belong to', () => {
    const [symbol] = workspaceSymbols(document.library, document.uriOf, 'pieces');
    expect(symbol).toEqual({
      name: 'pieces',
      kind: SymbolKind.Field,
      containerName: 'pots',
      location: {
        uri: 'file:///nursery/stores.crank',
        range: { start: { line: 1, character: 21 }, end: { line: 1, character: 27 } },
      },
    });
  });
});
