/** The sample of a repair tells its story: one fault, another, a pass. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { diagnose } from '../../server/proving/diagnosis.js';
import { benchLogs } from '../../server/proving/history.js';
import { faultText } from '../../server/sequence/fault-text.js';
import { checkFiles } from '../marked.js';
import { LIBRARY } from './library.js';

const SAMPLE = readFileSync(new URL('../../samples/restorer-bench.crank', import.meta.url), 'utf8');
const { report } = checkFiles({ 'restorer-bench.crank': SAMPLE, 'machines.crank': LIBRARY });

it('each session leads to its cause, and the last is a pass in which every fault would have shown', () => {
  const found = report.sections.flatMap(({ bench }) => (bench ? [finish(diagnose(bench))] : []));
  expect(found.map((one) => [one?.verdict, ...(one?.explaining ?? []).map(({ fault }) => faultText(fault))])).toEqual([
    ['explained', 'carry-stuck result 5'],
    ['explained', 'transfer-dead 4'],
    ['pass'],
  ]);
});

it('side by side they say what was mended and what got worse', () => {
  const [log] = finish(benchLogs(report));
  const changed = log.entries.map(({ mended, worse, otherwise }) =>
    [mended, worse, otherwise].map((rows) => rows.map(({ label }) => label).join(' ')),
  );
  expect(changed).toEqual([
    ['', '', ''],
    ['lever-2 carry-2', 'lever-1', ''],
    ['lever-1', '', ''],
  ]);
  expect(log.entries.map(({ proved }) => proved)).toEqual([86, 163, 181]);
});
