/** The test explorer in VS Code itself, used as a writer would use it: beside a process, and in a web worker. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
/** The extension brings a debugger of its own. */
const { contributes } = JSON.parse(readFileSync(`${DIST}/extension/package.json`, 'utf8'));
const isSteppable = contributes.debuggers !== undefined;
const POTS = `use "machines.crank"

sequence pots (rows = 12, pots = 34) on pinwheel-9
  case rows = 15, pots = 28
  goal result = rows * pots
  clear all
  set rows
  multiply by pots
  expect result 408

sequence trays on pinwheel-9
  clear all
  set 48
  turn 6
  expect counter 6 result 289
`;
const PAGE = `# Labels

\`\`\`crank
use "machines.crank"
sequence labels on desk-8
  clear all
  set 48
  turn 6
  expect result 288
\`\`\`
`;
const LOFT = 'machine loft-4 "From the loft"\n  setting 4\n  counter 4\n  result 3\n';
const TRIAL = 'use "loft.crank"\n\nsequence trial on loft-4\n  clear all\n';

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  const name = `tests-${vsix.replace('.vsix', '')}`;
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, {
      'loft.crank': LOFT,
      'page.md': PAGE,
      'plain.md': '# Nothing to crank\n',
      'pots.crank': POTS,
      'trial.crank': TRIAL,
    });
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });

  const rows = () => editor.page.locator('.test-explorer .monaco-list-row');
  const row = (label: string): Locator =>
    editor.page.locator(`.test-explorer .monaco-list-row[aria-label^="${label} ("]`);
  /** Waits until the list shows how a test stands. */
  const stands = (label: string, how: string) =>
    editor.page.locator(`.test-explorer .monaco-list-row[aria-label^="${label} (${how})"]`).waitFor();
  const outdated = (label: string) => row(label).and(editor.page.locator('[aria-label*="outdated"]'));
  const open = async (label: string) => {
    await row(label).click();
    await editor.page.keyboard.press('ArrowRight');
  };
  /** Goes to the end of a line, counted from 1, without the mouse: what it hovers over would be explained. */
  const goTo = async (number: number) => {
    const { page } = editor;
    await page.keyboard.press('Control+G');
    const input = page.locator('.quick-input-widget input[type="text"]');
    await input.waitFor({ state: 'visible' });
    await input.fill(`:${number}`);
    await page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden' });
    await page.locator('.statusbar-item', { hasText: `Ln ${number}, ` }).waitFor();
    await page.keyboard.press('End');
  };
  /** Puts something else in place of the end of a line. */
  const retype = async (number: number, away: number, text: string) => {
    await goTo(number);
    for (let i = 0; i < away; i++) await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.type(text);
    // Whatever is offered while somebody writes.
    await editor.page.keyboard.press('Escape');
  };
  /** The tests at the margin of the text, or those of them that stand so. */
  const margin = (how = '') => editor.page.locator(`.testing-run-glyph${how && `.codicon-testing-${how}-icon`}`);
  const button = (label: string) => editor.page.locator(`.sidebar .action-label[aria-label="${label}"]`).first();

  it('has every sequence and every case at the margin of an open file', async () => {
    await expect.poll(() => margin().count(), { timeout: 40_000 }).toBe(3);
  });

  it('lists the files of the folder that have something to crank', async () => {
    await editor.run('Testing: Focus on Test Explorer View');
    const files = ['loft.crank', 'machines.crank', 'page.md', 'pots.crank', 'trial.crank'];
    await expect
      .poll(() => rows().evaluateAll((all) => all.map((one) => one.getAttribute('aria-label'))), { timeout: 40_000 })
      .toEqual(files.map((file) => `${file} (Not yet run)`));
    await editor.picture(`${name}-listed`);
  });

  it('runs them all, and says what passes', async () => {
    await editor.run('Test: Run All Tests');
    await stands('page.md', 'Passed');
    await stands('pots.crank', 'Failed');
    await stands('trial.crank', 'Errored');
    await stands('loft.crank', 'Failed');
    await open('trial.crank');
    await stands('trial', 'Errored');
    await open('pots.crank');
    await stands('trays', 'Failed');
    await open('pots');
    await stands('defaults', 'Passed');
    await stands('case 1: rows = 15, pots = 28', 'Failed');
    await editor.picture(`${name}-run`);
  });

  it('says at the reading what was expected and what is read', async () => {
    const { page } = editor;
    await row('trays').dblclick();
    await editor.run('Test: Peek Output');
    const peek = page.locator('.test-output-peek');
    await peek.locator('.filename', { hasText: 'The result reads 288, not 289.' }).waitFor();
    await peek.locator('.editor.original .view-line', { hasText: /result\s289/ }).waitFor();
    await peek.locator('.editor.modified .view-line', { hasText: /result\s288/ }).waitFor();
    // At the item that differs, not at the beginning of the step.
    await page.locator('.statusbar-item', { hasText: 'Ln 15, Col 20' }).waitFor();
    await editor.picture(`${name}-peek`);
    await page.keyboard.press('Escape');
    await peek.waitFor({ state: 'detached' });
    // With all of the text in view, all of the margin is.
    await editor.run('View: Hide Panel');
  });

  it('runs again what a change touches, once it is told to', async () => {
    await button('Start Continuous Run').click();
    await button('Stop Continuous Run').waitFor();
    await retype(15, 1, '8');
    await stands('trays', 'Passed');
    await stands('pots', 'Failed');
    await retype(9, 3, 'rows');
    await stands('defaults', 'Failed');
    await retype(9, 'expect result rows'.length, 'ask result');
    await stands('pots.crank', 'Passed');
    await editor.picture(`${name}-mended`);
  });

  it('runs again what rests on another file', async () => {
    writeFileSync(path.join(editor.folder, 'loft.crank'), LOFT.replace('result 3', 'result 8'));
    await stands('trial', 'Passed');
    await stands('loft.crank', 'Passed');
  });

  it('follows the sequences of a file as they are written', async () => {
    const { page } = editor;
    await goTo(15);
    await page.keyboard.press('Enter');
    await page.keyboard.type('sequence cans on desk-8');
    await page.keyboard.press('Escape');
    await stands('cans', 'Passed');
    await expect.poll(() => margin('passed').count(), { timeout: 40_000 }).toBe(4);
  });

  it('knows when a file comes and when it goes', async () => {
    const file = path.join(editor.folder, 'cellar.crank');
    writeFileSync(file, TRIAL.replace('trial', 'bulbs'));
    await stands('cellar.crank', 'Passed');
    rmSync(file);
    await row('cellar.crank').waitFor({ state: 'detached' });
  });

  it('runs the test at the cursor, and no other', async () => {
    await button('Stop Continuous Run').click();
    await button('Start Continuous Run').waitFor();
    await retype(15, 1, '9');
    await retype(9, 'ask result'.length, 'expect result 3');
    // Both are out of date now, and stay so until somebody runs them.
    await outdated('trays').waitFor();
    await outdated('defaults').waitFor();
    expect(await outdated('cans').count()).toBe(0);
    await goTo(14);
    await editor.run('Test: Run Test at Cursor');
    await stands('trays', 'Failed');
    await outdated('trays').waitFor({ state: 'detached' });
    expect(await outdated('defaults').count()).toBe(1);
    await editor.picture(`${name}-at-cursor`);
  });

  it.skipIf(!isSteppable)('is gone through step by step, and stands as it does then', async () => {
    const { page } = editor;
    const failing = row('case 1: rows = 15, pots = 28');
    await failing.hover();
    await failing.locator('.action-label[aria-label="Debug Test"]').click();
    await page.locator('.debug-top-stack-frame-line').first().waitFor();
    await editor.run('View: Show Run and Debug');
    const frame = page.locator('.debug-call-stack .monaco-list-row', { hasText: 'clear all (in pots, case 1)' });
    await frame.first().waitFor();
    await editor.picture(`${name}-stepping`);
    await page.locator('.debug-toolbar .action-label[aria-label^="Stop"]:not(.disabled)').first().click();
    await page.locator('.debug-toolbar').waitFor({ state: 'hidden' });
    await editor.run('Testing: Focus on Test Explorer View');
    await stands('case 1: rows = 15, pots = 28', 'Failed');
    expect(await outdated('defaults').count()).toBe(1);
  });

  it('can be read in every theme', async () => {
    for (const theme of ['Light High Contrast', 'Dark High Contrast', 'Dark Modern']) {
      await editor.run('Preferences: Color Theme');
      await editor.page.locator('.quick-input-widget input[type="text"]').fill(theme);
      await editor.page.keyboard.press('Enter');
      await editor.page.waitForTimeout(1_000);
      await editor.picture(`${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
    }
  });
});
