/** What is offered where, in which form, and what is mended unseen. */
import { describe, expect, test } from 'vitest';
import { ACTION_KINDS, codeActions, FIX_ALL, fixAll, resolveAction } from '../../../server/service/actions.js';
import { machine } from '../../sequence/machines.js';
import { openMarked, reader } from '../editor.js';
import { actionsAt, edited, editsOf, everywhere, mended } from './acting.js';

const trial = (steps: string) => `${machine('reverse')}sequence trial on stores\n  clear all\n${steps}\n`;
const titles = (marked: string, context = {}) => actionsAt(openMarked(marked), context).map(({ title }) => title);

describe('what is offered', () => {
  test('fixes for the findings that the range touches alone', () => {
    expect(titles(trial('  tr‸un\n  shfit right'), { only: ['quickfix'] })).toEqual(['Change to turn']);
    expect(titles(trial('  trun\n  shfit‸ right'), { only: ['quickfix'] })).toEqual(['Change to shift']);
    expect(titles(trial('  ⟦trun\n  shf⟧it right'), { only: ['quickfix'] })).toEqual([
      'Change to turn',
      'Change to shift',
    ]);
    expect(titles(trial('  trun ‸'), { only: ['quickfix'] })).toEqual([]);
  });
  test('with the code of the finding, and an edit of the document', () => {
    const [action] = actionsAt(openMarked(trial('  tr‸un')));
    expect(action).toMatchObject({ kind: 'quickfix', isPreferred: true, data: { code: 'syntax' } });
    const range = { start: { line: 6, character: 2 }, end: { line: 6, character: 6 } };
    expect(action.edit?.changes).toEqual({ 'file:///nursery/test.crank': [{ range, newText: 'turn' }] });
  });
  test('for the codes that are asked for', () => {
    const marked = trial('  ⟦turn; trun⟧');
    expect(titles(marked, { only: ['quickfix'], codes: ['idle-turn'] })).toEqual(['Leave out turn']);
    expect(titles(marked, { only: ['quickfix'], codes: [] })).toEqual([]);
  });
  test('the kinds that are asked for, with all below them', () => {
    const marked = trial('  set 1\n  mult‸iply by 12');
    const kinds = (only?: string[]) => new Set(actionsAt(openMarked(marked), only && { only }).map(({ kind }) => kind));
    expect(kinds()).toEqual(new Set(['refactor.inline', 'refactor.rewrite']));
    expect(kinds(['refactor'])).toEqual(kinds());
    expect(kinds(['refactor.inline'])).toEqual(new Set(['refactor.inline']));
    expect(kinds(['refactor.in'])).toEqual(new Set());
    for (const kind of kinds()) expect(ACTION_KINDS).toContain(kind);
  });
  test('in the words of the reader', () => {
    const { document, cursor } = openMarked(trial('  tr‸un'));
    const [action] = codeActions(document, { start: cursor, end: cursor }, {}, reader({ locale: 'de-AT' }));
    expect(action.title).toBe('In turn ändern');
  });
  test('nothing outside a sequence, past the end, or at odd places', () => {
    const { document } = openMarked(trial('  set 1'));
    const odd = [
      { start: { line: 1, character: 2 }, end: { line: 1, character: 2 } },
      { start: { line: 99, character: -4 }, end: { line: 99, character: 9 } },
      { start: { line: Number.NaN, character: 0 }, end: { line: -1, character: 0 } },
    ];
    for (const range of odd) expect(codeActions(document, range, {}, reader())).toEqual([]);
  });
  test('a title shows no more of a text than a line has room for', () => {
    const { document } = openMarked(
      trial(`  mode add\n  expect result 0 as ${'x'.repeat(300)}\n  expect result 0 as ${'x'.repeat(300)}`),
    );
    for (const { title } of codeActions(document, everywhere(document), {}, reader())) {
      expect(title.length).toBeLessThanOrEqual(100);
    }
  });
  test('what happens in another sequence is mended there', () => {
    const other = 'sequence part on stores\n  mode add\n';
    const { document, cursor } = openMarked(
      `${machine('reverse')}${other}sequence trial on stores\n  clear all\n  ru‸n part\n`,
    );
    expect(document.report.findings.filter(({ facts }) => facts.code === 'not-on-this-machine')).toHaveLength(2);
    expect(codeActions(document, { start: cursor, end: cursor }, { only: ['quickfix'] }, reader())).toEqual([]);
  });
});

describe('what is evident', () => {
  const preferred = (marked: string) =>
    actionsAt(openMarked(marked), { only: ['quickfix'] }).filter(({ isPreferred }) => isPreferred);

  test('not a reading that differs because of another mistake', () => {
    expect(preferred(trial('  set 5; turn\n  expect result‸ 6')).map(({ title }) => title)).toEqual([
      'Expect what the machine shows: result 5',
    ]);
    expect(preferred(trial('  set 5; trun\n  expect result‸ 5'))).toEqual([]);
  });
  test('not what brings a new error', () => {
    expect(preferred(trial('  tu‸rn\n  expect counter 1'))).toEqual([]);
  });
  test('no reading that differs from case to case', () => {
    const marked = `${machine('reverse')}sequence trial (a = 2) on stores\n  case a = 3\n  clear all; set a; turn\n  expect‸ result 2\n`;
    expect(titles(marked, { only: ['quickfix'] })).toEqual([]);
  });
});

describe('all at once', () => {
  const all = (text: string, name?: string) => {
    const { document } = openMarked(text, {}, name);
    return edited(text, fixAll(document, reader()));
  };
  test('what changes nothing that is read', () => {
    expect(
      all(
        trial(
          '  points setting 1; set .5; mode add\n  shift right 9  # to the end\n  note "a\\b"\n  bell on\n  trun\n  expect result 7',
        ),
      ),
    ).toBe(
      trial(
        '  points setting 1; set 0.5\n  shift right 3  # to the end\n  note "a\\\\b"\n  bell on\n  trun\n  expect result 7',
      ),
    );
  });
  test('two that touch each other one after the other', () => {
    const text = trial('  mode add; mode subtract; turn');
    const once = all(text);
    expect(all(once)).toBe(trial('  turn'));
  });
  test('nothing where there is nothing, and again nothing', () => {
    expect(fixAll(openMarked(trial('  set 1')).document, reader())).toEqual([]);
  });
  test('as an action only where source actions are asked for', () => {
    const marked = trial('  mode‸ add');
    expect(actionsAt(openMarked(marked)).map(({ kind }) => kind)).not.toContain(FIX_ALL);
    const opened = openMarked(marked);
    for (const only of ['source', 'source.fixAll', FIX_ALL]) {
      const [action] = actionsAt(opened, { only: [only] });
      expect(action).toMatchObject({ kind: FIX_ALL });
      expect(edited(opened.text, editsOf(opened.document, action))).toBe(trial('').slice(0, -1));
    }
    expect(actionsAt(opened, { only: ['source.organizeImports'] })).toEqual([]);
  });
});

describe('working out later', () => {
  test('an action that is not ours, or can no longer be done, comes back as it is', () => {
    const { document } = openMarked(trial('  set 1'));
    const range = { start: { line: 6, character: 2 }, end: { line: 6, character: 2 } };
    for (const data of [
      undefined,
      null,
      5,
      {},
      { refactoring: 'toString', range },
      { refactoring: 'open-out', range },
    ]) {
      const action = { title: 'x', data };
      expect(resolveAction(document, action, reader())).toBe(action);
    }
  });
});

describe('lines as they are written', () => {
  const page = (lines: string) =>
    `> \`\`\`crank\n> ${machine('reverse').trimEnd().replaceAll('\n', '\n> ')}\n> sequence trial on stores\n>   clear all\n${lines}> \`\`\`\n`;
  const mend = (before: string, code: Parameters<typeof mended>[2], title?: string) => {
    const opened = openMarked(page(before), {}, 'page.md');
    const action = actionsAt(opened, { only: ['quickfix'], codes: [code] }).find((one) =>
      title ? one.title.includes(title) : one.isPreferred,
    );
    if (!action) throw new Error('no fix');
    const { after, problems } = mended(opened, action, code, {}, 'page.md');
    expect(problems).toEqual([]);
    return after;
  };
  test('in a quotation of a Markdown page', () => {
    expect(mend('>   trun\n', 'syntax')).toBe(page('>   turn\n'));
    expect(mend('>   set 2.55\n', 'too-many-decimals')).toBe(page('>   points setting 2\n>   set 2.55\n'));
    expect(mend('>   mode add\n>   set 1\n', 'not-on-this-machine')).toBe(page('>   set 1\n'));
    expect(mend('>   set 1; turn back\n', 'result-overdraw', 'expect overdraw')).toBe(
      page('>   set 1; turn back; expect overdraw\n'),
    );
    expect(mend('>   set 1\n>   turn 12\n>   set 1\n', 'many-turns')).toBe(
      page('>   set 1\n>   turn 2\n>   shift right\n>   turn\n>   shift left\n>   set 1\n'),
    );
    expect(mend('>   repeat 2 {\n>     turn\n>   set 1\n', 'syntax')).toBe(
      page('>   repeat 2 {\n>     turn\n>   }\n>   set 1\n'),
    );
    expect(mend('>   run ready\n', 'unknown-name', 'sequence ready')).toBe(
      page('>   run ready\n>\n> sequence ready on stores\n'),
    );
  });
  test('with the line ends of the document', () => {
    const text = trial('  set 2.55\n  mode add').replaceAll('\n', '\r\n');
    const { document } = openMarked(text);
    const actions = codeActions({ ...document, eol: '\r\n' }, everywhere(document), { only: ['quickfix'] }, reader());
    const points = actions.find(({ title }) => title.includes('points setting 2'));
    const leaveOut = actions.find(({ title }) => title.includes('mode add'));
    if (!points || !leaveOut) throw new Error('no fix');
    expect(edited(text, [...editsOf(document, points), ...editsOf(document, leaveOut)])).toBe(
      trial('  points setting 2\n  set 2.55').replaceAll('\n', '\r\n'),
    );
  });
});
