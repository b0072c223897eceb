/** What the formatter does to a file, by example. */
import { describe, expect, it } from 'vitest';
import { format, formatLines } from '../../grammar/formatter.js';
import { print, printExpression } from '../../grammar/printer.js';
import { parse } from '../../grammar/sections.js';
import { readLine } from './tree.js';

describe('a whole file', () => {
  it('stands at the margin and two blanks in, with its own blank lines and comments', () => {
    const text = [
      '#   Panes of a roof',
      '',
      '',
      '   use   "machines.crank"   # the stores',
      'machine roof "For roofs"   like   m',
      'setting 10;counter  8   signed',
      '',
      '\t# a remark',
      'sequence panes(rows=34,panes=2.5)on roof',
      '    case rows=56 ,panes=1_2',
      'goal result=rows*(panes+-2)^2',
      '      repeat 3{',
      'turn back 2;shift   right half# why',
      '# inside',
      '  }',
      'expect result - 42 as total',
      '# the end of it',
    ].join('\n');
    expect(format(text)).toBe(
      [
        '#   Panes of a roof',
        '',
        '',
        'use "machines.crank"  # the stores',
        'machine roof "For roofs" like m',
        '  setting 10; counter 8 signed',
        '',
        '  # a remark',
        'sequence panes (rows = 34, panes = 2.5) on roof',
        '  case rows = 56, panes = 1_2',
        '  goal result = rows * (panes + -2) ^ 2',
        '  repeat 3 {',
        '    turn back 2; shift right half  # why',
        '    # inside',
        '  }',
        '  expect result -42 as total',
        '# the end of it',
        '',
      ].join('\n'),
    );
  });

  it('keeps a comment at the margin before the next section, and moves one that stands in a body', () => {
    const text = 'sequence s\nturn\n# in the body\nturn\n\n# about t\nsequence t\nturn\n # still in t\nsequence u\n';
    expect(format(text)).toBe(
      'sequence s\n  turn\n  # in the body\n  turn\n\n# about t\nsequence t\n  turn\n  # still in t\nsequence u\n',
    );
  });
});

describe('comments behind neighbouring lines', () => {
  it('stand under one another, a line without a comment parting them', () => {
    const text = 'sequence s # area\nturn # one\nshift right 2 # two\nturn\nset 5 # three\n';
    expect(format(text)).toBe(
      'sequence s       # area\n  turn           # one\n  shift right 2  # two\n  turn\n  set 5  # three\n',
    );
  });
});

describe('a line', () => {
  const inSequence = (line: string) => format(`sequence s\n${line}\n`).split('\n')[1];
  it.each([
    ["set 12_480.5 at 3 and 1'000", "  set 12_480.5 at 3 and 1'000"],
    ['set 007', '  set 007'],
    ['turn;;shift right ; ', '  turn; shift right'],
    ['repeat 2{turn;set 5}turn', '  repeat 2 { turn; set 5 } turn'],
    ['repeat 2 { repeat 3 { turn }}', '  repeat 2 { repeat 3 { turn } }'],
    ['repeat 2 {}', '  repeat 2 { }'],
    ['run panes', '  run panes'],
    ['run panes()', '  run panes'],
    ['run panes(5,rows)', '  run panes (5, rows)'],
    ['note   "two  blanks \\" ; # stay"', '  note "two  blanks \\" ; # stay"'],
    ['turn#why  \t', '  turn  #why'],
    ['goal result=-a*sqrt ( 5 )-2^3^-1', '  goal result = -a * sqrt(5) - 2 ^ 3 ^ -1'],
    ['goal result = a -b', '  goal result = a - b'],
    ['goal result = a-b', '  goal result = a-b'],
    ['points  setting 1  result d', '  points setting 1 result d'],
    ['dial result 5 at 2', '  dial result 5 at 2'],
    ['divide   to 2', '  divide to 2'],
    ['\t \u00a0', ''],
    [';', ''],
  ])('%j', (line, formatted) => {
    expect(inSequence(line)).toBe(formatted);
  });

  it.each(['tunr   5', '   set 5 ;  tunr;turn#x', '\tnote  "open', 'set  .5  ', '   % \t', 'repaet  2{'])(
    'that is broken stays as it is: %j',
    (line) => {
      expect(inSequence(line)).toBe(line);
    },
  );

  it('that is broken still opens and closes braces for the lines below', () => {
    expect(format('sequence s\nrepaet 2 {\nturn\n}\nturn\n')).toBe('sequence s\nrepaet 2 {\n    turn\n  }\n  turn\n');
  });

  it('that closes what was not open goes no further out than the body', () => {
    expect(format('sequence s\n}\n}\nturn\n')).toBe('sequence s\n  }\n  }\n  turn\n');
  });
});

describe('line ends', () => {
  it.each([
    ['sequence s\r\nturn\r\n', 'sequence s\r\n  turn\r\n'],
    ['sequence s\r\nturn', 'sequence s\r\n  turn\r\n'],
    ['sequence s\rturn\r', 'sequence s\r  turn\r'],
    ['sequence s\nturn\r\nset 5\rturn', 'sequence s\n  turn\r\n  set 5\r  turn\n'],
    ['sequence s', 'sequence s\n'],
    ['sequence s\n\n\n', 'sequence s\n\n\n'],
    ['sequence s\n   ', 'sequence s\n'],
    ['', ''],
    ['\n', '\n'],
  ])('%j', (text, formatted) => {
    expect(format(text)).toBe(formatted);
  });

  it('a blank line between a lone CR and a lone LF does not make one line end of them', () => {
    const formatted = format('sequence s\r\t\nturn\n');
    expect(parse(formatted).lineCount).toBe(4);
    expect(format(formatted)).toBe(formatted);
  });

  it('a byte order mark stays, once, and hides no section', () => {
    expect(format('\ufeffsequence s\nturn')).toBe('\ufeffsequence s\n  turn\n');
    expect(format('\ufeff')).toBe('\ufeff');
  });
});

describe('formatLines', () => {
  it('gives as many lines as there were', () => {
    expect(formatLines(parse('\nsequence s\n\nturn'))).toEqual(['', 'sequence s', '', '  turn']);
  });
});

describe('print', () => {
  it('writes a single item, and a name in composed form', () => {
    expect(readLine('turn  5;run  gro\u0308sse').items.map(print)).toEqual(['turn 5', 'run gr\u00f6sse']);
    expect(readLine('phrase  turn   back "x"', 'machine').items.map(print)).toEqual(['phrase turn back "x"']);
    const { header } = readLine('bench  "B" of  s on m', 'bench');
    expect(header && print(header)).toBe('bench "B" of s on m');
  });

  it('writes an expression with its own parentheses', () => {
    const [goal] = readLine('goal result = ((a)+ -b)/2').items;
    expect(goal.kind === 'goal' && printExpression(goal.expression)).toBe('((a) + -b) / 2');
  });
});
