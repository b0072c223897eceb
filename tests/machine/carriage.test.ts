/** The carriage, moved by hand: whole places, half places and out of gear. */
import { describe, expect, test } from 'vitest';
import { shiftBy, shiftHalf, shiftOut, shiftTo } from '../../server/machine/index.js';
import { Bench } from './bench.js';

const plain = () => new Bench();
const parking = () => new Bench({ park: true });
const halfStep = () => new Bench({ subtract: 'half-step', park: true });

describe('whole places', () => {
  test.each([
    [1, 2, 3, { shifts: 2, end: false }],
    [4, -3, 1, { shifts: 3, end: false }],
    [2, 9, 4, { shifts: 2, end: true }],
    [3, -9, 1, { shifts: 2, end: true }],
    [1, -1, 1, { shifts: 0, end: true }],
    [4, 1, 4, { shifts: 0, end: true }],
    [3, 0, 3, { shifts: 0, end: false }],
  ])('from %i by %i to %i', (from, by, to, moved) => {
    const bench = plain().at(from);
    expect(shiftBy(bench.state, bench.profile, by)).toEqual(moved);
    expect(bench.position).toBe(to);
  });

  test('park left adds a place out of gear, left of position 1', () => {
    const bench = parking().at(2);
    expect(shiftBy(bench.state, bench.profile, -2)).toEqual({ shifts: 2, end: false });
    expect(bench.position).toBe(0);
    expect(shiftBy(bench.state, bench.profile, -1)).toEqual({ shifts: 0, end: true });
    expect(shiftBy(bench.state, bench.profile, 3)).toEqual({ shifts: 3, end: false });
    expect(bench.position).toBe(3);
    expect(shiftOut(bench.state)).toEqual({ shifts: 3, end: false });
    expect(bench.position).toBe(0);
  });

  test('to a position there is, and to none other', () => {
    const bench = parking().at(4);
    expect(shiftTo(bench.state, bench.profile, 2)).toEqual({ shifts: 2, end: false });
    for (const wrong of [0, 5, -1]) {
      expect(shiftTo(bench.state, bench.profile, wrong)).toEqual({ shifts: 0, end: true });
      expect(bench.position).toBe(2);
    }
  });
});

describe('half places', () => {
  const walk = (bench: Bench, way: 1 | -1, times: number): string[] =>
    Array.from({ length: times }, () => {
      const { end } = shiftHalf(bench.state, bench.profile, way);
      return `${bench.position}${bench.isSubtracting ? '-' : '+'}${end ? ' end' : ''}`;
    });

  test('to the right: adding and subtracting take turns, up to the half place behind the last position', () => {
    expect(walk(halfStep(), 1, 8)).toEqual(['1-', '2+', '2-', '3+', '3-', '4+', '4-', '4- end']);
  });

  test('to the left: down to out of gear', () => {
    expect(walk(halfStep().at(2), -1, 4)).toEqual(['1-', '1+', '0+', '0+ end']);
  });

  test('from out of gear to position 1, adding', () => {
    const bench = halfStep().at(1).subtracting();
    shiftOut(bench.state);
    expect(bench.isSubtracting).toBe(true);
    expect(walk(bench, 1, 1)).toEqual(['1+']);
  });

  test('whole places keep the drive; shift left from 1 ends out of gear and keeps it too', () => {
    const bench = halfStep().at(3).subtracting();
    shiftBy(bench.state, bench.profile, -1);
    expect([bench.position, bench.isSubtracting]).toEqual([2, true]);
    shiftBy(bench.state, bench.profile, -1);
    expect(shiftBy(bench.state, bench.profile, -1)).toEqual({ shifts: 1, end: false });
    expect([bench.position, bench.isSubtracting]).toEqual([0, true]);
    shiftBy(bench.state, bench.profile, 2);
    expect([bench.position, bench.isSubtracting]).toEqual([2, true]);
  });

  test('a machine without half steps does not move', () => {
    const bench = parking().at(2);
    expect(shiftHalf(bench.state, bench.profile, 1)).toEqual({ shifts: 0, end: true });
    expect(bench.position).toBe(2);
  });
});
