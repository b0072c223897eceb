/** How a run ends: levers left engaged, registers taken for clear, and the limits of a run. */
import { describe, expect, test } from 'vitest';
import { MOST_STEPS } from '../../server/sequence/run.js';
import { traceOf } from '../../server/sequence/trace.js';
import { checkText, expectMarked } from '../marked.js';
import { cranked, machine, raw } from './machines.js';

const traced = ({ library, report }: ReturnType<typeof expectMarked>) => traceOf(library, report).sequences;

describe('what the machine is left with, and begins with', () => {
  test('everything that is engaged is told at the last step', () => {
    const { findings } = expectMarked(
      cranked(
        'full',
        `mode subtract
         count minus
         auto-clear on
         auto-divide on #! left-engaged`,
      ),
    );
    expect(findings[0].message).toMatch(/subtract.*minus.*auto-clear.*auto-divide/s);
    expect(findings[0].related).toHaveLength(4);
  });
  test('not where the run broke off', () => {
    expectMarked(
      cranked(
        'full',
        '  mode subtract\n  turn until overdraw #! never-overdraws idle-turn many-turns counter-underflow',
      ),
    );
  });
  test('a register is assumed clear once, and not after it was set by hand', () => {
    const { findings } = expectMarked(
      raw(
        'full',
        `set 5
         turn #! assumes-clear
         turn
         expect result 10 counter 2`,
      ),
    );
    expect(findings[0].message).toMatch(/counter and result/);
    expectMarked(
      raw(
        'full',
        `dial result 5
         expect result 5
         expect counter 0 #! assumes-clear
         ask counter`,
      ),
    );
    expectMarked(raw('full', '  clear result counter\n  turn #! assumes-clear idle-turn'));
    expectMarked(
      raw(
        'full',
        `clear setting
         transfer counter #! assumes-clear
         expect counter 0`,
      ),
    );
    expectMarked(
      raw(
        'full',
        `shift right
         mode subtract
         mode add
         note "Nothing is read."`,
      ),
    );
    expectMarked(
      raw(
        'adder',
        `clear result
         set 5
         turn`,
      ),
    );
  });
  test('a step that could not clear clears nothing', () => {
    expectMarked(raw('reverse', '  dial result 5 #! not-on-this-machine\n  expect result 0 #! assumes-clear'));
  });
});

describe('limits', () => {
  test('never-overdraws ends the run: no later readings, goals or hints', () => {
    const checked = expectMarked(
      cranked(
        'signed',
        `goal result = 1
         turn back until overdraw #! never-overdraws idle-turn many-turns counter-overflow
         expect result 99`,
      ),
    );
    expect(traced(checked)[0].steps.map(({ step }) => step)).toEqual(['clear all', 'turn back until overdraw']);
    expect(traced(checked)[0]).toMatchObject({ goals: [], effort: { turns: 1_000 } });
  });
  test('an adding turn until overdraw moves nothing, and the run goes on', () => {
    expectMarked(
      cranked(
        'signed',
        `set 5
         turn until overdraw #! never-overdraws
         expect result 1 #! reading-differs`,
      ),
    );
  });
  test('never-stops ends the run', () => {
    expectMarked(
      cranked(
        'full',
        `mode subtract
         auto-divide on
         turn until stop #! never-stops counter-underflow
         expect result 99`,
      ),
    );
    expectMarked(
      cranked(
        'full',
        `set 1
         turn until stop #! never-stops
         expect result 1 #! reading-differs`,
      ),
    );
  });
  test('a hundred thousand steps', () => {
    const { report } = expectMarked(
      cranked('reverse', '  repeat 500 { repeat 999 { shift right; shift left } } #! too-long\n  set 5'),
    );
    const [run] = report.sequences[0].runs;
    expect(run.tape.length).toBe(100_000);
    expect(run.brokeOff).toBe(true);
  });
  test('a million turns', () => {
    const { findings } = expectMarked(
      cranked('reverse', '  set 1\n  repeat 999 { repeat 2 { turn 999 } } #! too-long many-turns counter-overflow'),
    );
    expect(findings.find(({ code }) => code === 'too-long')?.message).toContain('1,000,000 turns');
  });
  test('sequences that run sequences, 32 deep and no deeper', () => {
    const chain = (depth: number) =>
      `${machine('reverse')}sequence bed-0 on stores\n  clear all\n${Array.from({ length: depth }, (_, i) => `sequence bed-${i + 1} on stores\n  run bed-${i}\n`).join('')}`;
    expectMarked(chain(32));
    const { findings } = expectMarked(`${chain(32)}sequence bed-33 on stores\n  run bed-32 #! too-long\n`);
    expect(findings[0].sequence).toBe('bed-33');
  });
  test('sequences that run nothing, each twice, are cut off like any others', () => {
    // Doubled at every level: 32 levels would take hours and all memory, 18 show it in a second.
    const doubled = Array.from({ length: 18 }, (_, i) => {
      return `sequence bed-${i + 1} on stores\n  run bed-${i}\n  run bed-${i}\n`;
    });
    const { report } = checkText(`${machine('reverse')}sequence bed-0 on stores\n${doubled.join('')}`);
    const last = report.sequences.at(-1)?.runs[0];
    expect(last?.tape.frames.length).toBeLessThanOrEqual(2 * MOST_STEPS);
    expect(last?.brokeOff).toBe(true);
  });
});
