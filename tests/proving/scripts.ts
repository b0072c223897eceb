/** Random test scripts: machines and sequences with readings, rounds and sequences run by others. */
import fc from 'fast-check';
import type { RunOrder } from '../../server/sequence/run.js';
import { orderOf } from '../sequence/faulty.js';
import { deedsOn, deedText, machineText, plans } from '../sequence/random.js';
import type { Plan } from '../sequence/slow-model.js';

const READINGS = [
  'ask result',
  'ask counter result',
  'ask setting',
  'expect result 0',
  'expect bell',
  'expect overdraw',
  'expect overflow',
  'expect carriage 1',
  'expect parked',
  'ask counter',
] as const;

/** What a person would write: figures set, turned, read. */
const workOn = (plan: Plan): fc.Arbitrary<string[]> =>
  fc
    .record({
      figures: fc.array(fc.constantFrom(...'0123456789'), { minLength: plan.setting, maxLength: plan.setting }),
      turns: fc.constantFrom(
        'turn',
        'turn 2',
        'turn 9',
        plan.subtract === 'reverse' ? 'turn back' : 'mode subtract; turn 2',
      ),
      position: fc.integer({ min: 1, max: plan.carriage }),
      after: fc.constantFrom(
        '',
        'clear result',
        'divide',
        'divide short',
        'clear setting counter',
        'clear setting; transfer counter',
        'mode add; turn',
      ),
      reading: fc.constantFrom('ask result', 'ask setting result', plan.counter > 0 ? 'ask counter' : 'ask setting'),
    })
    .map(({ figures, turns, position, after, reading }) => {
      const steps = [`shift to ${position}`, `set ${figures.join('')}`, turns, reading, after, after && reading];
      return steps.filter((step) => step !== '');
    });

/** Lines of steps; about every third is a reading. */
const linesOn = (plan: Plan, most: number): fc.Arbitrary<string[]> => {
  const one = (lines: fc.Arbitrary<string>) => lines.map((line) => [line]);
  const groups = fc.oneof(
    { weight: 3, arbitrary: one(deedsOn(plan).map(deedText)) },
    { weight: 2, arbitrary: workOn(plan) },
    { weight: 1, arbitrary: one(fc.constantFrom(...READINGS)) },
    { weight: 1, arbitrary: one(fc.constantFrom('note "here"', 'multiply by 97 short', 'divide short', 'clear all')) },
  );
  return fc.array(groups, { minLength: 1, maxLength: most, size: 'max' }).map((all) => all.flat());
};

/** Files whose first sequence is the script. */
export const scripts = (most = 12): fc.Arbitrary<string> =>
  plans.chain((plan) =>
    fc
      .tuple(linesOn(plan, most), linesOn(plan, 4), linesOn(plan, 4), fc.nat({ max: 3 }), fc.nat())
      .map(([all, inRounds, inOther, rounds, at]) => {
        // A division mostly has no end on levers that were set at random.
        const divides = at % 4 === 0;
        const lines = all.filter((line) => divides || !/until|divide/.test(line));
        const middle = at % (lines.length + 1);
        const nested = [`repeat ${rounds + 1} {`, ...inRounds, '}', 'run other'];
        const script = [...lines.slice(0, middle), ...(at % 3 === 0 ? nested : []), ...lines.slice(middle)];
        return `${machineText(plan)}sequence trial on stores\n${script.join('\n')}\nsequence other on stores\n${inOther.join('\n')}\n`;
      }),
  );

export const scriptOrder = (text: string): RunOrder => orderOf(text, 0);
