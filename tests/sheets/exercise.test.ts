/** Exercise sheets: what is on them, and that no reading can be found out from them. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  COUNTER,
  LEVERS,
  NEGATIVE,
  OVERDRAWN,
  RANG,
  RESULT,
  SETTING,
  TURNS,
  WRAPS,
} from '../../server/machine/index.js';
import type { SequenceReport } from '../../server/sequence/check.js';
import { Library } from '../../server/sequence/library.js';
import { Answers, answersOf, givenIn } from '../../server/sheets/answers.js';
import type { Sheet } from '../../server/sheets/model.js';
import { below, exerciseOf, linesOf, printed, reportOf, shown } from './exercises.js';

const DESK = `machine desk "Desk machine"
  setting 6
  counter 5
  result 9
`;
const PRODUCT = `${DESK}sequence trays "Plants in trays" (trays = 34, plants-each = 27) on desk
  case trays = 56, plants-each = 12
  goal result = trays * plants-each

  clear all
  caution "Finish every turn."
  set trays
  multiply by plants-each
  expect result 918 # in the first case alone
  ask counter result
`;

describe('an exercise sheet', () => {
  const sheet = exerciseOf(reportOf(PRODUCT));

  test('has the title, the machine and lines for name, date and class', () => {
    expect(sheet).toMatchObject({ kind: 'exercise', title: 'Plants in trays', subtitle: 'Desk machine' });
    expect(linesOf(sheet.blocks[0])).toEqual(['Name: ', 'Date: ', 'Class: ']);
    expect(sheet.blocks[1].is).toBe('cautions');
    expect(below(sheet, 'The machine')).toContain('Counter | 5 places, with a tens carry through all of them');
  });

  test('says what is given and wanted', () => {
    expect(below(sheet, 'What is given and wanted').slice(0, 2)).toEqual([
      'Given: trays and plants each. The figures for them stand with each exercise below.',
      'Wanted: trays × plants each. It is read off the result.',
    ]);
  });

  test.each([
    ['result = (a + b) ^ 12 - 2.5', 'en', '(a + b)¹² − 2.5'],
    ['result = (a + b) ^ 12 - 2.5', 'de', '(a + b)¹² − 2,5'],
    ['result = a ^ b', 'en', 'a to the power of b'],
    ['result = 2 ^ (a - b)', 'de', '2 hoch (a − b)'],
    ['counter = sqrt(a * b) / -b', 'en', '√(a × b) ÷ −b'],
    ['counter = sqrt(a * b) / -b', 'de', '√(a · b) : −b'],
    ['counter = sqrt(1369) + sqrt((a)) + sqrt(a) ^ 2', 'en', '√1369 + √(a) + (√a)²'],
  ])('writes arithmetic as people do: %s, %s', (goal, language, told) => {
    const text = `${DESK}sequence trial (a = 34, b = 27) on desk\n  goal ${goal}\n  clear all\n  set a\n  turn b\n`;
    const [, wanted] = below(
      exerciseOf(reportOf(text), language),
      language === 'en' ? 'What is given and wanted' : 'Gegeben und gesucht',
    );
    expect(wanted).toContain(`: ${told}. `);
  });

  test('tells the steps once, with the names of what is given and without what is expected', () => {
    expect(below(sheet, 'The steps')).toEqual([
      '1 Clear everything: the setting, the counter and the result.',
      'caution: Finish every turn.',
      '2 Set trays on the levers.',
      expect.stringMatching(/^3 Multiply by plants each\. Begin with the units: /),
      '4 Write down the counter and the result.',
    ]);
  });

  test('has a row for the defaults and for each case, with lines as long as the register has places', () => {
    expect(below(sheet, 'The exercises')).toEqual([
      'Exercise | trays | plants each | counter | result',
      '1 | 34 | 27 | _____ | _________',
      '2 | 56 | 12 | _____ | _________',
    ]);
  });

  test('in German', () => {
    const german = exerciseOf(reportOf(PRODUCT), 'de-AT');
    expect(below(german, 'Gegeben und gesucht')[1]).toBe(
      'Gesucht: trays · plants each. Abgelesen wird im Resultatwerk.',
    );
    expect(below(german, 'Die Schritte')[2]).toBe('2 trays auf den Hebeln einstellen.');
    expect(below(german, 'Die Aufgaben')[0]).toBe('Aufgabe | trays | plants each | Umdrehungszählwerk | Resultatwerk');
  });

  test('a single exercise has its lines where they are asked for', () => {
    const single = exerciseOf(
      reportOf(`${DESK}sequence trial on desk\n  clear all\n  set 12.5\n  turn 3\n  ask result\n`),
    );
    expect(below(single, 'The steps').at(-1)).toBe('4 Write down the result. | result _________');
    expect(single.blocks.some((block) => block.is === 'heading' && shown(block.text) === 'The exercises')).toBe(false);
  });

  test('without `ask` the goal’s register is asked for at the end', () => {
    const text = `${DESK}sequence trial on desk\n  goal counter = 3\n  clear all\n  set 7\n  turn 3\n  expect result 21\n`;
    const single = exerciseOf(reportOf(text));
    expect(below(single, 'The steps').at(-1)).toBe('4 Write down the counter. | counter _____');
    // The goal is nothing but the answer: what is wanted has to be said otherwise.
    expect(below(single, 'What is given and wanted')[0]).toBe(
      'Wanted: what the counter shows where you are asked to write it down.',
    );
  });

  test('a register that is read twice says in which step, and a table that is too wide becomes lists', () => {
    const text = `${DESK}sequence trial (a = 4) on desk\n  case a = 5\n  clear all\n  set a\n  turn\n  ask result\n  turn\n  ask result\n  repeat 2 {\n    turn\n    ask result\n  }\n`;
    const several = exerciseOf(reportOf(text));
    const lines = below(several, 'The exercises');
    expect(lines.slice(0, 6)).toEqual([
      '### Exercise 1',
      'a = 4',
      '- result, step 4: _________',
      '- result, step 6: _________',
      '- result, step 7b (1): _________',
      '- result, step 7b (2): _________',
    ]);
    expect(below(several, 'The steps').slice(6)).toEqual([
      '7 Do the following twice:',
      '7a Turn the crank once.',
      '7b Write down the result.',
    ]);
  });

  test('the steps of another sequence stand in their place, with the names of this one', () => {
    const text = `${DESK}sequence slip (pots = 1, rows = 2) on desk\n  set pots\n  turn rows\nsequence trial (slips = 31) on desk\n  case slips = 52\n  clear all\n  run slip (slips, 3)\n  ask result\n`;
    expect(below(exerciseOf(reportOf(text)), 'The steps')).toEqual([
      '1 Clear everything: the setting, the counter and the result.',
      '2 Set slips on the levers.',
      '3 Turn the crank 3 times.',
      '4 Write down the result.',
    ]);
  });

  test('where the carriage goes to from different places, only how far is said', () => {
    const text = `${DESK}sequence trial (a = 12) on desk\n  case a = 345\n  clear all\n  set 2\n  multiply by a\n  shift right\n  turn\n  ask result\n`;
    expect(below(exerciseOf(reportOf(text)), 'The steps')[3]).toBe('4 Shift the carriage one place to the right.');
  });
});

describe('texts of the author’s', () => {
  const noted = (note: string, title = 'Trial'): Sheet =>
    exerciseOf(
      reportOf(
        `${DESK}sequence trial "${title}" (a = 34) on desk\n  case a = 1250\n  goal result = a * 34\n  points setting 2 result 2\n  clear all\n  set a\n  turn 4\n  shift right\n  turn 3\n  note "${note}"\n  ask result\n`,
      ),
    );
  const notes = (sheet: Sheet) => sheet.blocks.flatMap((block) => (block.is === 'note' ? [shown(block.text)] : []));

  // 34 × 34 = 1156 and 1250 × 34 = 42500, with two decimals 11.56 and 425.00.
  test.each([
    'Now it reads 11.56.',
    'Now it reads 11,56.',
    'Now 1156 stand there.',
    'It is 1 156 in all.',
    'The wheels show 000001156.',
    'Compare with 425.00.',
    '425 and nothing else',
    '42_500 pots',
    "42'500 pots",
    'rounded 116',
    'The 34.00 is not 1156.00.',
  ])('that hold an answer are left out: %s', (note) => {
    expect(notes(noted(note))).toEqual([]);
  });
  test.each(['Set the slips first.', 'Turn 4 times, 3 places', 'Not 1157', 'The 34 is given.'])(
    'stay as they are otherwise: %s',
    (note) => {
      expect(notes(noted(note))).toEqual([note]);
    },
  );
  test('a title with an answer gives way to the name', () => {
    expect(noted('-', 'Why 11.56?')).toMatchObject({ title: 'trial', foot: 'Desk machine' });
  });
  test('a goal with an answer in it is not printed', () => {
    const text = `${DESK}  count first
sequence trial on desk
  goal result = 700 - 36 * 19
  clear all
  set 700
  turn
  clear counter
  set 36
  shift right
  turn back
  shift left
  turn back 9
  expect counter 19 result 16
  ask counter result
`;
    const report = reportOf(text);
    expect(report.findings.map(({ facts }) => facts.code)).toEqual(['shorter-sequence']);
    expect(below(exerciseOf(report), 'What is given and wanted')[0]).toBe(
      'Wanted: what the counter and the result show where you are asked to write them down.',
    );
  });
});

/** Numbers in a print, in whatever form, as their figures. */
const numbersIn = (text: string): string[] => {
  const grouped = text.match(/\d+(?:[.,_' \u202f\u2009\u00a0]\d+)*/g) ?? [];
  const apart = grouped.flatMap((number) => number.split(/[ \u2009\u00a0]/));
  return [...grouped, ...apart].map(figuresOf);
};
const figuresOf = (number: string): string => number.replace(/\D/g, '').replace(/^0+(?=.)/, '');

/** With those of the goals' registers, in case that no step asks for any. */
const allAnswers = ({ section, runs }: SequenceReport): string[] =>
  runs.flatMap((run) =>
    answersOf(
      run,
      section.goals.map(({ syntax }) => syntax.register),
    ),
  );

/** Answers that stand in the print of an exercise sheet and are no given numbers. What has one or two figures is told below. */
function leaksIn(report: SequenceReport, language: string): string[] {
  const sheet = exerciseOf(report, language);
  const there = new Set(numbersIn(printed(sheet).replace(/<(style|svg)[\s\S]*?<\/\1>/g, '')));
  const given = new Set(report.runs.flatMap(givenIn).map(figuresOf));
  const answers = allAnswers(report).map(figuresOf);
  return answers.filter((answer) => answer.length > 2 && !given.has(answer) && there.has(answer));
}

const hasReadings = ({ blocks }: Sheet): boolean => /"reading":|"is":"figure"|"figure":/.test(JSON.stringify(blocks));

describe('no reading can be found out', () => {
  const FOLDER = new URL('../../samples/', import.meta.url);
  const library = new Library();
  const files = readdirSync(FOLDER).filter((name) => /\.(?:crank|md)$/.test(name));
  for (const name of files) library.set(name, readFileSync(new URL(name, FOLDER), 'utf8'));
  const samples = files.flatMap((name) => library.check(name).sequences.filter(({ runs }) => runs.length > 0));

  test.each(samples.map((report) => [report.section.header?.name.name ?? '', report] as const))(
    'from the exercise sheet of the sample %s',
    (_, report) => {
      for (const language of ['en', 'de']) {
        expect(leaksIn(report, language)).toEqual([]);
        expect(hasReadings(exerciseOf(report, language))).toBe(false);
      }
    },
  );

  test('there are samples in plenty, and most of their answers are looked for', () => {
    expect(samples.length).toBeGreaterThan(25);
    const answers = samples.flatMap(({ runs }) => runs.flatMap((run) => answersOf(run, [])));
    expect(answers.filter((answer) => figuresOf(answer).length > 2).length).toBeGreaterThan(100);
  });

  test('the search finds what is there', () => {
    const report = reportOf(PRODUCT);
    const told = numbersIn('<p>in all 918 plants, 1 836 twice</p>');
    expect(told).toEqual(expect.arrayContaining(['918', '1836']));
    expect(new Answers(report.runs, ['result']).areToldBy('918')).toBe(true);
  });

  test('from sheets of random sequences: readings expected, asked for and noted do not stand on them', () => {
    fc.assert(
      fc.property(anySequence, (text) => {
        const report = reportOf(text);
        expect(leaksIn(report, 'en')).toEqual([]);
        const last = report.runs[0].order;
        const noted = reportOf(`${text}  note "It reads ${allAnswers(report)[0]}."\n`);
        expect(last.values.size).toBe(2);
        expect(leaksIn(noted, 'de')).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  test('whatever the registers show, the sheet is the same to the letter', () => {
    fc.assert(
      fc.property(anySequence, fc.integer({ min: 1, max: 9_999_999 }), (text, by) => {
        const report = reportOf(text);
        const other = { ...report, runs: report.runs.map((run) => withOtherReadings(run, by)) };
        expect(answersOf(other.runs[0], ['result'])).not.toEqual(answersOf(report.runs[0], ['result']));
        expect(exerciseOf(other)).toEqual(exerciseOf(report));
        expect(printed(exerciseOf(other))).toBe(printed(exerciseOf(report)));
      }),
      { numRuns: 150 },
    );
  });
});

/** The same run on whose tape the registers, turns, wraps and bell are others. */
function withOtherReadings(run: SequenceReport['runs'][number], by: number): SequenceReport['runs'][number] {
  const { tape, order } = run;
  const changed = (state: Int32Array): Int32Array => {
    const other = state.slice();
    other[RESULT] = (other[RESULT] + by) % 10_000_000;
    other[SETTING] = (other[SETTING] + by) % 1_000_000;
    other[COUNTER] = (other[COUNTER] + by) % 10 ** Math.min(7, order.profile.counter);
    if (order.profile.counterCarry === 'signed') other[NEGATIVE] = by % 2;
    other[TURNS] += by;
    other[WRAPS] += by;
    other[LEVERS] ^= RANG | OVERDRAWN;
    return other;
  };
  const otherTape = new Proxy(tape, {
    get: (target, key) => {
      if (key === 'stateAt' || key === 'lookAt') return (row: number) => changed(target.stateAt(row));
      const value = Reflect.get(target, key, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
  const goals = run.goals.map((goal) => ({ ...goal, goal: `${by}`, reading: `${by}` }));
  return { ...run, tape: otherTape, state: changed(run.state), goals };
}

const MACHINES = [
  'setting 6\n  counter 6\n  result 12\n  subtract reverse\n  bell',
  'setting 6\n  counter 6 plain\n  result 12 dials\n  subtract lever\n  count lever\n  transfer result\n  phrase transfer "Pass {figures} back"',
  'setting 6\n  counter 6\n  result 12\n  subtract half-step\n  count first\n  auto-divide\n  bell',
  'setting 6\n  counter 6 signed\n  result 12\n  subtract lift\n  phrase turn until overdraw "Crank {count}"\n  phrase set "Put {figures}"',
];

/** Steps without prose; numbers are of four figures and more, or are given to the steps by name. */
const anySequence: fc.Arbitrary<string> = fc
  .record({
    machine: fc.constantFrom(...MACHINES),
    values: fc.array(fc.tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 1, max: 9_999 })), {
      minLength: 1,
      maxLength: 3,
    }),
    goal: fc.constantFrom('result = a * b', 'result = a + b', 'counter = b', 'counter = a / b'),
    steps: fc.array(
      fc.oneof(
        fc.constantFrom(
          'set a',
          'set b',
          'set 12 at 2',
          'turn',
          'turn 2',
          'shift right',
          'shift left',
          'shift to 2',
          'clear counter',
        ),
        fc.constantFrom(
          'multiply by a',
          'multiply by b short',
          'divide',
          'divide short',
          'transfer result',
          'dial result a',
        ),
        fc.constantFrom(
          'mode subtract',
          'mode add',
          'count minus',
          'auto-divide on',
          'turn until overdraw',
          'clear result',
        ),
        fc.constantFrom('expect result 918273', 'expect counter 4711', 'ask result', 'ask counter result'),
        fc.constantFrom('repeat 2 { turn; ask result }', 'repeat 3 { turn; shift right }', 'points setting 1 result 2'),
      ),
      { minLength: 1, maxLength: 12 },
    ),
  })
  .map(({ machine, values: [[a, b], ...cases], goal, steps }) =>
    [
      'machine shed "Shed machine"',
      `  ${machine}`,
      `sequence trial "Trial" (a = ${a}, b = ${b}) on shed`,
      ...cases.map(([x, y]) => `  case a = ${x}, b = ${y}`),
      `  goal ${goal}`,
      '  clear all',
      ...steps.map((step) => `  ${step}`),
      '',
    ].join('\n'),
  );
