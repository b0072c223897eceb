/** Lines put together: sections, what stands between braces, and what is taken over from an earlier tree. */
import { describe, expect, it } from 'vitest';
import { DEEPEST_BRACES, Parser, parse, splitLines } from '../../grammar/sections.js';
import type { Section, Step } from '../../grammar/tree.js';
import { errorsIn } from './tree.js';

const only = (text: string): Section => {
  const { sections } = parse(text);
  expect(sections).toHaveLength(1);
  return sections[0].section;
};

/** Steps as their words, bodies in brackets, each with its line; `!` where the closing brace is missing. */
const outline = (steps: readonly Step[]): string =>
  steps
    .map(({ line, syntax, body, close }) => {
      const inner = body ? `[${outline(body)}]${close ? close.line : '!'}` : '';
      return `${syntax.kind}${line}${inner}`;
    })
    .join(' ');
const stepsOf = (body: string): string => {
  const section = only(`sequence s\n${body}`);
  return section.kind === 'sequence' ? outline(section.steps) : section.kind;
};
/** Line in the file, text under the error, and what is wrong. */
const errors = (text: string) => errorsIn(text).map(({ line, under, problem }) => [line, under, problem.is]);

describe('splitLines', () => {
  it('parts at line ends of any kind', () => {
    expect(splitLines('a\nb\r\nc\rd\r\re\n')).toEqual(['a', 'b', 'c', 'd', '', 'e', '']);
    expect(splitLines('')).toEqual(['']);
    expect(splitLines('a\u2028b\u0085c\vd')).toEqual(['a\u2028b\u0085c\vd']);
  });
});

describe('sections', () => {
  const text = [
    '# Pots',
    '',
    'use "machines.crank"',
    'machine m',
    '  setting 10; bell',
    '  # a remark',
    'sequence s (a = 3) on m',
    '  case a = 4',
    '  goal result = a',
    '  set a; turn',
    'bench "After oiling" of s on m',
    '  found 1 result 3',
    '  found total counter 1 bell',
  ].join('\n');
  const { sections, lineCount } = parse(text);

  it('run from their header to the next', () => {
    expect(lineCount).toBe(13);
    expect(sections.map(({ section, line }) => [section.kind, line, section.lines.length])).toEqual([
      ['preamble', 0, 2],
      ['use', 2, 1],
      ['machine', 3, 3],
      ['sequence', 6, 4],
      ['bench', 10, 3],
    ]);
    expect(sections.flatMap(({ section }) => section.errors)).toEqual([]);
    expect(sections.map(({ section }) => section.header?.kind)).toEqual([
      undefined,
      'use',
      'machine',
      'sequence',
      'bench',
    ]);
  });

  it('hold their items, each with its line from the header', () => {
    const [, , { section: machine }, { section: sequence }, { section: bench }] = sections;
    expect(machine).toMatchObject({
      entries: [
        { line: 1, syntax: { kind: 'setting', from: 2, to: 12 } },
        { line: 1, syntax: { kind: 'bell', from: 14, to: 18 } },
      ],
    });
    expect(sequence).toMatchObject({
      cases: [{ line: 1, syntax: { kind: 'case' } }],
      goals: [{ line: 2, syntax: { kind: 'goal' } }],
      steps: [
        { line: 3, syntax: { kind: 'set' } },
        { line: 3, syntax: { kind: 'turn' } },
      ],
    });
    expect(bench).toMatchObject({
      found: [
        { line: 1, syntax: { which: { text: '1' } } },
        { line: 2, syntax: { which: { name: 'total' }, items: [{}, { kind: 'bell' }] } },
      ],
    });
  });

  it('are none in an empty file but the blank line itself', () => {
    expect(parse('')).toMatchObject({
      lineCount: 1,
      sections: [{ line: 0, section: { kind: 'preamble', errors: [] } }],
    });
  });

  it('begin behind a byte order mark', () => {
    expect(parse('\ufeffmachine m\nsetting 5').sections).toMatchObject([
      { line: 0, section: { kind: 'machine', header: { from: 1, to: 10 }, entries: [{}], errors: [] } },
    ]);
  });

  it('keep what stands before the first as errors', () => {
    expect(errors('turn\n# x\n\nmachine m')).toEqual([[0, 'turn', 'no-section']]);
    expect(errors('use "x"\nturn')).toEqual([[1, 'turn', 'no-section']]);
  });
});

describe('repeat', () => {
  it.each([
    ['repeat 2 { turn }', 'repeat1[turn1]1'],
    ['repeat 2 {\nturn\nset 5\n}\nturn', 'repeat1[turn2 set3]4 turn5'],
    ['repeat 2 { turn\n} turn', 'repeat1[turn1]2 turn2'],
    ['repeat 2 {\nrepeat 3 { turn } set 5\n}', 'repeat1[repeat2[turn2]2 set2]3'],
    ['repeat 2 { repeat 3 { turn\n}}', 'repeat1[repeat1[turn1]2]2'],
    ['repeat 2 {}', 'repeat1[]1'],
    ['repeat 2 { # {\nturn # }\n}', 'repeat1[turn2]3'],
    ['repeat 2 { note "}" }', 'repeat1[note1]1'],
  ])('%j', (body, steps) => {
    expect(stepsOf(body)).toBe(steps);
    expect(errors(`sequence s\n${body}`)).toEqual([]);
  });

  it('goals and cases count wherever they stand', () => {
    expect(only('sequence s\nrepeat 2 { goal result = 5\ncase a = 1 }')).toMatchObject({
      goals: [{ line: 1 }],
      cases: [{ line: 2 }],
      steps: [{ body: [], close: { line: 2, syntax: { from: 11, to: 12 } } }],
    });
  });

  it('that is not closed ends with its section and says where it began', () => {
    const text = 'sequence s\nrepeat 2 {\n  repeat rows { turn\nsequence t\nturn';
    expect(errors(text)).toEqual([
      [1, 'repeat 2', 'unclosed-brace'],
      [2, 'repeat rows', 'unclosed-brace'],
    ]);
    const [{ section: first }, { section: second }] = parse(text).sections;
    expect(first.kind === 'sequence' && outline(first.steps)).toBe('repeat1[repeat2[turn2]!]!');
    expect(second.kind === 'sequence' && outline(second.steps)).toBe('turn1');
  });

  it('that cannot be read keeps its steps together', () => {
    expect(stepsOf('repaet 2 { turn }\nset 5')).toBe('repeat1[turn1]1 set2');
    expect(errors('sequence s\nrepaet 2 { turn }\nset 5')).toEqual([[1, 'repaet', 'not-a-step']]);
    expect(errors('sequence s\nrepeat { turn }')).toEqual([[1, '{', 'form']]);
    expect(errors('sequence s\n{ turn }')).toEqual([[1, '{', 'not-a-step']]);
  });

  it('goes so deep and no deeper, with one error', () => {
    const nested = (depth: number) => `sequence s\n${'repeat 2 {\n'.repeat(depth)}turn\n${'}\n'.repeat(depth)}`;
    expect(errors(nested(DEEPEST_BRACES))).toEqual([]);
    expect(errors(nested(DEEPEST_BRACES + 5))).toEqual([[DEEPEST_BRACES + 1, 'repeat 2', 'too-deep']]);
  });
});

describe('a stray brace', () => {
  it.each([
    ['sequence s\nturn }\nturn', 1],
    ['sequence s\nrepeat 2 { turn } }', 1],
    ['machine m\nbell }', 1],
    ['bench "B" of s on m\n}', 1],
    ['}\nmachine m', 0],
    ['use "x"\n}', 1],
  ])('is an error wherever it stands: %j', (text, line) => {
    expect(errors(text)).toEqual([[line, '}', 'stray-brace']]);
  });

  it('costs nothing but itself', () => {
    expect(stepsOf('turn } set 5')).toBe('turn1 set1');
  });
});

describe('in a section that knows no repeat', () => {
  it.each([
    'machine m\nbell {\nsetting 5',
    'machine m\nrepeat 2 {\nsetting 5',
    'machine m\n{\nsetting 5',
    'machine {\nsetting 5',
  ])('an opening brace makes no line of a machine: %j', (text) => {
    const section = only(text);
    expect(section.errors).not.toEqual([]);
    expect(section.kind === 'machine' && section.entries.map(({ syntax }) => syntax.kind)).toEqual(['setting']);
  });
  it('an opening brace makes no record', () => {
    const section = only('bench "B" of s on m\nrepeat 2 {\nfound 1 bell');
    expect(section.kind === 'bench' && section.found.map(({ syntax }) => syntax.kind)).toEqual(['found']);
  });
});

describe('a tree after an edit', () => {
  const before = ['# pots', 'machine m', 'setting 5', 'sequence s', 'turn', 'sequence t', 'turn', 'set 5'];
  const objects = (parser: Parser, lines: readonly string[], earlier?: ReturnType<typeof parse>) =>
    parser.parse(lines.join('\n'), earlier);

  it('takes over sections that only moved', () => {
    const parser = new Parser();
    const first = objects(parser, before);
    const second = objects(parser, ['# new', ...before], first);
    expect(second.sections.map(({ line }) => line)).toEqual([0, 2, 4, 6]);
    expect(second.sections[0].section).not.toBe(first.sections[0].section);
    for (const at of [1, 2, 3]) expect(second.sections[at].section).toBe(first.sections[at].section);
  });

  it('makes the section anew that was touched, and no other', () => {
    const parser = new Parser();
    const first = objects(parser, before);
    const second = objects(parser, before.with(4, 'turn 2'), first);
    expect(second.sections.map(({ section }, i) => section === first.sections[i].section)).toEqual([
      true,
      true,
      false,
      true,
    ]);
    const [, , touched] = second.sections;
    expect(touched.section).toMatchObject({ steps: [{ syntax: { count: { figures: '2' } } }] });
    expect(touched.section.lines[0]).toBe(first.sections[2].section.lines[0]);
  });

  it('takes over sections that changed places', () => {
    const parser = new Parser();
    const first = objects(parser, before);
    const second = objects(parser, [...before.slice(0, 3), ...before.slice(5), ...before.slice(3, 5)], first);
    expect(second.sections[2].section).toBe(first.sections[3].section);
    expect(second.sections[3].section).toBe(first.sections[2].section);
  });

  it('does not make one of two sections with the same text', () => {
    const parser = new Parser();
    const lines = ['sequence s', 'turn', 'sequence s', 'turn'];
    const first = objects(parser, lines);
    expect(first.sections[0].section).not.toBe(first.sections[1].section);
    const second = objects(parser, lines, first);
    expect(second.sections[0].section).not.toBe(second.sections[1].section);
    expect(second).toEqual(first);
  });

  it('leaves the earlier tree as it was', () => {
    const parser = new Parser();
    const first = objects(parser, before);
    const copy = structuredClone(first);
    objects(parser, before.with(2, 'setting 6').with(4, 'repeat 2 {'), first);
    expect(first).toEqual(copy);
  });

  it('shares the object of equal lines, between sections too', () => {
    const { sections } = parse(before.join('\n'));
    expect(sections[2].section.lines[1]).toBe(sections[3].section.lines[1]);
    expect(sections[2].section.lines[1].items[0]).toBe(sections[3].section.lines[1].items[0]);
  });
});
