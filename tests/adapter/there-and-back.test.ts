/** Whatever is gone through, each stand shows the same on the way there and on the way back. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { type Course, courseOf, errandFor } from '../../server/adapter/course.js';
import { framesTold } from '../../server/adapter/frames.js';
import { Standstill } from '../../server/adapter/standstill.js';
import { entriesOf, scopesOf } from '../../server/adapter/variables.js';
import type { Stand } from '../../server/stepping/walk.js';
import { trials, trialText } from '../sequence/random.js';
import { openMarked, reader } from '../service/editor.js';

const READER = reader();

function courseThrough(text: string): Course {
  const { document } = openMarked(text);
  const errand = errandFor(document, { uri: document.uri, case: 0 }, READER);
  if (typeof errand === 'string') throw new Error(errand);
  return finish(courseOf(errand));
}

/** Everything that a client is told of a stand, frame by frame. */
function shownAt(course: Course, stand: Stand): string[] {
  const still = new Standstill(course, stand);
  const frames = framesTold(course, stand, READER);
  const texts = frames.map(({ name, line, from, to }) => `${line}:${from}-${to} ${name}`);
  for (const i of frames.keys()) {
    for (const { variablesReference } of scopesOf(still, i, READER)) {
      for (const { variable } of entriesOf(still, variablesReference, READER)) {
        texts.push(`${variable.name} ${variable.value}`);
        for (const inner of entriesOf(still, variable.variablesReference, READER)) texts.push(inner.variable.value);
      }
    }
  }
  return texts;
}

test.each(['over', 'into'] as const)('%s to the end, and back', (way) => {
  const wayBack = ({ over: 'back', into: 'outOf' } as const)[way];
  fc.assert(
    fc.property(trials(8), fc.integer({ min: 1, max: 3 }), ([plan, deeds], rounds) => {
      const text = trialText(plan, deeds).replace('on stores\n', `on stores\n  repeat ${rounds} {\n`);
      const course = courseThrough(`${text}  }\n`);
      const { walk } = course;
      // Over inside the rounds, where there is something to go over.
      const start = (way === 'over' && walk.into(walk.start)) || walk.start;
      const there: (readonly [Stand, string[]])[] = [];
      for (let stand: Stand | undefined = start; stand && there.length < 150; stand = walk[way](stand)) {
        there.push([stand, shownAt(course, stand)]);
      }
      let [at] = there[there.length - 1];
      for (const [stand, shown] of there.slice(0, -1).reverse()) {
        // Out of the rounds, one goes back past the whole of them.
        if (way === 'over' && at.depth < stand.depth) break;
        const back: Stand | undefined = walk[wayBack](at);
        expect(back).toEqual(stand);
        expect(shownAt(course, back as Stand)).toEqual(shown);
        at = stand;
      }
    }),
    { numRuns: 60 },
  );
});
