/** Names that become others. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ResponseError } from 'vscode-languageserver';
import { definition } from '../../server/service/definition.js';
import { namesOnLine } from '../../server/service/names.js';
import { isName, prepareRename, rename } from '../../server/service/rename.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { addressOf, applyEdits, openMarked, unmark } from './editor.js';

const words = wordsFor('en');

/** The files after a rename at the cursor, by name. */
function renamed(marked: string, newName: string, others: Record<string, string> = {}): Record<string, string> {
  const { document, cursor, text } = openMarked(marked, others);
  const changes = rename(document, cursor, newName, words)?.changes ?? {};
  const texts: Record<string, string> = { 'test.crank': text, ...others };
  const after: Record<string, string> = {};
  for (const [name, before] of Object.entries(texts)) {
    const edits = changes[addressOf(name)];
    if (edits) after[name] = applyEdits(before, edits);
  }
  expect(Object.keys(after)).toHaveLength(Object.keys(changes).length);
  return after;
}

const refusal = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    expect(error).toBeInstanceOf(ResponseError);
    return (error as Error).message;
  }
  return 'not refused';
};

describe('before a rename', () => {
  it('the name is shown', () => {
    const { document, cursor, ranges } = openMarked('sequence ⟦po‸ts⟧\n');
    expect(prepareRename(document, cursor, words)).toEqual({ range: ranges[0], placeholder: 'pots' });
  });

  it.each([
    ['sequence s\n  tu‸rn 5\n', words.names.isWord('turn')],
    ['sequence s\n  trun ro‸ws\n', words.names.notRead],
    ['use "machi‸nes.crank"\n', words.names.pathStays],
    ['sequence s on nob‸ody\n', words.names.unknown('nobody')],
  ])('%j is refused with a reason', (marked, reason) => {
    const { document, cursor } = openMarked(marked);
    expect(refusal(() => prepareRename(document, cursor, words))).toBe(reason);
  });

  it.each(['sequence s\n  turn ‸5\n', '‸', 'sequence s\n‸\n'])('%j has nothing to rename', (marked) => {
    const { document, cursor } = openMarked(marked);
    expect(prepareRename(document, cursor, words)).toBeUndefined();
    expect(rename(document, cursor, 'x', words)).toBeUndefined();
  });
});

describe('a rename', () => {
  it('changes a machine in all files that see it', () => {
    const others = {
      'machines.crank': 'machine desk\n  setting 8\n  result 13\nmachine wide like desk\n  setting 9\n',
      'stray.crank': 'machine desk\n  setting 5\n  result 9\n',
      'page.md': 'desk\n\n> ```crank\n> use "machines.crank"\n> sequence v on desk\n> ```\n',
    };
    expect(renamed('use "machines.crank"\nsequence desk on d‸esk\n', 'office-8', others)).toEqual({
      'test.crank': 'use "machines.crank"\nsequence desk on office-8\n',
      'machines.crank': 'machine office-8\n  setting 8\n  result 13\nmachine wide like office-8\n  setting 9\n',
      'page.md': 'desk\n\n> ```crank\n> use "machines.crank"\n> sequence v on office-8\n> ```\n',
    });
  });

  it('changes a parameter, however it was written', () => {
    const marked = 'sequence s (gro\u0308ße‸ = 3)\n  case größe = 4\n  goal result = größe * 2\n  set größe\n';
    expect(renamed(marked, 'menge')).toEqual({
      'test.crank': 'sequence s (menge = 3)\n  case menge = 4\n  goal result = menge * 2\n  set menge\n',
    });
  });

  it('changes a label with the records that speak of it', () => {
    const others = { 'bench.crank': 'use "test.crank"\nbench "March" of s on m\n  found sum result 5\n' };
    expect(renamed('sequence s\n  expect result 5 as su‸m\n', 'total', others)).toEqual({
      'test.crank': 'sequence s\n  expect result 5 as total\n',
      'bench.crank': 'use "test.crank"\nbench "March" of s on m\n  found total result 5\n',
    });
  });

  it('to the same name changes nothing', () => {
    expect(renamed('sequence po‸ts\n', 'pots')).toEqual({});
  });

  it.each(['', '5pots', 'two pots', 'po_ts', '-pots', 'pots"', 'a\nb', 'pots ', '🪴'])('to %j is refused', (name) => {
    const { document, cursor } = openMarked('sequence po‸ts\n');
    expect(refusal(() => rename(document, cursor, name, words))).toBe(words.names.invalid(name));
  });

  it('to a word of the notation is refused', () => {
    const { document, cursor } = openMarked('sequence po‸ts\n');
    expect(refusal(() => rename(document, cursor, 'half-step', words))).toBe(words.names.isWord('half-step'));
  });

  it.each([
    ['machine', 'machine a\nmachine ‸b\n', ''],
    ['machine', 'use "other.crank"\nmachine ‸b\n', 'machine a\n'],
    ['machine', 'machine ‸b\n', 'use "test.crank"\nmachine a\n'],
    ['sequence', 'sequence a\nsequence ‸b\n', ''],
    ['parameter', 'sequence s (a = 1, b = 2)\n  set ‸b\n', ''],
    ['parameter', 'sequence s (b = 2)\n  set ‸b and a at 5\n', ''],
    ['label', 'sequence s\n  expect bell as a\n  expect result 5 as ‸b\n', ''],
  ] as const)('of a %s to a name that is taken is refused: %j, %j', (kind, marked, other) => {
    const { document, cursor } = openMarked(marked, { 'other.crank': other });
    expect(refusal(() => rename(document, cursor, 'a', words))).toBe(words.names.taken[kind]('a'));
  });

  it('to a name of another kind, or one that nobody sees, is made', () => {
    const marked = 'machine a\nsequence s (a = 1)\n  expect bell as a\nsequence ‸b\n';
    expect(renamed(marked, 'a', { 'far.crank': 'sequence a\n' })).toEqual({
      'test.crank': unmark(marked).text.replace(/b\n$/, 'a\n'),
    });
  });

  it('gives reasons in German too', () => {
    const german = wordsFor('de-AT');
    const { document, cursor } = openMarked('sequence po‸ts\n');
    expect(refusal(() => rename(document, cursor, 'turn', german))).toBe(german.names.isWord('turn'));
    expect(german.names.isWord('turn')).toContain('Notation');
  });
});

describe('in the samples', () => {
  const texts = Object.fromEntries(
    readdirSync('samples')
      .filter((name) => /\.(?:crank|md)$/.test(name))
      .map((name) => [name, readFileSync(`samples/${name}`, 'utf8')] as const),
  );

  /** Every name that a file declares, where it stands. */
  const declared = (file: string) =>
    openMarked(texts[file], texts, file).document.tree.sections.flatMap(({ section, line }) =>
      section.lines.flatMap((syntax, own) =>
        namesOnLine(syntax)
          .filter(({ role }) => role === 'declared')
          .map(({ from }) => ({ line: line + own, character: from })),
      ),
    );

  it.each(Object.keys(texts))('any name of %s can become another, and everything means what it did', (file) => {
    const open = (all: Record<string, string>) => openMarked(all[file], all, file);
    const told = (all: Record<string, string>) =>
      Object.values(open(all).documents).map(({ report }) =>
        report.findings
          // What a page shows of a sequence has its names in it, and is refreshed afterwards.
          .filter(({ facts }) => facts.code !== 'stale-inset')
          .map(({ facts, at }) => [facts.code, at.line, at.section.lines.length]),
      );
    const before = told(texts);
    const places = declared(file);
    // One of every few will do: each runs all samples again.
    for (const place of places.filter((_, i) => i % Math.ceil(places.length / 4) === 0)) {
      const { document } = open(texts);
      const changes = rename(document, place, 'quite-another', words)?.changes ?? {};
      const after = { ...texts };
      for (const name of Object.keys(texts)) after[name] = applyEdits(texts[name], changes[addressOf(name)] ?? []);
      expect(Object.keys(changes).length).toBeGreaterThan(0);
      expect(told(after)).toEqual(before);
    }
  });
});

describe('a name', () => {
  it.each(['a', 'größe', 'gro\u0308ße', 'стол-2', '数', 'half-steps', 'on-'])('can be %s', (name) => {
    expect(isName(name)).toBe(true);
  });
  it.each(['half', '', 'a b', '2a', 'a.b'])('can not be %j', (name) => {
    expect(isName(name)).toBe(false);
  });
});

describe('a sequence that insets of its page name', () => {
  const PAGE = [
    '```crank',
    'machine desk',
    '  setting 8',
    '  counter 8',
    '  result 13',
    'sequence ⟦bay⟧ on desk',
    '  clear all',
    '```',
    '',
    '<!-- crank: readings of ⟦bay⟧ in de -->',
    '<!-- crank: end -->',
    '',
    '> <!-- crank: figure in of of ⟦bay⟧ -->',
    '> <!-- crank: end -->',
    '',
    '<!-- crank: steps of bays -->',
    '<!-- crank: end -->',
    '',
  ].join('\n');

  it.each([0, 1, 2])('is renamed in all of them, from wherever it stands (%i)', (at) => {
    const { text, ranges } = unmark(PAGE);
    const { document } = openMarked(text, {}, 'page.md');
    const changes = rename(document, ranges[at].start, 'glass', words)?.changes ?? {};
    const edits = changes[addressOf('page.md')];
    expect(edits.map(({ range }) => range)).toEqual(ranges);
    expect(applyEdits(text, edits)).toBe(PAGE.replace(/⟦bay⟧/g, 'glass'));
    expect(definition(document, ranges[at].start)[0].range).toEqual(ranges[0]);
  });

  it('has no name there that means a sequence of another file', () => {
    const { document, cursor } = openMarked(
      '```crank\nuse "other.crank"\n```\n\n<!-- crank: readings of ba‸y -->\n<!-- crank: end -->\n',
      { 'other.crank': 'sequence bay\n  clear all\n' },
      'page.md',
    );
    expect(refusal(() => prepareRename(document, cursor, words))).toBe(words.names.unknown('bay'));
  });
});
