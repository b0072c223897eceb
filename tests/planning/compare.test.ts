import { describe, expect, it } from 'vitest';
import type { Profile } from '../../server/machine/index.js';
import { type Compared, ranked } from '../../server/planning/compare.js';
import type { Plan, Planned } from '../../server/planning/order.js';

const machine = (name: string): Profile => ({
  name,
  setting: 6,
  counter: 4,
  counterCarry: 'carry',
  result: 10,
  dials: false,
  carriage: 5,
  subtract: 'reverse',
  count: 'follow',
  park: false,
  bell: false,
  autoClear: false,
  autoDivide: false,
  transferResult: 'none',
  transferCounter: false,
  effort: { turn: 1, shift: 1, lever: 2 },
  phrases: {},
});

const planOf = (isExact: boolean, figures: number, cost: number, written = 0): Plan => ({
  lines: [],
  register: 'result',
  decimals: 2,
  reading: '0.33',
  figures,
  isExact,
  effort: { turns: cost, shifts: 0, levers: 0, cost },
  written,
  decisions: [],
  goal: '1 / 3',
});

const namesOf = (planned: Readonly<Record<string, Planned>>): string[] =>
  ranked(Object.entries(planned).map(([name, of]): Compared => ({ machine: machine(name), planned: of }))).map(
    (compared) => compared.machine.name,
  );

describe('machines that were compared', () => {
  it('come with exact answers first, then more figures, and last those that can not', () => {
    expect(
      namesOf({
        none: { refused: { is: 'no-counter' } },
        short: planOf(false, 4, 10),
        long: planOf(false, 8, 90),
        exact: planOf(true, 3, 99),
      }),
    ).toEqual(['exact', 'long', 'short', 'none']);
  });

  it('come, among equals, with fewer numbers to note down first, then with less effort', () => {
    expect(
      namesOf({
        dear: planOf(false, 4, 12),
        noted: planOf(false, 4, 3, 1),
        cheap: planOf(false, 4, 9),
        same: planOf(false, 4, 9),
      }),
    ).toEqual(['cheap', 'same', 'dear', 'noted']);
  });

  it('are not told apart by the noughts that they show behind an exact answer', () => {
    expect(namesOf({ noughts: planOf(true, 9, 12), short: planOf(true, 3, 10) })).toEqual(['short', 'noughts']);
  });
});
