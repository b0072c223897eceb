/** A sheet beside the text, in VS Code itself, used as a writer would use it: beside a process, and in a web worker. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import axe from 'axe-core';
import type { Frame, FrameLocator } from 'playwright-core';
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
  ask result

sequence trays "Trays in the shed" on pinwheel-9
  clear all
  set 48
  turn 6
  expect result 288
`;

/** The page of the panel, and the sheet in it. */
const pageIn = (editor: Editor): FrameLocator =>
  editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
const sheetIn = (editor: Editor): FrameLocator => pageIn(editor).frameLocator('#sheet');

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  const name = `sheet-${vsix.replace('.vsix', '')}`;
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, { 'pots.crank': POTS });
    editor.page.on('console', (message) => console.log('console:', message.text().slice(0, 300)));
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });
  const line = (text: string) => editor.page.locator('.view-line', { hasText: text }).first();

  it('opens beside the text', async () => {
    await editor.run('Cranknote: Open a Sheet Beside the Text');
    await sheetIn(editor).locator('h1', { hasText: 'Pots on the benches' }).waitFor();
    await editor.picture(`${name}-opened`);
  });
});
