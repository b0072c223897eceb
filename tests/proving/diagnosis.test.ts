import { describe, expect, it } from 'vitest';
import { cranked } from '../sequence/machines.js';
import { recorded } from './records.js';

/** On the machine with all devices: borrow and carry through all places, with the readings `nines` and `noughts`. */
const borrow = (lines: string, more = '') =>
  recorded(
    `${cranked(
      'full',
      `set 1; turn; clear result
       mode subtract; turn
       expect overdraw bell result 99999999 as nines counter 0
       mode add; turn
       expect overflow bell result 0 as noughts counter 1
       ${more}`,
    )}\nbench "Before cleaning" of trial on stores\n${lines}\n`,
  );

describe('a record', () => {
  it('that agrees with the sound machine is a pass, and says how much it proves', () => {
    const { diagnosis, explaining } = borrow('found nines result 99999999 bell\n found noughts result 0');
    expect(diagnosis?.verdict).toBe('pass');
    expect(explaining).toContain('lever-short 1 2');
    expect(explaining).not.toContain('bell-dead');
    expect(explaining).not.toContain('carry-lost result 4 add');
  });
  it('of one lost carry leads to it', () => {
    const { diagnosis, explaining } = borrow('found nines result 99999999\n found noughts result 99990000');
    expect(diagnosis?.verdict).toBe('explained');
    expect(explaining).toEqual(['carry-lost result 4 add']);
    expect(diagnosis?.soundParts?.noted.at).toBe(1);
  });
  it('that says less leads to more faults, for what was not noted excludes nothing', () => {
    const { diagnosis, explaining } = borrow('found nines no bell');
    expect(explaining[0]).toBe('bell-dead');
    expect(explaining.length).toBeGreaterThan(5);
    const next = diagnosis?.next;
    if (next?.is !== 'look') throw new Error('There is a next step.');
    expect(next.look).toEqual({ is: 'reading', at: 0, what: 'result', isAsked: true });
    expect(next.classes.reduce((sum, { faults }) => sum + faults.length, 0)).toBe(explaining.length);
  });
  it('may note a register for which the script does not ask', () => {
    expect(borrow('found noughts setting 1').diagnosis?.verdict).toBe('pass');
    expect(borrow('found noughts setting 2').diagnosis?.verdict).toBe('unexplained');
  });
  it('that no fault explains names those that come nearest, and where each parts', () => {
    const { diagnosis } = borrow('found nines result 99999998\n found noughts result 99990000 counter 1');
    expect(diagnosis?.verdict).toBe('unexplained');
    expect(diagnosis?.soundParts).toMatchObject({ shown: 99999999n, noted: { shown: 99999998n } });
    expect(diagnosis?.nearest.map(({ explained, parts }) => [explained, parts?.shown])).toEqual([[2, 99999999n]]);
  });
  it('whose readings can not be used proves nothing', () => {
    expect(borrow('found none result 5').diagnosis?.verdict).toBe('nothing-noted');
    expect(borrow('').diagnosis?.verdict).toBe('nothing-noted');
  });
  it('of an unknown script is not compared', () => {
    expect(recorded('bench "A" of nothing on nobody\n found 1 result 5').diagnosis).toBeUndefined();
  });
  it('is compared with the machine that it names, and with the defaults', () => {
    const text = `${cranked('reverse', 'set 4; turn; expect result 4').replace('sequence trial', 'sequence trial (a = 2)')}
      case a = 7
machine other like stores
  result 9
bench "There" of trial on other
  found 1 result 100000004`;
    const { bench, diagnosis } = recorded(text);
    expect(bench.run?.order.profile.result).toBe(9);
    expect(diagnosis?.verdict).toBe('unexplained');
  });
});

describe('readings are counted', () => {
  const text = (lines: string) => `${cranked(
    'reverse',
    'set 1\n repeat 3 { turn\n expect result 1 as each }\n run part\n expect counter 4 as last',
  )}
sequence part on stores
  turn
  expect result 4 as each
bench "A" of trial on stores
  ${lines}`;
  it('as they are carried out, in every round and in every sequence that is run', () => {
    const { bench, diagnosis } = recorded(
      text('found 1 result 1\n found 2 result 2\n found 3 result 3\n found 4 result 4\n found 5 counter 4'),
    );
    expect(bench.noted.map(({ at }) => at)).toEqual([0, 1, 2, 3, 4]);
    expect(diagnosis?.verdict).toBe('pass');
  });
  it('a label is the script’s own, the first time', () => {
    expect(recorded(text('found each result 1\n found last counter 4')).bench.noted.map(({ at }) => at)).toEqual([
      0, 4,
    ]);
  });
});

describe('the next step', () => {
  it('is another register where the script has nothing more to ask', () => {
    const { diagnosis } = recorded(
      `${cranked('reverse', 'set 5; turn; expect result 5')}\nbench "A" of trial on stores\n found 1 result 0`,
    );
    expect(diagnosis?.explaining.length).toBe(1);
  });
  it('is a few steps of their own where no reading of the script tells them apart', () => {
    const { diagnosis, explaining } = recorded(
      `${cranked('reverse', 'set 1; turn; expect result 1')}\nbench "A" of trial on stores\n found 1 result 0`,
    );
    expect(explaining).toEqual(['lever-short 1 1', 'lever-dead 1']);
    const next = diagnosis?.next;
    if (next?.is !== 'look' || next.look.is !== 'steps') throw new Error('Steps are proposed.');
    expect(next.look.steps[0]).toBe('clear all');
    expect(next.classes.map(({ faults }) => faults.length)).toEqual([1, 1]);
  });
});
