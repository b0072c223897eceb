/** Runs worked out by a second model of the machine, written apart from this one. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { checkText } from '../marked.js';

type Row = Readonly<Record<string, string | number | boolean>>;
interface Vector {
  readonly seed: number;
  readonly source: string;
  readonly steps: readonly Row[];
  readonly findings: readonly { readonly line: number; readonly code: string }[];
}

const vectors = readFileSync(new URL('../vectors/machine.jsonl', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => JSON.parse(line) as Vector);

const inOrder = (findings: Vector['findings']): string[] => findings.map(({ line, code }) => `${line} ${code}`).sort();

describe('a second model of the machine agrees', () => {
  test('on a hundred runs', () => expect(vectors).toHaveLength(100));

  test.each(vectors)('trial $seed', ({ source, steps, findings }) => {
    const { library, report } = checkText(source);
    const trace = traceOf(library, report);
    expect(trace.sequences).toHaveLength(1);
    const found = trace.sequences[0].steps as unknown as readonly Row[];
    const comparable = found.map((row, i) =>
      Object.fromEntries(Object.keys(steps[i] ?? row).map((field) => [field, row[field]])),
    );
    expect(comparable).toEqual(steps);
    const grave = trace.findings.filter(({ severity }) => severity !== 'hint');
    expect(inOrder(grave)).toEqual(inOrder(findings));
  });
});
