/** Moments of a run: they are those of the tape, and between its rows what single turns make of the machine. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { FRAME, faultsOf, LEVERS, OF_THE_STEP, type State, textOf } from '../../server/machine/index.js';
import { run } from '../../server/sequence/run.js';
import { stepThrough } from '../../server/stepping/stepped-run.js';
import { Timeline } from '../../server/stepping/timeline.js';
import { orderOf } from '../sequence/faulty.js';
import { cranked } from '../sequence/machines.js';
import { trials, trialText } from '../sequence/random.js';

const timelineOf = (steps: string) => new Timeline(run(orderOf(cranked('full', steps))));

/** The result at every moment. */
const resultsIn = (timeline: Timeline) =>
  Array.from({ length: timeline.length }, (_, moment) =>
    textOf(timeline.stateAt(moment), timeline.run.order.profile, 'result').replace(/^0+(?=.)/, ''),
  );

/** A state without what is only noted of a step, and without what the runner keeps there. */
const standing = (state: State): number[] => {
  const kept = Array.from(state);
  kept[LEVERS] &= ~OF_THE_STEP;
  kept[FRAME] = 0;
  return kept;
};

describe('moments', () => {
  test('are one a step, and one a turn within a step', () => {
    expect(resultsIn(timelineOf('set 12\nturn 3\nshift right\nturn 2'))).toEqual([
      '0',
      '0',
      '0',
      '12',
      '24',
      '36',
      '36',
      '156',
      '276',
    ]);
  });

  test('tell what has been done, and what is next', () => {
    const timeline = timelineOf('set 12\nturn 3');
    expect([0, 1, 2, 3, 4, 5].map((moment) => timeline.done(moment))).toEqual([
      { row: -1, turns: 0, isWhole: true },
      { row: 0, turns: 0, isWhole: true },
      { row: 1, turns: 0, isWhole: true },
      { row: 2, turns: 1, isWhole: false },
      { row: 2, turns: 2, isWhole: false },
      { row: 2, turns: 3, isWhole: true },
    ]);
    expect([0, 1, 2, 3, 4, 5].map((moment) => timeline.next(moment))).toEqual([0, 1, 2, 2, 2, 3]);
    expect([timeline.before(2), timeline.after(2), timeline.after(-1)]).toEqual([2, 5, 0]);
  });

  test('ring where the bell rings, and there alone', () => {
    const timeline = timelineOf('mode subtract\nset 1\nturn 3');
    const rang = Array.from({ length: timeline.length }, (_, moment) => timeline.glimpse(moment).rang);
    expect(rang).toEqual([false, false, false, false, true, false, false]);
  });

  test('are no less and no more than there are', () => {
    const timeline = timelineOf('turn 2');
    expect([-3, 1.7, Number.NaN, Number.POSITIVE_INFINITY, 99].map((moment) => timeline.clamped(moment))).toEqual([
      0, 1, 0, 0, 3,
    ]);
  });
});

test('whatever the machine, its fault and the steps: moments are turns one by one, and end as the tape does', () => {
  let partly = 0;
  fc.assert(
    fc.property(trials(), fc.nat(), ([plan, deeds], pick) => {
      const order = orderOf(trialText(plan, deeds));
      const faults = faultsOf(order.profile);
      const { run: done, effortAfter } = finish(stepThrough({ ...order, fault: faults[pick % faults.length] }));
      const { tape } = done;
      expect(effortAfter(tape.length - 1)).toEqual(done.effort);
      const timeline = new Timeline(done);
      expect(timeline.length).toBe(timeline.before(tape.length) + 1);
      for (let moment = 1; moment < Math.min(timeline.length, 400); moment++) {
        const { row, isWhole } = timeline.done(moment);
        const { before, after } = timeline.glimpse(moment);
        expect(standing(before).with(14, 0)).toEqual(standing(timeline.stateAt(moment - 1)).with(14, 0));
        if (isWhole) expect(after).toEqual(tape.stateAt(row));
        else partly++;
      }
      // Cranked to its end, a step comes to what the tape has.
      for (let row = 0; row < tape.length; row++) {
        const moment = timeline.after(row);
        if (moment - timeline.before(row) < 2 || moment > 400) continue;
        const { before } = timeline.glimpse(moment);
        expect(standing(before)).toEqual(standing(timeline.stateAt(moment - 1)));
      }
    }),
  );
  expect(partly).toBeGreaterThan(50);
});
