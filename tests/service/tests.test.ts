/** The tests of an editor: what of a file can pass or fail, and what does. */
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import {
  type ResultsAsked,
  resultsAsked,
  resultsGradually,
  type TestResult,
} from '../../server/service/test-results.js';
import { type TestEntry, testsOf } from '../../server/service/tests.js';
import { addressOf, type Opened, openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n';

const treeOf = ({ document }: Opened, locale = 'en') => testsOf(document, reader({ locale }));
const resultsOf = ({ document }: Opened, asked: Omit<ResultsAsked, 'uri'> = {}, locale = 'en'): readonly TestResult[] =>
  finish(resultsGradually(document, { uri: document.uri, ...asked }, reader({ locale }))).results;
/** Each test with its outcome; where nothing stands before the colon, it is the text itself. */
const outcomes = (opened: Opened, asked: Omit<ResultsAsked, 'uri'> = {}) =>
  resultsOf(opened, asked).map(({ id, outcome }) => `${id}: ${outcome}`);
const messages = (opened: Opened, locale = 'en') => resultsOf(opened, {}, locale).flatMap((one) => one.messages);

describe('the tests of a file', () => {
  const CASES = `${OFFICE}
⟦sequence bay "Area of one bay" (⟦a = 12, b = 2⟧) on office-6
  ⟦case a = 15⟧
  ⟦case b = 7⟧
  clear all⟧

⟦sequence pots on office-6
  clear all⟧
# About the next one.
`;
  const flat = (tests: readonly TestEntry[]): TestEntry[] => tests.flatMap((one) => [one, ...flat(one.children)]);

  test('are its sequences, and their cases as the line above calls them', () => {
    const tree = treeOf(openMarked(CASES));
    expect(
      flat(tree?.tests ?? []).map(({ id, label, sequence, case: number }) => [id, label, sequence, number]),
    ).toEqual([
      ['bay', 'bay', 'bay', 0],
      ['bay/0', 'defaults', 'bay', 0],
      ['bay/1', 'case 1: a = 15', 'bay', 1],
      ['bay/2', 'case 2: b = 7', 'bay', 2],
      ['pots', 'pots', 'pots', 0],
    ]);
    expect(tree?.tests.map(({ description }) => description)).toEqual(['Area of one bay', undefined]);
    expect(flat(treeOf(openMarked(CASES), 'de')?.tests ?? [])[2].label).toBe('Fall 1: a = 15');
  });

  test('stand where they are written', () => {
    const opened = openMarked(CASES);
    expect(flat(treeOf(opened)?.tests ?? []).map(({ range }) => range)).toEqual(opened.ranges);
  });

  test('have names of their own, whatever the sequences are called', () => {
    const opened = openMarked(`${OFFICE}sequence a\nsequence a (n = 1)\n  case n = 2\nsequence a\nsequence\n  turn\n`);
    expect(flat(treeOf(opened)?.tests ?? []).map(({ id }) => id)).toEqual(['a', 'a~2', 'a~2/0', 'a~2/1', 'a~3']);
    expect(outcomes(opened)).toEqual([': failed', 'a: passed', 'a~2/0: passed', 'a~2/1: passed', 'a~3: passed']);
  });

  test('are there for a file of machines and an empty one, and not for a page without the notation', () => {
    expect(treeOf(openMarked(OFFICE))).toEqual({ tests: [], uses: [] });
    expect(treeOf(openMarked(''))).toEqual({ tests: [], uses: [] });
    expect(treeOf(openMarked('# Pots\n\n```js\nturn\n```\n', {}, 'test.md'))).toBeUndefined();
    const page = openMarked('# Pots\n\n```crank\n⟦sequence pots⟧\n```\n', {}, 'test.md');
    expect(treeOf(page)?.tests.map(({ range }) => range)).toEqual(page.ranges);
  });

  test('rest on all that is used, there or not', () => {
    const others = { 'b.crank': 'use "c.crank"\n', 'c.crank': OFFICE };
    const tree = treeOf(openMarked('use "b.crank"\nuse "gone.crank"\n', others));
    expect(tree?.uses).toEqual(['b.crank', 'gone.crank', 'c.crank'].map(addressOf));
  });

  test('show nothing of a title that is not to be seen', () => {
    const [{ description }] = treeOf(openMarked(`${OFFICE}sequence s "a\u202eb\u0007 "\n`))?.tests ?? [];
    expect(description).toBe('a\ufffdb\ufffd');
  });
});

describe('a test fails', () => {
  const on = (steps: string) => openMarked(`${OFFICE}sequence pots on office-6\n${steps}`);

  test('at the reading that differs, and says what was expected and what is read', () => {
    const opened = on('  clear all\n  set 48\n  turn 6\n  expect setting 48 ⟦result 289 as trays⟧ counter 6\n');
    expect(messages(opened)).toEqual([
      {
        message: expect.stringMatching(/^The result reads 288, not 289\./),
        uri: addressOf('test.crank'),
        range: opened.ranges[0],
        expected: 'result 289',
        actual: 'result 288',
      },
    ]);
    expect(messages(opened, 'de')[0]).toMatchObject({ expected: 'Resultat 289', actual: 'Resultat 288' });
    expect(messages(opened, 'de')[0].message).toMatch(/^Das Resultatwerk/);
  });

  test.each([
    ['expect ⟦carriage 2⟧', 'position 2', 'position 1'],
    ['expect ⟦parked⟧', 'out of gear', 'in gear'],
    ['expect result 0 ⟦overflow⟧', 'overflow', 'no overflow'],
    ['expect ⟦overdraw⟧', 'overdraw', 'no overdraw'],
    ['expect result 0 ⟦result 5⟧', 'result 5', 'result 0'],
    ['expect ⟦result - 5⟧', 'result -5', 'result 0'],
    ['expect ⟦counter 0.5⟧', 'counter 0.5', 'counter 0'],
    ['repeat 2 { expect ⟦result 5⟧ }', 'result 5', 'result 0'],
  ])('where it says %s', (step, expected, actual) => {
    const opened = on(`  clear all\n  ${step}\n`);
    expect(messages(opened)).toMatchObject([{ expected, actual, range: opened.ranges[0] }]);
  });

  test('where the bell stays silent', () => {
    const bell = OFFICE.replace('office-6', 'bell-6').concat('  bell\n');
    const opened = openMarked(`${bell}sequence pots on bell-6\n  clear all\n  expect ⟦bell⟧\n`);
    expect(messages(opened)).toMatchObject([
      { expected: 'the bell rings', actual: 'no bell', range: opened.ranges[0] },
    ]);
  });

  test('by a number that stands for a parameter, in the case in which it differs', () => {
    const opened = openMarked(
      `${OFFICE}sequence pots (a = 0) on office-6\n  case a = 7\n  clear all\n  expect setting 0 ⟦result a⟧\n`,
    );
    expect(outcomes(opened)).toEqual([': passed', 'pots/0: passed', 'pots/1: failed']);
    expect(messages(opened)).toMatchObject([{ expected: 'result 7', actual: 'result 0', range: opened.ranges[0] }]);
  });

  test('at the goal that is missed', () => {
    const opened = on('  ⟦goal result = 2 * 3⟧\n  clear all\n  set 5\n  turn\n');
    expect(messages(opened)).toMatchObject([{ expected: '6', actual: '5', range: opened.ranges[0] }]);
    const none = on('  ⟦goal result = 2 / 0⟧\n  clear all\n');
    expect(messages(none)).toMatchObject([{ range: none.ranges[0] }]);
    expect(messages(none)[0]).not.toHaveProperty('expected');
  });

  test('by any other error, with its sentence at its place, from the top', () => {
    const opened = on('  clear all\n  ⟦set 1234567⟧\n  ⟦trun⟧\n  ⟦shift left⟧\n');
    expect(messages(opened).map(({ range }) => range)).toEqual(opened.ranges);
    expect(messages(opened)[1].message).toBe('“trun” is not a step. Did you mean turn?');
    expect(messages(opened).every((one) => one.expected === undefined)).toBe(true);
  });

  test('where it runs a sequence in which something differs, which is named', () => {
    const others = { 'b.crank': `${OFFICE}sequence part on office-6\n  expect ⟦result 5⟧\n`.replace(/[⟦⟧]/g, '') };
    const opened = openMarked('use "b.crank"\nsequence every on office-6\n  clear all\n  ⟦run part⟧\n', others);
    const [message] = messages(opened);
    expect(message).toMatchObject({ expected: 'result 5', actual: 'result 0', range: opened.ranges[0] });
    expect(message.related).toMatchObject([{ uri: addressOf('b.crank'), range: { start: { line: 5, character: 2 } } }]);
  });

  test('not by a warning, a hint, or what is wrong elsewhere', () => {
    const opened = openMarked(`${OFFICE}⟦turn⟧\nsequence pots on office-6\n  turn 11\nsequence trays on nobody\n`);
    expect(outcomes(opened)).toEqual([': failed', 'pots: passed', 'trays: not-run']);
    const [own] = resultsOf(opened);
    expect(own.messages.map(({ range }) => range)).toEqual(opened.ranges);
  });

  test('to be run at all on a machine that contradicts itself, wherever that is', () => {
    const others = { 'b.crank': OFFICE.replace('result 12', 'result 2') };
    const opened = openMarked('use "b.crank"\nsequence every (a = 1) on office-6\n  case a = 2\n  clear all\n', others);
    expect(outcomes(opened)).toEqual([': passed', 'every/0: not-run', 'every/1: not-run']);
    expect(messages(opened)).toHaveLength(2);
    expect(messages(opened)[0]).toMatchObject({ uri: addressOf('b.crank'), range: { start: { line: 3 } } });
  });
});

describe('results', () => {
  const TEXT = `${OFFICE}sequence a (n = 1) on office-6\n  case n = 2\n  clear all\n  set n\nsequence b on office-6\n  clear all\n  expect result 1\n`;

  test('are of what is asked for: a case, all of a sequence, the text', () => {
    const opened = openMarked(TEXT);
    expect(outcomes(opened, { ids: ['a/1', 'b'] })).toEqual(['a/1: passed', 'b: failed']);
    expect(outcomes(opened, { ids: ['a'] })).toEqual(['a/0: passed', 'a/1: passed']);
    expect(outcomes(opened, { ids: [''] })).toEqual([': passed']);
    expect(outcomes(opened, { ids: ['nobody', 'a/9', '__proto__'] })).toEqual([]);
  });

  test('that are known are left out as long as nothing has changed that they rest on', () => {
    const changedBy = (text: string) => {
      const opened = openMarked(TEXT);
      const known = Object.fromEntries(resultsOf(opened).map(({ id, resultId }) => [id, resultId]));
      const { library, file } = opened.document;
      library.set(file, text);
      const tree = library.tree(file);
      if (!tree) throw new Error('it is gone');
      const document = { ...opened.document, tree, report: library.check(file) };
      return outcomes({ ...opened, document }, { known });
    };
    expect(changedBy(TEXT.replace('set n', 'set n # one or two'))).toEqual(['a/0: passed', 'a/1: passed']);
    // What has only moved passes as before; what fails does so in another place.
    expect(changedBy(`# Pots\n${TEXT}`)).toEqual(['b: failed']);
    expect(changedBy(TEXT.replace('setting 6', 'setting 5'))).toEqual(['a/0: passed', 'a/1: passed', 'b: failed']);
    expect(changedBy(TEXT.replace('result 1\n', 'result 0\n'))).toEqual(['b: passed']);
    expect(changedBy(`${TEXT}trun\n`)).toEqual(['b: failed']);
    expect(changedBy(TEXT)).toEqual([]);
  });

  test.each([
    [undefined, 'A document is needed: uri.'],
    [{ uri: 5 }, 'A document is needed: uri.'],
    [{ uri: 'a', ids: 'b' }, 'ids are the names of tests.'],
    [{ uri: 'a', ids: [5] }, 'ids are the names of tests.'],
    [{ uri: 'a', known: 5 }, 'known are results by their tests.'],
    [{ uri: 'a', known: null }, 'known are results by their tests.'],
  ])("of %j are none, and the client's maker is told why", (sent, message) => {
    expect(resultsAsked(sent)).toBe(message);
  });
});
