/** What holds for any text at all, and for any text that is written as the notation wants it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { print } from '../../grammar/printer.js';
import { Parser, parse, splitLines } from '../../grammar/sections.js';
import { WORDS } from '../../grammar/tokens.js';
import type { CrankFile, LineSyntax } from '../../grammar/tree.js';
import { anyFile, anyFileText } from './generate.js';
import { contentsOf, errorsIn, readLine, withoutPositions } from './tree.js';

/** Only a hang fails this: how fast it goes is measured elsewhere. */
const HANG = 20_000;

const anyUnits = fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 60 }).map((u) => String.fromCharCode(...u));
const anyUnicode = fc.string({ unit: 'binary', maxLength: 60 });
const marks = ['\n', '\n', '\r\n', '\r', ' ', '\t', '\v', '\u00a0', '\u2028', '\ufeff', '{', '}', ';', '#', '"', '\\'];
const others = [
  '(',
  ')',
  ',',
  '=',
  '+',
  '-',
  '*',
  '/',
  '^',
  '.',
  '_',
  "'",
  '5',
  '32.5',
  '1_0',
  'rows',
  'ä',
  '"Pots"',
  '🪴',
];
/** The notation's own words and marks in any order; half of the words with a blank behind them. */
const anyMixture = fc
  .array(
    fc.oneof(
      fc.constantFrom(...WORDS.map((w) => `${w.word} `)),
      fc.constantFrom(...WORDS.map((w) => w.word), ...marks, ...others),
      fc.constantFrom('\nsequence s\n', '\nmachine m\n', '\nbench "B" of s on m\n', 'repeat 2 {', 'turn; ', '\nset 5 '),
    ),
    { maxLength: 40 },
  )
  .map((parts) => parts.join(''));
const anything = fc.oneof(anyUnits, anyUnicode, anyMixture, anyMixture, anyFileText);

/** The parts that formatting must keep: all but blank lines at the end of the file, of which it may add one. */
function kept(text: string): unknown[] {
  const { sections, lineCount } = parse(text.replace(/^\ufeff/, ''));
  const lines = sections.flatMap(({ section }) => section.lines);
  const isBlank = ({ header, items, comment, errors }: LineSyntax) =>
    !header && !comment && items.length === 0 && errors.length === 0;
  const end = lines.findLastIndex((line) => !isBlank(line)) + 1;
  const cut = sections
    .filter(({ line }) => line < end)
    .map(({ section, line }) => ({ section: { ...section, lines: section.lines.slice(0, end - line) }, line }));
  return contentsOf({ sections: cut, lineCount });
}

function expectWhole(file: CrankFile, lines: readonly string[]): void {
  expect(file.lineCount).toBe(lines.length);
  expect(file.sections.flatMap(({ section }) => section.lines.map((line) => line.text))).toEqual(lines);
  let next = 0;
  for (const { section, line } of file.sections) {
    expect(line).toBe(next);
    next += section.lines.length;
    for (const error of section.errors) {
      const { text } = section.lines[error.line];
      expect(error.syntax.from).toBeGreaterThanOrEqual(0);
      expect(error.syntax.to).toBeGreaterThan(error.syntax.from);
      expect(error.syntax.to).toBeLessThanOrEqual(text.length);
    }
  }
}

describe('any text', () => {
  it('gives a tree that has all of its lines, with every error inside its line', () => {
    fc.assert(
      fc.property(anything, (text) => expectWhole(parse(text), splitLines(text))),
      { numRuns: 1500 },
    );
  });

  it('is formatted once and for all', () => {
    fc.assert(
      fc.property(anything, (text) => {
        const once = format(text);
        expect(format(once)).toBe(once);
      }),
      { numRuns: 1500 },
    );
  });

  it('says the same after formatting', () => {
    fc.assert(
      fc.property(anything, (text) => {
        expect(kept(format(text))).toEqual(kept(text));
      }),
      { numRuns: 1500 },
    );
  });

  it('keeps its broken lines, its line ends and its byte order mark', () => {
    fc.assert(
      fc.property(anything, (text) => {
        const formatted = format(text);
        const ends = (t: string) => t.match(/\r\n|\n|\r/g) ?? [];
        expect(ends(formatted).slice(0, ends(text).length)).toEqual(ends(text));
        expect(formatted.startsWith('\ufeff')).toBe(text.startsWith('\ufeff'));
        const plain = text.replace(/^\ufeff/, '');
        const after = splitLines(formatted.replace(/^\ufeff/, ''));
        const broken = parse(plain).sections.flatMap(({ section, line }) =>
          section.lines.flatMap(({ errors }, i) => (errors.length > 0 ? [line + i] : [])),
        );
        for (const line of broken) expect(after[line]).toBe(splitLines(plain)[line]);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a file as it should be', () => {
  it('has no errors, and none after formatting', () => {
    fc.assert(
      fc.property(anyFileText, (text) => {
        expect(errorsIn(text)).toEqual([]);
        expect(errorsIn(format(text))).toEqual([]);
        expect(kept(format(text))).toEqual(kept(text));
      }),
      { numRuns: 1000 },
    );
  });

  it('is made of items that read back from their print', () => {
    fc.assert(
      fc.property(anyFileText, (text) => {
        for (const { section } of parse(text).sections) {
          for (const { header, items } of section.lines) {
            for (const item of header ? [header, ...items] : items) {
              const again = readLine(print(item), section.kind);
              expect(withoutPositions(again.header ?? again.items[0])).toEqual(withoutPositions(item));
              expect(print(again.header ?? again.items[0])).toBe(print(item));
            }
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is the same tree whether it is read afresh or after an edit', () => {
    const edit = fc.record({ at: fc.nat(), remove: fc.nat(3), insert: fc.array(anyMixture, { maxLength: 2 }) });
    fc.assert(
      fc.property(anyFile, fc.array(edit, { minLength: 1, maxLength: 4 }), ({ lines: first }, edits) => {
        const parser = new Parser();
        let lines = [...first];
        let file = parser.parse(lines.join('\n'));
        for (const { at, remove, insert } of edits) {
          lines = lines.toSpliced(at % (lines.length + 1), remove, ...insert);
          file = parser.parse(lines.join('\n'), file);
          expect(file).toEqual(parse(lines.join('\n')));
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('monstrous text', () => {
  const DEPTH = 100_000;
  it.each([
    ['on lines of their own', `sequence s\n${'repeat 2 {\n'.repeat(DEPTH)}turn\n${'}\n'.repeat(DEPTH)}`],
    ['never closed', `sequence s\n${'repeat 2 {\n'.repeat(DEPTH)}`],
    ['without repeat', `sequence s\n${'{\n'.repeat(DEPTH)}${'}\n'.repeat(DEPTH)}`],
    ['many on a line', `sequence s\n${`${'repeat 2 { '.repeat(300)}\n`.repeat(DEPTH / 300)}`],
    ['in a machine', `machine m\n${'{\n'.repeat(DEPTH)}`],
  ])('%s: 100,000 braces', { timeout: HANG }, (_, text) => {
    const file = parse(text);
    expect(file.lineCount).toBe(splitLines(text).length);
    expect(file.sections[0].section.errors.some(({ syntax }) => syntax.problem.is !== 'stray-brace')).toBe(true);
    const once = format(text);
    expect(format(once)).toBe(once);
  });

  const LONG = 5_000_000;
  it.each(['x', '{', '"', ' ', '#', '(', ';', '9', '^', '\u0308', 'turn ', '\\"'])(
    'a line of 5 MB of %j',
    { timeout: HANG },
    (piece) => {
      const long = piece.repeat(Math.ceil(LONG / piece.length));
      const found = errorsIn(`sequence s\nturn\n${long}\nturn`);
      expect(found.map(({ line, problem }) => [line, problem.is])).toEqual([[2, 'line-too-long']]);
    },
  );

  it.each([
    ['comments', '  # pots\n', 1_000_000],
    ['comments at the margin', '# pots\n', 100_000],
    ['steps with comments', '  turn  # pots\n', 300_000],
  ])('a great many %s', { timeout: HANG }, (_, line, times) => {
    const text = `sequence s\n${line.repeat(times)}`;
    // Compared as a whole: a difference of megabytes would take minutes to print.
    expect(format(text) === text).toBe(true);
  });
});
