/** The formatter as edits. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TextEdit } from 'vscode-languageserver';
import { format } from '../../grammar/formatter.js';
import { formatMarkdown } from '../../grammar/markdown.js';
import { formatDocument, formatOnType, formatRange, formatRanges } from '../../server/service/formatting.js';
import { anyFile } from '../grammar/generate.js';
import { applyEdits, openMarked } from './editor.js';

const UNTIDY = [
  'sequence   s on m   # one',
  ' turn  2;shift   right  # two',
  'repeat 3{',
  '  # within',
  'turn   ',
  ' }',
  'expect result   5#three',
  '   ',
  'sequence t # four',
  '\tturn',
].join('\n');

/** One line each, and nothing in them that could stay. */
function expectMinimal(text: string, edits: readonly TextEdit[]): void {
  const lines = text.split('\n');
  for (const { range, newText } of edits) {
    expect(range.start.line).toBe(range.end.line);
    const old = lines[range.start.line].slice(range.start.character, range.end.character);
    expect(newText).not.toBe(old);
    if (old !== '' && newText !== '') expect(newText.at(-1)).not.toBe(old.at(-1));
  }
}

describe('a whole document', () => {
  it('is formatted as the formatter does it, in small edits', () => {
    const { document } = openMarked(UNTIDY);
    const edits = formatDocument(document);
    expect(applyEdits(UNTIDY, edits)).toBe(format(UNTIDY));
    expectMinimal(UNTIDY, edits);
    const onLine = (line: number) =>
      edits.flatMap(({ range: { start, end }, newText }) =>
        start.line === line ? [[start.character, end.character, newText]] : [],
      );
    expect(onLine(2)).toEqual([
      [0, 0, '  '],
      [8, 8, ' '],
    ]);
    expect(onLine(5)).toEqual([[1, 1, ' ']]);
    expect(onLine(7)).toEqual([[0, 3, '']]);
    expect(onLine(9)).toEqual([
      [0, 1, '  '],
      [5, 5, '\n'],
    ]);
  });

  it('that is tidy needs nothing', () => {
    expect(formatDocument(openMarked(format(UNTIDY)).document)).toEqual([]);
    expect(formatDocument(openMarked('').document)).toEqual([]);
  });

  it('gets a last line end of its own kind', () => {
    const { document } = openMarked('sequence s');
    expect(formatDocument({ ...document, eol: '\r\n' })).toEqual([
      { range: { start: { line: 0, character: 10 }, end: { line: 0, character: 10 } }, newText: '\r\n' },
    ]);
  });

  it('keeps its byte order mark', () => {
    const text = '\ufeffuse   "a.crank"\nsequence s';
    expect(applyEdits(text, formatDocument(openMarked(text).document))).toBe(format(text));
  });

  it.each(readdirSync('samples').filter((name) => /\.(?:crank|md)$/.test(name)))(
    '%s stays as it is, and comes back from disorder',
    (name) => {
      const text = readFileSync(`samples/${name}`, 'utf8');
      expect(formatDocument(openMarked(text, {}, name).document)).toEqual([]);
      const untidy = text.replace(/^ {2}(?=\w)/gm, '\t ').replace(/(?<=\w) (?=[a-z])(?=.*$)/gm, '  ');
      const edits = formatDocument(openMarked(untidy, {}, name).document);
      expect(applyEdits(untidy, edits)).toBe(name.endsWith('.md') ? formatMarkdown(untidy) : format(untidy));
      expectMinimal(untidy, edits);
    },
  );

  it('of any kind reads afterwards as the formatter writes it', () => {
    fc.assert(
      fc.property(anyFile, ({ lines }) => {
        const { document, text } = openMarked(lines.join('\n'));
        expect(applyEdits(text, formatDocument(document))).toBe(format(text));
      }),
      { numRuns: 200 },
    );
  });

  it('never cuts a sign in two', () => {
    const text = 'sequence s\n   # 🪴\n  note "🪴"; note    "🪵"\n';
    const edits = formatDocument(openMarked(text).document);
    for (const { newText } of edits) expect(newText).not.toMatch(/\p{Surrogate}/u);
    expect(applyEdits(text, edits)).toBe(format(text));
  });
});

describe('a page', () => {
  const page = [
    '#  Title',
    '',
    '```crank',
    'sequence   s',
    'turn',
    '```',
    '',
    '> ```crank',
    '> turn   3',
    '>    ',
    '> ```',
    '  turn   5',
  ].join('\n');

  it('is formatted in its fences alone', () => {
    const { document } = openMarked(page, {}, 'page.md');
    const edits = formatDocument(document);
    expect(applyEdits(page, edits)).toBe(formatMarkdown(page));
    expect(edits.map(({ range }) => range.start.line)).toEqual([3, 4, 8, 9]);
  });

  it('of any kind reads afterwards as the formatter writes it', () => {
    fc.assert(
      fc.property(anyFile, fc.constantFrom('', '> ', '  '), ({ lines }, margin) => {
        const page = ['Page', '', '```crank', ...lines, '```', ''].map((line) => margin + line).join('\n');
        const { document, text } = openMarked(page, {}, 'page.md');
        expect(applyEdits(text, formatDocument(document))).toBe(formatMarkdown(text));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a range', () => {
  const formattedIn = (marked: string) => {
    const { document, ranges, text } = openMarked(marked);
    return applyEdits(text, formatRanges(document, ranges)).split('\n');
  };

  it('changes its own lines, as they are in the whole', () => {
    const whole = format(UNTIDY).split('\n');
    const lines = UNTIDY.split('\n');
    for (let from = 0; from < lines.length; from++) {
      for (let to = from; to < lines.length; to++) {
        const range = { start: { line: from, character: 1 }, end: { line: to, character: 1 } };
        const result = applyEdits(UNTIDY, formatRange(openMarked(UNTIDY).document, range)).split('\n');
        expect(result).toEqual(lines.map((line, i) => (from <= i && i <= to ? whole[i] : line)));
      }
    }
  });

  it('leaves the line alone at whose start it ends, and takes backward ones', () => {
    expect(formattedIn('sequence s\n⟦turn\n⟧turn\n')).toEqual(['sequence s', '  turn', 'turn', '']);
    const { document, text } = openMarked('sequence s\nturn\nturn\n');
    const backward = { start: { line: 1, character: 2 }, end: { line: 0, character: 3 } };
    expect(applyEdits(text, formatRange(document, backward))).toBe('sequence s\n  turn\nturn\n');
  });

  it('may be one of several, that touch one another', () => {
    expect(formattedIn('sequence s\n⟦turn⟧ ⟦2⟧\nturn\n⟦ turn⟧\n')).toEqual([
      'sequence s',
      '  turn 2',
      'turn',
      '  turn',
      '',
    ]);
  });

  it('knows the comments that stand beside it in the next section', () => {
    const text = 'sequence s on m # a\nsequence longer on m # b\n';
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 5 } };
    const edited = applyEdits(text, formatRange(openMarked(text).document, range)).split('\n')[0];
    expect(edited).toBe(format(text).split('\n')[0]);
  });

  it('anywhere in any text is as in the whole', () => {
    fc.assert(
      fc.property(anyFile, fc.nat(20), fc.nat(5), ({ lines }, from, more) => {
        const { document, text } = openMarked(lines.join('\n'));
        const first = Math.min(from, document.lines.length - 1);
        const last = Math.min(first + more, document.lines.length - 1);
        const range = { start: { line: first, character: 0 }, end: { line: last, character: 1e6 } };
        const whole = format(text).split('\n');
        const edited = applyEdits(text, formatRange(document, range)).split('\n');
        expect(edited).toEqual(
          document.lines.map((line, i) =>
            first <= i && i <= last && !(last === i && i > first && line === '') ? whole[i] : line,
          ),
        );
      }),
      { numRuns: 100 },
    );
  });
});

describe('while typing', () => {
  const typed = (marked: string, sign: string, name = 'test.crank') => {
    const { document, cursor, text } = openMarked(marked, {}, name);
    return applyEdits(text, formatOnType(document, cursor, sign));
  };

  it.each([
    ['sequence s\n‸\n', 'sequence s\n  \n'],
    ['sequence s\n  repeat 2{\n‸\n', 'sequence s\n  repeat 2 {\n    \n'],
    [
      'sequence s\n  repeat 2 {\n    repeat 2 { turn }\n        ‸',
      'sequence s\n  repeat 2 {\n    repeat 2 { turn }\n    ',
    ],
    ['sequence s\nturn   2\n  ‸\n  turn\n', 'sequence s\n  turn 2\n  \n  turn\n'],
    ['sequence s\n  turn\n‸shift   right\n', 'sequence s\n  turn\n  shift right\n'],
    ['sequence s\n  repeat 2 {\n‸}\n', 'sequence s\n  repeat 2 {\n  }\n'],
    ['use "a.crank"\n  ‸\n', 'use "a.crank"\n\n'],
    ['# Stores\n  ‸\n', '# Stores\n\n'],
    ['sequence s\n  trun   2\n‸', 'sequence s\n  trun   2\n  '],
  ])('a new line goes under the one above: %j', (marked, expected) => {
    expect(typed(marked, '\n')).toBe(expected);
  });

  it.each([
    ['sequence s\n  repeat 2 {\n    turn\n    }‸\nturn\n', 'sequence s\n  repeat 2 {\n    turn\n  }\nturn\n'],
    ['sequence s\n  note "}‸"\n', 'sequence s\n  note "}"\n'],
  ])('a brace goes as far out as its repetition: %j', (marked, expected) => {
    expect(typed(marked, '}')).toBe(expected);
  });

  it('on a page nothing happens but in fences', () => {
    expect(typed('  Text\n  ‸\n\n```crank\nsequence s\n```\n', '\n', 'page.md')).toBe(
      '  Text\n  \n\n```crank\nsequence s\n```\n',
    );
    expect(typed('- item\n\n  ```crank\n  sequence s\n  ‸\n  ```\n', '\n', 'page.md')).toBe(
      '- item\n\n  ```crank\n  sequence s\n    \n  ```\n',
    );
    expect(typed('Text }‸\n', '}', 'page.md')).toBe('Text }\n');
  });

  it('other characters do nothing', () => {
    const { document } = openMarked(UNTIDY);
    expect(formatOnType(document, { line: 1, character: 3 }, ';')).toEqual([]);
    expect(formatOnType(document, { line: 0, character: 0 }, '\n')).toEqual([]);
  });
});
