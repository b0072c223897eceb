import { describe, expect, test } from 'vitest';
import { rowsOf } from '../../server/sequence/rows.js';
import { openMarked } from '../service/editor.js';

const MACHINE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n';

/** The rows of the step at the cursor, in the first sequence's run with the defaults. */
function rowsAtCursor(steps: string) {
  const { document, cursor } = openMarked(`${MACHINE}sequence trial on office-6\n${steps}`);
  const [{ section, runs }] = document.report.sequences;
  const line = cursor.line - document.library.lineOf(section);
  const rows = rowsOf(runs[0]).of({ line, from: cursor.character });
  expect(rows?.rang ?? false).toBe(false);
  return rows && { first: rows.first, last: rows.last, times: rows.times, turns: rows.turns };
}

describe('rows of a written step', () => {
  test('are one for a simple step', () => {
    expect(rowsAtCursor('clear all\nset 12\n‸turn 3\n')).toEqual({ first: 2, last: 2, times: 1, turns: 3 });
  });

  test('tell apart steps on one line', () => {
    expect(rowsAtCursor('clear all; set 12; ‸turn 2; turn 3')).toEqual({ first: 2, last: 2, times: 1, turns: 2 });
    expect(rowsAtCursor('clear all; set 12; turn 2; ‸turn 3')).toEqual({ first: 3, last: 3, times: 1, turns: 3 });
  });

  test('are those of the last round in a repeat', () => {
    expect(rowsAtCursor('set 12\nrepeat 3 {\n  ‸turn 2\n  shift right\n}')).toEqual({
      first: 5,
      last: 5,
      times: 3,
      turns: 2,
    });
  });

  test('are all rounds of the repeat itself', () => {
    expect(rowsAtCursor('set 12\n‸repeat 3 {\n  turn 2\n  shift right\n}\nturn')).toEqual({
      first: 1,
      last: 6,
      times: 1,
      turns: 6,
    });
  });

  test('of an inner repeat are its last rounds', () => {
    const rows = rowsAtCursor('set 12\nrepeat 2 {\n  ‸repeat 3 { turn }\n  shift right\n}');
    expect(rows).toEqual({ first: 5, last: 7, times: 2, turns: 3 });
  });

  test('of run, multiply and divide are all that they stand for', () => {
    const other = '\nsequence two on office-6\nturn 2; turn 3';
    expect(rowsAtCursor(`set 12\n‸run two${other}`)).toEqual({ first: 1, last: 2, times: 1, turns: 5 });
    expect(rowsAtCursor('set 12\n‸multiply by 203')).toEqual({ first: 1, last: 3, times: 1, turns: 5 });
    expect(rowsAtCursor('set 12\nturn 5\nclear counter\n‸divide')?.turns).toBe(7);
  });

  test('a step with parameters is found like any other', () => {
    const { document } = openMarked(`${MACHINE}sequence trial (a = 3) on office-6\nset a\nturn a`);
    const [{ runs }] = document.report.sequences;
    expect(rowsOf(runs[0]).of({ line: 2, from: 0 })).toMatchObject({ first: 1, last: 1, times: 1, turns: 3 });
  });

  test('steps of another sequence at the same line and column are not taken for this one', () => {
    const { document } = openMarked(
      `${MACHINE}sequence trial on office-6\nset 12\nrun two\nturn 2\nsequence two on office-6\nset 3\nturn\nturn 4`,
    );
    const [{ runs }] = document.report.sequences;
    expect(rowsOf(runs[0]).of({ line: 3, from: 0 })).toMatchObject({ first: 4, last: 4, times: 1, turns: 2 });
  });

  test('are none where the run never came, or where nothing was done', () => {
    expect(rowsAtCursor('turn until overdraw\n‸turn')).toEqual({ first: 1, last: 1, times: 1, turns: 1 });
    expect(rowsAtCursor('set 0\nturn back until overdraw\n‸turn')).toBeUndefined();
    expect(rowsAtCursor('‸repeat 3 { }\nturn')).toBeUndefined();
    expect(rowsAtCursor('‸run nobody\nturn')).toBeUndefined();
  });

  test('tell whether the bell rang', () => {
    const { document } = openMarked(
      `${MACHINE}  bell\nsequence trial on office-6\nset 1\nrepeat 2 {\nturn back\nturn\nshift right\n}\nturn`,
    );
    const rows = rowsOf(document.report.sequences[0].runs[0]);
    const rang = [2, 3, 4, 5, 7].map((line) => rows.of({ line, from: 0 })?.rang);
    expect(rang).toEqual([true, true, true, false, false]);
  });

  test('are gathered once a run', () => {
    const { document } = openMarked(`${MACHINE}sequence trial on office-6\nturn`);
    const [{ runs }] = document.report.sequences;
    expect(rowsOf(runs[0])).toBe(rowsOf(runs[0]));
  });
});
