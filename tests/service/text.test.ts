/** The text of an open document after edits, compared with a library's. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { splitLines } from '../../grammar/sections.js';
import { LONGEST_FILE } from '../../server/sequence/library.js';
import { OpenText, positionIn, rangeIn } from '../../server/service/text.js';

const position = fc.record({ line: fc.integer({ min: 0, max: 12 }), character: fc.integer({ min: 0, max: 12 }) });
const change = (piece: fc.Arbitrary<string>) =>
  fc.record({
    range: fc.tuple(position, position).map(([a, b]) => {
      const isForward = a.line < b.line || (a.line === b.line && a.character <= b.character);
      return isForward ? { start: a, end: b } : { start: b, end: a };
    }),
    text: fc.array(piece, { maxLength: 6 }).map((p) => p.join('')),
  });

function follows(piece: fc.Arbitrary<string>): void {
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 20 }), fc.array(change(piece), { maxLength: 12 }), (start, changes) => {
      const text = start.join('');
      const ours = new OpenText('file:///a.crank', text);
      let theirs = TextDocument.create('file:///a.crank', 'crank', 1, text);
      for (const each of changes) {
        const before = [...ours.lines];
        const edit = ours.change(each);
        // Afresh each time: what it remembers of its lines does not survive positions beyond the end.
        theirs = TextDocument.update(TextDocument.create('file:///a.crank', 'crank', 1, theirs.getText()), [each], 2);
        expect(ours.lines).toEqual(splitLines(theirs.getText()));
        if (!edit) continue;
        before.splice(edit.from, edit.to - edit.from, ...edit.lines);
        expect(before).toEqual(ours.lines);
      }
      expect(ours.text).toBe(theirs.getText());
    }),
    { numRuns: 300 },
  );
}

describe('a position', () => {
  const lines = ['set 1', '', 'turn'];
  it.each([
    [
      { line: 0, character: 2 },
      { line: 0, character: 2 },
    ],
    [
      { line: 0, character: 99 },
      { line: 0, character: 5 },
    ],
    [
      { line: 1, character: Number.POSITIVE_INFINITY },
      { line: 1, character: 0 },
    ],
    [
      { line: 3, character: 0 },
      { line: 2, character: 4 },
    ],
    [
      { line: Number.POSITIVE_INFINITY, character: -1 },
      { line: 2, character: 4 },
    ],
    [
      { line: -1, character: 3 },
      { line: 0, character: 0 },
    ],
    [
      { line: 2.5, character: 1.5 },
      { line: 2, character: 1 },
    ],
    [
      { line: 2, character: Number.NaN },
      { line: 2, character: 0 },
    ],
    [
      { line: 'two', character: null },
      { line: 0, character: 0 },
    ],
    [null, { line: 0, character: 0 }],
    [undefined, { line: 0, character: 0 }],
  ])('%j lies at %j', (sent, found) => {
    expect(positionIn(lines, sent as never)).toEqual(found);
  });

  it('and another are a range, whichever comes first', () => {
    const range = { start: { line: 0, character: 5 }, end: { line: 2, character: 4 } };
    expect(rangeIn(lines, { start: { line: 9, character: 0 }, end: { line: 0, character: 9 } })).toEqual(range);
    expect(rangeIn(lines, undefined as never)).toEqual({
      start: { line: 0, character: 0 },
      end: { line: 0, character: 0 },
    });
  });
});

describe('an open text', () => {
  it('follows edits with line feeds', () => follows(fc.constantFrom('turn', ' 3', '\n', 'ä', '𝟘', '# x')));
  it('follows edits with carriage returns and line feeds', () => follows(fc.constantFrom('turn', ' 3', '\r\n', 'ä')));
  it('follows edits with line ends of every kind', () => follows(fc.constantFrom('a', '\r', '\n', '\r\n', 'b ')));

  it('takes positions beyond the text, backwards or of no kind at all for the nearest', () => {
    const text = new OpenText('file:///a.crank', 'set 1\nturn');
    const odd = { start: { line: 99, character: 99 }, end: { line: -1, character: Number.NaN } };
    text.change({ range: odd, text: 'turn 2' });
    expect(text.text).toBe('turn 2');
    text.change({ range: { start: { line: 0.5, character: 1.5 }, end: { line: 0, character: 0 } }, text: '' });
    expect(text.text.length).toBeGreaterThan(0);
  });

  it('is replaced as a whole', () => {
    const text = new OpenText('file:///a.crank', 'set 1\nturn');
    expect(text.change({ text: 'clear all\n' })).toBeUndefined();
    expect(text.lines).toEqual(['clear all', '']);
    expect(
      text.change({ range: { start: { line: 0, character: 6 }, end: { line: 0, character: 9 } }, text: 'result' }),
    ).toEqual({
      from: 0,
      to: 1,
      lines: ['clear result'],
    });
  });

  it('takes a paste of very many lines', () => {
    const text = new OpenText('file:///a.crank', 'sequence s');
    const end = { line: 0, character: 10 };
    text.change({ range: { start: end, end }, text: '\n  turn'.repeat(300_000) });
    expect(text.lines).toHaveLength(300_001);
  });

  it('is not read while it is too long, and is once it is shorter', () => {
    const text = new OpenText('file:///a.crank', 'x'.repeat(LONGEST_FILE + 1));
    expect(text.isTooLong).toBe(true);
    text.change({
      range: { start: { line: 0, character: 4 }, end: { line: 0, character: LONGEST_FILE + 1 } },
      text: '',
    });
    expect(text.isTooLong).toBe(false);
    expect(text.lines).toEqual(['xxxx']);
  });
});
