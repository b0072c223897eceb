/** Which sequence runs which. */
import { describe, expect, it } from 'vitest';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from '../../server/service/call-hierarchy.js';
import { openMarked } from './editor.js';

const others = {
  'trays.crank': 'sequence trays "Trays of pots" (n = 3)\n  turn n\n',
  'day.crank': 'use "test.crank"\nsequence day\n  run pots\n  repeat 2 { run pots; run trays (4) }\n',
  'stray.crank': 'sequence pots\nsequence night\n  run pots\n',
};
const text = 'use "trays.crank"\nsequence pots‸ on desk\n  run trays (5); turn\n  run trays\n  run nobody\n';

const opened = (marked = text) => {
  const { document, cursor } = openMarked(marked, others);
  return { document, items: prepareCallHierarchy(document, cursor) };
};

describe('the sequences that run one another', () => {
  it.each([
    text,
    text.replace('‸', '').replace('sequence', 'seq‸uence'),
    text.replace('‸', '').replace('run nobody', 'run pots‸'),
  ])('begin at the name or the header: %j', (marked) => {
    expect(opened(marked).items.map(({ name }) => name)).toEqual(['pots']);
  });

  it.each([
    text.replace('‸', '').replace('desk', 'de‸sk'),
    text.replace('‸', '').replace('turn', 'tu‸rn'),
    text.replace('‸', '').replace('nobody', 'no‸body'),
    'machine ‸m\n',
    '‸',
  ])('do not begin elsewhere: %j', (marked) => {
    expect(opened(marked).items).toEqual([]);
  });

  it('are those that it runs, each once', () => {
    const { document, items } = opened();
    const [{ to, fromRanges }, ...rest] = outgoingCalls(document.library, document.uriOf, items[0]);
    expect(rest).toEqual([]);
    expect(to).toMatchObject({ name: 'trays', detail: 'Trays of pots', uri: 'file:///nursery/trays.crank' });
    expect(fromRanges.map(({ start }) => [start.line, start.character])).toEqual([
      [2, 6],
      [3, 6],
    ]);
  });

  it('are those that run it, from whatever file, with the ranges there', () => {
    const { document, items } = opened();
    const calls = incomingCalls(document.library, document.uriOf, items[0]);
    expect(calls.map(({ from }) => from.name)).toEqual(['day']);
    expect(calls[0].fromRanges.map(({ start }) => [start.line, start.character])).toEqual([
      [2, 6],
      [3, 17],
    ]);
    const of = incomingCalls(
      document.library,
      document.uriOf,
      outgoingCalls(document.library, document.uriOf, items[0])[0].to,
    );
    expect(of.map(({ from }) => from.name).sort()).toEqual(['day', 'pots']);
  });

  it('are none where the item is not known any more', () => {
    const { document, items } = opened();
    for (const gone of [
      { ...items[0], name: 'gone' },
      { ...items[0], uri: 'file:///elsewhere.crank' },
    ]) {
      expect(incomingCalls(document.library, document.uriOf, gone)).toEqual([]);
      expect(outgoingCalls(document.library, document.uriOf, gone)).toEqual([]);
    }
  });
});
