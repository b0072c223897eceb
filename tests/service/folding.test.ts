/** What can be folded away. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import { type FoldingWishes, foldingRanges } from '../../server/service/folding.js';
import { anyFileText } from '../grammar/generate.js';
import { openMarked } from './editor.js';

const short = ({ startLine, endLine, kind }: FoldingRange): string =>
  `${startLine}-${endLine}${kind && kind !== FoldingRangeKind.Region ? ` ${kind}` : ''}`;
const folds = (text: string, wishes: FoldingWishes = { lineFoldingOnly: true }, name = 'test.crank') =>
  foldingRanges(openMarked(text, {}, name).document, wishes).map(short);

const TEXT = [
  '# The stores,', // 0
  '# and what is in them', // 1
  'use "a.crank"', // 2
  '', // 3
  'use "b.crank"', // 4
  'machine m', // 5
  '  setting 8', // 6
  '  result 13', // 7
  '', // 8
  '# about s', // 9
  '# and more', // 10
  'sequence s', // 11
  '  repeat 2 {', // 12
  '    repeat 3 { turn }', // 13
  '    repeat 3 {', // 14
  '      turn', // 15
  '    }', // 16
  '  }', // 17
  '', // 18
].join('\n');

describe('folding', () => {
  it('takes sections, repetitions, comments and files that are used', () => {
    expect(folds(TEXT)).toEqual(['0-1 comment', '2-4 imports', '5-7', '9-10 comment', '11-17', '12-16', '14-15']);
  });

  it('within lines goes from brace to brace', () => {
    const ranges = foldingRanges(openMarked(TEXT).document);
    expect(ranges.filter(({ startLine }) => startLine === 14)).toEqual([
      { startLine: 14, startCharacter: 14, endLine: 16, endCharacter: 4 },
    ]);
  });

  it('by whole lines leaves the brace in sight, unless a step stands before it', () => {
    expect(folds('sequence s\n  repeat 2 {\n    turn\n    shift right }\n')).toEqual(['0-3', '1-3']);
    expect(folds('sequence s\n  repeat 2 {\n  }\n')).toEqual(['0-2']);
    expect(folds('sequence s\n  repeat 2 { repeat 3 {\n    turn\n  } }\n')).toEqual(['0-3', '1-2']);
  });

  it('leaves out a repetition without an end, and whatever stands on one line', () => {
    expect(folds('sequence s\n  repeat 2 {\n  turn\n')).toEqual(['0-2']);
    expect(folds('# one\nuse "a.crank"\nsequence s\n\n# two\n')).toEqual([]);
    expect(folds('')).toEqual([]);
  });

  it('of few ranges keeps the sections', () => {
    expect(folds(TEXT, { lineFoldingOnly: true, rangeLimit: 3 })).toEqual(['2-4 imports', '5-7', '11-17']);
    expect(folds(TEXT, { rangeLimit: 0 })).toEqual([]);
  });

  it('on a page ends with the fence', () => {
    const page = [
      '# Page', // 0
      '```crank', // 1
      'use "a.crank"', // 2
      'sequence s', // 3
      '  turn', // 4
      '', // 5
      '```', // 6
      'Then:', // 7
      '```crank', // 8
      '  # one', // 9
      '  # two', // 10
      '  turn', // 11
      '```', // 12
      '```crank', // 13
      'use "b.crank"', // 14
      '```', // 15
    ].join('\n');
    expect(folds(page, { lineFoldingOnly: true }, 'page.md')).toEqual(['3-4', '9-10 comment']);
  });

  it('of any text stays in the document and never crosses', () => {
    fc.assert(
      fc.property(anyFileText, fc.boolean(), (text, lineFoldingOnly) => {
        const { document } = openMarked(text);
        const ranges = foldingRanges(document, { lineFoldingOnly });
        for (const { startLine, endLine } of ranges) {
          expect(startLine).toBeLessThan(endLine);
          expect(endLine).toBeLessThan(document.lines.length);
        }
        if (lineFoldingOnly) expect(new Set(ranges.map(({ startLine }) => startLine)).size).toBe(ranges.length);
      }),
      { numRuns: 60 },
    );
  });
});
