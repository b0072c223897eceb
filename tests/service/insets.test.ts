/** Insets in the editor: put below a block, completed as they are typed, refreshed with all that may be made unseen. */
import { describe, expect, test } from 'vitest';
import { completions } from '../../server/service/completion.js';
import { pageOf, woven } from '../weave/woven.js';
import { actionsAt, edited, editsOf } from './actions/acting.js';
import { applyEdits, openMarked, reader } from './editor.js';

const opened = (page: string) => openMarked(page, {}, 'page.md');
const marked = (page: string, at: string): string => page.replace(at, `${at}‸`);
const ONLY = { only: ['refactor.rewrite'] };
const put = (page: string) =>
  actionsAt(opened(page), ONLY).find(({ title }) => title === 'Put the readings below this block');

describe('the readings below a block', () => {
  test.each(['sequence bay', 'ask result'])('are put there at %s', (at) => {
    const page = opened(marked(pageOf('Text.\n'), at));
    const action = actionsAt(page, ONLY).find(({ title }) => title === 'Put the readings below this block');
    const after = edited(page.text, action ? editsOf(page.document, action) : []);
    expect(after).toContain('  ask result\n```\n\n<!-- crank: readings -->\n\n**Area of one bay');
    expect(woven(after).insets.map(({ state }) => state.is)).toEqual(['fresh']);
    expect(woven(after).text).toBe(after);
  });

  test('name the sequence where another follows in the block, and keep to the margin and the language of the page', () => {
    const page = pageOf(
      '<!-- crank: cautions in de -->\n',
      'sequence bay on desk\n  set 12\nsequence late on desk\n  set 1\n',
    );
    const within = opened(marked(page.replace(/^(?=.)/gm, '> ').replace(/^$/gm, '>'), 'sequence bay'));
    const [action] = actionsAt(within, ONLY).filter(({ title }) => title.startsWith('Put the readings'));
    const after = edited(within.text, editsOf(within.document, action));
    expect(after).toContain(
      '> ```\n>\n> <!-- crank: readings of bay in de -->\n>\n> **bay, auf Machine on the desk**\n',
    );
    expect(woven(after).faults).toEqual([]);
  });

  test('are not offered elsewhere, and not of a sequence with an error', () => {
    expect(put(marked(pageOf(''), 'clear all'))).toBeUndefined();
    expect(
      actionsAt(openMarked('machine desk\n  setting 6\n  result 8\nsequence b‸ay on desk\n  set 1\n'), ONLY).map(
        ({ title }) => title,
      ),
    ).not.toContain('Put the readings below this block');
    expect(put(marked(pageOf('').replace('set 24.5', 'set 24.55'), 'sequence bay'))?.disabled?.reason).toMatch(/error/);
  });
});

test('what is stale is refreshed with all that may be made unseen, but for pictures', () => {
  const page = opened(
    pageOf('<!-- crank: readings -->\n<!-- crank: figure -->\n<!-- crank: steps in de -->\n\nText.\n'),
  );
  const [action] = actionsAt(page, { only: ['source.fixAll'] });
  const after = edited(page.text, editsOf(page.document, action));
  expect(woven(after).insets.map(({ state }) => state.is)).toEqual(['fresh', 'stale', 'fresh']);
  expect(after.endsWith('\n\nText.\n')).toBe(true);
});

describe('completion of a comment', () => {
  const at = (below: string) => {
    const page = opened(pageOf(below));
    return completions(page.document, page.cursor, reader()).items.map((item) => ({
      label: item.label,
      after: applyEdits(page.text, item.textEdit && 'range' in item.textEdit ? [item.textEdit] : []).split(
        '```\n\n',
      )[1],
    }));
  };

  test.each([
    ['<!-- ‸', 'crank: readings', '<!-- crank: readings -->'],
    ['> <!-- cr‸ -->', 'crank: figure', '> <!-- crank: figure -->'],
    ['- <!--crank:‸', 'steps', '- <!--crank: steps -->'],
    ['<!-- crank: rea‸ -->', 'readings', '<!-- crank: readings -->'],
    ['<!-- crank: readings o‸ -->', 'of', '<!-- crank: readings of -->'],
    ['<!-- crank: readings of ‸ -->', 'bay', '<!-- crank: readings of bay -->'],
    ['<!-- crank: readings of bay in ‸ -->', 'de', '<!-- crank: readings of bay in de -->'],
    ['<!-- crank: steps figures ‸ -->', 'stages', '<!-- crank: steps figures stages -->'],
  ])('%s', (below, label, after) => {
    expect(at(below)).toContainEqual({ label, after });
  });

  test('offers nothing twice, and nothing in other comments and texts', () => {
    expect(at('<!-- crank: readings of bay ‸ -->').map(({ label }) => label)).toEqual(['case', 'in', 'figures']);
    expect(at('<!-- crank: readings case ‸ -->')).toEqual([]);
    for (const below of ['<!-- Look here ‸ -->', 'Text ‸', 'x <!-- crank: ‸']) expect(at(below)).toEqual([]);
  });
});
