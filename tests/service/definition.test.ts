/** Where a name leads. */
import { describe, expect, it } from 'vitest';
import { definition, definitionLinks } from '../../server/service/definition.js';
import { addressOf, openMarked } from './editor.js';

const MACHINES = '# The stores\nmachine stores\n  setting 8\n  result 13\n\n# About it\nmachine other like stores\n';

/** The cursor leads to the only range that is marked. */
function leadsToMark(marked: string) {
  const { document, cursor, ranges } = openMarked(marked, { 'machines.crank': MACHINES });
  expect(definition(document, cursor)).toEqual([{ uri: document.uri, range: ranges[0] }]);
}

describe('the definition', () => {
  it.each([
    'sequence ⟦pots⟧ on m\nsequence t\n  run po‸ts',
    'sequence ⟦po‸ts⟧ on m',
    'machine ⟦m⟧\nmachine n like ‸m',
    'sequence s (⟦rows⟧ = 3)\n  case r‸ows = 4',
    'sequence s (⟦rows⟧ = 3)\n  repeat 2 { set 5 at ‸rows }',
    'sequence s\n  expect bell result 5 as ⟦sum⟧; turn\nbench "March" of s on m\n  found su‸m result 5',
  ])('is marked in %j', leadsToMark);

  it('of a machine of another file has the whole of it, and the name that led there', () => {
    const { document, cursor, ranges } = openMarked('use "machines.crank"\nsequence s on ⟦sto‸res⟧\n', {
      'machines.crank': MACHINES,
    });
    expect(definitionLinks(document, cursor)).toEqual([
      {
        originSelectionRange: ranges[0],
        targetUri: addressOf('machines.crank'),
        targetRange: { start: { line: 1, character: 0 }, end: { line: 3, character: 11 } },
        targetSelectionRange: { start: { line: 1, character: 8 }, end: { line: 1, character: 14 } },
      },
    ]);
  });

  it('of a path is the file', () => {
    const { document, cursor, ranges } = openMarked('use "⟦mach‸ines.crank⟧"\n', { 'machines.crank': MACHINES });
    const [link, ...others] = definitionLinks(document, cursor);
    expect(others).toEqual([]);
    expect(link).toMatchObject({ originSelectionRange: ranges[0], targetUri: addressOf('machines.crank') });
    expect(link.targetSelectionRange.start).toEqual({ line: 0, character: 0 });
  });

  it.each([
    'use "nowhere‸.crank"\n',
    'sequence s on nob‸ody\n',
    'sequence s\n  set ‸rows\n',
    'sequence s\n  tu‸rn\n',
    '‸',
  ])('is unknown in %j', (marked) => {
    const { document, cursor } = openMarked(marked, { 'machines.crank': MACHINES });
    expect(definitionLinks(document, cursor)).toEqual([]);
  });
});
