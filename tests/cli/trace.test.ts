import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, MACHINE } from './program.js';

const SIGNED = `machine bench-6
  setting 6
  counter 4
  result 8
machine lever-6 like bench-6
  subtract lever
  counter 4 signed
  auto-clear
  bell
sequence signs "Signs" on lever-6
  clear all
  set 12; turn 2
  mode subtract
  turn 3
  expect overdraw
  shift right
  auto-clear on
  turn
  auto-clear off; mode add
`;
const CASES = `machine plain-4
  setting 4
  result 7
sequence halves "Twice over" (a = 3) on plain-4
  case a = 4
  points result 1
  goal result = a * 11 / 10
  clear all
  set a
  repeat 2 {
    turn
    shift right
  }
  run tail
sequence tail on plain-4
  note "end"
`;
const cwd = folderOf({
  'signed.crank': SIGNED,
  'cases.crank': CASES,
  'machines.crank': MACHINE,
  'user.crank': 'use "machines.crank"\nsequence s on bench-6\n  clear all\n  shift right 99\n',
  'parked.crank': `${MACHINE}  park left\nsequence s\n  clear all\n  shift out\n  expect parked\n  turn\n`,
  'plain.md': '# Nothing to crank\n',
});
const trace = (...args: string[]) => cranknote(['trace', ...args], { cwd });
const json = (...args: string[]) => JSON.parse(trace('--format', 'json', ...args).out);

describe('a trace as text', () => {
  it('marks what changed, and names levers that are moved', () => {
    expect(trace('signed.crank').out).toBe(` signed.crank 

signs on lever-6  Signs
  line  step             carriage   setting     counter      result
    11  clear all               1    000000     0 0 0 0    00000000
    12  set 12                  1  > 000012     0 0 0 0    00000000
    12  turn 2                  1    000012  >  0 0 0 2  > 00000024
    13  mode subtract           1    000012     0 0 0 2    00000024  subtract
    14  turn 3                  1    000012  >  0 0 0-1  > 99999988  subtract, bell
    15  expect overdraw         1    000012     0 0 0-1    99999988  subtract
    16  shift right           > 2    000012     0 0 0-1    99999988  subtract
    17  auto-clear on           2    000012     0 0 0-1    99999988  subtract, auto-clear
    18  turn                    2  > 000000  >  0 0-1-1  > 99999868  subtract, auto-clear
    19  auto-clear off          2    000000     0 0-1-1    99999868  subtract
    19  mode add                2    000000     0 0-1-1    99999868
  effort 15: 6 turns, 1 shift, 4 levers moved

1 file, 1 sequence: nothing to remark.
`);
  });

  it('shows markers, goals, what stands inside repeat and run, and one case alone', () => {
    expect(trace('cases.crank', '--sequence', 'halves', '--case', '1').out).toBe(` cases.crank 

halves, case 1 (a = 4) on plain-4  Twice over
  line  step             carriage  setting      result
     6  points result 1         1     0000  > 000000.0
     8  clear all               1     0000    000000.0
     9  set 4                   1   > 0004    000000.0
    11    turn                  1     0004  > 000000.4
    12    shift right         > 2     0004    000000.4
    11    turn                  2     0004  > 000004.4
    12    shift right         > 3     0004    000004.4
    16    note "end"
  goal result = a * 11 / 10: 4.4, reads 4.4, exact
  effort 4: 2 turns, 2 shifts, 0 levers moved

1 file, 1 sequence: nothing to remark.
`);
  });

  it('runs the defaults and every case where nothing is asked for', () => {
    const headings = trace('cases.crank')
      .out.split('\n')
      .filter((line) => / on plain-4/.test(line));
    expect(headings.map((line) => line.split(' on ')[0])).toEqual(['halves (a = 3)', 'halves, case 1 (a = 4)', 'tail']);
  });

  it('ends with what was found, and succeeds however much that is', () => {
    const { code, out } = trace('user.crank');
    expect(code).toBe(0);
    expect(out).toContain('user.crank:4:3  error [carriage-end]');
    expect(out.endsWith('1 file, 1 sequence: 1 error.\n')).toBe(true);
  });

  it('says out where the carriage is out of gear', () => {
    expect(trace('parked.crank').out).toMatch(/8 {2}shift out +> out/);
  });
});

describe('a trace for other programs', () => {
  it('has these keys and no others', () => {
    expect(json('signed.crank')).toEqual({
      format: 1,
      file: 'signed.crank',
      sequences: [
        {
          name: 'signs',
          machine: 'lever-6',
          case: 0,
          steps: expect.any(Array),
          goals: [],
          effort: { turns: 6, shifts: 1, levers: 4, cost: 15 },
        },
      ],
      findings: [],
    });
    expect(json('signed.crank').sequences[0].steps[4]).toEqual({
      line: 14,
      step: 'turn 3',
      turns: 3,
      setting: '000012',
      counter: '000-1',
      result: '99999988',
      position: 1,
      drive: 'subtract',
      count: 'plus',
      autoClear: false,
      autoDivide: false,
      points: { setting: 0, counter: 0, result: 0 },
      wraps: -1,
      bell: true,
    });
  });

  it('has every step as it is run, with the line for which it stands', () => {
    const [halves] = json('cases.crank', '--sequence', 'halves', '--case', '0').sequences;
    expect(halves.steps.map((step: { line: number; step: string }) => `${step.line} ${step.step}`)).toEqual([
      '6 points result 1',
      '8 clear all',
      '9 set 3',
      '11 turn',
      '12 shift right',
      '11 turn',
      '12 shift right',
      '16 note "end"',
    ]);
    expect(halves.goals).toEqual([{ register: 'result', goal: '3.3', reading: '3.3', met: 'exact' }]);
  });

  it('has an empty counter where there is none', () => {
    for (const { counter } of json('cases.crank').sequences[0].steps) expect(counter).toBe('');
  });

  it('has position 0 out of gear', () => {
    expect(json('parked.crank').sequences[0].steps.map((s: { position: number }) => s.position)).toEqual([1, 0, 0, 0]);
  });

  it('has findings with places counted from 1', () => {
    expect(json('user.crank').findings).toEqual([
      {
        file: 'user.crank',
        line: 4,
        column: 3,
        endLine: 4,
        endColumn: 17,
        code: 'carriage-end',
        severity: 'error',
        sequence: 's',
        message: expect.stringMatching(/^The carriage comes to its end/),
      },
    ]);
  });

  it('counts cases from 0', () => {
    expect(json('cases.crank').sequences.map((s: { name: string; case: number }) => [s.name, s.case])).toEqual([
      ['halves', 0],
      ['halves', 1],
      ['tail', 0],
    ]);
  });
});

describe('what can not be traced', () => {
  it.each([
    [['cases.crank', '--sequence', 'halfes'], 'There is no sequence halfes. Did you mean halves?\n'],
    [['cases.crank', '--sequence', 'quotient'], 'There is no sequence quotient. There are: halves, tail.\n'],
    [['user.crank', '--sequence', 'quotient'], 'There is no sequence quotient. There is: s.\n'],
    [['machines.crank', '--sequence', 's'], 'There is no sequence in what was named.\n'],
    [['machines.crank', '--case', '1'], 'There is no sequence in what was named.\n'],
    [['cases.crank', '--case', '2'], 'There is no case 2: cases go from 0 (the defaults) to 1.\n'],
    [['user.crank', '--case', '1'], 'There is no case 1: only the defaults, case 0.\n'],
    [['gone.crank'], 'There is no file or folder gone.crank.\n'],
    [['plain.md'], 'There is nothing to run: no .crank file, and no Markdown page with a block marked crank.\n'],
    [['cases.crank', 'user.crank', '--format', 'json'], 'The JSON format is that of one file: name a single one.\n'],
  ])('%j', (args, err) => {
    expect(trace(...args)).toEqual({ code: 2, out: '', err });
  });

  it('a case that is no number', () => {
    const { code, err } = trace('cases.crank', '--case', 'one');
    expect(code).toBe(2);
    expect(err).toContain('A case is a whole number; 0 means the defaults.');
  });
});
