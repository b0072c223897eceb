/** Fences in Markdown: findings stand at the page's own lines and columns. */
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { checkFiles } from '../marked.js';

const MACHINE = ['machine stores', '  setting 4', '  counter 4', '  result 8'];

/** Findings as line, column and code. */
function found(lines: readonly string[], end = '\n', others = {}): string[] {
  const { findings } = checkFiles({ 'page.md': lines.join(end), ...others });
  return findings.map(({ line, column, code }) => `${line}:${column} ${code}`);
}

describe('findings stand where the page has them', () => {
  const plain = [
    '# The stores',
    '',
    '```crank',
    ...MACHINE,
    'sequence trial on stores',
    '  clear all',
    '  turn',
    '```',
    '',
  ];

  test('in a plain fence, whatever the line ends', () => {
    for (const end of ['\n', '\r\n', '\r']) expect(found(plain, end)).toEqual(['10:3 idle-turn']);
  });
  test('in a fence of tildes, with words behind crank, without an end', () => {
    const tildes = plain.map((line) => line.replace('```crank', '~~~~ crank title="Stores"').replace(/^```$/, '~~~~'));
    expect(found(tildes)).toEqual(['10:3 idle-turn']);
    expect(found(plain.slice(0, -2))).toEqual(['10:3 idle-turn']);
  });
  test('in a list', () => {
    const list = plain.map((line, i) => (i < 2 ? line : i === 2 ? `1. ${line}` : `   ${line}`));
    expect(found(list)).toEqual(['10:6 idle-turn']);
  });
  test('in a quotation, and in a list in a quotation', () => {
    const quoted = plain.map((line, i) => (i < 2 ? line : `> ${line}`));
    expect(found(quoted)).toEqual(['10:5 idle-turn']);
    const both = plain.map((line, i) => (i < 2 ? line : i === 2 ? `> - ${line}` : `>   ${line}`));
    expect(found(both)).toEqual(['10:7 idle-turn']);
    const twice = plain.map((line, i) => (i < 2 ? line : `> > ${line}`));
    expect(found(twice)).toEqual(['10:7 idle-turn']);
  });
  test('a > that belongs to the fence is no quotation mark', () => {
    const stray = plain.map((line) => line.replace('  turn', '> turn'));
    expect(found(stray)).toEqual(['10:1 syntax']);
  });
});

describe('which fences count', () => {
  test('a sequence goes on in the next fence', () => {
    const page = [
      '```crank',
      ...MACHINE,
      'sequence trial on stores',
      '  clear all',
      '```',
      'First set it:',
      '```crank',
      '  set 5',
      '  turn 12',
      '  expect result 61',
      '```',
    ];
    expect(found(page)).toEqual(['12:3 many-turns', '12:3 shorter-sequence', '13:3 reading-differs']);
    const { library, report } = checkFiles({ 'page.md': page.join('\n') });
    expect(traceOf(library, report).sequences[0].steps.map(({ line }) => line)).toEqual([7, 11, 12, 13]);
  });
  test('other fences, code spans and prose do not', () => {
    const page = [
      '```',
      'turn',
      '```',
      '```cranked',
      'turn',
      '```',
      '`turn`',
      '',
      '    turn',
      '',
      'machine stores',
      '<!--',
      '```crank',
      'turn',
      '```',
      '-->',
    ];
    expect(found(page)).toEqual([]);
  });
  test('an empty fence', () => expect(found(['```crank', '```', '```crank', '', '```'])).toEqual([]));
  test('use leads from a page to a file and from a file to a page', () => {
    const page = ['```crank', 'use "stores.crank"', 'sequence trial', '  clear all', '```'];
    expect(found(page, '\n', { 'stores.crank': MACHINE.join('\n') })).toEqual([]);
    const { findings } = checkFiles({
      'a.crank': 'use "stores.md"\nsequence trial on stores\n  clear all\n',
      'stores.md': ['# Machines', '```crank', ...MACHINE, '```'].join('\n'),
    });
    expect(findings).toEqual([]);
  });
});
