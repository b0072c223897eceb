import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, LOOKS_BROKEN } from './program.js';

const PROOF = `machine small-3 "Small machine at the potting bench"
  setting 3
  counter 2
  result 5 reach 3
  bell
sequence levers "All levers at one" on small-3
  clear all
  set 111
  turn
  expect result 111
sequence rounds on small-3
  clear all
  set 9
  repeat 2 { turn; shift right; ask counter; shift left }
sequence quiet on small-3
  clear all
  turn
`;
const LOST = `machine lever-4
  setting 4
  counter 4
  result 8
  subtract lever
sequence lost on lever-4
  clear all
  mode subtract
  turn until overdraw
  expect result 3
`;
const cwd = folderOf({
  'proof.crank': PROOF,
  'lost.crank': LOST,
  'goal.crank': `${PROOF.split('sequence')[0]}sequence sum on small-3\n  goal result = 2\n  clear all\n  set 2\n  turn\n  expect result 2\n`,
});
const coverage = (...args: string[]) => cranknote(['coverage', ...args], { cwd });

describe('coverage as text', () => {
  it('tells what is caught by each part of the machine, and what would catch the rest', () => {
    const { code, out } = coverage('proof.crank', '--sequence', 'levers');
    expect(code).toBe(0);
    expect(out.split('\n').slice(0, 11).join('\n')).toBe(`levers on small-3  proof.crank
  catches 6 of 51 faults within reach (11 %)
    levers      6 of 30  20 %
    tens carry   0 of 9   0 %
    counter      0 of 3   0 %
    clearing     0 of 9   0 %
  out of reach on this machine: carry-lost result 4 add, 4 subtract; carry-stuck result 4; clear-short result 5; bell-dead
  uncaught, with the shortest addition that was found for each:
    in line 10, expect result 111, read as well:
      counter 1
          count-dead 1`);
    expect(out).toContain(
      '    behind the last step:\n      set 222; turn; expect result 333\n          lever-short 1 2, 2 2, 3 2\n',
    );
  });

  it('takes all sequences on a machine together where that is asked for', () => {
    const apart = coverage('proof.crank').out;
    expect(apart.match(/catches \d+ of \d+/g)).toHaveLength(2);
    const { out } = coverage('proof.crank', '--together');
    expect(out).toMatch(/^levers, rounds on small-3 {2}proof\.crank\n {2}catches 7 of /);
    expect(out).toContain('In 1 sequence nobody looks: no expect and no ask.\n');
  });

  it('proposes a sequence by itself where a goal stands at the end', () => {
    expect(coverage('goal.crank').out).toContain('in a sequence by itself, for this one has a goal at its end:\n');
  });

  it('judges no sequence that never ends, and says so', () => {
    const { code, out } = coverage('lost.crank');
    expect(code).toBe(1);
    expect(out).toBe('lost.crank:6: lost is not judged: it can not be run to its end; check says why.\n');
  });

  it('finds the sequences of a machine', () => {
    expect(coverage('.', '--on', 'small-3').out).not.toContain('lost.crank');
    expect(coverage('.', '--on', 'smal-3')).toEqual({
      code: 2,
      out: '',
      err: 'No sequence here is cranked on smal-3. Did you mean small-3?\n',
    });
    expect(coverage('.', '--sequence', 'lever').err).toBe('There is no sequence lever. Did you mean levers?\n');
  });
});

describe('coverage for other programs', () => {
  const object = JSON.parse(coverage('proof.crank', 'lost.crank', '--format', 'json', '--together').out);

  it('has every fault, where it is caught and what would catch it', () => {
    const [script] = object.scripts.filter(({ machine }: { machine: string }) => machine === 'small-3');
    expect(script.faults).toHaveLength(script.all + script.outOfReach);
    const of = (fault: string) => script.faults.find((one: { fault: string }) => one.fault === fault);
    expect(of('lever-dead 2')).toEqual({
      fault: 'lever-dead 2',
      mechanism: 'levers',
      withinReach: true,
      caught: { sequence: 'levers', case: 0, line: 10, step: 'expect result 111', neverEnds: false },
    });
    expect(of('clear-short counter 1')).toMatchObject({
      withinReach: true,
      addition: { place: 'at-end', sequence: 'rounds' },
    });
    expect(of('clear-short counter 1')).not.toHaveProperty('caught');
    expect(of('carry-lost result 4 add')).toEqual({
      fault: 'carry-lost result 4 add',
      mechanism: 'tens-carry',
      withinReach: false,
    });
    const caught = script.faults.filter((one: object) => 'caught' in one);
    expect(caught).toHaveLength(script.caught);
  });

  it('says which sequences are left out, and why', () => {
    expect(object.leftOut).toContainEqual({ file: 'proof.crank', sequence: 'quiet', why: 'nobody-looks' });
    expect(object.leftOut).toContainEqual({ file: 'lost.crank', sequence: 'lost', why: 'not-run' });
  });
});

it('shows no text of a file that could harm a terminal', () => {
  const odd = folderOf({ 'odd\u001b[31m.crank': PROOF });
  const { out, err } = cranknote(['coverage', '.'], { cwd: odd });
  expect(out + err).not.toContain('\u001b');
  expect(out).not.toMatch(LOOKS_BROKEN);
});
