/** The test explorer in VS Code itself: beside a process, and in a web worker. */
import { rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
const POTS = `use "machines.crank"

sequence pots "Pots on the benches" (rows = 12, pots = 34) on pinwheel-9
  case rows = 15, pots = 28
  goal result = rows * pots
  clear all
  set rows
  multiply by pots
  expect result 408

sequence trays "Trays in the shed" on pinwheel-9
  clear all
  set 48
  turn 6
  expect counter 6 result 289
`;
const PAGE = '# Labels\n\n```crank\nuse "machines.crank"\nsequence labels on desk-8\n  clear all\n  set 48\n  turn 6\n  expect result 288\n```\n';
const OLD = 'machine loft-4 "From the loft"\n  setting 4\n  counter 4\n  result 3\n';
const BENCH = 'use "old.crank"\nuse "machines.crank"\n\nsequence bench-trial on loft-4\n  clear all\n';

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  const name = `tests-${vsix.replace('.vsix', '')}`;
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, {
      'pots.crank': POTS,
      'page.md': PAGE,
      'plain.md': '# Nothing to crank\n',
      'old.crank': OLD,
      'bench.crank': BENCH,
    });
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });

  it('lists', async () => {
    await editor.run('Testing: Focus on Test Explorer View');
    await editor.page.waitForTimeout(5000);
    const rows = await editor.page.locator('.test-explorer .monaco-list-row').evaluateAll((all) => all.map((row) => row.getAttribute('aria-label')));
    console.log(rows);
    await editor.picture(`${name}-listed`);
    await editor.run('Test: Run All Tests');
    await editor.page.waitForTimeout(6000);
    console.log(await editor.page.locator('.test-explorer .monaco-list-row').evaluateAll((all) => all.map((row) => row.getAttribute('aria-label'))));
    await editor.picture(`${name}-run`);
  });
});
