/** The problem matcher, on what the command line really prints. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { cranknote } from '../cli/program.js';

interface Pattern {
  readonly regexp: string;
  readonly [part: string]: number | string;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}/client/package.json`, 'utf8'));
const [{ patterns }]: [{ patterns: readonly Pattern[] }] = manifest.contributes.problemPatterns;

/** Reads lines as an editor does: the first pattern finds where a problem begins, the next ones its further lines. */
function problemsIn(output: string): Record<string, string>[] {
  const lines = output.split('\n');
  return lines.flatMap((_, from) => {
    const problem: Record<string, string> = {};
    for (const [i, { regexp, ...parts }] of patterns.entries()) {
      const match = new RegExp(regexp).exec(lines[from + i] ?? '');
      if (!match) return [];
      for (const [part, group] of Object.entries(parts)) problem[part] = match[Number(group)];
    }
    return [problem];
  });
}

/** As an editor calls the levels. */
const LEVELS: Readonly<Record<string, string>> = { information: 'info' };

it('finds every finding with its place, level, code and whole message', () => {
  const paths = ['samples/mistakes.crank', 'samples/handbook.md', 'samples/workshop-division.crank'];
  const { findings } = JSON.parse(cranknote(['check', '--format', 'json', ...paths], { cwd: root }).out);
  const found = problemsIn(cranknote(['check', ...paths], { cwd: root }).out);
  expect(findings.length).toBeGreaterThan(20);
  expect(new Set(findings.map(({ severity }: { severity: string }) => severity)).size).toBe(4);
  const expected = findings.map((finding: Record<string, string | number>) => ({
    file: finding.file,
    line: String(finding.line),
    column: String(finding.column),
    severity: LEVELS[finding.severity] ?? finding.severity,
    code: finding.code,
    message: finding.message,
  }));
  const byPlace = (a: object, b: object) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
  const ordered = (all: readonly Record<string, string>[]) =>
    all.map((problem) => Object.fromEntries(Object.entries(problem).sort())).sort(byPlace);
  expect(ordered(found)).toEqual(ordered(expected));
});
