/** What passes and what does not, the one notion of it: nothing is failed that no finding fails, and nothing is lost. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rankOf, SEVERITIES, type Severity, severityOf } from '../../server/sequence/findings.js';
import { verdictsOn } from '../../server/sequence/verdicts.js';
import { anyFileText } from '../grammar/generate.js';
import { type Checked, checkFiles } from '../marked.js';

const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const BROKEN = MACHINE.replace('result 8', 'result 3');

/** Each test with its outcome and what it failed by, on one line. */
function told({ library, report }: Checked, level: Severity = 'error'): string[] {
  const { text, sequences } = verdictsOn(library, report, level);
  const line = (name: string, { outcome, failures }: (typeof sequences)[number]['cases'][number]) =>
    [name, outcome, ...failures.map(({ facts }) => facts.code)].join(' ');
  return [
    ...(text.outcome === 'passed' ? [] : [line('text', text)]),
    ...sequences.flatMap((sequence) => [
      line(sequence.name, sequence),
      ...(sequence.cases.length > 1 ? sequence.cases.map((one, i) => line(`${sequence.name} ${i}`, one)) : []),
    ]),
  ];
}
const toldOf = (text: string, others: Readonly<Record<string, string>> = {}) =>
  told(checkFiles({ 'a.crank': text, ...others }));

describe('a verdict', () => {
  test('is on each case by itself, and what the text says is against all of them', () => {
    const text = `${MACHINE}sequence pots (a = 3) on desk
  case a = 4
  case a = 5
  clear all
  set a
  turn
  expect result 4
`;
    expect(toldOf(text)).toEqual([
      'pots failed reading-differs',
      'pots 0 failed reading-differs',
      'pots 1 passed',
      'pots 2 failed reading-differs',
    ]);
    expect(toldOf(text.replace('expect result 4', 'trun'))).toEqual([
      'pots failed syntax',
      'pots 0 failed syntax',
      'pots 1 failed syntax',
      'pots 2 failed syntax',
    ]);
  });

  test('counts what is as grave as the level, or graver', () => {
    const checked = checkFiles({ 'a.crank': `${MACHINE}sequence pots on desk\n  set 3\n  turn 11\n` });
    expect(told(checked, 'error')).toEqual(['pots passed']);
    expect(told(checked, 'hint')[0]).toMatch(/^pots failed assumes-clear/);
  });

  test('on a sequence that could not be run says by what', () => {
    const on = (name: string) => `sequence pots on ${name}\n  clear all\n`;
    expect(toldOf(BROKEN + on('desk'))).toEqual(['text failed bad-profile', 'pots not-run bad-profile']);
    expect(toldOf(MACHINE + on('disk'))).toEqual(['pots not-run unknown-name']);
    expect(toldOf(`use "b.crank"\n${on('desk')}`, { 'b.crank': BROKEN })).toEqual(['pots not-run bad-profile']);
    const like = `use "b.crank"\nmachine shed like desk\n${on('shed')}`;
    expect(toldOf(like, { 'b.crank': BROKEN })).toEqual(['pots not-run bad-profile']);
    const round = 'machine a like b\nmachine b like a\n';
    expect(toldOf(round + on('a')).at(-1)).toBe('pots not-run sequence-cycle');
    // What is wrong with another machine is no matter of this one.
    expect(toldOf(MACHINE + BROKEN.replace('desk', 'shed') + on('desk'))).toContain('pots passed');
  });

  test('on a file that takes too long names what used it up', () => {
    const long = '  repeat 999 { repeat 98 { note "x" } }\n';
    const many = Array.from({ length: 25 }, (_, i) => `sequence s${i} on desk\n${long}`).join('');
    const lines = toldOf(MACHINE + many);
    expect(lines.filter((line) => line.includes('not-run')).length).toBeGreaterThan(1);
    expect(lines.at(-1)).toBe('s24 not-run too-long');
    expect(lines.filter((line) => line.endsWith('not-run too-long'))).toEqual(
      lines.filter((line) => line.includes('not-run')),
    );
  });

  test('tells two of the same name apart, and leaves to the text what is no matter of a run', () => {
    const twice = `${MACHINE}sequence pots on desk\n  clear all\nsequence pots on desk\n  clear all\n  expect result 1\n`;
    expect(toldOf(twice)).toEqual(['text failed duplicate-name', 'pots passed', 'pots failed reading-differs']);
    expect(toldOf(`${MACHINE}sequence\n  turn\n`)).toEqual(['text failed syntax']);
    expect(toldOf(`${MACHINE}bench "In May" of nobody on desk\n`)).toEqual(['text failed unknown-name']);
  });
});

const SAMPLES = new URL('../../samples/', import.meta.url);
const samples = Object.fromEntries(
  readdirSync(SAMPLES)
    .filter((name) => /\.(?:crank|md)$/.test(name))
    .map((name) => [name, readFileSync(new URL(name, SAMPLES), 'utf8')]),
);

/** A file has a verdict against it where it has a finding of the level, or a sequence was not run; and its parts agree. */
function expectConsistent({ library, report, findings }: Checked): void {
  for (const level of SEVERITIES) {
    const { text, sequences } = verdictsOn(library, report, level);
    const isFound = findings.some(({ severity }) => rankOf(severity) <= rankOf(level));
    const all = [text, ...sequences];
    const isNotRun = sequences.some(({ outcome }) => outcome === 'not-run');
    expect(all.some(({ outcome }) => outcome !== 'passed')).toBe(isFound || isNotRun);
    for (const { outcome, cases, failures } of sequences) {
      expect(cases.some((one) => one.outcome !== 'passed')).toBe(outcome !== 'passed');
      if (outcome === 'not-run') expect(failures.some((one) => severityOf(one) === 'error')).toBe(true);
    }
    const lost = report.findings.filter((one) => !all.some((v) => v.failures.includes(one) || v.rest.includes(one)));
    expect(lost).toEqual([]);
  }
}

test.each(Object.keys(samples))('%s has a verdict against it only where something was found', (name) => {
  expectConsistent(checkFiles({ [name]: samples[name], ...samples }));
});

test('so has any file', () => {
  fc.assert(
    fc.property(anyFileText, anyFileText, (text, other) => {
      expectConsistent(checkFiles({ 'a.crank': text, 'b.crank': other }));
    }),
    { numRuns: 200 },
  );
});
