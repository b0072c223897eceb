/** The key: the exercise sheet filled in, the work with its readings, and common slips in words. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { below, exerciseOf, keyOf, linesOf, printed, reportOf, shown } from './exercises.js';

const DESK = 'machine desk "Desk machine"\n  setting 6\n  counter 5\n  result 9\n';
const PRODUCT = `${DESK}sequence trays "Plants in trays" (trays = 34, plants-each = 27) on desk
  case trays = 56, plants-each = 12
  goal result = trays * plants-each

  clear all
  note "Now it reads 918."
  set trays
  multiply by plants-each
  ask counter result
`;

describe('a key', () => {
  const report = reportOf(PRODUCT);
  const key = keyOf(report);

  test('has the same pages, with the readings on the lines', () => {
    expect(below(key, 'The steps')).toEqual(below(exerciseOf(report), 'The steps'));
    // 34 × 27 = 918 and 56 × 12 = 672.
    expect(below(key, 'The exercises')).toEqual([
      'Exercise | trays | plants each | counter | result',
      '1 | 34 | 27 | 27 | 918',
      '2 | 56 | 12 | 12 | 672',
    ]);
    const cells = key.blocks.flatMap((block) => (block.is === 'table' ? block.rows.flat(2) : []));
    expect(cells).toContainEqual({ reading: '918' });
  });

  test('goes through every exercise step by step, with the numbers of the steps and their readings', () => {
    const lines = below(key, 'Exercise 1, step by step');
    expect(lines.slice(0, 8)).toEqual([
      'trays = 34, plants each = 27',
      '1 Clear everything: the setting, the counter and the result.',
      'note: Now it reads 918.',
      expect.stringMatching(/^2 Set 34 on levers .* \| setting 34$/),
      '3a Turn the crank 7 times. | counter 7 | result 238',
      '3b Shift the carriage one place to the right, to position 2. | carriage in position 2',
      '3c Turn the crank twice. | counter 27 | result 918',
      '4 Write down the counter and the result. | counter 27 | result 918',
    ]);
    expect(below(key, 'Exercise 2, step by step')).toContain('3a Turn the crank twice. | counter 2 | result 112');
  });

  test('tells common slips in words', () => {
    expect(lines(keyOf(report), 'Exercise 1, step by step')).toEqual([
      '- The counter reads 54 instead of 27: the counter was not cleared.',
      '- The result reads 1836 instead of 918: the result was not cleared.',
      '- The counter reads 9 instead of 27, the result 306 instead of 918: the carriage was not shifted in step 3b.',
      '- The counter reads 270 instead of 27, the result 9180 instead of 918: the carriage stood one place too far to the right in step 3a.',
      '- The counter reads 207 instead of 27, the result 7038 instead of 918: the carriage stood one place too far to the right in step 3c.',
      '- The counter reads 28 instead of 27, the result 952 instead of 918: one turn too many in step 3a.',
      '- The counter reads 26 instead of 27, the result 884 instead of 918: one turn too few in step 3a.',
      '- The result reads 9180 instead of 918: the figures were set one place too far to the left in step 2.',
      'If a register was not cleared, it is taken to hold what the same exercise, done once before, has left in it.',
    ]);
    expect(lines(keyOf(report), 'Exercise 2, step by step').at(-1)).toBe(
      'If a register was not cleared, it is taken to hold what the exercise before has left in it.',
    );
  });

  test('in German', () => {
    const german = lines(keyOf(report, 'de'), 'Aufgabe 1, Schritt für Schritt');
    expect(german[0]).toBe('- Das Umdrehungszählwerk zeigt 54 statt 27: Das Umdrehungszählwerk wurde nicht gelöscht.');
    expect(german[5]).toBe(
      '- Das Umdrehungszählwerk zeigt 28 statt 27, das Resultatwerk 952 statt 918: Eine Umdrehung zu viel in Schritt 3a.',
    );
  });

  test('says just what it reads where one reading alone is asked for, and joins slips that read the same', () => {
    const text = `${DESK}sequence trial on desk\n  clear all\n  points setting 1 counter 1 result 2\n  set 24.5\n  turn 2\n  shift right\n  turn 7\n  shift right\n  turn\n  ask result\n`;
    // 24.5 × 17.2 = 421.40; the setting is 245 and the multiplier 172.
    const slips = lines(keyOf(reportOf(text)), 'Step by step');
    expect(slips[0]).toBe('- Reads 842.80 instead of 421.40: the result was not cleared.');
    // Nine turns in position 1 and one in position 2: 245 × 19 = 4655.
    expect(slips[1]).toBe('- Reads 46.55 instead of 421.40: the carriage was not shifted in step 5.');
    const twice = `${DESK}sequence trial on desk\n  clear all\n  set 2\n  turn\n  turn\n  ask result\n`;
    expect(lines(keyOf(reportOf(twice)), 'Step by step')).toContain(
      '- Reads 6 instead of 4: one turn too many in step 3 or 4.',
    );
    expect(lines(keyOf(reportOf(text), 'de'), 'Schritt für Schritt')[0]).toBe(
      '- Zeigt 842,80 statt 421,40: Das Resultatwerk wurde nicht gelöscht.',
    );
  });

  test('says in which step a register reads otherwise, where it is read more than once', () => {
    const text = `${DESK}sequence trial on desk\n  clear all\n  set 5\n  turn\n  ask result\n  repeat 2 {\n    turn\n    ask result\n  }\n`;
    const slips = lines(keyOf(reportOf(text)), 'Step by step');
    // 5, 10, 15; with a turn too many in the last round 20.
    expect(slips).toContain(
      '- The result (step 4) reads 10 instead of 5, the result (step 5b, round 1) 15 instead of 10, the result (step 5b, round 2) 20 instead of 15: one turn too many in step 3.',
    );
  });

  test('a single exercise has its readings where they are asked for', () => {
    const text = `${DESK}sequence trial on desk\n  goal result = 7 * 3\n  clear all\n  set 7\n  turn 3\n  expect result 21\n`;
    expect(below(keyOf(reportOf(text)), 'The steps').at(-1)).toBe('4 Write down the result. | result 21');
  });

  test('says so where a run does not come to its end', () => {
    const text = `${DESK}sequence trial on desk\n  clear all\n  turn back until overdraw\n  ask result\n`;
    const broken = below(keyOf(reportOf(text)), 'Step by step');
    expect(broken).toContainEqual(expect.stringMatching(/^caution: The machine does not come to the end/));
    expect(broken.at(-1)).toBe('Slips could not be tried in these steps.');
  });

  test('has figures where readings are asked for, and none if none are wanted', () => {
    const steps = key.blocks.flatMap((block) => (block.is === 'steps' ? block.steps : []));
    expect(steps.filter(({ figure }) => figure).length).toBeGreaterThan(0);
    expect(printed(key)).toContain('<svg');
  });
});

/** What stands below the slips of an exercise. */
function lines(key: ReturnType<typeof keyOf>, heading: string): string[] {
  const from = key.blocks.findIndex((block) => block.is === 'heading' && shown(block.text) === heading);
  const slips = key.blocks.findIndex((block, i) => i > from && block.is === 'heading');
  const end = key.blocks.findIndex((block, i) => i > slips && (block.is === 'heading' || block.is === 'page'));
  return key.blocks.slice(slips + 1, end < 0 ? key.blocks.length : end).flatMap(linesOf);
}

test('for random products the key holds what arithmetic says', () => {
  const factor = fc.integer({ min: 1, max: 9_999 });
  fc.assert(
    fc.property(factor, factor, factor, factor, (a, b, c, d) => {
      const text = PRODUCT.replace('trays = 34, plants-each = 27', `trays = ${a}, plants-each = ${b}`).replace(
        'trays = 56, plants-each = 12',
        `trays = ${c}, plants-each = ${d}`,
      );
      const grouped = (n: number): string =>
        n > 9_999 ? String(n).replace(/\B(?=(?:\d{3})+$)/g, '\u202f') : String(n);
      expect(below(keyOf(reportOf(text)), 'The exercises').slice(1)).toEqual([
        `1 | ${a} | ${b} | ${b} | ${grouped(a * b)}`,
        `2 | ${c} | ${d} | ${d} | ${grouped(c * d)}`,
      ]);
    }),
    { numRuns: 40 },
  );
});
