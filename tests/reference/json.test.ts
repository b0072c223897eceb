/** The keys that the reference lists are the ones that the program prints. */
import { expect, it } from 'vitest';
import { toJson } from '../../server/cli/output/formats.js';
import { summarise } from '../../server/cli/output/summary.js';
import { traceOf } from '../../server/sequence/trace.js';
import { checkFiles } from '../marked.js';
import { pageText } from './page.js';

const chapter = pageText().split('## 9. For other programs')[1] ?? '';
const listed = (text: string) => [...text.matchAll(/`([a-zA-Z]+)`/g)].map(([, key]) => key);

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
  const rows = chapter
    .split('\n')
    .filter((line) => /^\| `/.test(line))
    .map((line) => line.split('|')[1]);
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
