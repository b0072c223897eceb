/** After any edits of lines, a library that has followed them says what one says that has only seen the end. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Parser, parse, splitLines } from '../../grammar/sections.js';
import { Library } from '../../server/sequence/library.js';
import { traceOf } from '../../server/sequence/trace.js';

const LINES = [
  'machine stores',
  '  setting 4',
  '  counter 4',
  '  result 8',
  '  bell',
  'machine shed like stores',
  'use "seeds.crank"',
  'sequence sow on stores',
  'sequence sow (pots = 5) on shed',
  'sequence dig on shed',
  '  clear all',
  '  set 12',
  '  set pots',
  '  turn 3',
  '  turn 12',
  '  turn back 4',
  '  run sow',
  '  run rake',
  '  repeat 3 {',
  '  }',
  '  multiply by 23',
  '  expect result 36',
  '  expect result 36 as total',
  '  goal result = 36',
  '  case pots = 9',
  'sequence rake on stores',
  'bench "After oiling" of dig on shed',
  '  found total result 36',
  '  tunr 3',
  '# beds',
  '',
];
const edits = fc.array(
  fc.record({
    file: fc.constantFrom('beds.crank', 'seeds.crank'),
    at: fc.nat(30),
    removed: fc.nat(3),
    lines: fc.array(fc.constantFrom(...LINES), { maxLength: 4 }),
  }),
  { minLength: 1, maxLength: 25 },
);
const START = LINES.slice(0, 5).concat(LINES.slice(7, 8), LINES.slice(10, 12), LINES.slice(13, 14));

test('the tree is that of the text', () => {
  fc.assert(
    fc.property(edits, (list) => {
      const parser = new Parser();
      const lines = [...START];
      let tree = parser.parseLines(lines);
      for (const { at, removed, lines: put } of list) {
        const from = at % (lines.length + 1);
        const to = Math.min(lines.length, from + removed);
        lines.splice(from, to - from, ...put);
        const edit = parser.edit(tree, { from, to, lines: put });
        expect(edit.tree.sections.slice(edit.at, edit.at + edit.added.length)).toEqual(edit.added);
        tree = edit.tree;
      }
      expect(tree).toEqual(new Parser().parseLines(lines));
    }),
    { numRuns: 400 },
  );
});

test('findings and traces are those of the texts', () => {
  let found = 0;
  fc.assert(
    fc.property(edits, (list) => {
      const followed = new Library();
      const texts = { 'beds.crank': [...START], 'seeds.crank': ['# none'] };
      for (const [file, lines] of Object.entries(texts)) followed.set(file, lines.join('\n'));
      for (const { file, at, removed, lines: put } of list) {
        const lines = texts[file as keyof typeof texts];
        const from = at % lines.length;
        const to = Math.min(lines.length, from + removed);
        if (lines.length - (to - from) + put.length === 0) continue;
        lines.splice(from, to - from, ...put);
        followed.edit(file, { from, to, lines: put });
        // Checked now and then, as an editor does.
        if (at % 2 === 0) followed.check('beds.crank');
      }
      const fresh = new Library();
      for (const [file, lines] of Object.entries(texts)) fresh.set(file, lines.join('\n'));
      for (const file of Object.keys(texts)) {
        const now = traceOf(followed, followed.check(file));
        expect(now).toEqual(traceOf(fresh, fresh.check(file)));
        found += now.findings.length;
      }
    }),
    { numRuns: 300 },
  );
  expect(found).toBeGreaterThan(300);
});

describe('what an edit costs', () => {
  const text = (sequences: number) =>
    `machine m\n  setting 4\n  result 8\n${Array.from({ length: sequences }, (_, i) => `sequence s-${i} on m\n  clear all\n  set ${i + 1}\n  turn 2\n`).join('')}`;

  test('in the body of a sequence, every other section and report stays the same object', () => {
    const library = new Library();
    const lines = splitLines(text(20));
    library.set('beds.crank', lines.join('\n'));
    const before = library.check('beds.crank');
    library.edit('beds.crank', { from: 10, to: 11, lines: ['  turn 12'] });
    const after = library.check('beds.crank');
    const changed = after.sections.flatMap((section, i) => (section === before.sections[i] ? [] : [i]));
    expect(changed).toEqual([2]);
    expect(after.findings.map(({ facts }) => facts.code)).toEqual(['many-turns', 'shorter-sequence']);
  });

  test('nothing changed is the same report', () => {
    const library = new Library();
    library.set('beds.crank', text(3));
    expect(library.check('beds.crank')).toBe(library.check('beds.crank'));
  });

  test('where other sequences are run, those that run them follow', () => {
    const library = new Library();
    library.set('beds.crank', `${text(2)}sequence both on m\n  clear all\n  run s-0\n  run s-1\n  expect result 4\n`);
    expect(library.check('beds.crank').findings).toEqual([]);
    library.edit('beds.crank', { from: 10, to: 11, lines: ['  turn 5'] });
    expect(library.check('beds.crank').findings.map(({ facts }) => facts.code)).toEqual(['reading-differs']);
  });

  test('a Markdown page is not edited line by line', () => {
    const library = new Library();
    library.set('beds.md', '```crank\n```\n');
    expect(() => library.edit('beds.md', { from: 0, to: 1, lines: [] })).toThrow("can't be edited");
  });
});

test('a tree may be edited to nothing and back', () => {
  const parser = new Parser();
  const empty = parser.edit(parse('turn\n'), { from: 0, to: 2, lines: [] });
  expect(empty.tree).toEqual({ sections: [], lineCount: 0 });
  const back = parser.edit(empty.tree, { from: 0, to: 0, lines: ['sequence s', '  turn'] });
  expect(back.tree).toEqual(parse('sequence s\n  turn'));
});
