/** What is proposed catches what it is proposed for, and brings no mistake with it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { type Addition, additionFor } from '../../server/proving/additions.js';
import { coverageOf } from '../../server/proving/coverage.js';
import { faultOn, faultText, isFaultProblem } from '../../server/sequence/fault-text.js';
import { partingOf } from '../../server/sequence/looks.js';
import { run } from '../../server/sequence/run.js';
import { checkText } from '../marked.js';
import { orderOf } from '../sequence/faulty.js';
import { cranked, type MachineName, machine } from '../sequence/machines.js';
import { scriptOrder, scripts } from './scripts.js';

/** A text whose first sequence is followed by others, with an addition to that. */
function withAddition(text: string, { place, lines }: Addition): string {
  const written = text.split('\n');
  const header = written.findIndex((line) => line.startsWith('sequence'));
  if (place.is === 'apart')
    return `${written.slice(0, header).join('\n')}\nsequence apart on stores\n${lines.join('\n')}\n`;
  if (place.is === 'at-end') {
    const others = written.findIndex((line, i) => i > header && line.startsWith('sequence'));
    const end = others < 0 ? written.length : others;
    return [...written.slice(0, end), ...lines, ...written.slice(end)].join('\n');
  }
  const { line, syntax } = place.step;
  const at = written[header + line];
  const added = place.is === 'into' ? ` ${lines[0]}` : `; ${lines.join('; ')}`;
  written[header + line] = at.slice(0, syntax.to) + added + at.slice(syntax.to);
  return written.join('\n');
}

const catches = (text: string, fault: string): boolean => {
  const order = orderOf(text, 0);
  const read = faultOn(order.profile, fault);
  if (isFaultProblem(read)) throw new Error(fault);
  return partingOf(run(order), run({ ...order, fault: read })) !== undefined;
};

const errors = (text: string) => checkText(text).findings.filter(({ severity }) => severity === 'error').length;

function additionTo(text: string, fault: string): Addition | undefined {
  const order = orderOf(text, 0);
  const read = faultOn(order.profile, fault);
  if (isFaultProblem(read)) throw new Error(fault);
  return finish(additionFor(finish(coverageOf([run(order)])).trials, read));
}

const told = (text: string, fault: string) => {
  const addition = additionTo(text, fault);
  if (!addition) return undefined;
  expect(catches(withAddition(text, addition), fault)).toBe(true);
  expect(errors(withAddition(text, addition))).toBeLessThanOrEqual(errors(text));
  return `${addition.place.is}: ${addition.lines.join('; ')}`;
};

describe('an addition', () => {
  const on = (name: MachineName, fault: string, steps: string) => told(cranked(name, steps), fault);
  test('is one more item where somebody looks already', () => {
    expect(on('reverse', 'count-dead 1', 'set 7; turn\n expect result 7')).toBe('into: counter 1');
  });
  test('is a reading where nobody looks', () => {
    expect(on('reverse', 'lever-dead 1', 'set 7; turn\n clear result')).toBe('after: expect result 7');
    expect(on('reverse', 'lever-short 1 7', 'points result 1; set 7; turn\n clear result')).toBe(
      'after: expect result 0.7',
    );
  });
  test('asks in the rounds of a repeat, where the reading is not the same each time', () => {
    expect(on('reverse', 'clear-short setting 1', 'repeat 2 { set 5; clear setting; set 0 }')).toBe(
      'after: ask setting',
    );
  });
  test('is a few steps where the machine never comes to it', () => {
    expect(on('reverse', 'lever-short 2 4', 'turn')).toBe('at-end: set 4444; turn; expect result 4444');
    expect(on('full', 'bell-dead', 'set 1')).toBe('at-end: dial result 99999999; turn; expect bell');
    expect(on('full', 'transfer-dead 2', 'set 1')).toBe(
      'at-end: dial result 5555; clear setting; transfer result; expect setting 5555',
    );
  });
  test('needs no more steps than are left to do', () => {
    expect(on('reverse', 'lever-dead 1', 'set 1\n expect result 0')).toBe('at-end: turn; expect result 1');
  });
  test('goes into a sequence by itself where a goal stands at the end', () => {
    const text = `${machine('reverse')}sequence trial on stores\n  goal result = 0\n  clear all\n  set 3\n`;
    expect(told(text, 'lever-dead 2')).toBe('apart: set 1111; turn; expect result 1111');
  });
  test('says of an overdraw that it is meant', () => {
    expect(on('full', 'carry-lost result 7 subtract', 'note "none"')).toBe(
      'at-end: turn; set 1; mode subtract; turn; expect overdraw result 99999999',
    );
  });
});

test('nearly every fault within reach has one, with no new error in it', () => {
  let without = 0;
  let found = 0;
  fc.assert(
    fc.property(scripts(6), fc.nat(), (text, pick) => {
      const sound = run(scriptOrder(text));
      if (sound.brokeOff) return;
      const { judged, trials } = finish(coverageOf([sound]));
      const uncaught = judged.filter((one) => one.isWithinReach && !one.caught);
      for (let i = pick % 7; i < uncaught.length; i += 7) {
        const { fault } = uncaught[i];
        const addition = finish(additionFor(trials, fault));
        if (!addition) {
          without++;
          continue;
        }
        found++;
        const more = withAddition(text, addition);
        expect(catches(more, faultText(fault)), faultText(fault)).toBe(true);
        expect(errors(more), `${faultText(fault)} in\n${more}`).toBeLessThanOrEqual(errors(text));
      }
    }),
    { numRuns: 60 },
  );
  expect(found).toBeGreaterThan(500);
  // Those that only thousands of turns would show.
  expect(without).toBeLessThan(found / 50);
});
