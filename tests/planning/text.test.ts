import { describe, expect, it } from 'vitest';
import { format } from '../../grammar/formatter.js';
import type { NumberSyntax } from '../../grammar/tree.js';
import type { ListLimit, ListRemark } from '../../server/planning/lists.js';
import {
  type Limit,
  METHODS,
  type Plan,
  type PlannedLine,
  type Remark,
  type Topic,
  type WayOut,
} from '../../server/planning/order.js';
import { bodyOf, sectionOf } from '../../server/planning/text.js';
import { planWording } from '../../server/planning/wording/index.js';
import { Library } from '../../server/sequence/library.js';
import { reportFindings } from '../../server/sequence/report.js';

const MACHINE = `machine bench-6
  setting 6
  counter 4
  result 10
`;

const planOf = (lines: readonly PlannedLine[], goal = '24 * 12'): Plan => ({
  lines,
  register: 'result',
  decimals: 0,
  reading: '288',
  figures: 3,
  isExact: true,
  effort: { turns: 3, shifts: 1, levers: 0, cost: 4 },
  written: 0,
  decisions: [],
  goal,
});

const PRODUCT: readonly PlannedLine[] = [
  { step: 'clear all' },
  { step: 'set 24' },
  { step: 'turn 2' },
  { remark: { is: 'write-down', register: 'result', reading: '48' } },
  { step: 'shift right' },
  { step: 'turn' },
  { step: 'expect result 288' },
];

const numberOf = (text: string): NumberSyntax => ({
  kind: 'number',
  text,
  figures: text,
  isValue: false,
  decimals: 0,
  from: 0,
  to: text.length,
});

/** One of each, so that no sentence is left out. */
const REMARKS: readonly ListRemark[] = [
  { is: 'sum-of-products', terms: 3 },
  { is: 'dividend' },
  { is: 'divide' },
  { is: 'half-unit' },
  { is: 'root-climbs' },
  { is: 'write-down', register: 'counter', reading: '3.14' },
  { is: 'building-up', dividend: '355' },
  ...METHODS.map((method): ListRemark => ({ is: 'root', method, of: '2' })),
  { is: 'first-guess', guess: '1.4' },
  { is: 'power', base: '2.5', exponent: 2, chain: [2] },
  { is: 'power', base: '2.5', exponent: 7, chain: [2, 3, 6, 7] },
  { is: 'complement', of: '42' },
  { is: 'fair-copy', decimals: 1 },
  { is: 'columns-apart', places: 6 },
  { is: 'points-moved', places: 2, over: '355', under: '1.13' },
  { is: 'pass', pass: 1, of: 2 },
  { is: 'rows', rows: [7], columns: ['x'] },
  { is: 'rows', rows: [1, 2, 3, 5, 6, 9], columns: ['x', 'y'] },
  { is: 'rows-below-zero' },
  { is: 'counter-ahead' },
  { is: 'standing', register: 'result', from: 1, to: 6, sum: 'x^2', times: 1, decimals: 4 },
  { is: 'standing', register: 'counter', from: 7, to: 7, sum: 'x*y', times: 2, decimals: 0 },
  { is: 'read-off', sums: [{ name: 'x', value: '7.75' }] },
];

const LIMITS: readonly Limit[] = [
  ...(['setting', 'counter', 'result', 'carriage'] as const).map(
    (register): Limit => ({ is: 'places', register, has: 8, needs: 9 }),
  ),
  { is: 'below-zero', register: 'counter' },
  { is: 'runs-over', register: 'result' },
  { is: 'reach', places: 10 },
  ...(['no-counter', 'cannot-subtract', 'quotient-as-complement', 'parameters', 'not-met'] as const).map(
    (is): Limit => ({ is }),
  ),
  ...METHODS.map((method): Limit => ({ is: 'method', method })),
  ...(['divides-by-zero', 'root-of-negative', 'power-not-whole', 'too-large', 'unknown-name'] as const).map(
    (why): Limit => ({ is: 'no-value', why }),
  ),
];
const LIST_LIMITS: readonly ListLimit[] = [
  { is: 'rows', has: 3_000, most: 2_000 },
  { is: 'sums', has: 13, most: 12 },
  { is: 'steps', has: 200_000, most: 100_000 },
  { is: 'turns', has: 2_000_000, most: 1_000_000 },
  { is: 'no-rows' },
  { is: 'no-sums' },
  { is: 'short-row', row: 3, has: 1, needs: 2 },
  { is: 'not-a-number', row: 3, column: 'x', text: 'two' },
  { is: 'not-a-sum', text: 'x + 1' },
  { is: 'unknown-column', name: 'z', columns: ['x', 'y'] },
  { is: 'too-few-decimals', has: 1, needs: 2 },
];
const WAYS_OUT: readonly WayOut[] = [
  { is: 'fewer-decimals', decimals: 0 },
  { is: 'fewer-decimals', decimals: 3 },
  { is: 'split', number: '123456', parts: ['123000', '456'] },
];
const TOPICS: readonly Topic[] = ['layout', 'division', 'root', 'power', 'product', 'form', 'list'];

describe.each(['en', 'de'])('a plan as text, %s', (locale) => {
  const wording = planWording(locale);

  it('is a sequence as the formatter leaves it, in which nothing is found', () => {
    const lines = sectionOf(
      planOf(PRODUCT),
      { name: 'trays', title: 'Two "dozen"\ntrays', machine: 'bench-6' },
      wording,
    );
    const text = `${MACHINE}\n${lines.join('\n')}\n`;
    expect(format(text)).toBe(text);
    expect(lines.slice(0, 4)).toEqual([
      'sequence trays "Two \\"dozen\\" trays" on bench-6',
      '  goal result = 24 * 12',
      '',
      '  clear all',
    ]);
    const library = new Library();
    library.set('trays.crank', text);
    const report = library.check('trays.crank');
    expect(reportFindings(library, report)).toEqual([]);
    expect(report.sequences[0].runs[0].goals).toMatchObject([{ reading: '288', met: 'exact' }]);
  });

  it('tells every remark in a note that can be read', () => {
    const lines = bodyOf(planOf(REMARKS.map((remark) => ({ remark: remark as Remark }))), wording);
    expect(lines).toHaveLength(REMARKS.length);
    const library = new Library();
    library.set('notes.crank', `${MACHINE}sequence notes on bench-6\n${lines.join('\n')}\n`);
    expect(reportFindings(library, library.check('notes.crank'))).toEqual([]);
    // Each says something of its own.
    expect(new Set(lines).size).toBe(REMARKS.length);
    for (const line of lines) expect(line).toMatch(/^ {2}note "[A-ZÄÖÜ0-9].*\."$/);
  });

  it('has a sentence for every limit and way out, and a name for every method and topic', () => {
    const sentences = [...[...LIMITS, ...LIST_LIMITS].map(wording.limitText), ...WAYS_OUT.map(wording.wayOutText)];
    expect(new Set(sentences).size).toBe(sentences.length);
    for (const sentence of sentences) {
      expect(sentence).toMatch(/^[A-ZÄÖÜ0-9“„].*\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|\[object/);
    }
    const names = [
      ...METHODS.map((method) => wording.methodName[method]),
      ...TOPICS.map((about) => wording.topicName[about]),
    ];
    expect(new Set(names).size).toBe(METHODS.length + TOPICS.length);
  });
});

describe('the text of a plan', () => {
  const wording = planWording('en');

  it('indents what is repeated, in the section and in the body alone', () => {
    const plan = planOf([{ step: 'clear all' }, { step: 'repeat 2 {' }, { step: 'turn' }, { step: '}' }]);
    const body = ['  clear all', '  repeat 2 {', '    turn', '  }'];
    expect(bodyOf(plan, wording)).toEqual(body);
    expect(sectionOf(plan, { name: 's' }, wording)).toEqual(['sequence s', '  goal result = 24 * 12', '', ...body]);
  });

  it('names parameters with their defaults', () => {
    const parameters = new Map([
      ['a', numberOf('24')],
      ['b', numberOf('12')],
    ]);
    const [header, goal] = sectionOf(planOf([], 'a * b'), { name: 'product', parameters, machine: 'bench-6' }, wording);
    expect(header).toBe('sequence product (a = 24, b = 12) on bench-6');
    expect(goal).toBe('  goal result = a * b');
  });

  it('is English where a language is not known, German for its variants', () => {
    expect(planWording('fr').limitText({ is: 'no-counter' })).toBe('The machine has no counter.');
    expect(planWording('de-AT').limitText({ is: 'no-counter' })).toBe('Die Maschine hat kein Umdrehungszählwerk.');
    expect(planWording(undefined).headings.cost).toBe('cost');
  });

  it('says of a counter without places that there is none', () => {
    const none = wording.limitText({ is: 'places', register: 'counter', has: 0, needs: 3 });
    expect(none).toBe(wording.limitText({ is: 'no-counter' }));
  });

  it('names ways of working, and takes others as they are', () => {
    expect(wording.wayText('points 2 1 3')).toBe('decimals: setting 2, counter 1, result 3');
    expect(wording.wayText('restoring')).toBe('division with restoring');
    expect(wording.wayText('set x at 7 and y, crank x')).toBe('set x at 7 and y, crank x');
    const german = planWording('de');
    expect(german.wayText('set x at 7 and y, crank x')).toBe('x ab Stelle 7 und y einstellen, mit x kurbeln');
    expect(german.wayText('set x, turn')).toBe('x einstellen, einmal kurbeln');
  });

  it('tells rows by the first and the last that follow one another', () => {
    const rows = (...numbers: number[]) => wording.remarkText({ is: 'rows', rows: numbers, columns: ['x'] });
    expect(rows(1, 2, 3, 5, 6, 9)).toBe('Rows 1 to 3, 5, 6 and 9: x.');
    expect(rows(4)).toBe('Row 4: x.');
    expect(rows(...Array.from({ length: 900 }, (_, i) => 2 * i)).length).toBeLessThan(140);
  });

  it('cuts long names and numbers, so that a note stays a line', () => {
    const long = 'x'.repeat(3_000);
    expect(wording.remarkText({ is: 'rows', rows: [1], columns: [long, long] }).length).toBeLessThan(140);
    expect(wording.remarkText({ is: 'building-up', dividend: '9'.repeat(3_000) }).length).toBeLessThan(140);
  });
});
