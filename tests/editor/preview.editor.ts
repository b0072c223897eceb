/** What VS Code's preview of Markdown shows of fences: with the server in a process, and on the web, where there is none. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { isWebInstalled, startWebEditor } from './web.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FENCE = '```';
const PAGE = `# Pots

${FENCE}crank
use "machines.crank"

sequence pots "Pots on the benches" (rows = 12, pots = 34) on large-20
  case rows = 15, pots = 28
  clear all
  set rows
  multiply by pots
${FENCE}

And the trays:

${FENCE}crank
sequence trays on own-6
  clear all
  set 48
  turn 6
  expect result 289
${FENCE}

${FENCE}crank
use "own.crank"
${FENCE}
`;
const OWN = 'machine own-6 "A machine of its own"\n  setting 6\n  counter 6\n  result 8\n';
const FILES = {
  'page.md': PAGE,
  'own.crank': OWN,
  'handbook.md': readFileSync(`${ROOT}samples/handbook.md`, 'utf8'),
  'plain.md': '# Nothing to crank\n\n```js\nturn(6);\n```\n',
};

describe.each([
  ['a process', 'node', isInstalled, () => startEditor(`${ROOT}dist/cranknote.vsix`, FILES)],
  ['a web worker, without a disk', 'web', isWebInstalled, () => startWebEditor(`${ROOT}dist/extension`, FILES)],
] as const)('the preview, with the server in %s', (_, name, isThere, begin) => {
  describe.skipIf(!isThere)('of a page', () => {
    let editor: Editor;
    beforeAll(async () => {
      editor = await begin();
      await editor.openFile('page.md');
      await line('turn 6').filter({ hasText: '288' }).waitFor();
      await editor.run('Markdown: Open Preview to the Side');
    }, 180_000);
    afterAll(() => editor?.close());
    afterEach(async ({ task }) => {
      if (task.result?.state === 'fail')
        await editor?.picture(`preview-${name}-failed-${task.name.replaceAll(' ', '-')}`);
    });

    const line = (text: string) => editor.page.locator('.view-line', { hasText: text }).first();
    const preview = () => editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    const fence = (number: number) => preview().locator('.cranknote-fence').nth(number);
    const reads = async (figures: string) => preview().locator('td', { hasText: figures }).first().waitFor();
    /** A preview that has just been opened may be loaded anew while it is scrolled. */
    const scrollTo = (place: Locator) =>
      expect.poll(() => place.scrollIntoViewIfNeeded().then(() => 'there', String), { timeout: 10_000 }).toBe('there');
    /** A mark in the page of the preview, which is gone once that is loaded anew. */
    const mark = () =>
      preview()
        .locator('body')
        .evaluate((body) => body.setAttribute('data-mark', 'here'));
    const isMarked = () => preview().locator('body[data-mark]').count();

    it('shows the machine drawn, and the readings', async () => {
      await fence(0).locator('svg').waitFor();
      await reads('408');
      expect(await fence(0).locator('p').first().textContent()).toContain('Pots on the benches, on Large machine');
      expect(await fence(0).locator('svg > desc').textContent()).toContain('Result 408.');
      expect(await fence(0).locator('figcaption').textContent()).toBe('After multiply by pots');
      // The text of the fence stays where it was.
      await preview().locator('pre', { hasText: 'multiply by pots' }).waitFor();
      await editor.picture(`preview-${name}`);
    });

    it('says what was found', async () => {
      const finding = preview().locator('.findings li', { hasText: 'The result reads 288, not 289' });
      await finding.waitFor();
      expect(await finding.textContent()).toMatch(/^error expect result 289 – /);
    });

    it('follows edits that are not saved, and is not loaded anew for them', async () => {
      await mark();
      await line('turn 6').click();
      await editor.page.keyboard.press('End');
      await editor.page.keyboard.press('Backspace');
      await editor.page.keyboard.type('7');
      await reads('336');
      expect(await isMarked()).toBe(1);
      await editor.page.keyboard.press('Backspace');
      await editor.page.keyboard.type('6');
      await reads('288');
      // Time for whatever might still come.
      await editor.page.waitForTimeout(1_500);
      expect(await isMarked()).toBe(1);
    });

    it('shows the case that a lens chooses, and is then left alone', async () => {
      await editor.page.locator('.codelens-decoration a[role=button]', { hasText: 'rows = 15' }).first().click();
      await reads('420');
      expect(await fence(0).locator('p').first().textContent()).toContain('(rows = 15, pots = 28) · case 1');
      await mark();
      await editor.page.waitForTimeout(1_500);
      expect(await isMarked()).toBe(1);
    });

    it('follows a file that is used', async () => {
      await editor.openFile('own.crank');
      await line('setting 6').click();
      await editor.page.keyboard.press('End');
      await editor.page.keyboard.press('Backspace');
      await editor.page.keyboard.type('5');
      await preview().locator('desc', { hasText: 'Levers 1 to 5 drive places' }).waitFor({ state: 'attached' });
      await editor.openFile('page.md');
    });

    it('goes on after a restart of the server', async () => {
      await editor.run('Cranknote: Restart the Language Server');
      await line('turn 6').click();
      await editor.page.keyboard.press('End');
      await editor.page.keyboard.press('Backspace');
      await editor.page.keyboard.type('5');
      await reads('240');
    });

    it('is legible in every theme, and where it is narrow', async () => {
      await editor.run('View: Close All Editor Groups');
      await editor.openFile('handbook.md');
      await editor.run('Markdown: Open Preview to the Side');
      await fence(1).locator('svg').waitFor();
      for (const theme of ['Dark Modern', 'Light High Contrast', 'Dark High Contrast', 'Light Modern']) {
        await editor.theme(theme);
        await scrollTo(fence(1).locator('svg'));
        await editor.page.waitForTimeout(300);
        await editor.picture(`preview-${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
        const [ink, ground] = await fence(1).evaluate((element) => {
          const style = (of: typeof element) => Reflect.get(globalThis, 'getComputedStyle')(of);
          const ground = style(element.ownerDocument.documentElement).getPropertyValue('--vscode-editor-background');
          return [style(element).color, ground];
        });
        expect(contrast(ink, ground)).toBeGreaterThan(7);
      }
      await editor.page.setViewportSize({ width: 900, height: 900 });
      await editor.page.waitForTimeout(800);
      await editor.picture(`preview-${name}-narrow`);
      // A table of the page itself may be wider than the preview; what stands below a fence is not.
      const overhangs = await preview()
        .locator('.cranknote-fence')
        .evaluateAll((fences) =>
          fences.map((element) => {
            const { right } = element.getBoundingClientRect();
            return Math.ceil(right - element.ownerDocument.documentElement.clientWidth);
          }),
        );
      expect(overhangs.length).toBeGreaterThan(1);
      for (const overhang of overhangs) expect(overhang).toBeLessThanOrEqual(0);
    });

    it('leaves other pages as they are', async () => {
      await editor.page.setViewportSize({ width: 1400, height: 900 });
      await editor.run('View: Focus First Editor Group');
      await editor.openFile('plain.md');
      await preview().locator('h1', { hasText: 'Nothing to crank' }).waitFor();
      expect(await preview().locator('.cranknote-fence').count()).toBe(0);
    });
  });
});

/** Between two colours as a browser names them, in a function or by hex figures. */
function contrast(...colours: readonly string[]): number {
  const [light, dark] = colours
    .map((colour) => {
      const parts = colour.startsWith('#')
        ? (colour.match(/[\da-f]{2}/gi) ?? []).map((part) => Number.parseInt(part, 16))
        : (colour.match(/\d+(?:\.\d+)?/g) ?? []).map(Number);
      const [r, g, b] = parts.map((part) => {
        const value = part / 255;
        return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    })
    .sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}
