/** `repeat`, `run` and cases. */
import { describe, expect, test } from 'vitest';
import { traceOf } from '../../server/sequence/trace.js';
import { expectMarked } from '../marked.js';
import { cranked, machine } from './machines.js';

const baskets = (header: string, steps: string): string => `sequence baskets ${header} on stores\n${steps}\n`;
const traced = ({ library, report }: ReturnType<typeof expectMarked>) => traceOf(library, report).sequences;

describe('repeat', () => {
  test('its steps are opened out, each with the line on which it is written', () => {
    const checked = expectMarked(
      cranked(
        'reverse',
        `set 5
         repeat 2 {
           turn
           shift right
         }
         turn`,
      ),
    );
    const [{ steps, effort }] = traced(checked);
    expect(steps.map(({ line, step }) => `${line} ${step}`)).toEqual([
      '6 clear all',
      '7 set 5',
      '9 turn',
      '10 shift right',
      '9 turn',
      '10 shift right',
      '12 turn',
    ]);
    expect(effort).toEqual({ turns: 3, shifts: 2, levers: 0, cost: 5 });
    expect(steps.at(-1)?.result).toBe('00000555');
  });
  test('1 to 999 times', () => {
    expectMarked(cranked('reverse', '  set 1\n  repeat 999 { turn; shift right; shift left }'));
    expectMarked(cranked('reverse', '  set 1\n  repeat 1_000 { turn } #! wrong-arguments'));
    expectMarked(cranked('reverse', '  set 1\n  repeat 1.5 { turn } #! wrong-arguments'));
  });
  test('a finding is told once a step with the number of turns in all rounds', () => {
    const { findings } = expectMarked(
      cranked(
        'reverse',
        `repeat 3 {
           turn 2 #! idle-turn
         }`,
      ),
    );
    expect(findings[0].message).toContain('6 turns');
  });
});

describe('run', () => {
  const text = (
    call: string,
    steps = `clear all
             set pots
             turn rows`,
  ) => `${machine('reverse')}${baskets('(pots = 5, rows = 2)', steps)}sequence trial on stores\n  clear all\n${call}\n`;
  const resultOf = (call: string) =>
    traced(expectMarked(text(call)))
      .at(-1)
      ?.steps.at(-1)?.result;

  test('with defaults, with some numbers, with all', () => {
    expect(resultOf('  run baskets')).toBe('00000010');
    expect(resultOf('  run baskets ()')).toBe('00000010');
    expect(resultOf('  run baskets (7)')).toBe('00000014');
    expect(resultOf('  run baskets (7, 3)')).toBe('00000021');
  });
  test('with more numbers than it takes it is left out', () => {
    expect(resultOf('  run baskets (7, 3, 1) #! wrong-arguments')).toBe('00000000');
  });
  test('a parameter of one sequence goes to the other; inside, names are those of the other', () => {
    const outer = `sequence trial (rows = 4) on stores
                   run baskets (rows, rows)
                   `;
    const checked = expectMarked(
      machine('reverse') +
        baskets(
          '(pots = 5, rows = 2)',
          `clear all
           set pots
           turn rows`,
        ) +
        outer,
    );
    expect(traced(checked).at(-1)?.steps.at(-1)?.result).toBe('00000016');
  });
  test('errors and warnings stand at the run line, with the step of the other sequence beside them', () => {
    const checked = expectMarked(text('  run baskets (12345) #! setting-too-long'), {
      level: 'warning',
    });
    const [{ related, sequence }] = checked.findings.filter(({ code }) => code === 'setting-too-long');
    expect(sequence).toBe('trial');
    expect(related).toEqual([expect.objectContaining({ file: 'test.crank', line: 7 })]);
  });
  test('lesser things are told where they are written alone', () => {
    expectMarked(
      text(
        '  run baskets',
        `clear all
         turn rows #! idle-turn
         set pots`,
      ),
    );
  });
  test('overdraws of the other sequence count at the run line, two lines are two steps', () => {
    const back = `clear result
                  set pots
                  turn back rows #! result-overdraw assumes-clear`;
    const checked = machine('signed') + baskets('(pots = 5, rows = 2)', back);
    expectMarked(
      `${checked}sequence trial on stores\n  clear all\n  run baskets #! result-overdraw\n  run baskets #! result-overdraw\n`,
    );
  });
  test('within itself, by others or alone, it is left out', () => {
    expectMarked(
      cranked(
        'reverse',
        `run trial #! sequence-cycle
         set 5
         turn
         expect result 5`,
      ),
    );
    const circle = (name: string, next: string) => `sequence ${name} on stores\n  run ${next} #! sequence-cycle\n`;
    expectMarked(
      machine('reverse') + circle('sow', 'prick-out') + circle('prick-out', 'pot-on') + circle('pot-on', 'sow'),
    );
  });
  test('a sequence that is not there is left out', () => {
    expectMarked(
      cranked(
        'reverse',
        `run basket #! unknown-name
         set 5
         turn
         expect result 5`,
      ),
    );
  });
  test('steps written in another sequence keep their line', () => {
    const [, { steps }] = traced(expectMarked(text('  run baskets')));
    expect(steps.map(({ line, step }) => `${line} ${step}`)).toEqual([
      '10 clear all',
      '6 clear all',
      '7 set 5',
      '8 turn 2',
    ]);
  });
});

describe('cases', () => {
  const text = (body: string) => `${machine('reverse')}sequence trial (pots = 5, rows = 2) on stores\n${body}\n`;

  test('one run with the defaults and one for each case, what a case leaves out is the default', () => {
    const checked = expectMarked(
      text(
        `case pots = 7
         case rows = 3, pots = 1
         goal result = pots * rows
         clear all
         set pots
         turn rows`,
      ),
    );
    expect(traced(checked).map((run) => [run.case, run.goals[0].reading, run.goals[0].met])).toEqual([
      [0, '10', 'exact'],
      [1, '14', 'exact'],
      [2, '3', 'exact'],
    ]);
  });
  test('what several cases show is told once, for the first of them', () => {
    const checked = expectMarked(
      text(`case pots = 12345
            case pots = 23456
            clear all
            set pots #! setting-too-long
            turn rows`),
      { level: 'error' },
    );
    expect(
      checked.findings.filter(({ code }) => code === 'setting-too-long').map((f) => [f.case, f.message.slice(0, 5)]),
    ).toEqual([[1, '12345']]);
  });
  test('names that do not exist, and names twice', () => {
    expectMarked(
      text(
        `case pot = 7 #! unknown-name
         case pots = 1, pots = 2 #! duplicate-name
         clear all
         set pots
         turn rows`,
      ),
    );
    expectMarked(
      `${machine('reverse')}sequence trial (pots = 5, pots = 2) on stores #! duplicate-name\n  clear all\n  set pots\n`,
    );
    expectMarked(
      text(`clear all
            set pot #! unknown-name
            set pots
            turn rows`),
    );
  });
});
