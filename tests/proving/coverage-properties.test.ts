/** Coverage against trying every fault by itself from the start. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { faultsOf, isWithinReach } from '../../server/machine/index.js';
import { coverageOf } from '../../server/proving/coverage.js';
import { faultText } from '../../server/sequence/fault-text.js';
import { lookingsIn, partingOf } from '../../server/sequence/looks.js';
import { type Run, type RunOrder, run } from '../../server/sequence/run.js';
import { scriptOrder, scripts } from './scripts.js';

/** Where each fault is caught, with every fault cranked from the start and every reading compared. */
function byForce(order: RunOrder, sound: Run): string[] {
  const shown = lookingsIn(sound);
  return faultsOf(order.profile).map((fault) => {
    const faulty = run({ ...order, fault });
    const at = partingOf(sound, faulty);
    const neverEnds = at !== undefined && lookingsIn(faulty)[at] === undefined;
    return `${faultText(fault)}: ${at === undefined ? 'uncaught' : neverEnds ? 'never ends' : shown[at].row}`;
  });
}

test('it says the same as brute force', () => {
  const ends = { caught: 0, uncaught: 0, never: 0 };
  fc.assert(
    fc.property(scripts(), (text) => {
      const order = scriptOrder(text);
      const sound = run(order);
      if (sound.brokeOff) return;
      const { judged } = finish(coverageOf([sound]));
      const told = judged.map(({ fault, caught }) => {
        const where = caught === undefined ? 'uncaught' : caught.neverEnds ? 'never ends' : caught.row;
        return `${faultText(fault)}: ${where}`;
      });
      expect(told).toEqual(byForce(order, sound));
      for (const { caught } of judged)
        ends[caught === undefined ? 'uncaught' : caught.neverEnds ? 'never' : 'caught']++;
    }),
    { numRuns: 400 },
  );
  expect(ends.caught).toBeGreaterThan(2_000);
  expect(ends.uncaught).toBeGreaterThan(2_000);
  expect(ends.never).toBeGreaterThan(50);
});

test('what is caught is within reach, and several runs catch what any of them does', () => {
  fc.assert(
    fc.property(scripts(), (text) => {
      const order = scriptOrder(text);
      const sound = run(order);
      if (sound.brokeOff) return;
      const alone = finish(coverageOf([sound]));
      for (const { fault, caught } of alone.judged) if (caught) expect(isWithinReach(fault, order.profile)).toBe(true);
      const { total } = alone;
      expect(finish(coverageOf([sound, sound])).total).toEqual(total);
      const parts = [...alone.byMechanism.values()];
      expect(parts.reduce((sum, { caught }) => sum + caught, 0)).toBe(total.caught);
      expect(parts.reduce((sum, { all }) => sum + all, 0)).toBe(total.all);
    }),
    { numRuns: 150 },
  );
});
