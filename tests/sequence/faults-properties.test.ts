/** Machines with a fault against the slow model, on random machines, row by row. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FAULT_KINDS, faultsOf, isWithinReach } from '../../server/machine/index.js';
import { faultText } from '../../server/sequence/fault-text.js';
import { run } from '../../server/sequence/run.js';
import { orderOf, shownRows } from './faulty.js';
import { trials, trialText } from './random.js';
import { SlowMachine } from './slow-model.js';

test('both show the same after every step, whatever the fault', () => {
  const acted = new Set<string>();
  let never = 0;
  fc.assert(
    fc.property(trials(), fc.array(fc.nat(), { minLength: 6, maxLength: 6 }), ([plan, deeds], picks) => {
      const order = orderOf(trialText(plan, deeds));
      const faults = faultsOf(order.profile);
      const sound = JSON.stringify(shownRows(run(order)));
      // Of the many faults of levers no more than of the others.
      const kinds = [...new Set(faults.map(({ kind }) => kind))];
      for (const pick of picks) {
        const ofKind = faults.filter(({ kind }) => kind === kinds[pick % kinds.length]);
        const fault = ofKind[pick % ofKind.length];
        const faulty = run({ ...order, fault });
        const slow = new SlowMachine(plan, faultText(fault));
        slow.run(deeds);
        expect(shownRows(faulty)).toEqual(slow.rows);
        expect(faulty.brokeOff).toBe(slow.neverEnded);
        if (JSON.stringify(slow.rows) === sound) continue;
        acted.add(fault.kind);
        if (slow.neverEnded) never++;
      }
    }),
    { numRuns: 2_000 },
  );
  expect([...acted].sort()).toEqual([...FAULT_KINDS].sort());
  expect(never).toBeGreaterThan(10);
});

test('what is out of reach changes nothing', () => {
  let tried = 0;
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      const order = orderOf(trialText(plan, deeds));
      const beyond = faultsOf(order.profile).filter((fault) => !isWithinReach(fault, order.profile));
      if (beyond.length === 0) return;
      const sound = shownRows(run(order));
      for (const fault of beyond) expect(shownRows(run({ ...order, fault }))).toEqual(sound);
      tried += beyond.length;
    }),
    { numRuns: 600 },
  );
  expect(tried).toBeGreaterThan(500);
});
