/** The packed extension in VS Code itself, used as a writer would use it: beside a process, and in a web worker. */
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
  expect result 409
   turn

sequence trays on pinwheel-9
  clear all
  set 48
  turn 6
  expect result 289
`;
const GLASS = `use "machines.crank"

sequence frames "Glass for the frames" on pinwheel-9
  goal result = 24 * 98

sequence corners "Glass for the corners" on pinwheel-9
  goal result = 36 * 97
`;
/** Turns where fewer would do, and a goal without steps. */
const PANES = `use "machines.crank"

sequence panes "Panes for one bench" on pinwheel-9
  goal result = 24 * 98
  clear all
  set 24
  turn 8
  shift right
  turn 9
  expect result 2352

sequence putty "Putty for the panes" on halfstep-10
  goal counter = 912 / 38
`;
const PAGE =
  '# Pots\n\n```crank\nuse "machines.crank"\nsequence trays on desk-8\n  clear all\n  set 48\n  turn 6\n  expect result 288\n```\n';

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  const name = vsix.replace('.vsix', '');
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, {
      'pots.crank': POTS,
      'glass.crank': GLASS,
      'panes.crank': PANES,
      'page.md': PAGE,
    });
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });

  const line = (text: string) => editor.page.locator('.view-line', { hasText: text }).first();

  const THEMES = ['Light High Contrast', 'Dark High Contrast', 'Dark Modern'];
  it('shows readings beside the steps', async () => {
    await line('multiply').filter({ hasText: '408' }).waitFor();
    await editor.picture(`${name}-readings`);
    expect(await line('set').textContent()).toContain('12');
  });

  it('underlines what is wrong and lists it', async () => {
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
    await editor.run('Problems: Focus on Problems View');
    const problem = editor.page.locator('.markers-panel .monaco-list-row', {
      hasText: 'The result reads 408, not 409',
    });
    await problem.first().waitFor();
  });

  it('draws the machine on hovering, with what a step has made of what', async () => {
    await line('multiply').getByText('multiply').first().hover();
    const hover = editor.page.locator('.monaco-hover:not(.hidden)', { hasText: 'result 0 → 408' }).first();
    await hover.waitFor();
    const drawing = hover.locator('img');
    await expect.poll(() => drawing.evaluate((image) => Reflect.get(image, 'naturalWidth'))).toBeGreaterThan(300);
    expect(await drawing.getAttribute('alt')).toMatch(/^The carriage stands in position 2\. .*Result 408; before 0; /);
    await editor.picture(`${name}-hover`);
    await editor.page.keyboard.press('Escape');
  });

  it('mends a reading', async () => {
    await line('expect result 289').getByText('expect').first().click();
    const fix = await editor.action('Control+.', '288');
    await editor.picture(`${name}-fixes`);
    await fix.click();
    await line('expect result 288').waitFor();
  });

  it('formats', async () => {
    await editor.page.keyboard.press('Control+Home');
    await editor.page.locator('.view-line', { hasText: /^\s{3}turn/ }).waitFor();
    await editor.run('Format Document');
    await editor.page.locator('.view-line', { hasText: /^\s{2}turn\s?counter/ }).waitFor();
  });

  it('completes', async () => {
    await editor.page.keyboard.press('Control+End');
    await editor.page.keyboard.type('  sh');
    await editor.page.keyboard.press('Control+Space');
    await editor.page.locator('.suggest-widget .monaco-list-row', { hasText: 'shift' }).first().waitFor();
    await editor.picture(`${name}-completion`);
    await editor.page.keyboard.press('Escape');
    for (let i = 0; i < 4; i++) await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.press('Control+Home');
  });

  it('renames', async () => {
    const place = line('set rows').getByText('rows').first();
    await place.click();
    await editor.page.keyboard.press('F2');
    const box = editor.page.locator('.rename-input').first();
    await box.waitFor();
    await box.fill('benches');
    await editor.page.keyboard.press('Enter');
    await line('goal result = benches').waitFor();
  });

  it('shows the readings of another case when its lens is clicked', async () => {
    await editor.page.locator('.codelens-decoration a[role=button]', { hasText: '15' }).first().click();
    await line('multiply').filter({ hasText: '420' }).waitFor();
    await editor.picture(`${name}-case`);
  });

  it('opens the trace', async () => {
    await editor.run('Cranknote: Show All Readings, Step by Step');
    const trace = editor.page.locator('.editor-group-container', { hasText: 'readings' }).last();
    await trace.locator('.view-line', { hasText: 'shift right' }).first().waitFor();
    await editor.picture(`${name}-trace`);
  });

  it('reads Markdown pages', async () => {
    await editor.openFile('page.md');
    await line('turn 6').filter({ hasText: '288' }).waitFor();
    await editor.picture(`${name}-markdown`);
  });

  it('writes the steps for a goal', async () => {
    await editor.openFile('glass.crank');
    await line('goal result = 24').getByText('goal').first().click();
    const write = await editor.action('Control+.', 'Write the steps for this goal');
    await editor.picture(`${name}-plan-menu`);
    await write.click();
    await line('turn 2')
      .filter({ hasText: /result\s2\s352/ })
      .waitFor();
    await editor.picture(`${name}-plan`);
  });

  it('completes all the steps of a goal', async () => {
    await editor.page.keyboard.press('Control+End');
    await editor.page.keyboard.type('  ');
    await editor.page.keyboard.press('Control+Space');
    const first = editor.page.locator('.suggest-widget .monaco-list-row').first();
    await first.filter({ hasText: 'write the steps' }).waitFor();
    await editor.picture(`${name}-plan-completion`);
    await editor.page.keyboard.press('Enter');
    await editor.page.locator('.view-line', { hasText: /^\s\sexpect\sresult\s3492/ }).waitFor();
    await editor.picture(`${name}-plan-completed`);
  });

  it('carries a sequence over to another machine', async () => {
    await line('sequence frames').getByText('sequence').first().click();
    const carry = await editor.action('Control+Shift+R', 'Carry over to halfstep-10');
    await editor.picture(`${name}-carry-over-menu`);
    await carry.click();
    await line('sequence frames-on-halfstep-10').waitFor();
    await editor.picture(`${name}-carry-over`);
  });

  it('says where fewer turns would do, and mends it', async () => {
    await editor.openFile('panes.crank');
    // The trace beside it has a line like that as well.
    await line('sequence panes').waitFor();
    await line('turn 8').getByText('turn').first().click();
    const shorter = await editor.action('Control+.', 'Change to shift right 2; turn');
    await editor.picture(`${name}-shorter-fix`);
    await shorter.click();
    await line('turn back 2').waitFor();
    await editor.picture(`${name}-shorter`);
    await editor.run('Undo');
    await line('turn 8').waitFor();
  });

  it('shows the menus of a sequence in every theme', async () => {
    const page = editor.page;
    await editor.run('View: Close All Editor Groups');
    await editor.openFile('panes.crank');
    for (const theme of THEMES) {
      await editor.theme(theme);
      const pictured = `${name}-${theme.replaceAll(' ', '-').toLowerCase()}`;
      await line('sequence panes').getByText('sequence').first().click();
      await editor.action('Control+.', 'Carry over to large-20');
      await editor.picture(`${pictured}-menu`);
      await page.keyboard.press('Escape');
      await line('goal counter').getByText('goal').first().click();
      await editor.action('Control+.', 'Write the steps');
      await editor.picture(`${pictured}-plan-menu`);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+End');
      await page.keyboard.type('  ');
      await page.keyboard.press('Control+Space');
      await page.locator('.suggest-widget .monaco-list-row').first().filter({ hasText: 'write the steps' }).waitFor();
      await editor.picture(`${pictured}-plan-completion`);
      await page.keyboard.press('Escape');
      // One takes the whole indent away.
      await page.keyboard.press('Backspace');
    }
  });

  it('looks right in every theme', async () => {
    await editor.openFile('pots.crank');
    await editor.page.keyboard.press('Control+Home');
    for (const theme of THEMES) {
      await editor.theme(theme);
      await editor.picture(`${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
    }
  });
});
