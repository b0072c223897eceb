/** Bench sheets: each step and each reading has its row, and each reading is that of the run. */
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { type Register, textOf } from '../../server/machine/index.js';
import { coverageOf } from '../../server/proving/coverage.js';
import type { SequenceReport } from '../../server/sequence/check.js';
import type { Block, Cell, Sheet } from '../../server/sheets/model.js';
import { placesText } from '../../server/sheets/proves.js';
import { plainText } from '../../server/sheets/spans.js';
import { below, printed } from './exercises.js';
import { lastIn, made, plain, sampleSequences, textsOf } from './made.js';

const MACHINE = 'machine desk "Desk machine"\n  setting 8\n  counter 8\n  result 13\n  bell\n';
const sheetOf = (text: string, language = 'en'): Sheet => made('bench', lastIn(MACHINE + text), { language });
const rowsIn = (text: string, language = 'en'): string[] =>
  below(sheetOf(text, language), language === 'de' ? 'Schritte und Ablesungen' : 'Steps and readings')
    .slice(1)
    .map(plain);

const isBenchTable = (block: Block): block is Extract<Block, { is: 'table' }> =>
  block.is === 'table' && block.columns.length === 6;
const rowsOf = (sheet: Sheet): (readonly Cell[])[] =>
  sheet.blocks.flatMap((block) => (isBenchTable(block) ? block.rows : []));

const PROOF = `sequence proof "Borrow and carry" on desk
  caution "Slowly."
  clear all
  set 1 at 2
  turn
  expect counter 1 result 10 as ten
  note "Now the nines."
  clear counter result
  set 1
  turn back
  expect overdraw bell
  expect result 9999999999999 as nines
`;

test('has fields for the record, cautions, the machine, and room for the finding', () => {
  const sheet = sheetOf(PROOF);
  expect([sheet.kind, sheet.title, sheet.subtitle]).toEqual(['bench', 'Borrow and carry', 'Desk machine']);
  const [fields, cautions] = sheet.blocks;
  expect(fields).toEqual({
    is: 'fields',
    fields: ['Make and model', 'Serial number', 'Date', 'Name', 'Reason for this check'].map((label) => ({ label })),
  });
  expect(cautions.is === 'cautions' && cautions.items.length).toBeGreaterThanOrEqual(5);
  expect(below(sheet, 'The machine')).toContain('Setting | 8 levers');
  expect(below(sheet, 'Before you begin')[0]).toBe('- The carriage stands in position 1.');
  expect(below(sheet, 'Finding').slice(1)).toEqual(['Result: ', 'Work done: ', 'Left to do: ', 'Signature: ']);
});

test('has a row for each step and each reading, wheel by wheel', () => {
  const head = 'No. | Step | Expected | Found | Agrees | Remarks';
  expect(rowsIn(PROOF)).toEqual([
    'caution: Slowly.',
    head,
    '1 | Clear everything: the setting, the counter and the result. |  |  |  | ',
    '2 | Set 1 on lever 2. |  |  |  | ',
    '3 | Turn the crank once. | counter 00 000 001 |  |  | ',
    ' |  | ten: result 0 000 000 000 010 |  |  | ',
    'note: Now the nines.',
    head,
    '4 | Clear the counter and the result. |  |  |  | ',
    '5 | Set 1 on lever 1. Set all other levers to 0. |  |  |  | ',
    '6 | Turn the crank backwards once. | the result goes below zero |  |  | ',
    ' |  | the bell rings |  |  | ',
    ' |  | nines: result 9 999 999 999 999 |  |  | ',
  ]);
});

test('is made in German', () => {
  expect(rowsIn(PROOF, 'de').slice(0, 5)).toEqual([
    'caution: Slowly.',
    'Nr. | Schritt | Soll | Ist | Stimmt | Notizen',
    '1 | Alles löschen: das Einstellwerk, das Umdrehungszählwerk und das Resultatwerk. |  |  |  | ',
    '2 | 1 auf Hebel 2 einstellen. |  |  |  | ',
    '3 | Die Kurbel einmal drehen. | Umdrehungszählwerk 00 000 001 |  |  | ',
  ]);
});

test('leaves what is found, agrees or is remarked to be filled in by hand', () => {
  const table = sheetOf(PROOF).blocks.find(isBenchTable);
  const blanks = table?.columns.map(({ blank }) => blank ?? 0) ?? [];
  expect(blanks.slice(0, 3)).toEqual([0, 0, 0]);
  // Columns of no more than ten millimetres are to be ticked.
  expect(blanks[4]).toBeLessThanOrEqual(10);
  for (const width of blanks.slice(3)) expect(width).toBeGreaterThanOrEqual(8);
  expect(blanks.reduce((sum, width) => sum + width)).toBeLessThan(90);
});

test('reads the stages where the sequence expects nothing', () => {
  const text = 'sequence s on desk\n  clear all\n  set 4\n  multiply by 12\n  clear counter\n  turn\n';
  expect(rowsIn(text).slice(3)).toEqual([
    '3 | Multiply by 12. In single steps: |  |  |  | ',
    '3a | Turn the crank twice. |  |  |  | ',
    '3b | Shift the carriage one place to the right, to position 2. |  |  |  | ',
    '3c | Turn the crank once. | counter 00 000 012 |  |  | ',
    ' |  | result 0 000 000 000 048 |  |  | ',
    '4 | Clear the counter. |  |  |  | ',
    '5 | Turn the crank once. | counter 00 000 010 |  |  | ',
    ' |  | result 0 000 000 000 088 |  |  | ',
  ]);
});

test('tells of a repeat once, and its readings for each round where they differ', () => {
  const text = `sequence s on desk
  clear all
  set 5
  repeat 2 {
    turn
    ask result
    expect carriage 1
  }
`;
  expect(rowsIn(text).slice(3)).toEqual([
    '3 | Do the following twice: |  |  |  | ',
    '3a | Turn the crank once. | result 0 000 000 000 005 (time 1) |  |  | ',
    ' |  | result 0 000 000 000 010 (time 2) |  |  | ',
    ' |  | carriage in position 1 (each time) |  |  | ',
    '3b | When this has been done twice, go on. |  |  |  | ',
  ]);
});

test('shows decimal markers and marked figures as they stand on the wheels', () => {
  const text = `machine marked like desk
  counter 6 signed
sequence s on marked
  clear all
  points setting 2 counter 1 result 3
  set 1.25
  turn back 2
  expect overdraw
  shift right 2
  turn 3
  expect counter 29.8 result 37.250
`;
  const rows = rowsIn(text).filter((row) => /counter|result 0/.test(row) && row.startsWith(' '));
  expect(rows).toEqual([' |  | result 0 000 000 037.250 |  |  | ']);
  expect(rowsIn(text)).toContain('6 | Turn the crank 3 times. | counter 0 0 0 3 0.−2 |  |  | ');
  expect(rowsIn(text, 'de').at(-1)).toBe(' |  | Resultatwerk 0 000 000 037,250 |  |  | ');
});

test('names the sequence that is run above its table', () => {
  const text = 'sequence ready "Make ready" on desk\n  clear all\nsequence s "Five" on desk\n  run ready\n  set 5\n';
  const captions = sheetOf(text).blocks.flatMap((block) => (isBenchTable(block) ? [block.caption] : []));
  expect(captions).toEqual(['Make ready', 'Five']);
});

/** All wheels of a register after a row, straight from the tape; of marked figures the sign alone is another. */
const wheelsAfter = ({ runs: [run] }: SequenceReport, row: number, register: Register): string =>
  `${register} ${textOf(run.tape.stateAt(row), run.order.profile, register).replaceAll('-', '−')}`;

describe.each(sampleSequences())('the sample $name', ({ report }) => {
  const NAMES = {
    en: { setting: 'setting', counter: 'counter', result: 'result' },
    de: { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' },
  };

  test.each(['en', 'de'] as const)('has every reading of its run, and no other, in %s', (language) => {
    const sheet = made('bench', report, { language });
    const onSheet = rowsOf(sheet).flatMap(([, , expected]): string[] => {
      const reading = expected?.find((span) => typeof span === 'object' && 'reading' in span);
      if (typeof reading !== 'object' || !('reading' in reading)) return [];
      const register = (Object.keys(NAMES.en) as Register[]).find((one) =>
        plainText(expected ?? []).includes(`${NAMES[language][one]} `),
      );
      return [`${register} ${reading.reading.replace(/[^\d−]/g, '')}`];
    });
    const [{ tape }] = report.runs;
    const shown = new Set<string>();
    const wanted: string[] = [];
    for (let row = 0; row < tape.length; row++) {
      for (const register of ['setting', 'counter', 'result'] as const) shown.add(wheelsAfter(report, row, register));
      const { syntax } = tape.stepAt(row);
      if (syntax.kind !== 'expect') continue;
      for (const item of syntax.items)
        if (item.kind === 'register') wanted.push(wheelsAfter(report, row, item.register));
    }
    expect(onSheet.length).toBeGreaterThan(0);
    for (const one of onSheet) expect(shown).toContain(one);
    for (const one of wanted) expect(onSheet).toContain(one);
  });

  test.each(['en', 'de'])('has no gap and its labels in %s', (language) => {
    const sheet = made('bench', report, { language });
    for (const text of textsOf(sheet).map(plainText)) expect(text).not.toMatch(/undefined|NaN|\[object|=>/);
    expect(printed(sheet)).not.toMatch(/undefined/);
    const told = rowsOf(sheet).map(([, , expected]) => plainText(expected ?? []));
    for (let row = 0; row < report.runs[0].tape.length; row++) {
      const { syntax } = report.runs[0].tape.stepAt(row);
      if (syntax.kind !== 'expect') continue;
      for (const { label } of syntax.items) {
        if (label) expect(told.some((text) => text.startsWith(`${label.name}: `))).toBe(true);
      }
    }
  });
});

describe('what the readings prove', () => {
  const TWO = `sequence two "Two readings" on small
  clear all
  set 11
  turn
  expect result 11 as ones
  set 99
  turn
  expect result 110 counter 2 as nines
`;
  const SMALL = 'machine small\n  setting 2\n  counter 2\n  result 3\n';
  const provedIn = (text: string, language = 'en'): string[] =>
    below(
      made('bench', lastIn(SMALL + text), { language }),
      language === 'de' ? 'Was die Ablesungen beweisen' : 'What the readings prove',
    ).map(plain);

  test('is told at the reading that would be the first to show it', () => {
    // Levers: 2 × (9 short, dead); carries out of result places 1 and 2: lost both ways, stuck; counter carry in none
    // (plain); count: 2; clearing: 2 + 2 + 3. Of these the two readings see 4 of the levers at 1 and 2 at 9, the two
    // carries, and the count in place 1.
    const [told, head, ...rows] = provedIn(TWO);
    expect(told).toMatch(/^Of \d+ single faults .* would show 9\./);
    expect(head).toBe('No. | Reading | Proved');
    expect(rows).toEqual([
      '3 | ones | levers 1–2 at the figures set.',
      '5 | nines | levers 1–2 at the figures set; tens carry out of places 1–2 of the result in turns that add; count in place 1 of the counter.',
    ]);
  });

  test('is told in German as well', () => {
    expect(provedIn(TWO, 'de').at(-1)).toBe(
      '5 | nines | Hebel 1–2 auf den eingestellten Ziffern; Zehnerübertragung aus den Stellen 1–2 des Resultatwerks bei addierenden Umdrehungen; Zählen in der Stelle 1 des Umdrehungszählwerks.',
    );
  });

  test('says so where they show nothing, and is left out where nobody reads anything', () => {
    expect(provedIn('sequence idle on small\n  clear all\n  expect result 0\n')).toEqual([
      expect.stringMatching(/would show none\.$/),
    ]);
    const sheet = made('bench', lastIn(`${SMALL}sequence blind on small\n  clear all\n  set 1\n  turn\n`), {});
    expect(JSON.stringify(sheet)).not.toContain('What the readings prove');
  });

  test('counts as many faults as the sequence catches, on every sample', () => {
    for (const { report } of sampleSequences()) {
      if (!report.runs.length) continue;
      const proved = below(made('bench', report), 'What the readings prove').map(plain);
      if (proved.length === 0) continue;
      const { total } = finish(coverageOf([report.runs[0]]));
      expect(proved[0]).toContain(total.caught === 0 ? 'show none' : `show ${total.caught}.`);
      expect(proved.length > 2).toBe(total.caught > 0);
    }
  });

  test('gathers places that follow one another', () => {
    expect(placesText([3])).toBe('3');
    expect(placesText([1, 2, 3, 7, 9, 10])).toBe('1–3, 7, 9–10');
  });
});
