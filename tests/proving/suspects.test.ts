/** Suspects taken up where their fault first acts show what they show when all is cranked from the start. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { faultsOf } from '../../server/machine/index.js';
import { shownAt, suspectsOf } from '../../server/proving/suspects.js';
import { expectingsIn } from '../../server/sequence/looks.js';
import { run } from '../../server/sequence/run.js';
import { checkText } from '../marked.js';
import { deedText, machineText, trials } from '../sequence/random.js';

const LOOKED = ['setting', 'counter', 'result', 'carriage', 'bell', 'overflow', 'overdraw', 'parked'] as const;

it('on random machines, at every expect, whatever is looked at', () => {
  let apart = 0;
  fc.assert(
    fc.property(trials(10), ([plan, deeds]) => {
      const steps = deeds.map((deed) => `  ${deedText(deed)}\n  expect result 0\n`).join('');
      const sound = checkText(`${machineText(plan)}sequence trial on stores\n${steps}`).report.sequences[0].runs[0];
      const { profile } = sound.order;
      const faults = faultsOf(profile).filter((_, i) => i % 5 === 0);
      for (const { fault, expectings, brokeOff } of finish(suspectsOf(sound, faults))) {
        const faulty = run({ ...sound.order, fault });
        const cranked = expectingsIn(faulty);
        expect(expectings.length).toBe(cranked.length);
        if (!sound.brokeOff) expect(brokeOff).toBe(faulty.brokeOff);
        for (const at of cranked.keys()) {
          for (const what of LOOKED) {
            const shown = shownAt(cranked, at, what, profile);
            expect(shownAt(expectings, at, what, profile)).toBe(shown);
            if (shown !== shownAt(expectingsIn(sound), at, what, profile)) apart++;
          }
        }
      }
    }),
    { numRuns: 80 },
  );
  expect(apart).toBeGreaterThan(50);
});
