/** Operating instructions: what stands on them, and that nothing on them is wrong. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  LEVERS,
  numberIn,
  POINTS,
  POSITION,
  pointOf,
  type Register,
  type State,
  SUBTRACTING,
} from '../../server/machine/index.js';
import type { SequenceReport } from '../../server/sequence/check.js';
import type { FigureChoice, Sheet } from '../../server/sheets/model.js';
import { isSheetRefused } from '../../server/sheets/sheet.js';
import { plainText } from '../../server/sheets/spans.js';
import { below, linesOf, printed } from './exercises.js';
import { lastIn, made, ordered, plain, sampleSequences, stepsOf, textsOf } from './made.js';

const MACHINE = `machine desk "Desk machine"
  setting 8
  counter 8
  result 13
  transfer result
  bell
`;
const sheetOf = (text: string, language = 'en', figures: FigureChoice = 'none'): Sheet =>
  made('operating', lastIn(MACHINE + text), { language, figures });
const stepsIn = (text: string, language = 'en'): string[] =>
  below(sheetOf(text, language), language === 'de' ? 'Schritt für Schritt' : 'Step by step').map(plain);
/** The numbers of the steps that are followed by a figure. */
const drawn = (text: string, figures: FigureChoice): string[] =>
  stepsOf(sheetOf(text, 'en', figures)).flatMap(({ number, figure }) => (figure ? [number] : []));

describe('a small sequence', () => {
  const BAY = `sequence bay "Area of one bay" on desk
  goal result = 24.5 * 17.2
  clear all
  points setting 1 counter 1 result 2
  set 24.5
  turn 2
  shift right
  turn 7
  shift right
  turn
  expect counter 17.2 result 421.40 as area
`;

  test('is told with its head, its steps and its end', () => {
    const sheet = sheetOf(BAY);
    expect([sheet.kind, sheet.title, sheet.subtitle]).toEqual(['operating', 'Area of one bay', 'Desk machine']);
    expect(sheet.blocks[0].is).toBe('cautions');
    expect(below(sheet, 'What is worked out')).toEqual(['The result is to show 24.5 × 17.2.']);
    expect(below(sheet, 'Before you begin')).toEqual([
      '- The carriage stands in position 1.',
      '- The crank is at rest.',
      '- The decimal markers stand at the right, behind the units.',
    ]);
    expect(below(sheet, 'Step by step')).toEqual([
      '1 Clear everything: the setting, the counter and the result.',
      '2 Put the decimal markers: 1 decimal in the setting, 1 decimal in the counter, 2 decimals in the result.',
      '3 Set 24.5 on the levers (245: levers 3 to 1).',
      '4 Turn the crank twice.',
      '5 Shift the carriage one place to the right, to position 2.',
      '6 Turn the crank 7 times.',
      '7 Shift the carriage one place to the right, to position 3.',
      '8 Turn the crank once. | The counter reads 17.2. | area: The result reads 421.40.',
    ]);
    const end = below(sheet, 'At the end');
    expect(end.slice(0, 2)).toEqual([
      '- The result reads 421.40.',
      'Effort: 10 turns of the crank; the carriage is shifted by 2 positions in all.',
    ]);
    expect(end[2]).toMatch(/^Time: about 15 seconds, assumed and not measured: .*\.$/);
    expect(end).toHaveLength(3);
  });

  test('is told in German', () => {
    const sheet = sheetOf(BAY, 'de');
    expect(below(sheet, 'Was gerechnet wird')).toEqual(['Im Resultatwerk soll am Ende stehen: 24,5 · 17,2.']);
    expect(below(sheet, 'Schritt für Schritt').at(-1)).toBe(
      '8 Die Kurbel einmal drehen. | Das Umdrehungszählwerk zeigt 17,2. | area: Das Resultatwerk zeigt 421,40.',
    );
    expect(below(sheet, 'Am Ende').slice(0, 2)).toEqual([
      '- Das Resultatwerk zeigt 421,40.',
      'Aufwand: 10 Kurbelumdrehungen; der Schlitten wird insgesamt um 2 Stellungen gerückt.',
    ]);
  });
});

describe('steps', () => {
  test('that stand for others are opened out into parts; a single part stands for itself', () => {
    const text =
      'sequence s on desk\n  clear all\n  set 7\n  multiply by 302\n  clear counter\n  multiply by 4\n  multiply by 0\n';
    expect(stepsIn(text)).toEqual([
      '1 Clear everything: the setting, the counter and the result.',
      '2 Set 7 on lever 1.',
      '3 Multiply by 302. In single steps:',
      '3a Turn the crank twice.',
      '3b Shift the carriage 2 places to the right, to position 3.',
      '3c Turn the crank 3 times. | The counter reads 302. | The result reads 2114.',
      '4 Clear the counter.',
      '5 Turn the crank 4 times.',
      '6 Multiply by 0. There is nothing to turn.',
    ]);
  });

  test('of a repeat are told once, and hold in every round', () => {
    const text = `sequence s on desk
  clear all
  set 12
  repeat 3 {
    turn 2
    shift right
  }
  expect result 2664
`;
    expect(stepsIn(text).slice(2)).toEqual([
      '3 Do the following 3 times:',
      '3a Turn the crank twice.',
      '3b Shift the carriage one place to the right.',
      '3c When this has been done 3 times, go on. | The result reads 2664.',
    ]);
    const one = 'sequence s on desk\n  clear all\n  set 3\n  repeat 4 { turn }\n  expect result 12\n';
    expect(stepsIn(one).at(-1)).toBe('3 Do the following 4 times: Turn the crank once. | The result reads 12.');
  });

  test('that hold none are not told, and take no number', () => {
    const text = `sequence nothing on desk
sequence s on desk
  repeat 3 { repeat 2 { run nothing } }
  run nothing
  repeat 5 { multiply by 0 }
  set 3
`;
    expect(stepsIn(text)).toEqual([
      '1 Do the following 5 times: Multiply by 0. There is nothing to turn.',
      '2 Set 3 on lever 1.',
    ]);
  });

  test('of a repeat name what has to be moved in any of its rounds', () => {
    const text = 'sequence s on desk\n  clear all\n  repeat 2 {\n    set 5\n    turn\n    set 31\n    turn\n  }\n';
    expect(stepsIn(text)).toContain('2a Set 5 on lever 1. Set all other levers to 0.');
  });

  test('of a repeat are told apart where the rounds differ', () => {
    const text = `machine levers like desk
  subtract lever
  count lever
sequence s on levers
  clear all
  set 40
  turn 3
  clear counter
  set 5
  shift to 2
  repeat 2 { divide }
`;
    // The second division begins a position further down: there is less of it.
    const told = stepsIn(text);
    const at = told.indexOf('7 The following comes 2 times, each time a little otherwise:');
    expect(told[at + 1]).toBe('7a (Time 1 of 2) Divide by what is set on the levers. In single steps:');
    expect(told.filter((line) => /^7a\d/.test(line))).toHaveLength(11);
    expect(told.indexOf('7b (Time 2 of 2) Divide by what is set on the levers. In single steps:')).toBe(at + 13);
    expect(told.filter((line) => /^7b\d/.test(line))).toHaveLength(6);
  });

  test('readings that differ from round to round are told for each', () => {
    const text = 'sequence s on desk\n  clear all\n  set 6\n  repeat 3 {\n    turn\n    ask result\n  }\n';
    expect(stepsIn(text)).toContain(
      '3a Turn the crank once. | Time 1: The result reads 6. | Time 2: The result reads 12. | Time 3: The result reads 18.',
    );
  });

  test('of another sequence stand below its title', () => {
    const text = `sequence ready "Make ready" on desk
  clear all
  expect result 0
sequence s "Five" on desk
  run ready
  set 5
  turn
  run ready
`;
    expect(stepsIn(text)).toEqual([
      '### Make ready',
      '1 Clear everything: the setting, the counter and the result. | The result reads 0.',
      '### Five',
      '2 Set 5 on lever 1.',
      '3 Turn the crank once. | The counter reads 1. | The result reads 5.',
      '### Make ready',
      '4 Clear everything: the setting, the counter and the result. | The result reads 0.',
    ]);
  });

  test('have notes and cautions between them, where they are written', () => {
    const text = `sequence s on desk
  note "First."
  clear all
  set 5
  caution "Slowly."
  turn
  note "Look."
  expect result 5
`;
    expect(stepsIn(text)).toEqual([
      'note: First.',
      '1 Clear everything: the setting, the counter and the result.',
      '2 Set 5 on lever 1.',
      'caution: Slowly.',
      '3 Turn the crank once. | The result reads 5.',
      'note: Look.',
    ]);
  });

  test('a reading before anything is done is a step of its own', () => {
    expect(stepsIn('sequence s on desk\n  expect result 0\n  clear all\n  set 1\n')[0]).toBe(
      '1 Look at the machine. | The result reads 0.',
    );
  });

  test('what somebody sees or hears besides is told with the readings', () => {
    const text = `sequence s on desk
  clear all
  set 1
  turn back
  expect overdraw bell
  expect result -1 as lack
`;
    expect(stepsIn(text).at(-1)).toBe(
      '3 Turn the crank backwards once. | The result has gone below zero. | The bell has rung. | lack: The result reads 9 999 999 999 999 (the complement of 1).',
    );
  });

  test('slips that are added one after the other have a single reading', () => {
    const text = `sequence s on desk
  clear all
  set 5
  turn
  set 7
  turn
  set 9
  turn
  clear counter
  set 2
  turn
`;
    const read = stepsIn(text).filter((line) => line.includes('|'));
    expect(read).toEqual(['7 Turn the crank once. | The counter reads 3. | The result reads 21.']);
  });
});

test('registers that the steps rely on must be at zero beforehand', () => {
  const sheet = sheetOf('sequence s on desk\n  set 4\n  turn\n  ask result\n');
  expect(below(sheet, 'Before you begin').at(-1)).toBe(
    '- These steps do not clear everything: the counter and the result must be at zero beforehand.',
  );
});

test('levers and buttons that the machine has stand as a run begins', () => {
  const text = `machine office "Office machine" like desk
  subtract half-step
  count lever
  auto-clear
  auto-divide
sequence s on office
  clear all
  set 4
  turn
`;
  expect(below(sheetOf(text), 'Before you begin')).toEqual([
    '- The carriage stands in position 1, where the machine adds.',
    '- The crank is at rest.',
    '- The count lever stands at plus.',
    '- The clearing of the levers after each turn is switched off.',
    '- The automatic division is switched off.',
    '- The decimal markers stand at the right, behind the units.',
  ]);
});

describe('goals', () => {
  const end = (text: string): string => plain(below(sheetOf(text), 'At the end')[0]);

  test('that are cut off, rounded or shown as a complement say so', () => {
    expect(end('sequence s on desk\n  goal result = 10 / 3\n  clear all\n  set 3\n  turn\n')).toBe(
      '- The result reads 3. It is cut off; the exact value begins with 3.3333.',
    );
    expect(end('sequence s on desk\n  goal result = 8 / 3\n  clear all\n  set 3\n  turn\n')).toBe(
      '- The result reads 3. It is rounded; the exact value begins with 2.6666.',
    );
    const below = 'goal result = 1 - 2\n  clear all\n  set 1\n  turn back\n  expect overdraw\n';
    expect(end(`sequence s on desk\n  ${below}`)).toBe('- The result reads 9 999 999 999 999. This stands for −1.');
  });

  test('are written as on paper', () => {
    const text = `sequence s (side = 12) on desk
  goal result = (sqrt(16) + side ^ 2) * 100 / 10
  clear all
  set 1480
  turn
`;
    expect(below(sheetOf(text), 'What is worked out')).toEqual([
      'The result is to show (√16 + side²) × 100 ÷ 10 = (√16 + 12²) × 100 ÷ 10.',
      'These instructions are made for side = 12.',
    ]);
  });
});

describe('cases', () => {
  test('stand in a table with what the machine shows', () => {
    const text = `sequence s (a = 34, b = 27) on desk
  case a = 5600, b = 12
  goal result = a * b
  goal counter = b
  clear all
  set a
  multiply by b
  ask result
`;
    expect(below(sheetOf(text), 'Other numbers').slice(0, 3).map(plain)).toEqual([
      'No. | a | b | Reading 1: result | At the end: counter',
      '1 | 34 | 27 | 918 | 27',
      '2 | 5600 | 12 | 67 200 | 12',
    ]);
  });

  test('may be asked a different number of times', () => {
    const text = `sequence s (n = 2) on desk
  case n = 1
  clear all
  set 4
  repeat n {
    turn
    ask result
  }
`;
    expect(below(sheetOf(text), 'Other numbers').slice(0, 3)).toEqual([
      'No. | n | Reading 1: result | Reading 2: result',
      '1 | 2 | 4 | 8',
      '2 | 1 | 4 | –',
    ]);
  });
});

describe('figures', () => {
  const TEXT = `sequence s on desk
  clear all
  set 5
  turn 2
  shift right
  turn 3
  clear counter
  set 6
  shift to 1
  shift to 1
  turn 4
  expect counter 4
`;

  test('stand nowhere, after each step, or where a stage ends', () => {
    expect(drawn(TEXT, 'none')).toEqual([]);
    // Step 9 leaves the carriage where it is.
    expect(drawn(TEXT, 'all')).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '10']);
    expect(drawn(TEXT, 'stages')).toEqual(['5', '10']);
  });

  test('of a repeat stand at its end', () => {
    const text = 'sequence s on desk\n  clear all\n  set 5\n  repeat 2 {\n    turn\n    shift right\n  }\n';
    expect(drawn(text, 'all')).toEqual(['1', '2', '3c']);
    expect(drawn(text, 'stages')).toEqual(['3c']);
  });

  test('tell of a bell that rang since the last one', () => {
    const text = `machine small
  setting 8
  result 13
  bell
sequence s on small
  clear all
  set 1
  turn back
  expect bell
  set 2
  turn
  expect bell
`;
    const rang = stepsOf(sheetOf(text, 'en', 'stages')).flatMap(({ figure }) => (figure ? [figure.rang] : []));
    expect(rang).toEqual([true, true]);
    const each = stepsOf(sheetOf(text, 'en', 'all')).flatMap(({ figure }) => (figure ? [figure.rang] : []));
    expect(each).toEqual([false, false, true, false, true]);
  });
});

test('two hundred steps have two hundred figures', () => {
  const lines = Array.from({ length: 99 }, (_, i) => `  set ${1234 + i * 7}\n  turn\n`).join('');
  const steps = stepsOf(sheetOf(`sequence s on desk\n  clear all\n${lines}  shift right\n`, 'en', 'all'));
  expect(steps.map(({ figure }) => figure !== undefined)).toEqual(Array(200).fill(true));
});

describe('a sheet is refused', () => {
  const refused = (text: string, language = 'en') => {
    const sheet = ordered('operating', lastIn(MACHINE + text), { language });
    if (!isSheetRefused(sheet)) throw new Error('There is a sheet');
    return sheet;
  };

  test.each([
    ['a wrong reading', '  clear all\n  set 5\n  turn\n  expect result 6\n', 'reading-differs'],
    ['a line that can’t be read', '  clear all\n  sett 5\n', 'syntax'],
    ['an unknown sequence', '  clear all\n  run nobody\n', 'unknown-name'],
    ['a missed goal', '  goal result = 2\n  clear all\n  set 1\n  turn\n', 'goal-missed'],
  ])('for %s', (_, body, code) => {
    const { refused: reason, message } = refused(`sequence s on desk\n${body}`);
    expect(reason.is === 'errors' && reason.findings.map(({ facts }) => facts.code)).toContain(code);
    expect(message).toMatch(/^There is no sheet, because/);
    for (const kind of ['exercise', 'key', 'bench'] as const) {
      expect(isSheetRefused(ordered(kind, lastIn(`${MACHINE}sequence s on desk\n${body}`)))).toBe(true);
    }
  });

  test('for an error in a case alone, and for one in a sequence that is run', () => {
    const inCase = 'sequence s (a = 5) on desk\n  case a = 6\n  clear all\n  set a\n  turn\n  expect result 5\n';
    expect(refused(inCase).refused.is).toBe('errors');
    const inner = 'sequence inner on desk\n  clear all\n  run nobody\n  tun 4\nsequence s on desk\n  run inner\n';
    const { refused: reason } = refused(inner);
    expect(reason.is === 'errors' && reason.findings.map(({ facts }) => facts.code).sort()).toEqual([
      'syntax',
      'unknown-name',
    ]);
  });

  test('where there is no machine, and where a step has no end', () => {
    expect(refused('machine broken\n  setting 9\nsequence s on broken\n  clear all\n').refused.is).toBe('not-run');
    expect(refused('sequence s on nothing\n  clear all\n').refused.is).toBe('errors');
    const endless = refused('sequence s on desk\n  clear all\n  set 0\n  turn back until overdraw\n');
    expect(endless.refused.is).toBe('errors');
  });

  test('where it has too many steps, in the language of the sheet', () => {
    const step = '  set 1\n  turn\n';
    const { refused: reason, message } = refused(`sequence s on desk\n  clear all\n${step.repeat(1_000)}`, 'de');
    expect(reason).toEqual({ is: 'too-long', steps: 2_001, limit: 2_000 });
    expect(message).toMatch(/^Es gibt kein Blatt/);
  });

  test('but not for a warning or a hint', () => {
    const text = 'sequence s on desk\n  clear counter\n  set 1\n  turn\n  turn back 2\n  expect overdraw\n';
    const report = lastIn(MACHINE + text);
    expect(report.findings.map(({ facts }) => facts.code)).toContain('counter-underflow');
    expect(isSheetRefused(ordered('operating', report))).toBe(false);
  });
});

// --- held against the run -----------------------------------------------------------------------------------------

const WORDS = {
  en: { result: /The result reads /, counter: /The counter reads /, setting: /The setting reads / },
  de: {
    result: /Das Resultatwerk zeigt /,
    counter: /Das Umdrehungszählwerk zeigt /,
    setting: /Das Einstellwerk zeigt /,
  },
};

/** Readings that are printed at the steps, as register and units of the last decimal, decimal sign aside. */
function printedReadings(sheet: Sheet): string[] {
  const words = WORDS[sheet.language === 'de' ? 'de' : 'en'];
  return stepsOf(sheet).flatMap(({ readings = [] }) =>
    readings.flatMap((reading) => {
      const text = plainText(reading);
      const register = (Object.keys(words) as Register[]).find((one) => words[one].test(text));
      const first = reading.find((span) => typeof span === 'object' && 'reading' in span);
      if (!register || typeof first !== 'object' || !('reading' in first)) return [];
      return [`${register} ${unitsOf(first.reading)}`];
    }),
  );
}

/** `1 234,50` as 123450; a leading minus stays. */
const unitsOf = (reading: string): string => {
  const digits = reading.replace(/[^\d]/g, '').replace(/^0+(?=\d)/, '');
  return reading.startsWith('−') ? `-${digits}` : digits;
};

/** What a run may show anywhere, straight from the tape. */
function shownInRun({ runs: [run] }: SequenceReport): Set<string> {
  const shown = new Set<string>();
  for (let row = 0; row < run.tape.length; row++) {
    const state = run.tape.stateAt(row);
    for (const register of ['setting', 'counter', 'result'] as const) {
      shown.add(`${register} ${numberIn(state, run.order.profile, register)}`);
    }
  }
  return shown;
}

/** What `expect` steps read, straight from the tape. */
function expectedInRun({ runs: [run] }: SequenceReport): string[] {
  const expected: string[] = [];
  for (let row = 0; row < run.tape.length; row++) {
    const { syntax } = run.tape.stepAt(row);
    if (syntax.kind !== 'expect') continue;
    for (const item of syntax.items) {
      if (item.kind !== 'register') continue;
      expected.push(`${item.register} ${numberIn(run.tape.stateAt(row), run.order.profile, item.register)}`);
    }
  }
  return expected;
}

const SEEN = SUBTRACTING | COUNT_MINUS | AUTO_CLEAR | AUTO_DIVIDE;
const look = (state: State): string => [...state.subarray(0, LEVERS), state[LEVERS] & SEEN, state[POINTS]].join(' ');
const lookAtHome = (state: State): string => {
  const home = state.slice();
  home[POSITION] = 1;
  return look(home);
};

describe.each(sampleSequences())('the sample $name', ({ report }) => {
  test.each(['en', 'de'])('gives a sheet in %s without gaps', (language) => {
    const sheet = made('operating', report, { language, figures: 'stages' });
    const all = textsOf(sheet).map(plainText);
    for (const text of all) expect(text).not.toMatch(/undefined|NaN|\[object|function|=>/);
    expect(stepsOf(sheet).every(({ text }) => plainText(text).trim() !== '')).toBe(true);
    const numbers = stepsOf(sheet).map(({ number }) => number);
    expect(new Set(numbers).size).toBe(numbers.length);
    const main = numbers.filter((number) => /^\d+$/.test(number));
    expect(main).toEqual(main.map((_, i) => String(i + 1)));
    expect(printed(sheet)).not.toMatch(/undefined/);
  });

  test.each(['en', 'de'])('prints what the run shows and nothing else, in %s', (language) => {
    const sheet = made('operating', report, { language });
    const printedOnes = printedReadings(sheet);
    const shown = shownInRun(report);
    for (const one of printedOnes) expect(shown).toContain(one);
    for (const one of expectedInRun(report)) expect(printedOnes).toContain(one);
  });

  test('shows no two figures alike in a row, each as the run has it', () => {
    const [run] = report.runs;
    const states = new Set<string>();
    for (let row = 0; row < run.tape.length; row++) states.add(look(run.tape.stateAt(row)));
    for (const figures of ['all', 'stages'] as const) {
      const drawn = stepsOf(made('operating', report, { figures })).flatMap(({ figure }) =>
        figure ? [figure.after] : [],
      );
      const shown = drawn.map(look);
      for (const [i, one] of shown.entries()) {
        expect(states).toContain(one);
        expect(one).not.toBe(shown[i - 1]);
      }
      const last = drawn.at(-1);
      // A carriage that is only brought home at the end has no figure of its own but where every step has one.
      if (figures === 'all') expect(shown.at(-1)).toBe(look(run.state));
      else expect(last && lookAtHome(last)).toBe(lookAtHome(run.state));
    }
  });
});

describe('any sequence', () => {
  const number = fc.integer({ min: 1, max: 9_999 });
  const step = fc.oneof(
    number.map((n) => `set ${n}`),
    fc.integer({ min: 1, max: 9 }).map((n) => `turn ${n}`),
    fc.integer({ min: 1, max: 4 }).map((n) => `shift to ${n}`),
    fc.constantFrom('clear counter', 'clear result', 'ask result', 'note "Hm."'),
    fc.integer({ min: 0, max: 40 }).map((n) => `multiply by ${n}`),
  );
  const block = fc.oneof(
    { weight: 3, arbitrary: step.map((one) => [one]) },
    fc
      .tuple(fc.integer({ min: 1, max: 3 }), fc.array(step, { minLength: 1, maxLength: 4 }))
      .map(([n, steps]) => [`repeat ${n} {`, ...steps, '}']),
  );

  /** The text with an `expect` behind each step on the outside that reads what the machine shows there. */
  function withExpects(lines: readonly string[][]): string | undefined {
    const text = (all: readonly string[][]) => `${MACHINE}sequence s on desk\n  clear all\n${all.flat().join('\n')}\n`;
    const done: string[][] = [];
    for (const part of lines) {
      done.push(part);
      const report = lastIn(text(done));
      const [run] = report.runs;
      if (report.findings.some(({ facts }) => facts.code === 'carriage-end' || facts.code === 'counter-overflow')) {
        return undefined;
      }
      const { state, order } = run;
      done.push([
        `expect result ${numberIn(state, order.profile, 'result')} counter ${numberIn(state, order.profile, 'counter')}`,
      ]);
    }
    return text(done);
  }

  test('has each expected reading on its sheet, in order, and a number for each written step', () => {
    fc.assert(
      fc.property(fc.array(block, { minLength: 1, maxLength: 6 }), (lines) => {
        const text = withExpects(lines);
        if (text === undefined) return;
        const report = lastIn(text);
        const sheet = ordered('operating', report, { figures: 'all' });
        if (isSheetRefused(sheet)) return;
        const printedOnes = printedReadings(sheet);
        const shown = shownInRun(report);
        for (const one of printedOnes) expect(shown).toContain(one);
        for (const one of expectedInRun(report)) expect(printedOnes).toContain(one);
        const written = lines.filter(([first]) => !first.startsWith('note') && !first.startsWith('ask')).length;
        const main = stepsOf(sheet).filter(({ number: n }) => /^\d+$/.test(n)).length;
        // One more for the clearing.
        expect(main).toBe(written + 1);
        expect(linesOf({ is: 'steps', steps: stepsOf(sheet) }).join()).not.toContain('undefined');
        for (const { figure } of stepsOf(sheet)) {
          if (figure) expect(pointOf(figure.after, 'result')).toBe(0);
        }
      }),
      { numRuns: 60 },
    );
  });
});
