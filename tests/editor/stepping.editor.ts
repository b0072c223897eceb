/** Going through a sequence with the editor's debugger: with the server in a process, and in a web worker without a disk. */
import { rmSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { pageIn } from './panel.js';
import { isWebInstalled, startWebEditor } from './web.js';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
const POTS = `use "machines.crank"

sequence pots "Pots on the benches" (rows = 12, pots = 34) on pinwheel-9
  case rows = 15, pots = 28
  goal result = rows * pots
  clear all
  set rows
  repeat 2 {
    turn 3
    clear counter
  }
  clear result
  multiply by pots
  expect result 409
  turn 2
`;
const FILES = { 'pots.crank': POTS, 'other.crank': POTS.replace('409', '408'), 'gone.crank': POTS };
const THEMES = ['Light Modern', 'Dark Modern', 'Dark High Contrast'];

describe.each([
  ['a process', 'node', isInstalled, () => startEditor(`${DIST}/cranknote.vsix`, FILES)],
  ['a web worker, without a disk', 'web', isWebInstalled, () => startWebEditor(`${DIST}/extension`, FILES)],
] as const)('stepping, with the server in %s', (_, name, isThere, begin) => {
  describe.skipIf(!isThere)('through a sequence', () => {
    let editor: Editor;
    beforeAll(async () => {
      editor = await begin();
      await editor.openFile('pots.crank');
      await line('set rows').filter({ hasText: 'setting' }).waitFor();
    }, 180_000);
    afterAll(() => editor?.close());
    afterEach(async ({ task }) => {
      if (task.result?.state === 'fail') await editor?.picture(`step-${name}-failed-${task.name.replaceAll(' ', '-')}`);
    });

    const line = (text: string) =>
      editor.page
        .locator('.editor-group-container.active .view-line', { hasText: text.replaceAll(' ', '\u00a0') })
        .first();
    const frame = (text: string) =>
      editor.page.locator('.debug-call-stack .monaco-list-row', { hasText: text }).first();
    const variable = (text: string) =>
      editor.page.locator('.debug-variables .monaco-list-row', { hasText: text }).first();
    const tool = (title: string) =>
      editor.page.locator(`.debug-toolbar .action-label[aria-label^="${title}"]:not(.disabled)`).first();
    const isOver = () => editor.page.locator('.debug-toolbar').waitFor({ state: 'hidden' });
    const press = (title: string) => tool(title).click();
    /** Puts a breakpoint with a condition on the line that the cursor is in. */
    const breakWhere = async (condition: string) => {
      await editor.run('Debug: Add Conditional Breakpoint...');
      const box = editor.page.locator('.breakpoint-widget .view-lines');
      await box.click();
      await editor.page.keyboard.type(condition);
      await box.filter({ hasText: condition.replaceAll(' ', '\u00a0') }).waitFor();
      await editor.page.keyboard.press('Enter');
      await editor.page.locator('.breakpoint-widget').waitFor({ state: 'hidden' });
    };

    it('begins above a sequence, and stops before its first step', async () => {
      const lens = editor.page.locator('.codelens-decoration a[role=button]', { hasText: /^step$/ }).first();
      // While these lines are still brought up, a click may go to none of them.
      await vi.waitFor(
        async () => {
          await lens.click({ timeout: 2_000 });
          await editor.page.locator('.debug-top-stack-frame-line').first().waitFor({ timeout: 8_000 });
        },
        { timeout: 40_000, interval: 100 },
      );
      await editor.run('View: Show Run and Debug');
      await frame('clear all (in pots)').waitFor();
      // The first of the groups may be open already.
      const registers = variable('Registers');
      await registers.waitFor();
      if ((await registers.getAttribute('aria-expanded')) === 'false') await registers.click();
      await variable('result').waitFor();
      await editor.picture(`step-${name}-begun`);
    });

    it('goes over, into and out, turn by turn', async () => {
      await press('Step Over');
      await frame('set 12 (in pots)').waitFor();
      await press('Step Over');
      await frame('repeat 2 (in pots)').waitFor();
      await press('Step Into');
      await frame('turn 3 (round 1 of 2)').waitFor();
      await press('Step Into');
      await frame('turn 3, 1 of 3 made (round 1 of 2)').waitFor();
      await variable('result').filter({ hasText: '= 12' }).waitFor();
      // Beside the line as well, as the machine stands here.
      await line('turn 3').filter({ hasText: 'counter 1' }).waitFor();
      await editor.picture(`step-${name}-turn`);
      await press('Step Out');
      await frame('clear counter (round 1 of 2)').waitFor();
      await press('Step Out');
      await frame('clear result (in pots)').waitFor();
    });

    it('goes back, and all the way back', async () => {
      await press('Step Back');
      await frame('repeat 2 (in pots)').waitFor();
      await press('Reverse');
      await frame('clear all (in pots)').waitFor();
    });

    it('stops at a breakpoint with a condition', async () => {
      await line('clear counter').getByText('clear').first().click();
      await breakWhere('result > 40');
      await editor.page.locator('.codicon-debug-breakpoint-conditional').first().waitFor();
      await press('Continue');
      await frame('clear counter (round 2 of 2)').waitFor();
      await editor.picture(`step-${name}-breakpoint`);
    });

    it('tells of a condition that can not be understood', async () => {
      await line('clear result').getByText('clear').first().click();
      await breakWhere('resutl > 40');
      const mark = editor.page
        .locator(
          '.glyph-margin-widgets .codicon-debug-breakpoint-unverified, .cgmr.codicon-debug-breakpoint-unverified, .codicon-debug-breakpoint-conditional-unverified',
        )
        .first();
      await mark.hover();
      await editor.page.locator('.monaco-hover', { hasText: 'Did you mean result?' }).first().waitFor();
      await editor.picture(`step-${name}-condition`);
      await editor.page.mouse.move(900, 500);
      await editor.page.locator('.monaco-hover', { hasText: 'Did you mean' }).first().waitFor({ state: 'hidden' });
      for (const text of ['clear result', 'clear counter']) {
        await line(text).getByText('clear').first().click();
        await editor.page.keyboard.press('F9');
      }
      await editor.page
        .locator('.debug-breakpoints .monaco-list-row', { hasText: 'pots.crank' })
        .first()
        .waitFor({ state: 'hidden' });
    });

    it('shows and moves what a hand can move', async () => {
      await variable('setting').dblclick();
      const box = editor.page.locator('.debug-variables .monaco-inputbox input');
      await box.waitFor();
      await box.fill('13');
      await box.press('Enter');
      await variable('setting').filter({ hasText: '= 13' }).waitFor();
      await editor.run('Debug Console: Focus on Debug Console View');
      await editor.page.locator('.repl', { hasText: 'By hand: set 13. setting 13.' }).waitFor();
      await editor.picture(`step-${name}-by-hand`);
    });

    it('answers in the console, and does a step by hand there', async () => {
      const console = editor.page.locator('.repl');
      await console.locator('.repl-input-wrapper .view-lines').click();
      await editor.page.keyboard.type('rows * pots');
      await editor.page.keyboard.press('Enter');
      await console.filter({ hasText: '408' }).waitFor();
      await editor.page.keyboard.type('set 12');
      await editor.page.keyboard.press('Enter');
      await console.filter({ hasText: 'By hand: set 12. setting 12.' }).waitFor();
      await editor.picture(`step-${name}-console`);
    });

    it('answers a hover over a goal', async () => {
      await line('goal result').getByText('pots', { exact: true }).first().hover();
      await editor.page.locator('.debug-hover-widget', { hasText: '408' }).waitFor();
      await editor.picture(`step-${name}-hover`);
      await editor.page.keyboard.press('Escape');
    });

    it('stops right behind a step in which something is found', async () => {
      await press('Continue');
      await frame('expect result 409, done (in pots)').waitFor();
      const widget = editor.page.locator('.exception-widget');
      await widget.waitFor();
      expect(await widget.textContent()).toContain('409');
      await editor.picture(`step-${name}-finding`);
    });

    it('looks right in every theme', async () => {
      for (const theme of THEMES) {
        await editor.run('Preferences: Color Theme');
        await editor.page.locator('.quick-input-widget input[type="text"]').fill(theme);
        await editor.page.locator('.quick-input-widget .monaco-list-row', { hasText: theme }).first().click();
        await editor.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
        await editor.picture(`step-${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
      }
    });

    it('goes on in the new run where the text changes, and ends where the sequence is gone', async () => {
      await line('expect result').click();
      await editor.page.keyboard.press('End');
      await editor.page.keyboard.press('Backspace');
      await editor.page.keyboard.type('8');
      await editor.page.locator('.repl', { hasText: 'the session goes on in the new run' }).waitFor();
      await editor.page.keyboard.press('Control+Home');
      for (const key of ['ArrowDown', 'ArrowDown', 'Home', 'x']) await editor.page.keyboard.press(key);
      await isOver();
      await editor.run('Undo');
      await editor.run('Undo');
    });

    it('steps with a fault that somebody chooses, in a case', async () => {
      await editor.run('View: Show Explorer');
      await editor.openFile('other.crank');
      await line('set rows').click();
      await editor.run('Cranknote: Step Through on a Machine with a Fault…');
      const box = editor.page.locator('.quick-input-widget');
      await box.locator('.monaco-list-row', { hasText: 'case 1' }).first().click();
      await box
        .locator('.monaco-list-row', { hasText: 'lever 1 drives nothing' })
        .first()
        .waitFor({ state: 'attached' });
      await editor.picture(`step-${name}-faults`);
      await box.locator('input[type="text"]').fill('lever 1 drives nothing');
      await box.locator('.monaco-list-row', { hasText: 'lever 1 drives nothing' }).first().click();
      await editor.page.locator('.repl', { hasText: 'The machine has a fault: lever 1 drives nothing.' }).waitFor();
      await editor.run('View: Show Run and Debug');
      await frame('clear all (in pots, case 1)').waitFor();
    });

    it('is shown on the machine beside the text, with its fault and what was done by hand', async () => {
      await editor.run('Cranknote: Show the Machine Beside the Text');
      const wheel = (part: string, figure: string) =>
        pageIn(editor).locator(`#drawing button[data-part="${part}"][aria-label$=": ${figure}"]`).waitFor();
      await pageIn(editor).locator('#where', { hasText: 'Before the first step' }).waitFor();
      for (const next of ['set 15 (in pots, case 1)', 'repeat 2 (in pots, case 1)', 'clear result (in pots, case 1)']) {
        await press('Step Over');
        await frame(next).waitFor();
      }
      // Six turns of fifteen, without the five under lever 1.
      await wheel('result-2', '6');
      await wheel('result-1', '0');
      await editor.run('Debug Console: Focus on Debug Console View');
      await editor.page.keyboard.type('set 47');
      await editor.page.keyboard.press('Enter');
      await wheel('setting-1', '7');
      await editor.picture(`step-${name}-machine`);
      await press('Stop');
      await isOver();
      // Sound again, where the cursor is, with the numbers that are shown beside the text.
      await line('turn 3').click();
      await wheel('result-2', '7');
      await wheel('result-1', '2');
      await editor.page.locator('.tab', { hasText: 'machine' }).click();
      await editor.run('View: Close Editor');
      await pageIn(editor).locator('#where').waitFor({ state: 'detached' });
    });

    it('begins with F5 without a configuration', async () => {
      await line('set rows').click();
      await editor.page.keyboard.press('F5');
      await frame('clear all (in pots)').waitFor();
      await press('Continue');
      await frame('expect result 408').waitFor({ state: 'hidden' });
      await vi.waitFor(async () => expect(await frame('the end (in pots)').isVisible()).toBe(true), 40_000);
      await press('Continue');
      await isOver();
    });

    it.skipIf(name === 'web')('ends where the file is deleted', async () => {
      await editor.openFile('gone.crank');
      await line('set rows').click();
      await editor.run('Cranknote: Step Through the Sequence');
      await frame('clear all (in pots)').waitFor();
      rmSync(path.join(editor.folder, 'gone.crank'));
      await isOver();
      await editor.page.locator('.repl', { hasText: 'The session ends.' }).waitFor();
    });

    it('ends where the server is started again', async () => {
      await editor.page.locator('.tab[data-resource-name="other.crank"]').click();
      await line('set rows').click();
      await editor.run('Cranknote: Step Through the Sequence');
      await frame('clear all (in pots)').waitFor();
      await editor.run('Cranknote: Restart the Language Server');
      await isOver();
    });
  });
});
