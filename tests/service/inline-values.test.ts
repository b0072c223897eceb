import { expect, test } from 'vitest';
import { inlineValues } from '../../server/service/inline-values.js';
import { openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n';
const ALL = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

/** What is shown where a debugger has stopped at the cursor, and on which step. */
function shown(steps: string, wishes: Parameters<typeof reader>[0] = {}) {
  const { document, cursor, ranges } = openMarked(`${OFFICE}sequence bay (a = 3) on office-6\n${steps}`);
  const values = inlineValues(document, ALL, cursor.line, reader(wishes));
  for (const { range } of values) if (ranges.length > 0) expect(range).toEqual(ranges[0]);
  return values.map(({ text }) => text);
}

test('what the machine shows after the last step at or before the line', () => {
  expect(shown('clear all\nset 12\n⟦turn 2⟧‸\nturn 5')).toEqual(['setting 12', 'counter 2', 'result 24', 'position 1']);
  expect(shown('clear all\nset 12; ⟦turn 2⟧\n# here\n‸\nturn 5')[2]).toBe('result 24');
  expect(shown('clear all\nset a\n⟦turn⟧‸', { cases: { bay: 0 } })[0]).toBe('setting 3');
  expect(shown('case a = 7\nset a\n⟦turn⟧‸', { cases: { bay: 1 } })[0]).toBe('setting 7');
});

test('in a repeat, that of its last round; at its beginning, what was before', () => {
  expect(shown('set 12\nrepeat 3 {\n  ⟦turn⟧‸\n}')[1]).toBe('counter 3');
  expect(shown('⟦set 12⟧\nrepeat 3 {‸\n  turn\n}')[1]).toBe('counter 0');
});

test('nothing before the first step, outside of sequences, and outside of the range', () => {
  expect(shown('\n‸\nset 12')).toEqual([]);
  const { document } = openMarked(`${OFFICE}sequence bay on office-6\n  set 1\n  turn\n`);
  for (const line of [0, 4, 99, -1, 1.5, Number.NaN]) expect(inlineValues(document, ALL, line, reader())).toEqual([]);
  const above = { start: { line: 0, character: 0 }, end: { line: 5, character: 0 } };
  expect(inlineValues(document, above, 6, reader())).toEqual([]);
  expect(inlineValues(document, above, 5, reader())).toHaveLength(4);
});
