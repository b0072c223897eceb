/**
 * What somebody meets first: the first steps, a file that is begun, the examples, the lists of settings and findings. With
 * the server in a process, and on the web, where there is none.
 */
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { isWebInstalled, startWebEditor } from './web.js';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
const THEMES = ['Dark Modern', 'Dark High Contrast', 'Light High Contrast', 'Light Modern'];
const STEPS = [
  'Begin with a file',
  'Read what',
  'See the machine',
  'Find out what',
  'Print a sheet',
  'Prove a machine',
];

/** A window that is loaded anew takes its time, on a machine with much else to do. */
const LONG = 180_000;

describe.each([
  ['a process', 'node', isInstalled, () => startEditor(`${DIST}/cranknote.vsix`, {})],
  ['a web worker, without a disk', 'web', isWebInstalled, () => startWebEditor(`${DIST}/extension`, {})],
] as const)('at first, with the server in %s', (_, name, isThere, begin) => {
  describe.skipIf(!isThere)('somebody', () => {
    let editor: Editor;
    beforeAll(async () => {
      editor = await begin();
    }, LONG);
    afterAll(() => editor?.close());
    afterEach(async ({ task }) => {
      if (task.result?.state === 'fail')
        await editor?.picture(`first-${name}-failed-${task.name.replaceAll(' ', '-')}`);
    });

    const line = (text: string | RegExp) => editor.page.locator('.view-line', { hasText: text }).first();
    const step = (title: string) => editor.page.locator('.getting-started-step', { hasText: title });
    const picture = () =>
      editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame').locator('svg').first();
    const dialog = () => editor.page.locator('.monaco-dialog-box');
    const explorer = (file: string) =>
      editor.page.locator('.explorer-folders-view .monaco-list-row', { hasText: file });
    /** Whatever panel it is in. */
    const isShown = async (selector: string, hasText: string) => {
      for (const frame of editor.page.frames()) {
        const found = frame.locator(selector, { hasText }).first();
        if (await found.isVisible().catch(() => false)) return true;
      }
      return false;
    };
    const shown = (selector: string, text: string) =>
      expect.poll(() => isShown(selector, text), { timeout: 40_000, message: text }).toBe(true);
    /** Escape leads back from a walkthrough, and may have been pressed on the way here. */
    const goTo = async (title: string) => {
      await editor.run('Cranknote: First Steps');
      await step(title).first().click();
    };

    it('is shown the first steps, each with a picture', async () => {
      await editor.run('Cranknote: First Steps');
      for (const title of STEPS) {
        await step(title).first().click();
        await step(title).and(editor.page.locator('.expanded')).waitFor();
        await picture().waitFor();
        await editor.picture(`first-${name}-step-${STEPS.indexOf(title) + 1}`);
      }
    });

    it('sees them in the colours of every theme', async () => {
      const grounds: unknown[] = [];
      for (const theme of THEMES) {
        await editor.theme(theme);
        await goTo('Read what');
        await picture().waitFor();
        grounds.push(
          await picture()
            .locator('rect')
            .first()
            .evaluate((rect) => Reflect.get(globalThis, 'getComputedStyle')(rect).fill),
        );
        await editor.picture(`first-${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
      }
      expect(grounds).toEqual([
        expect.stringMatching(/^rgb\(3\d, 3\d, 3\d\)$/),
        'rgb(0, 0, 0)',
        'rgb(255, 255, 255)',
        'rgb(255, 255, 255)',
      ]);
    });

    it('begins a file from there, and the step is done', async () => {
      await goTo('Begin with a file');
      await step('Begin with a file').locator('.monaco-button', { hasText: 'New Crank Sequence' }).click();
      await editor.page
        .locator('.quick-input-widget .monaco-list-row', { hasText: 'Half-step machine' })
        .first()
        .waitFor();
      await editor.picture(`first-${name}-machines`);
      await editor.choose('Half-step machine');
      await editor.page
        .locator('.quick-input-widget .monaco-list-row', { hasText: 'Multiply two numbers' })
        .first()
        .waitFor();
      await editor.picture(`first-${name}-tasks`);
      await editor.choose('Multiply two numbers');
      await line('sequence bed-area').waitFor();
      await line(/^\s*turn/)
        .filter({ hasText: 'result' })
        .waitFor();
      await editor.picture(`first-${name}-begun`);
      await expect.poll(() => editor.page.locator('.squiggly-error, .squiggly-warning').count()).toBe(0);
      await editor.run('Cranknote: First Steps');
      await step('Begin with a file').locator('.codicon-getting-started-step-checked').first().waitFor();
      await editor.picture(`first-${name}-done`);
    });

    it('opens a sheet from there, of the file that was begun', async () => {
      await goTo('Print a sheet');
      await step('Print a sheet').locator('.monaco-button', { hasText: 'Open a Sheet' }).click();
      await shown('h1', 'Area of a bed');
      await editor.picture(`first-${name}-sheet`);
    });

    it('finds a new sequence among the new files', async () => {
      await editor.run('Create: New File...');
      await editor.choose('New Crank Sequence');
      await editor.choose('Adding machine');
      // What it can't do is not offered.
      const rows = editor.page.locator('.quick-input-widget .monaco-list-row');
      await rows.filter({ hasText: 'Add up a column' }).waitFor();
      expect(await rows.filter({ hasText: 'Divide' }).count()).toBe(0);
      await editor.choose('Add up a column');
      await line('sequence market-slips').waitFor();
    });

    it('is led from a setting to the list of all', async () => {
      await editor.run('Preferences: Open Settings (UI)');
      await editor.page.locator('.settings-header .monaco-editor').first().click();
      await editor.page.keyboard.type('cranknote.lenses.show');
      await editor.page
        .locator('.setting-item-description a', { hasText: 'All settings of Cranknote' })
        .first()
        .waitFor();
      await editor.picture(`first-${name}-setting`);
      await editor.page
        .locator('.setting-item-description a', { hasText: 'All settings of Cranknote' })
        .first()
        .click();
      await editor.page.locator('.tab.active', { hasText: 'settings' }).waitFor();
      await shown('h1', 'Settings');
      await shown('td', 'cranknote.hovers.figure');
      await editor.picture(`first-${name}-settings`);
    });

    it('reads the list of all findings', async () => {
      await editor.run('Cranknote: Open the List of Findings');
      await shown('h1', 'Findings');
      await shown('td a', 'idle-turn');
      await editor.picture(`first-${name}-findings`);
    });

    it(
      'opens the examples in a folder of its own, where they can be changed',
      async () => {
        await editor.run('Cranknote: Open the Examples');
        await dialog().locator('.monaco-button', { hasText: 'This Window' }).click();
        await explorer('stores-products.crank').waitFor();
        await explorer('stores-products.crank').dblclick();
        await line('turn 5').filter({ hasText: 'result' }).waitFor();
        await editor.picture(`first-${name}-examples`);
        await line('set 38.25').click();
        await editor.page.keyboard.press('End');
        await editor.page.keyboard.type('  # mine');
        await editor.page.keyboard.press('Control+S');
        await editor.page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
      },
      LONG,
    );

    it(
      'keeps what was changed there, and gets a fresh copy beside it',
      async () => {
        await editor.run('Cranknote: Open the Examples');
        await dialog().filter({ hasText: 'One of your examples differs' }).waitFor();
        await editor.picture(`first-${name}-changed`);
        await dialog().locator('.monaco-button', { hasText: 'Make a Fresh Copy' }).click();
        await dialog().locator('.monaco-button', { hasText: 'This Window' }).click();
        await editor.page.waitForURL(/examples-2/);
        await explorer('stores-products.crank').dblclick();
        await line('set 38.25').waitFor();
        expect(await line('set 38.25').textContent()).not.toContain('mine');
        await editor.run('Cranknote: Open the Examples');
        await dialog().locator('.monaco-button', { hasText: 'Open Them as They Are' }).click();
        await dialog().locator('.monaco-button', { hasText: 'This Window' }).click();
        await editor.page.waitForURL(/examples(?!-2)/);
        await explorer('stores-products.crank').dblclick();
        await line('set 38.25').filter({ hasText: 'mine' }).waitFor();
      },
      LONG,
    );
  });
});
