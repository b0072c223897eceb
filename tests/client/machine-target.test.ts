/** Which moment a panel asks for: by the cursor, by its slider and keys, and after it has come back. */
import { describe, expect, it } from 'vitest';
import type { MachineState } from '../../client/machine-messages.js';
import { MachineTarget, machineStateFrom } from '../../client/machine-target.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const lines = (from: number, to: number) => ({ start: { line: from, character: 0 }, end: { line: to, character: 0 } });
/** `pots` on lines 2 to 7 and `trays` on lines 10 to 14 of a document. */
const sequences = [
  { name: 'pots', title: '', range: lines(2, 8) },
  { name: 'trays', title: '', range: lines(10, 15) },
];
const pots = { sequence: 'pots', sequences };
const at = (state: Partial<MachineState> = {}) => {
  const target = new MachineTarget({ uri: A, line: 3, character: 4, follows: true, ...state });
  return target;
};
/** A panel that shows a moment of `pots` already. */
const shown = (moment: number, state: Partial<MachineState> = {}) => {
  const target = at(state);
  target.next(undefined);
  target.found(pots);
  target.came(moment);
  return target;
};

describe('what is asked for', () => {
  it('is the step at the cursor, once', () => {
    const target = at();
    expect(target.next(undefined)).toEqual({ uri: A, line: 3, character: 4 });
    expect(target.next(undefined)).toBeUndefined();
    target.again();
    expect(target.next('pots')).toEqual({ uri: A, line: 3, character: 4 });
  });

  it('goes with the cursor, the moment before told with it; the latest wins', () => {
    const target = shown(5);
    expect(target.follow({ uri: A, version: 1 }, 4, 2, pots)).toBe('same');
    expect(target.follow({ uri: A, version: 1 }, 5, 6, pots)).toBe('same');
    expect(target.next('pots')).toEqual({ uri: A, line: 5, character: 6, moment: 5 });
    expect(target.next('pots')).toBeUndefined();
  });

  it('is nothing between sequences', () => {
    const target = shown(5);
    expect(target.follow({ uri: A, version: 1 }, 9, 0, pots)).toBe('away');
    expect(target.next('pots')).toBeUndefined();
  });

  it('forgets in another sequence what was chosen of the one before', () => {
    const target = shown(5, { case: 2 });
    expect(target.follow({ uri: A, version: 1 }, 11, 0, pots)).toBe('other');
    expect(target.next('pots')).toEqual({ uri: A, line: 11, character: 0 });
    const other = shown(5, { case: 2 });
    expect(other.follow({ uri: B, version: 1 }, 0, 0, undefined)).toBe('other');
    expect(other.next('pots')).toEqual({ uri: B, line: 0, character: 0 });
  });

  it('is a moment of the sequence that is shown, wherever the cursor stands', () => {
    const target = shown(5);
    target.goTo(7);
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'pots', moment: 7 });
    target.came(7);
    expect(target.state).toEqual({ uri: A, line: 3, follows: true, moment: 7 });
  });

  it('is where somebody has gone to while something else was on its way', () => {
    const target = shown(5);
    target.again();
    target.next('pots');
    target.goTo(9);
    target.go({ by: 'turn', count: 1 });
    target.came(5);
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'pots', moment: 9, moves: [{ by: 'turn', count: 1 }] });
  });

  it('gathers moves that come faster than answers', () => {
    const target = shown(5);
    for (let i = 0; i < 3; i++) target.go({ by: 'step', count: 1 });
    target.go({ by: 'turn', count: -1 });
    target.go({ by: 'step', count: 1 });
    const moves = [
      { by: 'step', count: 3 },
      { by: 'turn', count: -1 },
      { by: 'step', count: 1 },
    ];
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'pots', moment: 5, moves });
    expect(target.next('pots')).toBeUndefined();
    // And never more than the server takes.
    for (let i = 0; i < 500; i++) target.go({ by: i % 2 ? 'step' : 'turn', count: 1 });
    expect(target.next('pots')?.moves).toHaveLength(100);
    for (let i = 0; i < 20_000; i++) target.go({ by: 'step', count: -1 });
    expect(target.next('pots')?.moves).toEqual([{ by: 'step', count: -10_000 }]);
  });

  it('drops moves where the cursor or the slider goes elsewhere', () => {
    const target = shown(5);
    target.go({ by: 'step', count: 1 });
    target.follow({ uri: A, version: 1 }, 4, 2, pots);
    expect(target.next('pots')).toEqual({ uri: A, line: 4, character: 2, moment: 5 });
    target.go({ by: 'line', count: 1 });
    target.goTo(0);
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'pots', moment: 0 });
  });

  it('is the case that somebody has chosen', () => {
    const target = shown(5);
    target.choose(2);
    expect(target.next('pots')).toMatchObject({ case: 2, line: 3, character: 4 });
    expect(target.state.case).toBe(2);
  });
});

describe('a panel that is held', () => {
  it('keeps its sequence and its moment', () => {
    const target = shown(5);
    target.hold('pots');
    expect(target.state).toEqual({ uri: A, sequence: 'pots', follows: false, moment: 5 });
    target.again();
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'pots', moment: 5 });
  });

  it('begins another sequence at its start', () => {
    const target = shown(5, { case: 1 });
    target.stayWith('trays');
    expect(target.next('pots')).toEqual({ uri: A, sequence: 'trays', moment: 0 });
    expect(target.state.follows).toBe(false);
  });
});

it('comes back from a file without sequences to the step where it was', () => {
  const target = shown(5);
  target.follow({ uri: B, version: 1 }, 7, 7, pots);
  expect(target.found({ sequences: [] })).toBe(true);
  target.again();
  expect(target.next('pots')).toMatchObject({ uri: A, line: 3, character: 4 });
});

describe('what is kept over a restart', () => {
  it('is where it stood', () => {
    const state = { uri: A, sequence: 'pots', follows: false, case: 1, moment: 7 };
    expect(machineStateFrom(JSON.parse(JSON.stringify(state)))).toEqual(state);
  });

  it('is as much as makes sense', () => {
    for (const kept of [undefined, null, 5, 'x', [], {}, { uri: 5 }]) expect(machineStateFrom(kept)).toBeUndefined();
    const odd = { uri: A, line: -1, character: 0.5, case: '1', moment: Number.NaN, follows: 'yes', more: 1 };
    expect(machineStateFrom(odd)).toEqual({ uri: A, follows: false });
  });
});
