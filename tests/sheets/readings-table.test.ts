/** A run as a table: what stands in each row, and that nothing in it differs from the tape. */
import { describe, expect, test } from 'vitest';
import { REGISTERS } from '../../server/machine/index.js';
import type { CaseRun } from '../../server/sequence/check.js';
import { wantedRuns } from '../../server/sequence/trace.js';
import { MOST_ROWS, readingsTable, type TableBlock } from '../../server/sheets/readings-table.js';
import { shownReading } from '../../server/sheets/shown.js';
import { plainText } from '../../server/sheets/spans.js';
import { isProse } from '../../server/sheets/stages.js';
import { sheetWords } from '../../server/sheets/wording/index.js';
import { checkText } from '../marked.js';
import { sampleSequences } from './made.js';

const MACHINE = `machine desk "Desk machine"
  setting 8
  counter 8
  result 13
  subtract lever
  bell
`;

function tableOf(text: string, language = 'en', runCase = 0): TableBlock {
  const { report } = checkText(MACHINE + text);
  const name = report.sequences.at(-1)?.section.header?.name.name ?? '';
  const [run] = wantedRuns(report, { sequence: name, case: runCase });
  return readingsTable(run, sheetWords(language));
}

/** Rows with ` | ` between their cells, the head first. */
const written = ({ columns, rows }: TableBlock): string[] => [
  columns.map(({ head }) => head).join(' | '),
  ...rows.map((row) =>
    row
      .map((cell) => plainText(cell ?? []))
      .join(' | ')
      .trimEnd(),
  ),
];

const BAY = `sequence bay "Area of one bay" (width = 17.2) on desk
  case width = 1234.5
  clear all
  points setting 1 counter 1 result 2
  set 24.5
  note "Mind the marker."
  multiply by width
  expect result 421.40 as area
`;

describe('a row', () => {
  test('tells what each step has changed, and sets off what is read', () => {
    const table = tableOf(BAY);
    expect(table.caption).toBe('Area of one bay, on Desk machine (width = 17.2)');
    expect(written(table)).toEqual([
      'Step | Setting | Counter | Result | Position | Besides',
      'clear all |  |  |  |  |',
      'points setting 1 counter 1 result 2 |  |  |  |  |',
      'set 24.5 | 24.5 |  |  |  |',
      'multiply by width |  | 17.2 | 421.40 | 3 | 10 turns',
      'expect result 421.40 as area |  |  | 421.40 |  |',
    ]);
    expect(table.rows.at(-1)?.[3]).toEqual([{ reading: '421.40' }]);
    expect(table.rows.at(-2)?.[3]).toEqual(['421.40']);
  });

  test('is in the form of the language, with the numbers of its case', () => {
    const table = tableOf(BAY.replace('expect result 421.40 as area', 'ask result'), 'de', 1);
    expect(table.caption).toBe('Area of one bay, auf Desk machine (width = 1234,5)');
    expect(written(table)[0]).toBe('Schritt | Einstellwerk | Umdrehungszählwerk | Resultatwerk | Stellung | Außerdem');
    expect(written(table).at(-1)).toBe('ask result |  |  | 30\u202f245,25 |  |');
  });

  test('sums up a repeat and shows it whole where it is short', () => {
    const table = tableOf(`sequence rows on desk
  set 3
  repeat 4 { turn 2; shift right }
  mode subtract
  repeat 2 { turn; repeat 2 { note "a long remark within, and a longer one behind it"; turn } }
  repeat 0 { turn }
`);
    expect(written(table)).toEqual([
      'Step | Setting | Counter | Result | Position | Besides',
      'set 3 | 3 |  |  |  |',
      'repeat 4 { turn 2; shift right } |  | 2222 | 6666 | 5 | 8 turns',
      'mode subtract |  |  |  |  | drive: subtract',
      'repeat 2 { … } |  | 99\u202f942\u202f222 | 9\u202f999\u202f999\u202f826\u202f666 |  | 6 turns · the bell rang',
      'repeat 0 { turn } |  |  |  |  |',
    ]);
  });

  test('leaves out columns in which nothing stands, and the counter of a machine without one', () => {
    const table = tableOf(`sequence sum on adder
  set 12
  turn
machine adder
  setting 4
  result 6
  carriage 1
`);
    expect(written(table)).toEqual(['Step | Setting | Result', 'set 12 | 12 |', 'turn |  | 12']);
  });

  test('says that the bell rang', () => {
    const table = tableOf('sequence below on desk\n  set 1\n  mode subtract\n  turn until overdraw\n');
    expect(written(table).at(-1)).toMatch(/\| 1 turn · the bell rang$/);
  });
});

describe('a long table', () => {
  test('leaves out the middle and says how much', () => {
    const steps = Array.from({ length: MOST_ROWS + 37 }, (_, i) => `  set ${i + 1}\n`).join('');
    const { rows } = tableOf(`sequence long on desk\n${steps}`);
    expect(rows).toHaveLength(MOST_ROWS + 1);
    expect(rows.map((row) => plainText(row[0] ?? [])).filter((text) => text.startsWith('…'))).toEqual([
      '… 37 steps are left out here …',
    ]);
    expect(plainText(rows.at(-1)?.[0] ?? [])).toBe(`set ${MOST_ROWS + 37}`);
  });

  test('of a run that broke off tells how many steps it never came to', () => {
    const { rows } = tableOf(
      'sequence endless on desk\n  set 1\n  clear result\n  repeat 999 { repeat 999 { clear result } }\n  turn\n  turn\n',
    );
    expect(plainText(rows.at(-1)?.[0] ?? [])).toMatch(/^The run breaks off here: \d steps are not carried out\.$/);
  });
});

test('every sample: the last told reading of each register is what stands there at the end', () => {
  for (const { report } of sampleSequences()) {
    for (const language of ['en', 'de']) for (const run of report.runs) check(run, language);
  }
});

function check(run: CaseRun, language: string): void {
  const words = sheetWords(language);
  const { columns, rows } = readingsTable(run, words);
  const steps = run.order.section.steps.filter(({ syntax }) => !isProse(syntax));
  expect(rows.length).toBeLessThanOrEqual(Math.min(steps.length, MOST_ROWS + 1));
  for (const row of rows) expect(row).toHaveLength(columns.length);
  for (const register of REGISTERS) {
    const at = columns.findIndex(({ head }) => head === words.readings.registers[register]);
    if (at < 0) continue;
    const last = rows.map((row) => plainText(row[at] ?? [])).findLast((text) => text !== '');
    if (last === undefined) continue;
    expect(last).toBe(plainText(shownReading(run.state, run.order.profile, register, words)));
  }
}
