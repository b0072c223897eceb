/** The runner against the slow model, on random machines, row by row. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { checkText } from '../marked.js';
import { trials, trialText } from './random.js';
import { SlowMachine } from './slow-model.js';

const MISHAPS = ['digits-off-end', 'carry-short', 'counter-overflow', 'counter-underflow', 'turn-not-counted'];

test('both show the same after every step, and notice the same mishaps', () => {
  const seen = new Set<string>();
  let rowsSeen = 0;
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      const text = trialText(plan, deeds);
      const { library, report, findings } = checkText(text);
      const slow = new SlowMachine(plan);
      slow.run(deeds);
      const [trace] = traceOf(library, report).sequences;
      const rows = trace.steps.map(({ line: _line, step: _step, points: _points, ...shown }) => shown);
      expect(rows).toEqual(slow.rows);
      const first = text.split('\n').indexOf('sequence trial on stores') + 2;
      const mishaps = findings
        .filter(({ code }) => MISHAPS.includes(code))
        .map(({ line, code }) => `${line - first} ${code}`);
      expect(mishaps.sort()).toEqual([...slow.mishaps].sort());
      for (const { code } of findings) seen.add(code);
      rowsSeen += rows.length;
    }),
    { numRuns: 1_500 },
  );
  expect(rowsSeen).toBeGreaterThan(5_000);
  // The machines and sequences are such that a good part of what can happen does happen.
  for (const code of [...MISHAPS, 'result-overdraw', 'result-overflow', 'never-overdraws']) {
    expect(seen).toContain(code);
  }
});
