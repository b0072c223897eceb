/** What name stands at a position, and where else it means the same. */
import { describe, expect, it } from 'vitest';
import { nameAt, occurrencesOf } from '../../server/service/names.js';
import { addressOf, openMarked } from './editor.js';

const MACHINES = 'machine office\n  setting 8\n  result 13\nmachine stores like office\n';

function occurrences(marked: string, others: Record<string, string> = {}) {
  const { document, cursor } = openMarked(marked, others);
  const spot = nameAt(document, cursor);
  return spot ? occurrencesOf(document, spot) : [];
}

describe('the name at a position', () => {
  const kindAt = (marked: string) => {
    const { document, cursor } = openMarked(marked, { 'machines.crank': MACHINES });
    const spot = nameAt(document, cursor);
    return spot && [spot.kind, spot.name, spot.role];
  };

  it.each([
    ['machine wide‸ like office', ['machine', 'wide', 'declared']],
    ['machine wide like ‸office', ['machine', 'office', 'used']],
    ['sequence pots‸', ['sequence', 'pots', 'declared']],
    ['sequence ‸pots on office', ['sequence', 'pots', 'declared']],
    ['sequence pots (‸rows = 3) on office', ['parameter', 'rows', 'declared']],
    ['sequence pots (rows = 3) on off‸ice', ['machine', 'office', 'used']],
    ['sequence pots (rows = 3)\n  case ‸rows = 5', ['parameter', 'rows', 'used']],
    ['sequence pots (rows = 3)\n  goal result = (2 + sqrt(‸rows)) * 5', ['parameter', 'rows', 'used']],
    ['sequence pots (rows = 3)\n  set 5 at ‸rows', ['parameter', 'rows', 'used']],
    ['sequence pots (rows = 3)\n  run trays (‸rows)', ['parameter', 'rows', 'used']],
    ['sequence pots\n  run tray‸s (4)', ['sequence', 'trays', 'used']],
    ['sequence pots\n  repeat 2 { expect result 5 as ‸sum }', ['label', 'sum', 'declared']],
    ['bench "In March" of ‸pots on office', ['sequence', 'pots', 'used']],
    ['bench "In March" of pots on ‸office', ['machine', 'office', 'used']],
    ['bench "In March" of pots on office\n  found ‸sum result 5', ['label', 'sum', 'used']],
    ['use "machi‸nes.crank"', ['file', 'machines.crank', 'used']],
  ])('%s', (marked, expected) => {
    expect(kindAt(marked)).toEqual(expected);
  });

  it.each([
    'seq‸uence pots',
    'sequence pots\n  tu‸rn 5',
    'sequence pots\n  turn ‸5',
    '# po‸ts',
    'sequence pots\n  note "po‸ts"',
    '',
    'sequence pots\n  set rows‸ rows rows',
  ])('%j has none', (marked) => {
    expect(kindAt(marked)).toBeUndefined();
  });

  it('is compared in composed form', () => {
    const { document, cursor } = openMarked('sequence s (größe = 3)\n  set ‸gro\u0308ße\n  turn');
    expect(nameAt(document, cursor)).toMatchObject({ name: 'größe', kind: 'parameter' });
  });

  it('survives a position anywhere', () => {
    const { document } = openMarked('sequence s');
    for (const line of [-1, 0, 7, Number.NaN]) {
      expect(() => nameAt(document, { line, character: 99 })).not.toThrow();
    }
  });

  it('leads to the section that it means, in whatever file it stands', () => {
    const { document, documents, cursor } = openMarked('use "machines.crank"\nsequence s on sto‸res', {
      'machines.crank': MACHINES,
    });
    const stores = documents['machines.crank'].tree.sections[1].section;
    expect(nameAt(document, cursor)?.section).toBe(stores);
  });
});

describe('the occurrences of a name', () => {
  const written = (marked: string, others: Record<string, string> = {}) =>
    occurrences(marked, others).map(
      ({ uri, range: { start }, isDeclaration }) =>
        `${uri.split('/').at(-1)} ${start.line}:${start.character}${isDeclaration ? ' declared' : ''}`,
    );

  it('of a machine are in all files that see the same one', () => {
    const others = {
      'machines.crank': MACHINES,
      'also.crank': 'use "machines.crank"\nsequence t on office\nmachine mine like office\n',
      'other.crank': 'machine office\n  setting 5\n  result 9\nsequence u on office\n',
      'page.md': '# Office\n\n```crank\nuse "machines.crank"\nsequence v on office\n```\n\noffice\n',
    };
    expect(written('use "machines.crank"\nsequence s on off‸ice\n', others)).toEqual([
      'test.crank 1:14',
      'machines.crank 0:8 declared',
      'machines.crank 3:20',
      'also.crank 1:14',
      'also.crank 2:18',
      'page.md 4:14',
    ]);
  });

  it('of a sequence are those of the first with its name, and not of a second', () => {
    const text = 'sequence s\nsequence s\nsequence t\n  run s\n';
    expect(written(text.replace('run s', 'run ‸s'))).toEqual(['test.crank 0:9 declared', 'test.crank 3:6']);
    expect(written('sequence s\nsequence ‸s\nsequence t\n  run s\n')).toEqual(['test.crank 1:9 declared']);
  });

  it('of a parameter stay in their sequence', () => {
    const text = [
      'sequence s (a‸ = 3, b = 4)',
      '  case a = 5, b = 6',
      '  goal result = a * b - a',
      '  set a at b and 5 at a; turn a',
      '  repeat a { expect result a as a }',
      'sequence t (a = 2)',
      '  set a',
    ].join('\n');
    expect(written(text)).toEqual([
      'test.crank 0:12 declared',
      'test.crank 1:7',
      'test.crank 2:16',
      'test.crank 2:24',
      'test.crank 3:6',
      'test.crank 3:22',
      'test.crank 3:30',
      'test.crank 4:9',
      'test.crank 4:27',
    ]);
  });

  it('of a label reach into the benches of its sequence', () => {
    const bench = 'bench "In March" of s on m\n  found total result 5\n  found other result 5\n';
    const others = {
      'bench.crank': `use "test.crank"\n${bench}`,
      'stray.crank': `sequence s\n  expect bell as total\n${bench}`,
    };
    expect(written(`sequence s\n  expect result 5 as to‸tal\n${bench}`, others)).toEqual([
      'test.crank 1:21 declared',
      'test.crank 3:8',
      'bench.crank 2:8',
    ]);
    expect(written(`use "test.crank"\n${bench.replace('total', '‸total')}`, {})).toEqual(['test.crank 2:8']);
  });

  it('of a path are all lines that lead to the same file', () => {
    const others = { 'machines.crank': MACHINES, 'also.crank': 'use "./machines.crank"\nuse "test.crank"\n' };
    expect(written('use "‸machines.crank"\n', others)).toEqual(['test.crank 0:5', 'also.crank 0:5']);
  });

  it('of a name that means nothing are those of its own file', () => {
    expect(written('sequence s on x‸\nsequence t on x\n', { 'a.crank': 'sequence u on x\n' })).toEqual([
      'test.crank 0:14',
      'test.crank 1:14',
    ]);
  });

  it('know their file by the address that the client gave', () => {
    const [first] = occurrences('sequence ‸s\n');
    expect(first).toMatchObject({ uri: addressOf('test.crank'), isDeclaration: true, kind: 'sequence' });
  });
});
