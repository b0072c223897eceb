/** A run for stepping is the run that readings are made of; with hand-made steps in it, it is as if they were written. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import { run } from '../../server/sequence/run.js';
import { type ByHand, stepThrough } from '../../server/stepping/stepped-run.js';
import { orderOf, shownRows } from '../sequence/faulty.js';
import { cranked } from '../sequence/machines.js';
import { trials, trialText } from '../sequence/random.js';

/** A step as it is written. */
const stepOf = (text: string): Step['syntax'] => orderOf(cranked('full', text)).section.steps[1].syntax;
const through = (steps: string, byHand: readonly ByHand[] = []) =>
  finish(stepThrough(orderOf(cranked('full', steps)), byHand));
const happeningsOf = (steps: string) =>
  through(steps).happenings.map(({ row, facts, at }) => `${row} ${facts.code} ${at.line}`);

test('without hand-made steps it has the rows and the effort of the run', () => {
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      const order = orderOf(trialText(plan, deeds));
      const stepped = finish(stepThrough(order));
      const sound = run(order);
      expect(shownRows(stepped.run)).toEqual(shownRows(sound));
      expect(stepped.run.effort).toEqual(sound.effort);
      const codes = new Set(sound.notices.findings(order.section, 'trial', 0).map(({ facts }) => facts.code));
      const atRows = new Set(stepped.happenings.map(({ facts }) => facts.code));
      for (const code of codes) if (code !== 'left-engaged') expect(atRows).toContain(code);
    }),
  );
});

describe('what is noticed', () => {
  test('stands at the row in which it happens, in each round', () => {
    expect(happeningsOf('set 9\nrepeat 2 { turn 10 }')).toEqual(['2 many-turns 3', '3 many-turns 3']);
  });

  test('stands where it began, if it turns out later', () => {
    expect(happeningsOf('mode subtract\nset 1\nturn\nmode add\nturn')).toContain('3 overdraw-restored 4');
  });
});

describe('steps done by hand', () => {
  test('come between two rows', () => {
    const byHand = [{ row: 2, afterTurns: 0, step: stepOf('set 7') }];
    expect(shownRows(through('set 5\nturn', byHand).run)).toEqual(shownRows(through('set 5\nset 7\nturn').run));
  });

  test('come between two turns of a step', () => {
    const byHand = [
      { row: 3, afterTurns: 2, step: stepOf('set 7') },
      { row: 5, afterTurns: 1, step: stepOf('shift right') },
    ];
    const { run: done, byHand: handled } = through('set 5\nturn 4\nturn', byHand);
    const written = through('set 5\nturn 2\nset 7\nturn\nshift right\nturn\nturn');
    expect(shownRows(done)).toEqual(shownRows(written.run));
    expect(handled).toEqual(byHand);
  });

  test('come while the machine turns until something happens', () => {
    const byHand = [{ row: 4, afterTurns: 1, step: stepOf('set 3') }];
    const { run: done } = through('mode subtract\nset 2\nturn until overdraw', byHand);
    const written = through('mode subtract\nset 2\nturn\nset 3\nturn until overdraw');
    expect(shownRows(done)).toEqual(shownRows(written.run));
  });

  test('come before a step that stands for others', () => {
    const byHand = [{ row: 2, afterTurns: 0, step: stepOf('shift right') }];
    const { run: done } = through('set 5\nmultiply by 12', byHand);
    expect(shownRows(done)).toEqual(shownRows(through('set 5\nshift right\nmultiply by 12').run));
  });

  test('are none where the run does not come to them', () => {
    const byHand = [{ row: 9, afterTurns: 0, step: stepOf('set 7') }];
    expect(through('set 5\nturn', byHand).byHand).toEqual([]);
  });
});
