/** The keys that the reference lists are the ones that the program prints. */
import { expect, it } from 'vitest';
import manifest from '../../client/package.json' with { type: 'json' };
import { finish } from '../../grammar/gradual.js';
import { logJson } from '../../server/cli/output/bench-log.js';
import { coverageJson } from '../../server/cli/output/coverage-json.js';
import { diagnosisJson } from '../../server/cli/output/diagnosed.js';
import { toJson } from '../../server/cli/output/formats.js';
import { summarise } from '../../server/cli/output/summary.js';
import { MECHANISMS } from '../../server/machine/index.js';
import { coverageOf } from '../../server/proving/coverage.js';
import { diagnose } from '../../server/proving/diagnosis.js';
import { benchLogs } from '../../server/proving/history.js';
import { proposalsFor } from '../../server/proving/script.js';
import { tell } from '../../server/proving/told.js';
import { tellLog } from '../../server/proving/told-log.js';
import { provingWording } from '../../server/proving/wording/index.js';
import { traceOf } from '../../server/sequence/trace.js';
import { machineAsked, shownMachine } from '../../server/service/machine.js';
import { sheetAsked, shownSheetGradually } from '../../server/service/sheet.js';
import { starterAnswerGradually, starterAsked } from '../../server/service/starter.js';
import { resultsAsked, resultsGradually } from '../../server/service/test-results.js';
import { testsOf } from '../../server/service/tests.js';
import { checkFiles } from '../marked.js';
import { openMarked, reader } from '../service/editor.js';
import { pageText } from './page.js';

const chapterOf = (title: string): string => pageText().split(`\n## ${title}\n`)[1]?.split('\n## ')[0] ?? '';
const chapter = chapterOf('9. For other programs');
const listed = (text: string) => [...text.matchAll(/`([a-zA-Z]+)`/g)].map(([, key]) => key);

/** The first column of a table. */
const rowsOf = (text: string): string[] =>
  text
    .split('\n')
    .filter((line) => /^\| `/.test(line))
    .map((line) => line.split('|')[1]);

const otherEditors = chapterOf('10. For other editors').split('\n### ');

it('lists every key of a request for tests, and of the answers', () => {
  const tests = otherEditors.find((part) => part.startsWith('Lists of tests')) ?? '';
  const asked = resultsAsked({ uri: 'file:///nursery/test.crank', ids: [], known: {} });
  expect(listed(rowsOf(tests).join(' ')).filter((key) => key !== 'runTests')).toEqual(Object.keys(asked));
  const wrong = 'machine m\n  setting 2\n  result 4\nsequence s "S" (a = 1)\n  case a = 2\n  clear all\n  run part\n';
  const { document } = openMarked(`use "b.crank"\n${wrong}`, { 'b.crank': 'sequence part\n  expect result 1\n' });
  const tree = testsOf(document, reader());
  const [text, one] = finish(resultsGradually(document, { uri: document.uri }, reader())).results;
  const [message] = one.messages;
  const said = [tree, tree?.tests[0], text, message, message.related?.[0]].flatMap((told) => Object.keys(told ?? {}));
  expect(said).toEqual(expect.arrayContaining(['uses', 'description', 'resultId', 'expected', 'actual', 'related']));
  expect(said.filter((key) => !listed(tests).includes(key))).toEqual([]);
});

it('lists every key of a request for the machine, and of the answers', () => {
  const part = otherEditors.find((one) => one.startsWith('The machine')) ?? '';
  const request = { uri: 'file:///nursery/test.crank', line: 5, character: 3, case: 0, moment: 1, stepping: 's1' };
  const asked = machineAsked({ ...request, moves: [{ by: 'turn', count: -1 }] });
  if (typeof asked === 'string') throw new Error(asked);
  expect(listed(rowsOf(part).join(' ')).sort()).toEqual([...Object.keys(asked), 'sequence'].sort());
  const { document } = openMarked(
    'machine m\n  setting 2\n  result 4\nsequence s on m\n  set 7\n  expect result 1\n  trun\n',
  );
  const answer = finish(shownMachine(document, { ...asked, moment: 1, moves: [] }, reader()));
  const { frame, trouble } = answer;
  const said = [answer, frame, frame?.step, frame?.figure, frame?.figure.parts[0], frame?.remarks[0], trouble].flatMap(
    (told) => Object.keys(told ?? {}),
  );
  expect(said).toEqual(expect.arrayContaining(['trouble', 'frame', 'sentence', 'marked', 'label']));
  expect(said.filter((key) => !listed(part).includes(key))).toEqual([]);
});

it('lists every key of a request for a sheet, and of the answers', () => {
  const [sheets] = otherEditors;
  const asked = sheetAsked({ uri: 'file:///nursery/test.crank', sequence: 's' }, 'en');
  if (typeof asked === 'string') throw new Error(asked);
  expect(listed(rowsOf(sheets).join(' ')).sort()).toEqual([...Object.keys(asked), 'line'].sort());
  const answers = ['sequence s\n  turn\n', 'machine m\n  setting 2\n  result 4\nsequence s on m\n  clear all\n'].map(
    (text) => finish(shownSheetGradually(openMarked(text).document, asked, reader())),
  );
  const prose = listed(sheets);
  const keys = answers.flatMap((answer) =>
    [answer, answer.refused ?? {}, answer.sheet ?? {}, ...answer.sequences].flatMap(Object.keys),
  );
  expect(keys).toEqual(expect.arrayContaining(['sheet', 'content', 'refused', 'at', 'range']));
  expect(keys.filter((key) => !prose.includes(key))).toEqual([]);
});

it('lists every key of a launch', () => {
  const stepping = otherEditors.find((part) => part.startsWith('Stepping')) ?? '';
  const [{ configurationAttributes }] = manifest.contributes.debuggers;
  const keys = [...Object.keys(configurationAttributes.launch.properties), 'line'];
  expect(listed(rowsOf(stepping).join(' ')).sort()).toEqual(keys.sort());
});

it('lists every key of a request for a file to begin with, and of the answer', () => {
  const starters = otherEditors.find((part) => part.startsWith('Files to begin with')) ?? '';
  const asked = starterAsked({ machine: 'adding', task: 'add' }, 'en');
  if (typeof asked === 'string') throw new Error(asked);
  expect(listed(rowsOf(starters).join(' ')).sort()).toEqual(Object.keys(asked).sort());
  const answer = finish(starterAnswerGradually(asked, 'en'));
  if (typeof answer === 'string' || !answer.file) throw new Error('no file was begun');
  const keys = [answer, answer.file, ...answer.machines, ...answer.tasks].flatMap(Object.keys);
  const prose = listed(starters);
  expect(keys.filter((key) => !prose.includes(key))).toEqual([]);
});

it('lists every key of a row, of the effort, of a goal, of a finding and of what check says of a sequence', () => {
  const { library, report } = checkFiles({
    'here.crank': `use "there.crank"
sequence here (a = 2) on stores
  case a = 3
  goal result = a
  clear all
  set a
  run there
  turn
  expect result 4
  turn until stop
`,
    'there.crank': 'machine stores\n  setting 3\n  counter 3\n  result 6\nsequence there\n  turn\n',
  });
  const { sequences, findings } = traceOf(library, report);
  const rows = rowsOf(chapter);
  const keys = new Set(sequences.flatMap(({ steps }) => steps.flatMap(Object.keys)));
  expect([...keys].sort()).toEqual(listed(rows.join(' ')).sort());
  const prose = listed(chapter);
  const others = [...sequences.flatMap(({ goals, effort }) => [effort, ...goals]), ...findings].flatMap(Object.keys);
  expect(others.filter((key) => !prose.includes(key))).toEqual([]);
  expect(new Set(others).size).toBeGreaterThan(15);
  const summary = summarise([report], findings);
  const checked = JSON.parse(toJson({ reports: [report], findings, summary })) as Record<string, object[]>;
  const ofCheck = [...Object.keys(checked), ...Object.keys(checked.sequences[0]), ...Object.keys(summary)];
  expect(ofCheck.filter((key) => !prose.includes(key))).toEqual([]);
});

it('lists every key of what coverage says', () => {
  const text = `machine stores
  setting 2
  counter 2
  result 4
sequence here on stores
  clear all
  set 2
  turn
  expect result 2
`;
  const { library, report } = checkFiles({ 'here.crank': text });
  const [sequence] = report.sequences;
  const coverage = finish(coverageOf(sequence.runs));
  const proposals = finish(proposalsFor(coverage));
  const sequences = [{ file: 'here.crank', report: sequence }];
  const script = { profile: coverage.profile, sequences, coverage, proposals };
  const leftOut = [{ ...sequences[0], why: 'nobody-looks' as const }];
  const keys = new Set<string>();
  JSON.parse(coverageJson({ library, scripts: [script], leftOut }), (key, value) => {
    if (/^[a-zA-Z]+$/.test(key)) keys.add(key);
    return value;
  });
  // The parts of a machine are named where coverage is explained.
  for (const part of MECHANISMS) keys.delete(part);
  expect(keys).toContain('neverEnds');
  expect([...keys].filter((key) => !listed(chapter).includes(key))).toEqual([]);
});

it('lists every key of what diagnose and bench-log say', () => {
  const text = `machine stores
  setting 2
  counter 2
  result 4
  bell
sequence here on stores
  clear all
  set 2
  turn
  expect result 2 as two
  turn 9
  expect result 20
bench "Before" of here on stores
  found 2 result 0 no bell
bench "After" of here on stores
  found two result 2
`;
  const { library, report } = checkFiles({ 'here.crank': text });
  const benches = report.sections.flatMap(({ bench }) => bench ?? []);
  expect(benches).toHaveLength(2);
  const wording = provingWording('en');
  const diagnosed = benches.map((bench) => ({
    file: 'here.crank',
    line: library.lineOf(bench.section),
    bench,
    told: tell(bench, finish(diagnose(bench)), wording),
  }));
  const logs = finish(benchLogs(report));
  const told = logs.map((log) => tellLog(log, wording));
  const printed = [diagnosisJson(diagnosed), logJson('here.crank', logs, told)];
  const keys = new Set<string>();
  for (const json of printed) {
    JSON.parse(json, (key, value) => {
      if (/^[a-zA-Z]+$/.test(key)) keys.add(key);
      return value;
    });
  }
  expect([...keys]).toEqual(expect.arrayContaining(['classes', 'label', 'proved', 'does']));
  expect([...keys].filter((key) => !listed(chapter).includes(key))).toEqual([]);
});
