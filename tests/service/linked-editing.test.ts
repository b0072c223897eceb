/** Places that change together while somebody types. */
import { describe, expect, it } from 'vitest';
import { linkedEditing } from '../../server/service/linked-editing.js';
import { openMarked } from './editor.js';

describe('linked editing', () => {
  it.each([
    'sequence s (⟦ro‸ws⟧ = 3, b = 4)\n  case ⟦rows⟧ = 5\n  goal result = ⟦rows⟧ * b\n  set ⟦rows⟧\n',
    'sequence s (⟦rows⟧ = 3)\n  set ⟦‸rows⟧\nsequence t (rows = 3)\n  set rows\n',
    'sequence s\n  expect bell as ⟦rang⟧\nbench "March" of s on m\n  found ⟦rang‸⟧ bell\n',
  ])('takes in the declared name and its uses: %j', (marked) => {
    const { document, cursor, ranges } = openMarked(marked);
    expect(linkedEditing(document, cursor)?.ranges).toEqual(ranges);
  });

  it.each([
    'sequence ‸s\n  run s\n',
    'sequence s (ro‸ws = 3)\n  turn\n',
    'sequence s\n  set ro‸ws\n  turn rows\n',
    'sequence s (gro\u0308ß‸e = 3)\n  set größe\n',
    'sequence s\n  tu‸rn\n',
    '‸',
  ])('is not for %j', (marked) => {
    const { document, cursor } = openMarked(marked);
    expect(linkedEditing(document, cursor)).toBeUndefined();
  });

  it('is not for names that are seen from other files', () => {
    const others = { 'bench.crank': 'use "test.crank"\nbench "March" of s on m\n  found rang bell\n' };
    const marked = 'sequence s\n  expect bell as ra‸ng\nbench "April" of s on m\n  found rang bell\n';
    const { document, cursor } = openMarked(marked, others);
    expect(linkedEditing(document, cursor)).toBeUndefined();
  });

  it.each(['', 'u'])('says what a name may be, to a client with the flags %j', (flags) => {
    const { document, cursor } = openMarked('sequence s (‸rows = 3)\n  set rows\n');
    const pattern = new RegExp(`^(?:${linkedEditing(document, cursor)?.wordPattern})$`, flags);
    for (const name of ['rows', 'a', 'größe', 'стол-2', '数', 'on-']) expect(pattern.test(name)).toBe(true);
    for (const text of ['', '5', '5a', 'a b', 'a=', '-a', 'a"', 'a;b', '(a']) expect(pattern.test(text)).toBe(false);
  });
});
