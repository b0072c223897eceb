/** One turn of the crank, rule by rule. */
import { describe, expect, test } from 'vitest';
import { Noticed } from '../../server/machine/index.js';
import { Bench } from './bench.js';

describe('the result', () => {
  test('lever i drives place position + i − 1', () => {
    const bench = new Bench().set('1234');
    bench.turn();
    bench.at(3).turn();
    expect(bench.result).toBe('00124634');
  });

  test('a back turn takes away, and so does a turn with the drive at subtract', () => {
    const reverse = new Bench({ count: 'first' }).set('12', '30');
    expect(reverse.back(2)).toBe(0);
    expect(reverse.result).toBe('00000006');
    const lever = new Bench({ subtract: 'lever', count: 'first' }).set('12', '30').subtracting();
    expect(lever.turn(2)).toBe(0);
    expect(lever.result).toBe('00000006');
    expect(lever.subtracting(false).turn()).toBe(0);
    expect(lever.result).toBe('00000018');
  });

  test('a figure without a wheel is lost, noughts are not missed', () => {
    const wide = { carriage: 8, counter: 8 };
    const bench = new Bench(wide).set('1234').at(7);
    expect(bench.turn()).toBe(Noticed.digitsOffEnd);
    expect(bench.result).toBe('34000000');
    expect(new Bench(wide).set('0034').at(7).turn()).toBe(0);
  });

  test('past the top it goes on modulo its places, counts a wrap and rings', () => {
    const bench = new Bench({ bell: true }).set('2', '99999999');
    expect(bench.turn()).toBe(Noticed.overflow);
    expect([bench.result, bench.wraps]).toEqual(['00000001', 1]);
    expect(bench.rang).toBe(true);
    expect(bench.back()).toBe(Noticed.overdraw);
    expect([bench.result, bench.wraps]).toEqual(['99999999', 0]);
    const silent = new Bench().set('2');
    expect(silent.back()).toBe(Noticed.overdraw | Noticed.counterUnderflow);
    expect(silent.rang).toBe(false);
    expect([silent.result, silent.wraps]).toEqual(['99999998', -1]);
  });

  test('no lever set: an idle turn, counted all the same', () => {
    const bench = new Bench();
    expect(bench.turn()).toBe(Noticed.idle);
    expect([bench.counter, bench.result]).toEqual(['0001', '00000000']);
  });
});

describe('the reach of the tens carry', () => {
  const short = { setting: 2, reach: 3 };

  test('a carry past it is lost: the place above stays', () => {
    const bench = new Bench(short).set('01', '00000999');
    expect(bench.turn()).toBe(Noticed.carryShort);
    expect([bench.result, bench.wraps]).toEqual(['00000000', 0]);
    bench.set('01', '00050000');
    expect(bench.back()).toBe(Noticed.carryShort);
    expect(bench.result).toBe('00050999');
  });

  test('it moves with the carriage', () => {
    const bench = new Bench(short).set('01', '00009990').at(2);
    expect(bench.turn()).toBe(Noticed.carryShort);
    expect(bench.result).toBe('00000000');
    expect(new Bench(short).set('01', '00000999').at(2).turn()).toBe(0);
  });

  test('inside it, carries ripple', () => {
    const bench = new Bench(short).set('01', '00000099');
    expect(bench.turn()).toBe(0);
    expect(bench.result).toBe('00000100');
  });

  test('where the register ends first, a carry out of it is an overflow', () => {
    const bench = new Bench({ ...short, carriage: 8, counter: 8 }).set('01', '99000000').at(7);
    expect(bench.turn()).toBe(Noticed.overflow);
    expect([bench.result, bench.wraps]).toEqual(['00000000', 1]);
    const exact = new Bench({ ...short, carriage: 8, counter: 8 }).set('01', '99900000').at(6);
    expect(exact.turn()).toBe(Noticed.overflow);
  });
});

describe('the counter', () => {
  test('turns in the place under the carriage; beyond its places nothing is counted', () => {
    const bench = new Bench({ counter: 2 }).set('1');
    bench.at(2).turn(3);
    expect(bench.counter).toBe('30');
    expect(bench.at(3).turn()).toBe(Noticed.notCounted);
    expect(bench.counter).toBe('30');
    const none = new Bench({ counter: 0 }).set('1');
    expect([none.turn(), none.counter]).toEqual([0, '']);
  });

  test('carry: tens go through all places, either way', () => {
    const bench = new Bench().set('1', '0', '0199');
    bench.turn();
    expect(bench.counter).toBe('0200');
    expect(bench.set('1', '9', '9999').turn()).toBe(Noticed.counterOverflow);
    expect(bench.counter).toBe('0000');
    expect(bench.back()).toBe(Noticed.counterUnderflow);
    expect(bench.counter).toBe('9999');
  });

  test('plain: each wheel by itself', () => {
    const bench = new Bench({ counterCarry: 'plain' }).set('1', '9', '0190');
    expect(bench.at(2).turn()).toBe(Noticed.counterOverflow);
    expect(bench.counter).toBe('0100');
    expect(bench.back()).toBe(Noticed.counterUnderflow);
    expect(bench.counter).toBe('0190');
  });

  test('signed: −9 to 9, and to 0 past either end', () => {
    const bench = new Bench({ counterCarry: 'signed' }).set('1', '99999999');
    expect(bench.back(9)).toBe(0);
    expect(bench.counter).toBe('000-9');
    expect(bench.back()).toBe(Noticed.counterOverflow);
    expect(bench.counter).toBe('0000');
    bench.at(3).back(2);
    bench.at(1).turn(4);
    expect(bench.counter).toBe('0-204');
    bench.at(3).turn(3);
    expect(bench.counter).toBe('0104');
    expect(bench.turn(9)).toBe(Noticed.counterOverflow);
    expect(bench.counter).toBe('0004');
  });

  test.each([
    ['carry', '9999'],
    ['plain', '0009'],
    ['signed', '000-1'],
  ] as const)('%s × follow: an adding turn up, a subtracting turn down', (counterCarry, below) => {
    const bench = new Bench({ counterCarry }).set('1', '5');
    bench.turn();
    expect(bench.counter).toBe('0001');
    bench.back(2);
    expect(bench.counter).toBe(below);
  });

  test.each([
    ['carry', '9999'],
    ['plain', '0009'],
    ['signed', '000-1'],
  ] as const)('%s × lever: the other way round while the lever stands at minus', (counterCarry, below) => {
    const bench = new Bench({ counterCarry, count: 'lever' }).set('1', '5').counting('minus');
    bench.back();
    expect(bench.counter).toBe('0001');
    bench.turn(2);
    expect(bench.counter).toBe(below);
    bench.counting('plus').turn();
    expect(bench.counter).toBe('0000');
  });

  test.each([
    ['carry', '9999'],
    ['plain', '0009'],
    ['signed', '000-1'],
  ] as const)('%s × first: the first turn fixes the sense', (counterCarry, below) => {
    const bench = new Bench({ counterCarry, count: 'first' }).set('1', '5');
    bench.back(2);
    expect(bench.counter).toBe('0002');
    bench.turn(3);
    expect(bench.counter).toBe(below);
    const adding = new Bench({ counterCarry, count: 'first' }).set('1', '5');
    adding.turn();
    adding.back(2);
    expect(adding.counter).toBe(below);
  });
});

describe('out of gear and auto-clear', () => {
  test('out of gear nothing moves, not even the counter or its sense', () => {
    const bench = new Bench({ park: true, count: 'first' }).set('1', '5').at(0);
    expect(bench.turn(2)).toBe(Noticed.parked);
    expect([bench.result, bench.counter]).toEqual(['00000005', '0000']);
    bench.at(1).back();
    expect(bench.counter).toBe('0001');
  });

  test('out of gear the levers keep their figures under auto-clear', () => {
    const bench = new Bench({ park: true, autoClear: true }).set('12').at(0).autoClear();
    bench.turn();
    expect(bench.setting).toBe('0012');
  });

  test('auto-clear returns the levers to zero after the turn', () => {
    const bench = new Bench({ autoClear: true }).set('12').autoClear();
    expect(bench.turn()).toBe(0);
    expect([bench.setting, bench.result]).toEqual(['0000', '00000012']);
    expect(bench.turn()).toBe(Noticed.idle);
    expect(bench.counter).toBe('0002');
  });
});

describe.each(['lever', 'half-step', 'lift'] as const)('automatic division, subtract %s', (subtract) => {
  const divider = () => new Bench({ subtract, autoDivide: true, park: subtract === 'half-step', count: 'first' });
  const at = (bench: Bench) => `${bench.position}${bench.isSubtracting ? '-' : '+'}`;

  test('subtract until overdraw, restore, move on; from position 1 out of gear', () => {
    const bench = divider().set('5', '13').at(2).subtracting().autoDivide();
    expect(at(bench)).toBe('2-');
    expect(bench.turn()).toBe(Noticed.overdraw);
    expect(at(bench)).toBe('2+');
    expect(bench.turn()).toBe(Noticed.overflow);
    expect([at(bench), bench.result]).toEqual(['1-', '00000013']);
    expect(bench.turn(3)).toBe(Noticed.overdraw);
    expect(at(bench)).toBe('1+');
    expect(bench.turn()).toBe(Noticed.overflow);
    expect([at(bench), bench.result, bench.counter, bench.wraps]).toEqual(['0-', '00000003', '0002', 0]);
    expect(bench.turn()).toBe(Noticed.parked);
  });

  test('an adding turn with nothing to restore is told and moves on all the same', () => {
    const bench = divider().set('5', '13').at(2).autoDivide();
    expect(bench.turn()).toBe(Noticed.divideInAddMode);
    expect([at(bench), bench.result]).toEqual(['1-', '00000063']);
  });
});
