/** What a selection grows to. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position, Range, SelectionRange } from 'vscode-languageserver';
import type { ParsedDocument } from '../../server/service/document.js';
import { selectionRanges } from '../../server/service/selection.js';
import { anyFileText } from '../grammar/generate.js';
import { openMarked } from './editor.js';

function chain(selection: SelectionRange | undefined): Range[] {
  return selection ? [selection.range, ...chain(selection.parent)] : [];
}

function textIn({ lines }: ParsedDocument, { start, end }: Range): string {
  if (start.line === end.line) return lines[start.line].slice(start.character, end.character);
  return [
    lines[start.line].slice(start.character),
    ...lines.slice(start.line + 1, end.line),
    lines[end.line].slice(0, end.character),
  ].join('\n');
}

const grown = (marked: string, name = 'test.crank') => {
  const { document, cursor } = openMarked(marked, {}, name);
  return chain(selectionRanges(document, [cursor])[0]).map((range) => textIn(document, range));
};

describe('a selection grows', () => {
  it('from a number to its place, the step, the line, the repetitions, the section, the file', () => {
    const text = 'use "m.crank"\n\nsequence s\n  repeat 2 {\n    turn; set 24.5 at 3 and 5\n  }\n  turn\n\n';
    expect(grown(text.replace('24', '2‸4'))).toEqual([
      '24.5',
      '24.5 at 3',
      'set 24.5 at 3 and 5',
      'turn; set 24.5 at 3 and 5',
      '\n    turn; set 24.5 at 3 and 5\n  ',
      'repeat 2 {\n    turn; set 24.5 at 3 and 5\n  }',
      '  repeat 2 {\n    turn; set 24.5 at 3 and 5\n  }\n  turn',
      'sequence s\n  repeat 2 {\n    turn; set 24.5 at 3 and 5\n  }\n  turn',
      text,
    ]);
  });

  it.each([
    [
      'sequence s\n  expect counter 3 result ‸42 as sum',
      ['42', 'result 42 as sum', 'expect counter 3 result 42 as sum'],
    ],
    ['sequence s\n  goal result = (‸a + 2) * 3', ['a', 'a + 2', '(a + 2)', '(a + 2) * 3', 'goal result = (a + 2) * 3']],
    ['sequence s\n  note "Turn ‸it"', ['Turn it', '"Turn it"', 'note "Turn it"']],
    ['sequence s (a = 3, b = ‸4) on m', ['4', 'b = 4', 'sequence s (a = 3, b = 4) on m']],
    ['sequence s\n  turn  # wh‸y', ['# why', 'turn  # why']],
    ['sequence s\n  trun rou‸nd 5', ['round', 'trun round 5']],
  ])('step by step in %j', (marked, expected) => {
    expect(grown(marked).slice(0, expected.length)).toEqual(expected);
  });

  it('on a page takes the fence before the page', () => {
    const page = '# Page\n\n```crank\nsequence s\n  turn ‸5\n```\n\nMore.\n';
    expect(grown(page, 'page.md')).toEqual(['5', 'turn 5', '  turn 5', 'sequence s\n  turn 5', page.replace('‸', '')]);
    expect(grown('# Pa‸ge\n\n```crank\nturn\n```\n', 'page.md')).toEqual(['# Page\n\n```crank\nturn\n```\n']);
  });

  it('anywhere in any text, by something each time, and holds the position', () => {
    const isBefore = (a: Position, b: Position) => a.line < b.line || (a.line === b.line && a.character <= b.character);
    const isWithin = (a: Range, b: Range) => isBefore(b.start, a.start) && isBefore(a.end, b.end);
    fc.assert(
      fc.property(anyFileText, fc.nat(30), fc.nat(40), (text, line, character) => {
        const { document } = openMarked(text);
        const wanted = { line, character };
        const ranges = chain(selectionRanges(document, [wanted])[0]);
        const last = document.lines.length - 1;
        const there =
          line > last
            ? { line: last, character: document.lines[last].length }
            : { line, character: Math.min(character, document.lines[line].length) };
        expect(isWithin({ start: there, end: there }, ranges[0])).toBe(true);
        for (const [i, range] of ranges.slice(1).entries()) {
          expect(isWithin(ranges[i], range)).toBe(true);
          expect(isWithin(range, ranges[i])).toBe(false);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('for several positions at once', () => {
    const { document } = openMarked('sequence s\n  turn 5\n');
    const at = [
      { line: 1, character: 7 },
      { line: 0, character: 2 },
    ];
    expect(selectionRanges(document, at).map(({ range }) => textIn(document, range))).toEqual(['5', 'sequence']);
  });
});
