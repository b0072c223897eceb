/** Where a name is used. */
import { describe, expect, it } from 'vitest';
import { references } from '../../server/service/references.js';
import { addressOf, openMarked } from './editor.js';

describe('references', () => {
  const marked = 'sequence ⟦po‸ts⟧\n  turn\nsequence t\n  run ⟦pots⟧; run ⟦pots⟧\n  note "pots" # pots\n';

  it('are with or without the declaration', () => {
    const { document, cursor, ranges } = openMarked(marked);
    const of = (withDeclaration: boolean) => references(document, cursor, withDeclaration).map(({ range }) => range);
    expect(of(true)).toEqual(ranges);
    expect(of(false)).toEqual(ranges.slice(1));
  });

  it('are found in the files that use this one', () => {
    const { document, cursor } = openMarked(marked, {
      'class.crank': 'use "test.crank"\nsequence u\n  run pots\n',
      'stray.crank': 'sequence pots\nsequence u\n  run pots\n',
    });
    const elsewhere = references(document, cursor, false).filter(({ uri }) => uri !== document.uri);
    expect(elsewhere).toEqual([
      {
        uri: addressOf('class.crank'),
        range: { start: { line: 2, character: 6 }, end: { line: 2, character: 10 } },
      },
    ]);
  });

  it('are none where no name stands', () => {
    const { document } = openMarked('sequence s\n  turn 5\n');
    expect(references(document, { line: 1, character: 3 }, true)).toEqual([]);
  });
});
