/** What belongs together with the word at the cursor. */

import { describe, expect, it } from 'vitest';
import { DocumentHighlightKind } from 'vscode-languageserver';
import { highlights } from '../../server/service/highlight.js';
import { openMarked } from './editor.js';

const { Read, Write, Text } = DocumentHighlightKind;

/** The marked ranges, in order, and no others. */
function highlighted(marked: string, kinds: DocumentHighlightKind[]) {
  const { document, cursor, ranges } = openMarked(marked, { 'class.crank': 'use "test.crank"\nsequence z\n  run s\n' });
  expect(highlights(document, cursor)).toEqual(ranges.map((range, i) => ({ range, kind: kinds[i] })));
  expect(ranges).toHaveLength(kinds.length);
}

describe('highlights', () => {
  it('show where a name gets its meaning or its number, and where it is read', () => {
    highlighted('sequence s (⟦a⟧ = 3)\n  case ⟦a⟧ = 4\n  set ⟦‸a⟧\n  turn ⟦a⟧\n', [Write, Write, Read, Read]);
  });

  it('stay in the document', () => {
    highlighted('sequence ⟦s⟧\n  turn\nsequence t\n  run ⟦s‸⟧\n', [Write, Read]);
  });

  it.each([
    'sequence s\n  ⟦re‸peat⟧ 3 {\n    repeat 2 { turn }\n  ⟦}⟧\n',
    'sequence s\n  ⟦repeat⟧ 3 {\n    repeat 2 { turn }\n  ⟦‸}⟧\n',
    'sequence s\n  repeat 3 {\n    ⟦repeat⟧ 2 { turn ⟦}‸⟧\n  }\n',
  ])('show a repetition and its brace: %j', (marked) => {
    highlighted(marked, [Text, Text]);
  });

  it('show a register where it is changed and where it is read', () => {
    highlighted(
      'sequence s\n  goal ⟦result⟧ = 5\n  clear counter ⟦result⟧\n  expect counter 0 ⟦res‸ult⟧ 0 # result\n  note "result"\n',
      [Read, Write, Read],
    );
  });

  it.each(['sequence s\n  turn ‸5\n', 'sequence s\n  repeat 2 {\n  ‸turn\n', 'machine m\n  ‸result 5\n', '‸', '} ‸}'])(
    'are none in %j',
    (marked) => {
      const { document, cursor } = openMarked(marked);
      expect(highlights(document, cursor)).toEqual([]);
    },
  );
});
