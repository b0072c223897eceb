/** The register figure: where things stand, what is set off, and what is told of it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  COUNTER,
  contradictions,
  DEFAULT_EFFORT,
  fromText,
  has,
  hasDriveLever,
  hasHalfSteps,
  leftmost,
  MOST_PLACES,
  NEGATIVE,
  newState,
  POSITION,
  type Profile,
  pointOf,
  put,
  putPoint,
  RANG,
  RESULT,
  type Register,
  SETTING,
  type State,
  SUBTRACTING,
  textOf,
  WRAPS,
} from '../../server/machine/index.js';
import { figureSvg, figureText } from '../../server/sheets/figure/index.js';
import { type FigureLayout, layoutOf, type Wheel } from '../../server/sheets/figure/layout.js';
import type { Box } from '../../server/sheets/figure/lettering.js';
import type { FigureData } from '../../server/sheets/model.js';
import { formed } from '../../server/sheets/numbers.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { type Element, readXml } from '../cli/xml.js';
import { checkText } from '../marked.js';

const PAGE_MILLIMETRES = 170;
const SMALLEST_POINTS = 7;
const THINNEST_PX = 0.6;

const places = fc.oneof(fc.integer({ min: 1, max: MOST_PLACES }), fc.constantFrom(1, 2, MOST_PLACES));

/** Machines of every size that contradict themselves nowhere. */
const profiles: fc.Arbitrary<Profile> = fc
  .record({
    setting: places,
    counter: fc.oneof(fc.constant(0), places),
    counterCarry: fc.constantFrom('carry', 'plain', 'signed'),
    more: places,
    reachMore: fc.option(fc.integer({ min: 0, max: 5 }), { nil: undefined, freq: 3 }),
    positions: places,
    subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
    count: fc.constantFrom('follow', 'lever', 'first'),
    park: fc.boolean(),
    bell: fc.boolean(),
    autoClear: fc.boolean(),
    autoDivide: fc.boolean(),
  } as const)
  .map(({ more, reachMore, positions, ...rest }) => {
    const result = Math.min(MOST_PLACES, rest.setting + more - 1);
    const profile: Profile = {
      name: 'stores',
      title: 'Machine of the stores',
      ...rest,
      result,
      carriage: Math.min(result, positions),
      dials: false,
      transferResult: 'none',
      transferCounter: false,
      effort: DEFAULT_EFFORT,
      phrases: {},
      ...(reachMore !== undefined && { reach: Math.min(MOST_PLACES, rest.setting + reachMore) }),
    };
    return { ...profile, autoDivide: rest.autoDivide && hasDriveLever(profile) };
  })
  .filter((profile) => contradictions(profile).length === 0);

const figures = (count: number) =>
  fc
    .array(fc.constantFrom('0', '0', '0', '1', '4', '7', '9'), { minLength: count, maxLength: count })
    .map((list) => list.join(''));

/** Any state that the machine can show. */
function statesOf(profile: Profile): fc.Arbitrary<State> {
  const canPark = leftmost(profile) === 0 || profile.autoDivide;
  return fc
    .record({
      setting: figures(profile.setting),
      counter: figures(profile.counter),
      result: figures(profile.result),
      negative: fc.nat({ max: 2 ** MOST_PLACES - 1 }),
      position: fc.integer({ min: canPark ? 0 : 1, max: profile.carriage }),
      levers: fc.nat({ max: AUTO_DIVIDE | AUTO_CLEAR | COUNT_MINUS | SUBTRACTING }),
      points: fc.tuple(fc.nat(), fc.nat(), fc.nat()),
      isBelow: fc.boolean(),
    })
    .map(({ setting, counter, result, negative, position, levers, points, isBelow }) => {
      const state = newState();
      fromText(state, SETTING, setting);
      fromText(state, COUNTER, counter);
      fromText(state, RESULT, result);
      Array.from(counter).forEach((figure, i) => {
        const bit = 1 << (counter.length - 1 - i);
        if (profile.counterCarry === 'signed' && figure !== '0') state[NEGATIVE] |= negative & bit;
      });
      state[POSITION] = position;
      put(state, SUBTRACTING, hasDriveLever(profile) && (levers & SUBTRACTING) !== 0);
      put(state, COUNT_MINUS, profile.count === 'lever' && (levers & COUNT_MINUS) !== 0);
      put(state, AUTO_CLEAR, profile.autoClear && (levers & AUTO_CLEAR) !== 0);
      put(state, AUTO_DIVIDE, profile.autoDivide && (levers & AUTO_DIVIDE) !== 0);
      registersOf(profile).forEach((register, i) => {
        putPoint(state, register, points[i] % (profile[register] + 1));
      });
      if (isBelow) state[WRAPS] = -1;
      return state;
    });
}

const registersOf = ({ counter }: Profile): Register[] =>
  counter > 0 ? ['setting', 'counter', 'result'] : ['setting', 'result'];

const data: fc.Arbitrary<FigureData> = profiles.chain((profile) => {
  const states = statesOf(profile);
  // Nothing has changed, or next to nothing, or everything.
  const pairs = fc.oneof(
    fc.tuple(states, states),
    states.map((state) => [state, state] as const),
    fc.tuple(states, states).map(([before, other]) => {
      const after = before.slice();
      after[RESULT] = other[RESULT] % 10 ** Math.min(7, profile.result);
      return [before, after] as const;
    }),
  );
  return fc.record({ pair: pairs, rings: fc.boolean() }).map(({ pair: [before, after], rings }) => ({
    profile,
    before,
    after,
    rang: rings && profile.bell,
  }));
});

const languages = fc.constantFrom(...SHEET_LANGUAGES);

/** A sequence on a machine of the samples, before and after its last step. */
function cranked(machine: string, ...steps: string[]): FigureData {
  const machines = readFileSync(fileURLToPath(new URL('../../samples/machines.crank', import.meta.url)), 'utf8');
  const { report } = checkText(`${machines}\nsequence trial on ${machine}\n  ${steps.join('\n  ')}\n`);
  const [run] = report.sequences[0].runs;
  const last = run.tape.length - 1;
  const after = run.tape.stateAt(last);
  const before = last > 0 ? run.tape.stateAt(last - 1) : newState();
  return { profile: run.order.profile, before, after, rang: has(after, RANG) };
}

const EN = sheetWords('en');
const laidOut = (of: FigureData): FigureLayout => layoutOf(of, EN);
const parsed = (svg: string): Element => readXml(`<?xml version="1.0" encoding="UTF-8"?>\n${svg}`);
const all = (element: Element): Element[] => [element, ...element.children.flatMap(all)];
const wheelsOf = ({ wheels }: FigureLayout, register: Register): Wheel[] =>
  wheels.filter((wheel) => wheel.register === register);
const middleOf = ({ x, width }: Box): number => x + width / 2;
const wheel = (layout: FigureLayout, register: Register, place: number): Wheel => {
  const found = wheelsOf(layout, register).find((one) => one.place === place);
  if (!found) throw new Error(`no place ${place} in the ${register}`);
  return found;
};
const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
/** Figures with their signs, the units first. */
const shown = (state: State, profile: Profile, register: Register): string[] =>
  (textOf(state, profile, register).match(/-?\d/g) ?? []).reverse();
/** A reading by hand: figure by figure, then the point. */
function reading(state: State, profile: Profile, register: Register): string {
  const sum = shown(state, profile, register).reduce(
    (total, figure, i) => total + BigInt(figure) * 10n ** BigInt(i),
    0n,
  );
  const decimals = pointOf(state, register);
  const digits = String(sum < 0n ? -sum : sum).padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  return (sum < 0n ? '-' : '') + whole + (decimals > 0 ? `.${digits.slice(-decimals)}` : '');
}

describe('the drawing', () => {
  test('is well-formed by a strict parser, complete in itself, and has the ink of its page', () => {
    // No types come with it.
    const sax: { parser(strict: boolean, options: object): { write(text: string): { close(): void } } } = createRequire(
      import.meta.url,
    )('sax');
    fc.assert(
      fc.property(data, languages, (of, language) => {
        const svg = figureSvg(of, sheetWords(language), 'f1');
        sax.parser(true, { xmlns: true }).write(svg).close();
        const root = parsed(svg);
        expect(root.name).toBe('svg');
        expect(root.attributes).toMatchObject({ role: 'img', xmlns: 'http://www.w3.org/2000/svg' });
        expect(root.children.slice(0, 2).map(({ name }) => name)).toEqual(['title', 'desc']);
        expect(root.children[1].text).toBe(figureText(of, sheetWords(language)));
        for (const { name, attributes } of all(root)) {
          expect(['svg', 'title', 'desc', 'g', 'rect', 'path', 'circle', 'text']).toContain(name);
          for (const [key, value] of Object.entries(attributes)) {
            expect(key).not.toMatch(/^(?:style|class|on|href|xlink|color)/);
            if (key === 'fill' || key === 'stroke') expect(['currentColor', 'none']).toContain(value);
            expect(value).not.toMatch(/NaN|undefined|Infinity|url\(/);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  test('fits a page of 17 cm, with lettering and lines that can be printed', () => {
    fc.assert(
      fc.property(data, languages, (of, language) => {
        const root = parsed(figureSvg(of, sheetWords(language)));
        const millimetres = Number(/^([\d.]+)mm$/.exec(root.attributes.width)?.[1]);
        const [left, top, width, height] = root.attributes.viewBox.split(' ').map(Number);
        expect([left, top]).toEqual([0, 0]);
        expect(height).toBeGreaterThan(100);
        expect(millimetres).toBeLessThanOrEqual(PAGE_MILLIMETRES);
        const pxPerUnit = ((millimetres / 25.4) * 96) / width;
        for (const { name, attributes } of all(root)) {
          if (name === 'text') {
            expect(Number(attributes['font-size']) * pxPerUnit * 0.75).toBeGreaterThanOrEqual(SMALLEST_POINTS);
          }
          if (attributes['stroke-width']) {
            expect(Number(attributes['stroke-width']) * pxPerUnit).toBeGreaterThanOrEqual(THINNEST_PX);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  test('shows every figure where the layout has it, in bold where it has changed', () => {
    fc.assert(
      fc.property(data, (of) => {
        const texts = new Map(
          all(parsed(figureSvg(of, EN)))
            .filter(({ name }) => name === 'text')
            .map(({ attributes, text }) => [`${attributes.x} ${attributes.y}`, { attributes, text }]),
        );
        const rounded = (value: number) => String(Math.round(value * 100) / 100);
        for (const { figure, figureAt, isChanged } of laidOut(of).wheels) {
          const text = texts.get(`${rounded(figureAt.x)} ${rounded(figureAt.y)}`);
          expect(text?.text).toBe(String(figure));
          expect(text?.attributes['font-weight']).toBe(isChanged ? 'bold' : undefined);
        }
      }),
      { numRuns: 150 },
    );
  });

  test('takes text as text, and ids that can be referred to', () => {
    const of = cranked('pinwheel-9', 'set 245');
    const title = '</title><script>alert("1")</script> & \u0000\u0007\ud800\'';
    const root = parsed(figureSvg({ ...of, profile: { ...of.profile, title } }, EN, 'step 3" onload="x'));
    expect(all(root).map(({ name }) => name)).not.toContain('script');
    expect(root.children[0].text).toContain('</title><script>alert("1")</script> & ');
    expect(root.attributes['aria-labelledby']).toBe(root.children[0].attributes.id);
    expect(root.attributes['aria-describedby']).toBe(root.children[1].attributes.id);
    expect(root.attributes['aria-labelledby']).toMatch(/^[\w-]+$/);
    expect(root.attributes).not.toHaveProperty('onload');
  });

  test('has ids of its own only where it is told how they begin', () => {
    const of = cranked('pinwheel-9', 'set 245');
    const ids = (svg: string) => all(parsed(svg)).flatMap(({ attributes }) => attributes.id ?? []);
    expect(ids(figureSvg(of, EN))).toEqual([]);
    expect(ids(figureSvg(of, EN, 'a'))).toEqual(['a-title', 'a-desc']);
    expect(ids(figureSvg(of, EN, 'b'))).toEqual(['b-title', 'b-desc']);
  });
});

describe('where things stand', () => {
  test('everything is within the figure, and no lettering runs into other lettering or wheels', () => {
    fc.assert(
      fc.property(data, languages, (of, language) => {
        const layout = layoutOf(of, sheetWords(language));
        const { width, height, wheels, lettering, body, carriage, signs, mark } = layout;
        const bars = [...wheels, ...signs, ...layout.wedges, mark].flatMap(({ bar }) => bar ?? []);
        const words = lettering.map(({ box }) => box);
        const boxes = [
          ...wheels.map(({ box }) => box),
          ...signs.map(({ box }) => box),
          ...words,
          ...bars,
          body,
          carriage,
        ];
        for (const box of boxes) {
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.y).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width).toBeLessThanOrEqual(width);
          expect(box.y + box.height).toBeLessThanOrEqual(height);
        }
        const own = new Set(wheels.map(({ figureAt }) => figureAt));
        for (const [i, line] of lettering.entries()) {
          for (const other of lettering.slice(i + 1)) {
            if (overlaps(line.box, other.box)) throw new Error(`${line.text} runs into ${other.text}`);
          }
          if (own.has(line)) continue;
          const hit = [...wheels.map(({ box }) => box), ...bars].find((box) => overlaps(line.box, box));
          if (hit) throw new Error(`${line.text} runs into a wheel or a bar at ${hit.x} ${hit.y}`);
        }
        for (const { box, bar, figureAt } of wheels) {
          expect(figureAt.box.x).toBeGreaterThan(box.x);
          expect(figureAt.box.x + figureAt.box.width).toBeLessThan(box.x + box.width);
          if (bar) expect(middleOf(bar)).toBeCloseTo(middleOf(box), 6);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('every lever is over the wheel that it drives, and the mark points to the place that counts', () => {
    fc.assert(
      fc.property(data, (of) => {
        const { profile, after } = of;
        const layout = laidOut(of);
        const position = after[POSITION];
        const driving = position === 0 ? 0 : Math.max(0, Math.min(profile.setting, profile.result - position + 1));
        expect(layout.drives.map(({ lever }) => lever)).toEqual(Array.from({ length: driving }, (_, i) => i + 1));
        const pitch = middleOf(wheel(layout, 'setting', 1).box) - layout.mark.x;
        expect(pitch).toBeCloseTo(0, 6);
        const half = hasHalfSteps(profile) && has(after, SUBTRACTING);
        for (const { lever, place, from, to, isSet } of layout.drives) {
          expect(place).toBe(position + lever - 1);
          expect(from.x).toBeCloseTo(middleOf(wheel(layout, 'setting', lever).box), 6);
          expect(to.x).toBeCloseTo(middleOf(wheel(layout, 'result', place).box), 6);
          const { width } = wheel(layout, 'result', place).box;
          expect(to.x - from.x).toBeCloseTo(half ? (width + 2) / 2 : 0, 6);
          expect(isSet).toBe(shown(after, profile, 'setting')[lever - 1] !== '0');
        }
        const counts = position > 0 && position <= profile.counter;
        if (counts) expect(layout.mark.tip?.x).toBeCloseTo(middleOf(wheel(layout, 'counter', position).box), 6);
        else expect(layout.mark.tip === undefined).toBe(position === 0 || profile.counter > 0);
      }),
      { numRuns: 300 },
    );
  });

  test('places of counter and result stand in one column, the units at the right', () => {
    fc.assert(
      fc.property(data, (of) => {
        const layout = laidOut(of);
        for (const { place, box } of wheelsOf(layout, 'counter')) {
          if (place > of.profile.result) continue;
          expect(middleOf(box)).toBeCloseTo(middleOf(wheel(layout, 'result', place).box), 6);
        }
        for (const register of registersOf(of.profile)) {
          const across = wheelsOf(layout, register).map(({ box }) => box.x);
          expect(across).toHaveLength(of.profile[register]);
          expect(across).toEqual([...across].sort((a, b) => b - a));
        }
      }),
      { numRuns: 100 },
    );
  });

  test('figures of one machine keep the levers where they are, and the carriage moves', () => {
    const figuresAt = [1, 4, 8].map((position) => laidOut(cranked('pinwheel-9', 'set 245', `shift to ${position}`)));
    const lever = figuresAt.map((layout) => wheel(layout, 'setting', 1).box.x);
    expect(new Set(lever).size).toBe(1);
    const [home, shifted, end] = figuresAt.map(({ carriage }) => carriage.x);
    expect(shifted).toBeGreaterThan(home);
    expect(end).toBeGreaterThan(shifted);
    expect(new Set(figuresAt.map(({ width }) => width)).size).toBe(1);
  });

  test('out of gear nothing is driven, and the gap says so', () => {
    const layout = laidOut(cranked('halfstep-10', 'set 12', 'shift out'));
    expect(layout.drives).toEqual([]);
    expect(layout.mark.tip).toBeUndefined();
    const gap = layout.lettering.find(({ text }) => text === 'out of gear');
    expect(gap?.box.y).toBeGreaterThan(layout.body.y + layout.body.height);
    expect((gap?.box.y ?? 0) + (gap?.box.height ?? 0)).toBeLessThan(layout.carriage.y);
    // The carriage has gone half a place to the left.
    const [units, lever] = [wheel(layout, 'result', 1), wheel(layout, 'setting', 1)];
    expect(middleOf(lever.box) - middleOf(units.box)).toBeCloseTo((units.box.width + 2) / 2, 6);
  });

  test.each([
    ['setting 1 result 2', 'setting', 1],
    ['setting 1 result 2', 'result', 2],
  ] as const)('decimal markers stand left of the last decimal: points %s, the %s', (points, register, decimals) => {
    const layout = laidOut(cranked('pinwheel-9', `points ${points}`));
    const wedge = layout.wedges.find((one) => one.register === register);
    expect(wedge?.decimals).toBe(decimals);
    expect(wedge?.bar).toBeDefined();
    const between =
      (middleOf(wheel(layout, register, decimals).box) + middleOf(wheel(layout, register, decimals + 1).box)) / 2;
    expect(wedge?.tip.x).toBeCloseTo(between, 6);
    expect(layout.wedges.map((one) => one.register)).not.toContain('counter');
  });

  test('the line of a short carry covers the places that the carry comes to', () => {
    const over = (...steps: string[]) => {
      const layout = laidOut(cranked('short-reach-8', ...steps));
      const { carry } = layout;
      return wheelsOf(layout, 'result')
        .filter(({ box }) => carry && carry.from < middleOf(box) && middleOf(box) < carry.to)
        .map(({ place }) => place);
    };
    expect(over('shift to 3')).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(over('shift to 8')).toEqual([9, 10, 11, 12, 13, 14, 15]);
    expect(laidOut(cranked('pinwheel-9', 'shift to 3')).carry).toBeUndefined();
  });
});

describe('what has changed', () => {
  test('is set off exactly where a wheel shows something else', () => {
    let changed = 0;
    fc.assert(
      fc.property(data, (of) => {
        const { profile, before, after } = of;
        const { wheels } = laidOut(of);
        for (const { register, place, figure, isNegative, isChanged, bar, sign, figureAt } of wheels) {
          const now = shown(after, profile, register)[place - 1];
          expect(`${isNegative ? '-' : ''}${figure}`).toBe(now);
          const differs = now !== shown(before, profile, register)[place - 1];
          expect({ isChanged, hasBar: bar !== undefined }).toEqual({ isChanged: differs, hasBar: differs });
          expect(figureAt.isBold ?? false).toBe(differs);
          expect(sign !== undefined).toBe(isNegative);
          if (differs) changed++;
        }
      }),
      { numRuns: 300 },
    );
    expect(changed).toBeGreaterThan(500);
  });

  test('a turn with carries marks what the carries moved', () => {
    const layout = laidOut(cranked('pinwheel-9', 'set 999', 'turn', 'set 2', 'turn'));
    expect(
      layout.wheels.filter(({ isChanged }) => isChanged).map(({ register, place }) => `${register} ${place}`),
    ).toEqual(['result 1', 'result 2', 'result 3', 'result 4', 'counter 1']);
  });

  test('levers and buttons are only those of the machine, and a moved one has a bar', () => {
    const said = (of: FigureData) => laidOut(of).lettering.map(({ text }) => text);
    expect(laidOut(cranked('pinwheel-9', 'set 1')).signs).toEqual([]);
    const moved = cranked('large-20', 'set 1', 'mode subtract');
    expect(said(moved)).toEqual(expect.arrayContaining(['drive', 'add → subtract', 'count lever', 'plus']));
    expect(laidOut(moved).signs.map(({ bar }) => bar !== undefined)).toEqual([true, false]);
    expect(said(cranked('drum-8', 'mode subtract', 'set 1'))).toContain('lifted (subtracts)');
    expect(said(cranked('halfstep-10', 'auto-divide on', 'auto-clear on'))).toEqual(
      expect.arrayContaining(['automatic division', 'off → on', 'clearing of levers', 'on']),
    );
  });

  test('the bell is drawn where it rang, and only there', () => {
    const rang = cranked('pinwheel-9', 'set 1', 'turn back');
    expect(laidOut(rang).bell).toBeDefined();
    expect(figureText(rang, EN)).toContain('The bell rang.');
    expect(laidOut({ ...rang, rang: false }).bell).toBeUndefined();
  });

  test('a shift is told with where the carriage came from', () => {
    const of = cranked('pinwheel-9', 'shift to 2', 'shift to 4');
    const layout = laidOut(of);
    expect(layout.lettering.map(({ text }) => text)).toContain('position 2 → 4');
    expect(layout.mark.bar).toBeDefined();
    const { width } = wheel(layout, 'result', 1).box;
    const { from, to } = layout.shift ?? { from: 0, to: 0 };
    expect(to - from).toBeCloseTo(2 * (width + 2), 6);
    expect(to).toBeCloseTo(layout.carriage.x + layout.carriage.width, 6);
    expect(laidOut({ ...of, before: of.after })).not.toHaveProperty('shift');
  });
});

describe('what a screen reader says', () => {
  test('tells the reading of every register, before as well where it has changed', () => {
    fc.assert(
      fc.property(data, languages, (of, language) => {
        const words = sheetWords(language);
        const { profile, before, after } = of;
        const text = figureText(of, words);
        const spoken = {
          en: ['Setting', 'Counter', 'Result', 'before'],
          de: ['Einstellwerk', 'Umdrehungszählwerk', 'Resultatwerk', 'vorher'],
        };
        const [setting, counter, result, then] = spoken[language as 'en' | 'de'];
        const names = { setting, counter, result };
        for (const register of registersOf(profile)) {
          expect(text).toContain(`${names[register]} ${formed(reading(after, profile, register), words.numbers)}`);
          if (textOf(before, profile, register) === textOf(after, profile, register)) continue;
          expect(text).toContain(`; ${then} ${formed(reading(before, profile, register), words.numbers)}`);
        }
        expect(text.includes(counter)).toBe(profile.counter > 0);
        expect(text).not.toMatch(/undefined|NaN| {2}/);
      }),
      { numRuns: 300 },
    );
  });

  test('in English', () => {
    const of = cranked('signed-9', 'set 998', 'shift to 3', 'turn 3', 'shift to 1', 'turn back 2');
    expect(figureText(of, EN)).toBe(
      'The carriage stands in position 1. Levers 1 to 9 drive places 1 to 9 of the result. Setting 998. ' +
        'Result 297\u202f404; before 299\u202f400; changed in places 1 and 4. ' +
        'Counter 298 (wheels 3 0 −2); before 300; changed in place 1.',
    );
  });

  test('in German', () => {
    const of = cranked('drum-8', 'points setting 2 counter 0 result 2', 'set 0.05', 'mode subtract', 'turn');
    expect(figureText(of, sheetWords('de'))).toBe(
      'Der Schlitten steht in Stellung 1. Die Hebel 1 bis 8 treiben die Stellen 1 bis 8 des Resultatwerks an. ' +
        'Einstellwerk 0,05. Resultatwerk 9\u202f999\u202f999\u202f999,95 (Komplement von 0,05); vorher 0,00; ' +
        'geändert in den Stellen 1 bis 12. Umdrehungszählwerk 1; vorher 0; geändert in Stelle 1. ' +
        'Kurbel: gehoben (subtrahiert).',
    );
  });

  test('of levers without wheels, the half place and the carry', () => {
    expect(figureText(cranked('large-20', 'shift to 10'), EN)).toContain(
      'The carriage stands in position 10. Before, it stood in position 1. Levers 1 to 11 drive places 10 to 20 of the result. Lever 12 has no wheel below it.',
    );
    expect(figureText(cranked('halfstep-10', 'mode subtract'), EN)).toContain('half a place further right');
    expect(figureText(cranked('halfstep-10', 'shift out'), EN)).toContain(
      'The carriage stands out of gear: no lever drives a wheel. Before, it stood in position 1. Setting 0.',
    );
    expect(figureText(cranked('short-reach-8', 'shift to 3'), EN)).toContain('The tens carry ends at place 12.');
  });
});
