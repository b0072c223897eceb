import { describe, expect, test } from 'vitest';
import { tracedText } from '../../server/service/traced.js';
import { openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n  bell\n';

interface Asked {
  readonly sequence?: string;
  readonly runCase?: number;
  readonly wishes?: Parameters<typeof reader>[0];
}

const traced = (text: string, { sequence, runCase, wishes }: Asked = {}) =>
  tracedText(openMarked(text).document, sequence, runCase, reader(wishes));

const BAY = `${OFFICE}sequence bay "Area of one bay" (a = 12) on office-6
  case a = 15
  goal result = a * 24.5
  points setting 1 result 1
  clear all
  set 24.5
  repeat 2 { turn; shift right }
  note "Look."
  expect result 1
`;

describe('a trace as a document', () => {
  test('has every step, indented, with the registers at their markers and what changed', () => {
    expect(traced(BAY, { sequence: 'bay', runCase: 0 })).toBe(
      `Area of one bay
bay · a = 12 · on office-6

  line  step                       carriage    setting   counter           result
     9  points setting 1 result 1         1  > 00000.0    000000  > 00000000000.0
    10  clear all                         1    00000.0    000000    00000000000.0
    11  set 24.5                          1  > 00024.5    000000    00000000000.0
    12    turn                            1    00024.5  > 000001  > 00000000024.5
    12    shift right                   > 2    00024.5    000001    00000000024.5
    12    turn                            2    00024.5  > 000011  > 00000000269.5
    12    shift right                   > 3    00024.5    000011    00000000269.5
    13  note "Look."
    14  expect result 1                   3    00024.5    000011    00000000269.5

  goal result = a * 24.5: 294, reads 269.5, missed
  effort 4: 2 turns, 2 shifts

Findings

  line 8, error: The result should show 294 at the end, and shows 269.5. [goal-missed]
  line 14, error: The result reads 2695, not 1. The first wheel that differs is in place 1. [reading-differs]
`,
    );
  });

  test('has the case that is wanted, or all of them', () => {
    expect(traced(BAY, { sequence: 'bay', runCase: 1 })).toContain('\nbay · case 1: a = 15 · on office-6\n');
    const all = traced(BAY, { sequence: 'bay' });
    expect(all).toContain('\nbay · a = 12 · on office-6\n');
    expect(all).toContain('\nbay · case 1: a = 15 · on office-6\n');
    expect(traced(`${BAY}sequence pots on office-6\n  turn\n`)).toMatch(/^bay ·.*^pots · on office-6$/ms);
    expect(traced(`${BAY}sequence pots on office-6\n  turn\n`, { sequence: 'pots' })).not.toContain('bay');
  });

  test('tells levers, the bell, the carriage out of gear and where the run breaks off', () => {
    const text = traced(`machine drum-4
  setting 4
  result 8
  counter 4
  subtract lift
  park left
  bell
sequence cut on drum-4
  clear all; set 1; mode subtract; turn; shift left; set 0
  shift right; turn until overdraw
  turn
`);
    expect(text).toContain('     9  turn                        1     0001   > 9999  > 99999999  crank lifted, bell\n');
    expect(text).toMatch(/shift left +> out /);
    expect(text).toMatch(/effort 1005: 1001 turns, 2 shifts, 1 lever \(the run breaks off\)/);
    expect(text).not.toMatch(/^ +11 +turn/m);
  });

  test('says why there is none', () => {
    expect(traced(BAY, { sequence: 'nobody\u202e' })).toBe('There is no sequence called nobody\ufffd in this file.\n');
    expect(traced(BAY, { sequence: 'bay', runCase: 7 })).toContain('bay has no such case.\n');
    expect(traced('sequence alone\n  turn', { sequence: 'alone' })).toContain("alone can't be run.\n\nFindings\n");
    expect(traced('')).toBe('No sequence of this file can be run.\n');
  });

  test('hides nothing that stands in a file', () => {
    const text = traced(`${OFFICE}sequence bay "A\u202eB" on office-6\n  note "a\u0007b"\n`);
    expect(text).toContain('A\ufffdB\n');
    expect(text).toContain('note "a\ufffdb"\n');
  });

  test('has an end, however long the run', () => {
    const text = traced(`${OFFICE}sequence long on office-6\n  repeat 300 { repeat 300 { note "a" } }\n`);
    expect(text).toContain('… and 70000 more steps\n');
    expect(text.split('\n').length).toBeLessThan(20_100);
  });

  test('speaks German', () => {
    const text = traced(BAY, { sequence: 'bay', runCase: 1, wishes: { locale: 'de' } });
    expect(text).toContain('\nbay · Fall 1: a = 15 · auf office-6\n');
    expect(text).toContain('  Zeile  Schritt ');
    expect(text).toContain('Aufwand 4: 2 Kurbelumdrehungen, 2 Stellungen gerückt\n\nBefunde\n');
    expect(text).toContain('[goal-missed]');
  });
});
