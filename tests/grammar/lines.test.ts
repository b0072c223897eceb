/** What can't be read: each error stands where it is, says what is wrong, and costs its own item alone. */
import { describe, expect, it } from 'vitest';
import type { LinePlace } from '../../grammar/lines.js';
import { LineReader, LONGEST_LINE, opens } from '../../grammar/lines.js';
import { wordOf } from '../../grammar/tokens.js';
import { errorsIn, readLine } from './tree.js';

/** The errors of a line: the text that each stands under, and its problem. */
const errors = (text: string, place: LinePlace = 'sequence') =>
  readLine(text, place).errors.map(({ from, to, problem }) => [text.slice(from, to), problem]);

const forms = (word: string) => Object.values(wordOf(word)?.forms ?? {}).flat();
const form = (word: string, found: string) => ({ is: 'form', word, found, forms: forms(word) });

describe('a first word that does not belong', () => {
  it.each<[LinePlace, string, string, unknown]>([
    ['sequence', 'tunr 3', 'tunr', { is: 'not-a-step', found: 'tunr', nearest: 'turn' }],
    ['sequence', 'glasshouse', 'glasshouse', { is: 'not-a-step', found: 'glasshouse' }],
    ['sequence', '5 turn', '5', { is: 'not-a-step', found: '5' }],
    ['sequence', '@', '@', { is: 'not-a-step', found: '@' }],
    ['sequence', '🪴 turn', '🪴', { is: 'not-a-step', found: '🪴' }],
    ['sequence', 'right', 'right', { is: 'not-a-step', found: 'right' }],
    ['sequence', 'setting 5', 'setting', { is: 'wrong-section', found: 'setting', belongs: 'machine' }],
    ['sequence', 'park left', 'park', { is: 'wrong-section', found: 'park', belongs: 'machine' }],
    ['sequence', 'found 1 result 5', 'found', { is: 'wrong-section', found: 'found', belongs: 'bench' }],
    ['sequence', 'turn; machine m', 'machine', { is: 'not-a-section', found: 'machine' }],
    ['machine', 'seting 5', 'seting', { is: 'not-a-line', found: 'seting', nearest: 'setting' }],
    ['machine', 'glasshouse', 'glasshouse', { is: 'not-a-line', found: 'glasshouse' }],
    ['machine', 'turn 5', 'turn', { is: 'wrong-section', found: 'turn', belongs: 'sequence' }],
    ['machine', 'found 1 result 5', 'found', { is: 'wrong-section', found: 'found', belongs: 'bench' }],
    ['bench', 'fuond 1 result 5', 'fuond', { is: 'not-a-step', found: 'fuond', nearest: 'found' }],
    ['bench', 'turn', 'turn', { is: 'wrong-section', found: 'turn', belongs: 'sequence' }],
    ['bench', 'park left', 'park', { is: 'wrong-section', found: 'park', belongs: 'machine' }],
    ['preamble', 'machnie m', 'machnie', { is: 'not-a-section', found: 'machnie', nearest: 'machine' }],
    ['preamble', 'turn', 'turn', { is: 'no-section', found: 'turn' }],
    ['use', 'turn', 'turn', { is: 'no-section', found: 'turn' }],
  ])('in %s: %s', (place, text, under, problem) => {
    expect(errors(text, place)).toEqual([[under, problem]]);
    expect(readLine(text, place).items.map((item) => item.kind)).toEqual(text.startsWith('turn;') ? ['turn'] : []);
  });
});

describe('an item that does not go on as it should', () => {
  it.each<[LinePlace, string, string, unknown]>([
    ['sequence', 'set', 't', form('set', '')],
    ['sequence', 'set 24 at', 't', form('set', '')],
    ['sequence', 'set 24 and', 'd', form('set', '')],
    ['sequence', 'set 24 right', 'right', form('set', 'right')],
    ['sequence', 'turn until', 'l', form('turn', '')],
    ['sequence', 'turn until bell', 'bell', form('turn', 'bell')],
    ['sequence', 'turn 3 back', 'back', form('turn', 'back')],
    ['sequence', 'shift', 't', form('shift', '')],
    ['sequence', 'shift up', 'up', form('shift', 'up')],
    ['sequence', 'shift to', 'o', form('shift', '')],
    ['sequence', 'clear', 'r', form('clear', '')],
    ['sequence', 'clear all result', 'result', form('clear', 'result')],
    ['sequence', 'dial counter 5', 'counter', form('dial', 'counter')],
    ['sequence', 'mode plus', 'plus', form('mode', 'plus')],
    ['sequence', 'count add', 'add', form('count', 'add')],
    ['sequence', 'auto-clear', 'r', form('auto-clear', '')],
    ['sequence', 'points result', 't', form('points', '')],
    ['sequence', 'expect 5', '5', form('expect', '5')],
    ['sequence', 'expect result 5 counter', 'r', form('expect', '')],
    ['sequence', 'ask', 'k', form('ask', '')],
    ['sequence', 'goal result 5', '5', form('goal', '5')],
    ['sequence', 'goal result = 5 *', '*', form('goal', '')],
    ['sequence', 'goal result = (5', '5', form('goal', '')],
    ['sequence', 'goal result = 5)', ')', form('goal', ')')],
    ['sequence', 'note pots', 'pots', form('note', 'pots')],
    ['sequence', 'repeat 3', '3', form('repeat', '')],
    ['sequence', 'run', 'n', form('run', '')],
    ['sequence', 'run s (5', '5', form('run', '')],
    ['sequence', 'multiply 5', '5', form('multiply', '5')],
    ['sequence', 'divide 2', '2', form('divide', '2')],
    ['sequence', 'case a', 'a', form('case', '')],
    ['sequence', 'case a = b', 'b', form('case', 'b')],
    ['sequence', 'turn 1__0', '_', form('turn', '_')],
    ['machine', 'setting', 'g', form('setting', '')],
    ['machine', 'counter 8 dials', 'dials', form('counter', 'dials')],
    ['machine', 'result 13 reach', 'h', form('result', '')],
    ['machine', 'subtract reverse lever', 'lever', form('subtract', 'lever')],
    ['machine', 'park right', 'right', form('park', 'right')],
    ['machine', 'effort turn 1', '1', form('effort', '')],
    ['machine', 'phrase "x"', '"x"', form('phrase', '"x"')],
    ['machine', 'no', 'o', form('no', '')],
    ['bench', 'found total', 'l', form('found', '')],
    ['use', 'use machines', 'machines', form('use', 'machines')],
    ['machine', 'machine', 'e', form('machine', '')],
    ['machine', 'machine m like', 'e', form('machine', '')],
    ['sequence', 'sequence s ()', ')', form('sequence', ')')],
    ['bench', 'bench of s', 'of', form('bench', 'of')],
  ])('in %s: %s', (place, text, under, problem) => {
    expect(errors(text, place)).toEqual([[under, problem]]);
    expect(readLine(text, place)).toMatchObject({ items: [] });
  });

  it.each<[LinePlace, string, string]>([
    ['machine', 'machine turn', 'turn'],
    ['machine', 'machine m like carry', 'carry'],
    ['sequence', 'sequence half-step', 'half-step'],
    ['sequence', 'sequence s on lever', 'lever'],
    ['sequence', 'run turn', 'turn'],
    ['sequence', 'expect result 5 as bell', 'bell'],
    ['bench', 'bench "T" of stop on m', 'stop'],
  ])('a word of the notation as a name, in %s: %s', (place, text, found) => {
    expect(errors(text, place)).toEqual([[found, { is: 'keyword-as-name', found }]]);
  });

  it.each<[string, string, unknown]>([
    ['note "pots', '"pots', { is: 'unclosed-text' }],
    ['note "', '"', { is: 'unclosed-text' }],
    ['note "pots \\"', '"pots \\"', { is: 'unclosed-text' }],
    ['use "..\\m.crank"', '"..\\m.crank"', { is: 'text-escape' }],
    ['set .5', '.', { is: 'number-point' }],
    ['set 5.', '.', { is: 'number-point' }],
    ['set 1.2.3', '.', { is: 'number-point' }],
    ['.5', '.', { is: 'number-point' }],
  ])('%s', (text, under, problem) => {
    expect(errors(text)).toEqual([[under, problem]]);
  });
});

describe('limits', () => {
  it('a line too long is not read, one just as long is', () => {
    const longest = `turn #${'x'.repeat(LONGEST_LINE - 6)}`;
    expect(readLine(longest).items).toHaveLength(1);
    const longer = `${longest}x`;
    expect(readLine(longer)).toMatchObject({
      items: [],
      errors: [{ problem: { is: 'line-too-long' }, from: 0, to: LONGEST_LINE + 1 }],
    });
  });

  it('parentheses and powers go so deep and no deeper', () => {
    const nested = (depth: number) => `goal result = ${'('.repeat(depth)}5${')'.repeat(depth)}`;
    expect(errors(nested(40))).toEqual([]);
    expect(errors(nested(41))).toEqual([['goal', { is: 'too-deep' }]]);
    const powers = (count: number) => `goal result = 2${' ^ 1'.repeat(count)}`;
    expect(errors(powers(200))).toEqual([]);
    expect(errors(powers(201))).toEqual([['goal', { is: 'too-deep' }]]);
    expect(errors(`goal result = ${'('.repeat(1900)}`)).toEqual([['goal', { is: 'too-deep' }]]);
  });
});

describe('an error costs no more than itself', () => {
  it('one step of a line', () => {
    const line = readLine('set 5; tunr; shift right; turn until; clear all  # rows');
    expect(line.items.map((item) => item.kind)).toEqual(['set', 'shift', 'clear']);
    expect(line.errors.map((error) => line.text.slice(error.from, error.to))).toEqual(['tunr', 'l']);
    expect(line.comment?.text).toBe('# rows');
  });

  it('one step between braces', () => {
    const line = readLine('repeat 2 { tunr; turn } shift right');
    expect(line.items.map((item) => item.kind)).toEqual(['repeat', 'turn', 'close', 'shift']);
    expect(line.errors).toHaveLength(1);
  });

  it('one line of a file', () => {
    const good = ['machine m', 'setting 5', 'result 8', 'sequence s', 'set 5', 'turn'];
    for (let at = 1; at <= good.length; at++) {
      const found = errorsIn([...good.slice(0, at), '%%', ...good.slice(at)].join('\n'));
      expect(found.map(({ line, under }) => [line, under])).toEqual([[at, '%']]);
    }
  });

  it('a broken header keeps its section', () => {
    expect(errorsIn('machine\nsetting 5\nsequence\nset 5\nbench\nfound 1 result 5').map(({ line }) => line)).toEqual([
      0, 2, 4,
    ]);
  });

  it('the count of a repeat, whose steps stay together', () => {
    const line = readLine('repeat lots of { turn }');
    expect(line.items).toMatchObject([
      { kind: 'repeat', count: { figures: '1' } },
      { kind: 'turn' },
      { kind: 'close' },
    ]);
    expect(line.errors).toMatchObject([{ problem: { is: 'form', word: 'repeat', found: 'of' } }]);
  });
});

describe('marks between items', () => {
  it.each([
    ['', []],
    [' \t\u00a0\u3000 ', []],
    [';;; ;', []],
    [';turn;', ['turn']],
    ['}', ['close']],
    ['}}turn', ['close', 'close', 'turn']],
    ['turn}', ['turn', 'close']],
    ['repeat 2{turn}turn', ['repeat', 'turn', 'close', 'turn']],
  ])('%j', (text, kinds) => {
    const line = readLine(text);
    expect(line.errors).toEqual([]);
    expect(line.items.map((item) => item.kind)).toEqual(kinds);
  });

  it('a section may go on behind its header', () => {
    const line = readLine('sequence s; turn # x', 'sequence');
    expect(line).toMatchObject({
      header: { kind: 'sequence', from: 0, to: 10 },
      items: [{ kind: 'turn' }],
      errors: [],
    });
  });
});

describe('comments', () => {
  it('run to the end of the line, blanks at the end left off', () => {
    expect(readLine('turn # a # b; "c \t').comment).toEqual({ text: '# a # b; "c', from: 5, to: 18 });
  });

  it('hold any character but a line end', () => {
    const text = '# a\u2028b\u2029c\u0085d';
    expect(readLine(text)).toMatchObject({ comment: { text, from: 0, to: text.length }, errors: [] });
  });
});

describe('opens', () => {
  it.each([
    ['use "x"', 'use'],
    ['  machine m', 'machine'],
    ['\tsequence', 'sequence'],
    ['bench"x"', 'bench'],
    ['\u00a0machine m', 'machine'],
    ['machine-x', undefined],
    ['machines', undefined],
    ['machineä', undefined],
    ['# machine m', undefined],
    ['; machine m', undefined],
    ['turn', undefined],
    ['', undefined],
  ])('%j: %s', (text, kind) => {
    expect(opens(text)).toBe(kind);
  });

  it('skips the same blanks as the lexer, so that a line that has a header always opens its section', () => {
    for (const blank of ['\t', '\v', '\f', ' ', '\u00a0', '\u3000', '\ufeff']) {
      const text = `${blank}machine m`;
      expect(opens(text) !== undefined, JSON.stringify(text)).toBe(readLine(text).header !== undefined);
    }
  });
});

describe('LineReader', () => {
  it('gives equal lines one object, in each kind of section', () => {
    const reader = new LineReader();
    expect(reader.read('count plus', 'sequence')).toBe(reader.read('count plus', 'sequence'));
    expect(reader.read('count plus', 'machine')).not.toBe(reader.read('count plus', 'sequence'));
    expect(reader.read('count plus', 'machine').errors).toHaveLength(1);
    expect(reader.read('count plus', 'sequence').errors).toHaveLength(0);
  });
});
