/** Where one stands in a run, and where each way to go leads. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { print } from '../../grammar/printer.js';
import { run } from '../../server/sequence/run.js';
import { Timeline } from '../../server/stepping/timeline.js';
import { type Stand, Walk } from '../../server/stepping/walk.js';
import { orderOf } from '../sequence/faulty.js';
import { machine } from '../sequence/machines.js';
import { trials, trialText } from '../sequence/random.js';

type Way = 'into' | 'outOf' | 'over' | 'out' | 'back';

const walkOf = (text: string, more = '') =>
  new Walk(new Timeline(run(orderOf(`${machine('full')}${more}sequence trial on stores\n${text}\n`))));

/** A stand as `depth: step`, with the turns of it that are made. */
function told(walk: Walk, stand: Stand): string {
  const step = walk.stepAt(stand);
  const turns = walk.isMidway(stand) ? ` +${walk.timeline.done(stand.moment).turns}` : '';
  const round = walk.framesAt(stand).at(-1)?.round;
  const name = step ? print(step.syntax) : 'end';
  return `${stand.depth}${round ? `.${round}` : ''}: ${name}${turns}${stand.isDone ? ' done' : ''}`;
}

/** All stands on one way, from the start or the end. */
function along(
  walk: Walk,
  way: Way,
  from: Stand = way === 'back' || way === 'outOf' ? walk.end : walk.start,
): string[] {
  const found: string[] = [];
  for (let stand: Stand | undefined = from; stand; stand = walk[way](stand)) found.push(told(walk, stand));
  return found;
}

/** The first stand that reads so. */
function standAt(walk: Walk, text: string): Stand {
  for (let stand: Stand | undefined = walk.start; stand; stand = walk.into(stand))
    if (told(walk, stand) === text) return stand;
  throw new Error(`Nobody stands at ${text}.`);
}

const NESTED = `  clear all; set 12
  repeat 2 {
    turn 2
    shift right
  }
  multiply by 21
  run end`;
const OTHER = 'sequence end on stores\n  shift left\n  clear setting\n';

describe('ways to go', () => {
  const walk = walkOf(NESTED, OTHER);

  test('over a line, and all that is inside it', () => {
    expect(along(walk, 'over')).toEqual(['0: clear all', '0: repeat 2 {', '0: multiply by 21', '0: run end', '0: end']);
  });

  test('into whatever it may be, and turn by turn', () => {
    expect(along(walk, 'into')).toEqual([
      '0: clear all',
      '0: set 12',
      '0: repeat 2 {',
      '1.1: turn 2',
      '1.1: turn 2 +1',
      '1.1: shift right',
      '1.2: turn 2',
      '1.2: turn 2 +1',
      '1.2: shift right',
      '0: multiply by 21',
      '1: turn',
      '1: shift right',
      '1: turn 2',
      '1: turn 2 +1',
      '0: run end',
      '1: shift left',
      '1: clear setting',
      '0: end',
    ]);
    expect(along(walk, 'outOf')).toEqual(along(walk, 'into').reverse());
  });

  test('over, where one is inside', () => {
    expect(along(walk, 'over', standAt(walk, '1.1: turn 2')).slice(0, 5)).toEqual([
      '1.1: turn 2',
      '1.1: shift right',
      '1.2: turn 2',
      '1.2: shift right',
      '0: multiply by 21',
    ]);
    expect(along(walk, 'over', standAt(walk, '1: turn')).slice(0, 4)).toEqual([
      '1: turn',
      '1: shift right',
      '1: turn 2',
      '0: run end',
    ]);
    expect(told(walk, walk.over(standAt(walk, '1.1: turn 2 +1')) as Stand)).toBe('1.1: shift right');
  });

  test('out of all rounds, of a step of several turns, and of the sequence', () => {
    const out = (text: string) => told(walk, walk.out(standAt(walk, text)) as Stand);
    expect(out('1.1: shift right')).toBe('0: multiply by 21');
    expect(out('1.1: turn 2 +1')).toBe('1.1: shift right');
    expect(out('1: turn 2')).toBe('0: run end');
    expect(out('1: shift left')).toBe('0: end');
    expect(out('0: set 12')).toBe('0: end');
    expect(walk.out(walk.end)).toBeUndefined();
  });

  test('back as over leads on, where one stands', () => {
    expect(along(walk, 'back')).toEqual(['0: end', '0: run end', '0: multiply by 21', '0: repeat 2 {', '0: clear all']);
    expect(along(walk, 'back', standAt(walk, '1.2: shift right'))).toEqual([
      '1.2: shift right',
      '1.2: turn 2',
      '1.1: shift right',
      '1.1: turn 2',
      '0: repeat 2 {',
      '0: clear all',
    ]);
    expect(along(walk, 'back', standAt(walk, '1.1: turn 2 +1')).slice(0, 2)).toEqual(['1.1: turn 2 +1', '1.1: turn 2']);
  });

  test('a step that is done and still looked at', () => {
    const done = walk.doneAt(2);
    expect(told(walk, done)).toBe('1.1: turn 2 done');
    expect(told(walk, walk.over(done) as Stand)).toBe('1.1: shift right');
    expect(told(walk, walk.into(done) as Stand)).toBe('1.1: shift right');
    expect(told(walk, walk.back(done) as Stand)).toBe('1.1: turn 2');
    expect(told(walk, walk.outOf(done) as Stand)).toBe('1.1: turn 2 +1');
    expect(told(walk, walk.out(done) as Stand)).toBe('0: multiply by 21');
  });

  test('several things begin with one row', () => {
    const deep = walkOf('  repeat 2 { repeat 2 { multiply by 11 } }');
    expect(along(deep, 'into').slice(0, 5)).toEqual([
      '0: repeat 2 {',
      '1.1: repeat 2 {',
      '2.1: multiply by 11',
      '3: turn',
      '3: shift right',
    ]);
    expect(along(deep, 'back', standAt(deep, '3: turn'))).toEqual([
      '3: turn',
      '2.1: multiply by 11',
      '1.1: repeat 2 {',
      '0: repeat 2 {',
    ]);
    expect(along(deep, 'over', standAt(deep, '2.1: multiply by 11')).slice(1)).toEqual([
      '2.2: multiply by 11',
      '1.2: repeat 2 {',
      '0: end',
    ]);
  });

  test('a sequence without a step', () => {
    const empty = walkOf('');
    expect(along(empty, 'into')).toEqual(['0: end']);
    expect([empty.over(empty.start), empty.back(empty.start), empty.out(empty.start)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

test('whatever the sequence: ways lead on and back in the order of the stands, and none leads past another', () => {
  let deeper = 0;
  fc.assert(
    fc.property(trials(8), fc.integer({ min: 1, max: 3 }), ([plan, deeds], rounds) => {
      const text = trialText(plan, deeds).replace('on stores\n', `on stores\n  repeat ${rounds} {\n`);
      const walk = new Walk(new Timeline(run(orderOf(`${text}  }\n`))));
      const stands: Stand[] = [];
      for (let stand: Stand | undefined = walk.start; stand && stands.length < 400; stand = walk.into(stand))
        stands.push(stand);
      for (const [i, stand] of stands.entries()) {
        if (stand.depth > 1) deeper++;
        expect(walk.near(stand.moment, stand.depth)).toEqual(stand);
        if (i > 0) {
          expect(walk.compare(stands[i - 1], stand)).toBeLessThan(0);
          expect(walk.outOf(stand)).toEqual(stands[i - 1]);
        }
        for (const way of ['over', 'out'] as const) {
          const to = walk[way](stand);
          expect(to === undefined).toBe(walk.isEnd(stand));
          if (!to) continue;
          expect(walk.compare(stand, to)).toBeLessThan(0);
          if (!walk.isMidway(stand)) expect(to.depth).toBeLessThanOrEqual(stand.depth);
        }
        const back = walk.back(stand);
        expect(back === undefined).toBe(i === 0);
        if (back) {
          expect(walk.compare(back, stand)).toBeLessThan(0);
          expect(stands).toContainEqual(back);
        }
      }
    }),
  );
  expect(deeper).toBeGreaterThan(20);
});
