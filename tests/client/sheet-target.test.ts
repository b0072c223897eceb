/** Of what a panel shows a sheet: how it goes with the cursor, stays, and comes back. */
import { describe, expect, it } from 'vitest';
import { SheetTarget } from '../../client/sheet-target.js';

const A = 'file:///nursery/a.crank';
const MACHINES = 'file:///nursery/machines.crank';
const lines = (from: number, to: number) => ({ start: { line: from, character: 0 }, end: { line: to, character: 0 } });
/** `pots` on lines 2 to 7 and `trays` on lines 10 to 14 of a document. */
const sequences = [
  { name: 'pots', title: '', range: lines(2, 8) },
  { name: 'trays', title: '', range: lines(10, 15) },
];
const pots = { sequence: 'pots', sequences };
const nothing = { sequences: [] };
const following = () => new SheetTarget({ uri: A, line: 3, follows: true, choices: { kind: 'key' } });

describe('a sheet that follows the cursor', () => {
  it('is another one where the cursor comes into another sequence', () => {
    const target = following();
    expect(target.follow({ uri: A, version: 1 }, 7, pots)).toBe(false);
    expect(target.follow({ uri: A, version: 1 }, 10, pots)).toBe(true);
    expect(target.state).toEqual({ uri: A, line: 10, follows: true, choices: { kind: 'key' } });
  });

  it('stays between sequences and before them', () => {
    const target = following();
    for (const line of [0, 8, 9, 15, 99]) expect(target.follow({ uri: A, version: 1 }, line, pots)).toBe(false);
    expect(target.state.line).toBe(3);
  });

  it('goes by its line once the cursor is in it, so that another name is no loss', () => {
    const target = new SheetTarget({ uri: A, sequence: 'pots', follows: true, choices: {} });
    expect(target.follow({ uri: A, version: 1 }, 4, pots)).toBe(false);
    expect(target.state).toEqual({ uri: A, line: 4, follows: true, choices: {} });
  });

  it('comes back from a file without sequences, and asks once for each of its versions', () => {
    const target = following();
    expect(target.found(pots)).toBe(false);
    expect(target.follow({ uri: MACHINES, version: 1 }, 5, pots)).toBe(true);
    // Two such files, one after the other, before anybody has answered.
    expect(target.follow({ uri: `${MACHINES}2`, version: 1 }, 5, undefined)).toBe(true);
    expect(target.found(nothing)).toBe(true);
    expect(target.state).toMatchObject({ uri: A, line: 3 });
    expect(target.follow({ uri: `${MACHINES}2`, version: 1 }, 6, pots)).toBe(false);
    expect(target.follow({ uri: `${MACHINES}2`, version: 2 }, 6, pots)).toBe(true);
  });

  it('does not come back from where somebody wanted it, or where nothing is left', () => {
    const target = following();
    target.found(pots);
    target.show({ uri: MACHINES, line: 0 });
    expect(target.found(nothing)).toBe(false);
    const emptied = following();
    emptied.found(pots);
    emptied.follow({ uri: A, version: 2 }, 3, undefined);
    expect(emptied.found(nothing)).toBe(false);
  });
});

describe('a sheet that is held', () => {
  it('keeps its sequence by name, until it is released', () => {
    const target = following();
    target.hold('pots');
    expect(target.state).toEqual({ uri: A, sequence: 'pots', follows: false, choices: { kind: 'key' } });
    target.release();
    expect(target.state.follows).toBe(true);
  });

  it('keeps its line where there is no sequence', () => {
    const target = following();
    target.hold(undefined);
    expect(target.state).toEqual({ uri: A, line: 3, follows: false, choices: { kind: 'key' } });
  });
});

it('goes with a file that is moved, and with a folder, but not with one of a similar name', () => {
  const target = following();
  target.moved('file:///nursery/a.cran', 'file:///nursery/x');
  target.moved('file:///nurs', 'file:///x');
  expect(target.state.uri).toBe(A);
  target.moved('file:///nursery', 'file:///office');
  expect(target.state.uri).toBe('file:///office/a.crank');
  target.moved('file:///office/a.crank', 'file:///office/b.crank');
  expect(target.state.uri).toBe('file:///office/b.crank');
});

it('remembers choices, and can forget them once', () => {
  const target = following();
  target.choose({ language: 'de' });
  expect(target.state.choices).toEqual({ kind: 'key', language: 'de' });
  expect(target.forgetChoices()).toBe(true);
  expect(target.forgetChoices()).toBe(false);
});
