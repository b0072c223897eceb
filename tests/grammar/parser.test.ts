/** Every construct of the notation by itself: what it parses to, and in which columns it stands. */
import { describe, expect, it } from 'vitest';
import type { LinePlace } from '../../grammar/lines.js';
import { readLine, withoutPositions } from './tree.js';

const figures = (text: string) => ({ kind: 'number', text, figures: text, isValue: false, decimals: 0 });
const value = (text: string, digits: string, decimals: number) => ({
  kind: 'number',
  text,
  figures: digits,
  isValue: true,
  decimals,
});
const name = (text: string) => ({ kind: 'name', name: text });
const text = (inner: string) => ({ kind: 'text', raw: `"${inner}"`, value: inner });

/** What one item parses to, positions aside; it must be the line's only one and stand from its first column to its last. */
function only(source: string, place: LinePlace): unknown {
  const line = readLine(`  ${source}  # why`, place);
  expect(line.errors).toEqual([]);
  expect(line.comment).toEqual({ text: '# why', from: source.length + 4, to: source.length + 9 });
  const nodes = [...(line.header ? [line.header] : []), ...line.items];
  expect(nodes).toHaveLength(1);
  expect(nodes[0]).toMatchObject({ from: 2, to: 2 + source.replace(/ *\{$/, '').length });
  return withoutPositions(nodes[0]);
}

describe('section headers', () => {
  it.each<[string, unknown]>([
    ['use "machines.crank"', { kind: 'use', path: text('machines.crank') }],
    ['machine oak-bench', { kind: 'machine', name: name('oak-bench') }],
    ['machine m "In the stores"', { kind: 'machine', name: name('m'), title: text('In the stores') }],
    ['machine m "T" like n', { kind: 'machine', name: name('m'), title: text('T'), like: name('n') }],
    ['sequence s', { kind: 'sequence', name: name('s'), parameters: [] }],
    [
      'sequence s "Area" (a = 34, b = 2.5) on m',
      {
        kind: 'sequence',
        name: name('s'),
        title: text('Area'),
        parameters: [
          { name: name('a'), value: figures('34') },
          { name: name('b'), value: value('2.5', '25', 1) },
        ],
        on: name('m'),
      },
    ],
    ['bench "After oiling" of s on m', { kind: 'bench', title: text('After oiling'), of: name('s'), on: name('m') }],
  ])('%s', (source, tree) => {
    expect(only(source, source.split(' ')[0] as LinePlace)).toEqual(tree);
  });
});

describe('lines of a machine', () => {
  it.each<[string, unknown]>([
    ['setting 10', { kind: 'setting', places: figures('10') }],
    ['carriage 8', { kind: 'carriage', places: figures('8') }],
    ['counter 8', { kind: 'counter', places: figures('8') }],
    ['counter 8 carry', { kind: 'counter', places: figures('8'), carry: 'carry' }],
    ['counter 8 plain', { kind: 'counter', places: figures('8'), carry: 'plain' }],
    ['counter 8 signed', { kind: 'counter', places: figures('8'), carry: 'signed' }],
    ['result 13', { kind: 'result', places: figures('13'), dials: false }],
    ['result 13 dials', { kind: 'result', places: figures('13'), dials: true }],
    ['result 13 dials reach 11', { kind: 'result', places: figures('13'), dials: true, reach: figures('11') }],
    ...['reverse', 'lever', 'half-step', 'lift', 'none'].map((way): [string, unknown] => [
      `subtract ${way}`,
      { kind: 'subtract', way },
    ]),
    ...['follow', 'lever', 'first'].map((way): [string, unknown] => [`count ${way}`, { kind: 'count', way }]),
    ['park left', { kind: 'park' }],
    ['bell', { kind: 'bell' }],
    ['auto-clear', { kind: 'auto-clear' }],
    ['auto-divide', { kind: 'auto-divide' }],
    ['transfer result', { kind: 'transfer', register: 'result' }],
    ['transfer result at 1', { kind: 'transfer', register: 'result', at: figures('1') }],
    ['transfer counter', { kind: 'transfer', register: 'counter' }],
    ['effort turn 1 shift 2 lever 3', { kind: 'effort', turn: figures('1'), shift: figures('2'), lever: figures('3') }],
    ['phrase shift right half "{count}"', { kind: 'phrase', step: 'shift right half', text: text('{count}') }],
    ['no transfer result', { kind: 'no', drops: 'transfer result' }],
  ])('%s', (source, tree) => {
    expect(only(source, 'machine')).toEqual(tree);
  });
});

describe('steps', () => {
  const set = (...parts: unknown[]) => ({ kind: 'set', parts });
  const turn = (rest: object = {}) => ({ kind: 'turn', back: false, ...rest });
  const shift = (way: string, rest: object = {}) => ({ kind: 'shift', way, half: false, ...rest });
  const reads = (register: string, what: unknown, rest: object = {}) => ({
    kind: 'register',
    register,
    negative: false,
    figures: what,
    ...rest,
  });
  it.each<[string, unknown]>([
    ['set 32.5', set({ figures: value('32.5', '325', 1) })],
    ['set 12_480', set({ figures: { ...figures('12480'), text: '12_480' } })],
    ["set 1'000.5'0", set({ figures: value("1'000.5'0", '100050', 2) })],
    ['set 007', set({ figures: figures('007') })],
    [
      'set 24 at 2 and b at k',
      set({ figures: figures('24'), at: figures('2') }, { figures: name('b'), at: name('k') }),
    ],
    ['turn', turn()],
    ['turn 7', turn({ count: figures('7') })],
    ['turn rows', turn({ count: name('rows') })],
    ['turn back', turn({ back: true })],
    ['turn back 3', turn({ back: true, count: figures('3') })],
    ['turn until overdraw', turn({ until: 'overdraw' })],
    ['turn back until overdraw', turn({ back: true, until: 'overdraw' })],
    ['turn until stop', turn({ until: 'stop' })],
    ['shift right', shift('right')],
    ['shift left 2', shift('left', { count: figures('2') })],
    ['shift to 5', shift('to', { count: figures('5') })],
    ['shift out', shift('out')],
    ['shift right half', shift('right', { half: true })],
    ['shift left half', shift('left', { half: true })],
    ['clear all', { kind: 'clear', registers: [], all: true }],
    ['clear counter result', { kind: 'clear', registers: ['counter', 'result'], all: false }],
    ['transfer result', { kind: 'transfer', register: 'result' }],
    ['transfer counter', { kind: 'transfer', register: 'counter' }],
    ['dial result 12.5', { kind: 'dial', part: { figures: value('12.5', '125', 1) } }],
    ['dial result 12 at 3', { kind: 'dial', part: { figures: figures('12'), at: figures('3') } }],
    ['mode add', { kind: 'mode', drive: 'add' }],
    ['mode subtract', { kind: 'mode', drive: 'subtract' }],
    ['count plus', { kind: 'count', sense: 'plus' }],
    ['count minus', { kind: 'count', sense: 'minus' }],
    ['auto-clear on', { kind: 'auto-clear', on: true }],
    ['auto-clear off', { kind: 'auto-clear', on: false }],
    ['auto-divide on', { kind: 'auto-divide', on: true }],
    ['auto-divide off', { kind: 'auto-divide', on: false }],
    [
      'points setting 1 result d',
      {
        kind: 'points',
        items: [
          { register: 'setting', decimals: figures('1') },
          { register: 'result', decimals: name('d') },
        ],
      },
    ],
    ['ask counter result', { kind: 'ask', items: [{ register: 'counter' }, { register: 'result' }] }],
    ['expect counter 14.6', { kind: 'expect', items: [reads('counter', value('14.6', '146', 1))] }],
    ['expect result -42', { kind: 'expect', items: [reads('result', figures('42'), { negative: true })] }],
    [
      'expect result 5 as half-way bell overflow as top',
      {
        kind: 'expect',
        items: [
          reads('result', figures('5'), { label: name('half-way') }),
          { kind: 'bell' },
          { kind: 'overflow', label: name('top') },
        ],
      },
    ],
    ['expect overdraw parked', { kind: 'expect', items: [{ kind: 'overdraw' }, { kind: 'parked' }] }],
    ['expect carriage 4', { kind: 'expect', items: [{ kind: 'carriage', position: figures('4') }] }],
    [
      'note "Pots \\"large\\" \\\\"',
      { kind: 'note', text: { ...text('Pots \\"large\\" \\\\'), value: 'Pots "large" \\' } },
    ],
    ['caution "# ; } no end"', { kind: 'caution', text: text('# ; } no end') }],
    [
      'case a = 65, b = 1.2',
      {
        kind: 'case',
        assignments: [
          { name: name('a'), value: figures('65') },
          { name: name('b'), value: value('1.2', '12', 1) },
        ],
      },
    ],
    ['repeat 3 {', { kind: 'repeat', count: figures('3') }],
    ['repeat rows{', { kind: 'repeat', count: name('rows') }],
    ['run glass-area', { kind: 'run', name: name('glass-area'), args: [] }],
    ['run glass-area ()', { kind: 'run', name: name('glass-area'), args: [] }],
    ['run glass-area (5, rows)', { kind: 'run', name: name('glass-area'), args: [figures('5'), name('rows')] }],
    ['multiply by 17', { kind: 'multiply', by: figures('17'), short: false }],
    ['multiply by b', { kind: 'multiply', by: name('b'), short: false }],
    ['divide', { kind: 'divide', short: false }],
    ['divide to 2', { kind: 'divide', downTo: figures('2'), short: false }],
    ['multiply by 17 short', { kind: 'multiply', by: figures('17'), short: true }],
    ['divide short', { kind: 'divide', short: true }],
    ['divide to k short', { kind: 'divide', downTo: name('k'), short: true }],
  ])('%s', (source, tree) => {
    expect(only(source, 'sequence')).toEqual(tree);
  });

  it.each([
    ['found 1 result 5', figures('1')],
    ['found total result 5', name('total')],
  ])('%s, in a bench record', (source, which) => {
    expect(only(source, 'bench')).toEqual({ kind: 'found', which, items: [reads('result', figures('5'))] });
  });

  it('names go in letters of any script, in composed form', () => {
    expect(only('set größe-10 and стол and 数', 'sequence')).toEqual(
      set({ figures: name('größe-10') }, { figures: name('стол') }, { figures: name('数') }),
    );
    expect(readLine('set gro\u0308sse').items).toMatchObject([
      { parts: [{ figures: { name: 'gr\u00f6sse', from: 4, to: 11 } }] },
    ]);
  });

  it('words at the start of a name do not count', () => {
    expect(only('set set-up and on-hand and half-steps', 'sequence')).toEqual(
      set({ figures: name('set-up') }, { figures: name('on-hand') }, { figures: name('half-steps') }),
    );
  });
});

describe('columns', () => {
  it('are those of each part', () => {
    expect(readLine('  set 32.5 at k').items).toEqual([
      {
        kind: 'set',
        from: 2,
        to: 15,
        parts: [
          {
            figures: { kind: 'number', text: '32.5', figures: '325', isValue: true, decimals: 1, from: 6, to: 10 },
            at: { kind: 'name', name: 'k', from: 14, to: 15 },
          },
        ],
      },
    ]);
    expect(readLine('expect result -42 as x bell').items).toMatchObject([
      {
        from: 0,
        to: 27,
        items: [
          { from: 7, to: 22, figures: { from: 15, to: 17 }, label: { from: 21, to: 22 } },
          { from: 23, to: 27 },
        ],
      },
    ]);
    expect(readLine('points setting 1  result 12').items).toMatchObject([
      {
        items: [
          { from: 7, to: 16 },
          { from: 18, to: 27, decimals: { from: 25, to: 27 } },
        ],
      },
    ]);
    expect(readLine('case a = 5,  b = 12').items).toMatchObject([
      {
        assignments: [
          { from: 5, to: 10 },
          { from: 13, to: 19, value: { from: 17, to: 19 } },
        ],
      },
    ]);
  });

  it('count UTF-16 units', () => {
    expect(readLine('note "🪴"; turn').items).toMatchObject([
      { from: 0, to: 9, text: { from: 5, to: 9 } },
      { from: 11, to: 15 },
    ]);
  });

  it('count from the start of the line in every item', () => {
    expect(readLine('turn; repeat 2 { set 5 } shift right').items).toMatchObject([
      { kind: 'turn', from: 0, to: 4 },
      { kind: 'repeat', from: 6, to: 14 },
      { kind: 'set', from: 17, to: 22 },
      { kind: 'close', from: 23, to: 24 },
      { kind: 'shift', from: 25, to: 36 },
    ]);
  });
});

describe('a goal', () => {
  /** An expression with every operation in brackets. */
  function spell(node: unknown): string {
    const e = node as Record<string, unknown>;
    switch (e.kind) {
      case 'binary':
        return `[${spell(e.left)}${e.operator}${spell(e.right)}]`;
      case 'negative':
        return `[-${spell(e.of)}]`;
      case 'sqrt':
        return `sqrt${spell(e.of)}`;
      case 'group':
        return `(${spell(e.of)})`;
      default:
        return String(e.text ?? e.name);
    }
  }
  it.each([
    ['a * b', '[a*b]'],
    ['1 + 2 * 3', '[1+[2*3]]'],
    ['9 - 3 - 2', '[[9-3]-2]'],
    ['8 / 4 / 2', '[[8/4]/2]'],
    ['2 ^ 3 ^ 2', '[2^[3^2]]'],
    ['-3 ^ 2', '[-[3^2]]'],
    ['2 ^ -3', '[2^[-3]]'],
    ['-a * -b', '[[-a]*[-b]]'],
    ['(1 + 2) * 3', '[([1+2])*3]'],
    ['sqrt(2) + sqrt (a - b)', '[sqrt2+sqrt[a-b]]'],
    ['a-b', 'a-b'],
    ['5-2', '[5-2]'],
  ])('result = %s', (source, tree) => {
    const line = readLine(`goal result = ${source}`);
    expect(line.errors).toEqual([]);
    expect(line.items).toMatchObject([{ kind: 'goal', register: 'result', from: 0, to: 14 + source.length }]);
    const [goal] = line.items;
    expect(goal.kind === 'goal' && spell(goal.expression)).toBe(tree);
  });

  it('has the columns of its parts', () => {
    expect(readLine('goal counter = -(a + 2) / 7').items).toMatchObject([
      {
        expression: {
          from: 15,
          to: 27,
          left: {
            kind: 'negative',
            from: 15,
            to: 23,
            of: { kind: 'group', from: 16, to: 23, of: { from: 17, to: 22 } },
          },
          right: { from: 26, to: 27 },
        },
      },
    ]);
  });
});
