import { describe, expect, it } from 'vitest';
import { cranknote, folderOf } from './program.js';

const PROOF = `machine lever-6
  setting 6
  counter 4
  result 10 dials
  subtract lever
  bell
machine plain-4
  setting 4
  result 6
sequence nines "A carry" on lever-6
  clear all
  dial result 9989
  set 11
  turn
  expect result 10000
  note "Now below zero"
  dial result 7
  set 2
  mode subtract
  divide
  mode add
  ask counter result
sequence shed on plain-4
  clear all
  set 2
  turn
`;
const cwd = folderOf({ 'proof.crank': PROOF });
const trace = (...args: string[]) => cranknote(['trace', 'proof.crank', ...args], { cwd });
const nines = (fault: string) => trace('--sequence', 'nines', '--fault', fault).out.split('\n\n')[1].split('\n');

describe('a trace with a fault', () => {
  it('shows below each step what the faulty machine shows instead, and where it is caught', () => {
    expect(trace('--sequence', 'nines', '--fault', 'carry-lost result 2 add').out.split('\n\n')[1]).toBe(
      `nines on lever-6  A carry
  with carry-lost result 2 add: a carry out of result place 2 is not delivered in turns that add
  line  step                   carriage   setting  counter        result
    11  clear all                     1    000000     0000    0000000000
    12  dial result 9989              1    000000     0000  > 0000009989
    13  set 11                        1  > 000011     0000    0000009989
    14  turn                          1    000011   > 0001  > 0000010000
          with the fault                                    ≠ 0000009900
    15  expect result 10000           1    000011     0001    0000010000
          with the fault                                    ≠ 0000009900
    16  note "Now below zero"
    17  dial result 7                 1    000011     0001  > 0000000007
    18  set 2                         1  > 000002     0001    0000000007
    19  mode subtract                 1    000002     0001    0000000007  subtract
    20    turn until overdraw         1    000002   > 9997  > 9999999999  subtract, bell
    20    mode add                    1    000002     9997    9999999999
    20    turn                        1    000002   > 9998  > 0000000001  bell
          with the fault                                    ≠ 9999999901  ≠ –
    20    mode subtract               1    000002     9998    0000000001  subtract
          with the fault                                    ≠ 9999999901
    21  mode add                      1    000002     9998    0000000001
          with the fault                                    ≠ 9999999901
    22  ask counter result            1    000002     9998    0000000001
          with the fault                                    ≠ 9999999901
  effort 14: 6 turns, 0 shifts, 4 levers moved
  caught in line 15, expect result 10000: it reads result 9900`,
    );
  });

  it('says where a step never ends, and what is then not carried out', () => {
    const lines = nines('lever-dead 1');
    expect(lines.at(-1)).toBe('  caught in line 15, expect result 10000: it reads result 9999');
    expect(lines.filter((line) => /with the fault +not carried out$/.test(line))).toHaveLength(5);
    expect(nines('lever-short 1 2').at(-1)).toMatch(
      /^ {2}caught in line 22, ask counter result: it reads counter 9994, /,
    );
  });

  it('says so where nobody would notice', () => {
    expect(nines('lever-dead 6').at(-1)).toBe('  uncaught: no expect and no ask reads anything else');
  });

  it('leaves sequences alone whose machine can not have it', () => {
    const { out } = trace('--fault', 'bell-dead');
    expect(out).toContain("  plain-4 can't have the fault\n");
  });

  it('has the same for other programs', () => {
    const { sequences } = JSON.parse(trace('--fault', 'carry-lost result 2 add', '--format', 'json').out);
    const [first, second] = sequences;
    expect(first.faulty).toMatchObject({ fault: 'carry-lost result 2 add', brokeOff: false, caught: 4 });
    expect(first.faulty.steps[3]).toMatchObject({ result: '0000009900', beside: 3, differs: ['result'] });
    expect(first.faulty.steps[2].differs).toEqual([]);
    expect(first.steps[3].result).toBe('0000010000');
    expect(second.faulty.caught).toBe(null);
    expect(JSON.parse(trace('--format', 'json').out).sequences[0]).not.toHaveProperty('faulty');
    const dead = JSON.parse(trace('--fault', 'lever-dead 1', '--sequence', 'nines', '--format', 'json').out);
    expect(dead.sequences[0].faulty).toMatchObject({ brokeOff: true, caught: 4 });
  });
});

it.each([
  ['lever-ded 1', 'There is no fault called lever-ded. Did you mean lever-dead?\n'],
  ['lever-dead 9', "lever-6 can't have the fault lever-dead 9. The nearest that it can have is lever-dead 6.\n"],
  ['auto-clear-dead 1', "lever-6 can't have the fault auto-clear-dead 1. It lacks what would have to fail.\n"],
  ['', 'No fault is named. Write one as carry-lost result 5 add.\n'],
  ['lever-short 1', 'This fault is written lever-short PLACE FIGURE; places and figures are whole numbers from 1.\n'],
])('--fault %j says what to write instead', (fault, err) => {
  expect(trace('--fault', fault)).toEqual({ code: 2, out: '', err });
});
