/** A sheet beside the text, in VS Code itself, used as a writer would use it: beside a process, and in a web worker. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FrameLocator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { brightness, chooseTheme, flawsIn, lineIn, pageIn, THEMES } from './panel.js';

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

/** The sheet in the page of the panel. */
const sheetIn = (editor: Editor): FrameLocator => pageIn(editor).frameLocator('#sheet');

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  /** What the browser said. */
  const said: string[] = [];
  const name = `sheet-${vsix.replace('.vsix', '')}`;
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, { 'pots.crank': POTS });
    editor.page.on('console', (message) => said.push(message.text()));
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });
  const line = (text: string) => lineIn(editor, text);
  const control = (selector: string) => pageIn(editor).locator(selector);
  const title = (text: string) => sheetIn(editor).locator('h1', { hasText: text }).waitFor();
  const kind = (text: string) => sheetIn(editor).locator('.kind', { hasText: text }).waitFor();
  /** Puts something else in place of the end of a line. */
  const retype = async (on: string, away: number, text: string) => {
    await line(on).click();
    await editor.page.keyboard.press('End');
    for (let i = 0; i < away; i++) await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.type(text);
    await editor.page.keyboard.press('Escape');
  };

  it('opens beside the text, as it is printed', async () => {
    await line('multiply').filter({ hasText: '408' }).waitFor();
    await editor.run('Cranknote: Open a Sheet Beside the Text');
    await title('Pots on the benches');
    // Its own style holds, under the policy of the window.
    const bold = "getComputedStyle(document.querySelector('.kind')).fontWeight";
    expect(await sheetIn(editor).locator('body').evaluate(bold)).toBe('700');
    await editor.picture(`${name}-opened`);
  });

  it('follows the cursor, and what is written', async () => {
    await line('set 48').click();
    await title('Trays in the shed');
    await retype('set 48', 1, '8 # trays');
    await sheetIn(editor).locator('p', { hasText: 'Set 48' }).waitFor();
    await line('turn 6').click();
    await editor.page.keyboard.press('Home');
    await editor.page.keyboard.type('note "Look at the trays."; ');
    await sheetIn(editor).locator('aside', { hasText: 'Look at the trays.' }).waitFor();
  });

  it('keeps the last sheet where the text is wrong, and leads to the mistake', async () => {
    await retype('turn 6', 1, '7');
    await control('#trouble').filter({ hasText: 'The result reads 336, not 288.' }).waitFor();
    expect(await control('#trouble').textContent()).toContain('Below is the last sheet that could be made.');
    expect(await sheetIn(editor).locator('p', { hasText: 'Turn the crank 6 times' }).count()).toBe(1);
    await editor.picture(`${name}-trouble`);
    expect(await flawsIn(editor)).toEqual([]);
    await control('#trouble button').filter({ hasText: 'Line 15' }).click();
    await editor.page.locator('.statusbar-item', { hasText: 'Ln 15' }).waitFor();
    await retype('expect result 288', 3, '336');
    await sheetIn(editor).locator('p', { hasText: 'Turn the crank 7 times' }).waitFor();
    await vi.waitFor(async () => expect(await control('#trouble').isVisible()).toBe(false));
  });

  it('is of another kind and in another language where somebody wants it', async () => {
    await control('#kind').selectOption('key');
    await kind('Answer key');
    await control('#language').selectOption('de');
    await kind('Lösungsblatt');
    await control('#figures').selectOption('none');
    await vi.waitFor(async () => expect(await sheetIn(editor).locator('figure').count()).toBe(0));
    await editor.picture(`${name}-german-key`);
  });

  it('is used with keys alone', async () => {
    const { page } = editor;
    await control('#sequence').focus();
    const way: string[] = [];
    for (let i = 0; i < 9; i++) {
      way.push(String(await control('body').evaluate('document.activeElement.id')));
      await page.keyboard.press('Tab');
    }
    expect(way).toEqual(['sequence', 'follow', 'kind', 'language', 'figures', 'paper', 'save', 'print', 'sheet']);
    await control('#sheet').focus();
    await page.keyboard.press('End');
    const top = () =>
      sheetIn(editor)
        .locator('html')
        .evaluate((html) => html.scrollTop);
    await vi.waitFor(async () => expect(await top()).toBeGreaterThan(100));
    // The editor's own keys work in the sheet as well.
    await page.keyboard.press('F1');
    await page.locator('.quick-input-widget input[type="text"]').waitFor({ state: 'visible' });
    await page.keyboard.press('Escape');
  });

  it('stays where it was scrolled to while the text changes', async () => {
    const top = () =>
      sheetIn(editor)
        .locator('html')
        .evaluate((html) => html.scrollTop);
    const before = await top();
    await line('sequence trays').click();
    await editor.page.keyboard.press('End');
    await editor.page.keyboard.press('Enter');
    await editor.page.keyboard.type('note "Mind the pots."');
    await sheetIn(editor).locator('aside', { hasText: 'Mind the pots.' }).first().waitFor();
    expect(Math.abs((await top()) - before)).toBeLessThan(200);
    expect(before).toBeGreaterThan(100);
  });

  it('stays with its sequence where it is told to', async () => {
    await control('#follow').uncheck();
    await line('set rows').click();
    await editor.page.waitForTimeout(800);
    await title('Trays in the shed');
    await control('#sequence').selectOption('pots');
    await title('Pots on the benches');
    expect(await control('#follow').isChecked()).toBe(false);
    await line('turn 7').click();
    await control('#follow').check();
    await title('Trays in the shed');
  });

  it('opens from the line above a sequence', async () => {
    await editor.page.locator('.codelens-decoration a[role=button]', { hasText: 'sheet' }).first().click();
    await title('Pots on the benches');
    expect(await control('#follow').isChecked()).toBe(true);
  });

  it('is saved, as a page or as Markdown by its ending', async () => {
    const { page, folder } = editor;
    const save = async (file: string) => {
      await control('#save').click();
      const input = page.locator('.quick-input-widget input[type="text"]');
      await input.waitFor({ state: 'visible' });
      await vi.waitFor(async () => expect(await input.inputValue()).toContain('pots.key.html'));
      await editor.picture(`${name}-save`);
      await input.fill(path.join(folder, file));
      await page.keyboard.press('Enter');
      await page.locator('.notification-toast', { hasText: `saved as ${file}` }).waitFor();
      return readFileSync(path.join(folder, file), 'utf8');
    };
    const html = await save('pots.key.html');
    expect(html).toMatch(/^<!DOCTYPE html>\n<html lang="de">/);
    expect(html).toContain("default-src 'none'");
    expect(await save('pots.md')).toMatch(/^# Pots on the benches\n\n\*Lösungsblatt\*/);
  });

  it('is handed to the browser to be printed, for the window itself refuses', async () => {
    const frame = await (await control('body').elementHandle())?.ownerFrame();
    await frame?.evaluate('print()');
    await vi.waitFor(() => expect(said.join('\n')).toContain("Ignored call to 'print()'"));
    const [download] = await Promise.all([editor.page.waitForEvent('download'), control('#print').click()]);
    expect(download.suggestedFilename()).toBe('pots.key.html');
    expect(readFileSync(await download.path(), 'utf8')).toContain('Lösungsblatt');
    await control('#told').filter({ hasText: 'pots.key.html is downloaded.' }).waitFor();
    await editor.picture(`${name}-printed`);
  });

  it('can be read in every theme', async () => {
    await control('#kind').selectOption('operating');
    await control('#figures').selectOption('all');
    await sheetIn(editor).locator('figure').first().waitFor();
    for (const theme of THEMES) {
      await chooseTheme(editor, theme);
      const isLight = theme.startsWith('Light');
      const sheet = sheetIn(editor).locator('body');
      const scheme = await sheet.evaluate('getComputedStyle(document.documentElement).colorScheme');
      const [ink, ground] = await sheet.evaluate<string[], void>(
        "['color', 'backgroundColor'].map((name) => getComputedStyle(document.documentElement)[name])",
      );
      expect(scheme, theme).toBe(isLight ? 'light' : 'dark');
      expect(brightness(ground) > brightness(ink), theme).toBe(isLight);
      if (theme.endsWith('High Contrast')) expect(Math.abs(brightness(ground) - brightness(ink))).toBeGreaterThan(200);
      expect(await flawsIn(editor), theme).toEqual([]);
      await editor.picture(`${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
      await sheetIn(editor)
        .locator('ol.steps')
        .first()
        .evaluate((steps) => steps.scrollIntoView());
      await editor.picture(`${name}-${theme.replaceAll(' ', '-').toLowerCase()}-steps`);
    }
  });

  it('is there again after the window was loaded anew', async () => {
    await control('#kind').selectOption('bench');
    await kind('Werkstattblatt');
    await Promise.all([editor.page.waitForEvent('load'), editor.run('Developer: Reload Window')]);
    await kind('Werkstattblatt');
    expect(await control('#figures').inputValue()).toBe('all');
    expect(await control('#follow').isChecked()).toBe(true);
    await editor.picture(`${name}-again`);
  });

  it('stays while somebody looks at a file of machines, even over it', async () => {
    await editor.page.locator('.tab', { hasText: 'sheet' }).click();
    const html = sheetIn(editor).locator('html');
    await html.evaluate((element) => element.scrollTo(0, 300));
    await editor.openFile('machines.crank');
    await line('machine pinwheel-9-old').click();
    await editor.page.waitForTimeout(1_000);
    await editor.run('View: Close Editor');
    await kind('Werkstattblatt');
    await vi.waitFor(async () => expect(await html.evaluate((element) => element.scrollTop)).toBe(300));
    expect(await control('#trouble').isVisible()).toBe(false);
  });

  it('begins with what was chosen last', async () => {
    await editor.page.locator('.tab', { hasText: 'sheet' }).click();
    await editor.run('View: Close Editor');
    await editor.openFile('pots.crank');
    await editor.run('Cranknote: Open a Sheet Beside the Text');
    await kind('Werkstattblatt');
  });

  it('says so where the file is gone, and comes back with it', async () => {
    const { folder } = editor;
    await editor.run('File: Save All Files');
    await control('#follow').uncheck();
    await line('clear all').click();
    await editor.run('View: Close Editor');
    const file = path.join(folder, 'pots.crank');
    const text = readFileSync(file, 'utf8');
    rmSync(file);
    await control('#trouble').filter({ hasText: 'The file can’t be read any more' }).waitFor();
    await editor.picture(`${name}-gone`);
    writeFileSync(file, text.replaceAll('shed', 'cellar'));
    await title('Trays in the cellar');
    await vi.waitFor(async () => expect(await control('#trouble').isVisible()).toBe(false));
  });
});
