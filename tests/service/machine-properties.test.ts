/** The panel of the machine, whatever it is of: any document, any moment, any text in it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { machineAsked, originAsked, originOfPart, shownMachine } from '../../server/service/machine.js';
import { trials, trialText } from '../sequence/random.js';
import { awkward } from '../sheets/hostile.js';
import { addressOf, openMarked, reader } from './editor.js';

const URI = addressOf('test.crank');
const moves = fc.array(
  fc.record({ by: fc.constantFrom('step', 'turn', 'line'), count: fc.integer({ min: -50, max: 50 }) }),
  { maxLength: 4 },
);

const asked = (sent: object) => {
  const found = machineAsked(sent);
  if (typeof found === 'string') throw new Error(found);
  return found;
};

/** Elements that are opened and not closed; nothing where all is well. */
function unclosed(svg: string): string[] {
  const open: string[] = [];
  for (const [, close, name, end] of svg.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/g)) {
    if (close) expect(open.pop()).toBe(name);
    else if (!end) open.push(name);
  }
  return open;
}

test('whatever the machine, the steps and the moment: there is a frame, and it is whole', () => {
  fc.assert(
    fc.property(trials(), fc.nat(3_000), moves, ([plan, deeds], moment, ways) => {
      const { document } = openMarked(trialText(plan, deeds));
      const someone = reader({ locale: moment % 2 ? 'de' : 'en' });
      const { frame } = finish(shownMachine(document, asked({ uri: URI, moment, moves: ways }), someone));
      if (!frame) return;
      expect(frame.moment).toBeGreaterThanOrEqual(0);
      expect(frame.moment).toBeLessThan(frame.moments);
      expect(unclosed(frame.figure.svg)).toEqual([]);
      const names = frame.figure.parts.map(({ part }) => part);
      expect(new Set(names).size).toBe(names.length);
      const { width, height } = frame.figure;
      for (const { part, label, box } of frame.figure.parts) {
        expect(label, part).toMatch(/\p{L}/u);
        expect(label).not.toBe(part);
        expect(frame.figure.svg).toContain(`data-part="${part}"`);
        expect(
          [box.x, box.y, width - box.x - box.width, height - box.y - box.height].every((n) => n > -2),
          part,
        ).toBe(true);
      }
      // Where it is hatched is said, and only that.
      const isHatched = frame.figure.svg.includes('data-heeded');
      expect(frame.remarks.some(({ marked }) => marked !== undefined)).toBe(isHatched);
      // Each part leads somewhere, to a moment that is past or the present one.
      for (const part of names) {
        const wanted = originAsked({ uri: URI, moment: frame.moment, part });
        if (typeof wanted === 'string') throw new Error(wanted);
        const { origin } = finish(originOfPart(document, wanted, someone));
        expect(origin, part).toBeDefined();
        expect(origin?.moment ?? 0).toBeLessThanOrEqual(frame.moment);
      }
    }),
    { numRuns: 60 },
  );
});

test('whatever the machine and the steps: going on comes to the end, and back to the start', () => {
  fc.assert(
    fc.property(trials(), fc.constantFrom('step', 'turn', 'line'), ([plan, deeds], by) => {
      const { document } = openMarked(trialText(plan, deeds));
      const at = (moment: number, count: number): number | undefined =>
        finish(shownMachine(document, asked({ uri: URI, moment, moves: [{ by, count }] }), reader())).frame?.moment;
      const stops = [0];
      for (;;) {
        const next = at(stops[stops.length - 1], 1);
        if (next === undefined || next === stops.at(-1) || stops.length > 200) break;
        expect(next).toBeGreaterThan(stops[stops.length - 1]);
        stops.push(next);
      }
      for (let i = stops.length - 1; i > 0; i--) expect(at(stops[i], -1)).toBe(stops[i - 1]);
    }),
    { numRuns: 40 },
  );
});

test('whatever somebody writes stays text', () => {
  fc.assert(
    fc.property(awkward, (text) => {
      const quoted = JSON.stringify(text).replaceAll(/\\[^"\\]/g, ' ');
      const { document } = openMarked(
        `machine desk ${quoted}\n  setting 4\n  result 8\nsequence s on desk\n  set 12\n  note ${quoted}\n`,
      );
      const { frame } = finish(shownMachine(document, asked({ uri: URI, moment: 9 }), reader()));
      if (!frame) return;
      expect(frame.figure.svg).not.toMatch(/<(?:script|style|img|b|iframe|foreignObject|a)\b|<[^<>]*\son\w+=/i);
      expect(unclosed(frame.figure.svg)).toEqual([]);
    }),
  );
});

test('any text, cut anywhere, and any cursor in it', () => {
  const text = `machine desk
  setting 4
  counter 4
  result 8
sequence a (n = 3) on desk
  case n = 5
  goal result = n
  repeat 2 { set n; turn n; run b }
  multiply by n
sequence b on desk
  shift right; expect result 7
`;
  fc.assert(
    fc.property(fc.nat(text.length), fc.nat(40), fc.nat(15), fc.nat(60), (from, length, line, character) => {
      const { document } = openMarked(text.slice(0, from) + text.slice(from + length));
      for (const moment of [undefined, 3]) {
        const wanted = asked({ uri: URI, line, character, ...(moment !== undefined && { moment }) });
        const { frame, trouble } = finish(shownMachine(document, wanted, reader()));
        expect(frame ?? trouble).toBeDefined();
        if (frame) expect(frame.moment).toBeLessThan(frame.moments);
      }
    }),
  );
});
