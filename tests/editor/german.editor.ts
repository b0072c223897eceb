/** The extension in an editor that is in German, and what it brings besides the language server. */
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { flawsIn, pageIn } from './panel.js';

const VSIX = fileURLToPath(new URL('../../dist/cranknote.vsix', import.meta.url));
const POTS = `use "machines.crank"

sequence pots on pinwheel-9
  clear all
  turn
  set 48
  turn 6
  expect result 289
`;
const PANES = `use "machines.crank"

sequence panes "Scheiben für ein Fenster" on pinwheel-9
  goal result = 24 * 98
  clear all
  set 24
  turn 8
  shift right
  turn 9
  expect result 2352

sequence putty "Kitt für die Scheiben" on halfstep-10
  goal counter = 912 / 38
`;
const OTHER = 'use "machines.crank"\n\nsequence other on pinwheel-9\n  clear all\n  expect result 1\n';

describe.skipIf(!isInstalled)('in German', () => {
  let editor: Editor;
  beforeAll(async () => {
    editor = await startEditor(VSIX, { 'pots.crank': POTS, 'other.crank': OTHER, 'panes.crank': PANES }, 'de');
    await editor.openFile('pots.crank');
  });
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`german-failed-${task.name.replaceAll(' ', '-')}`);
  });

  const line = (text: string) => editor.page.locator('.view-line', { hasText: text }).first();
  const problem = (text: string) => editor.page.locator('.markers-panel .monaco-list-row', { hasText: text }).first();

  it('leads through the first steps, and begins a file', async () => {
    const { page } = editor;
    await editor.run('Cranknote: Erste Schritte');
    const step = (title: string) => page.locator('.getting-started-step', { hasText: title });
    const picture = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    await step('Ablesen, was sie zeigt').click();
    await picture.locator('text', { hasText: 'Zählwerk' }).first().waitFor();
    await editor.picture('german-first-steps');
    await step('Mit einer Datei beginnen').click();
    await step('Mit einer Datei beginnen').locator('.monaco-button', { hasText: 'Neuer Rechengang' }).click();
    await page.locator('.quick-input-widget .monaco-list-row', { hasText: 'Sprossenradmaschine' }).waitFor();
    await editor.picture('german-machines');
    await editor.choose('Sprossenradmaschine');
    await editor.choose('Eine Aufgabe mit mehreren Fällen');
    await line('sequence töpfe-im-regal').waitFor();
    await line('multiply by').filter({ hasText: 'Zählwerk' }).waitFor();
    await editor.picture('german-begun');
    await editor.openFile('pots.crank');
  });

  it('shows readings and findings', async () => {
    await line('turn 6').filter({ hasText: 'Resultat' }).waitFor();
    await editor.run('Problems: Focus on Problems View');
    await problem('Das Resultatwerk').waitFor();
    await editor.picture('german-findings');
  });

  it('counts them in the status bar', async () => {
    await editor.page.locator('#status\\.languageStatus').hover();
    const hover = editor.page.locator('.monaco-hover', { hasText: 'Ablesungen: geänderte' });
    await hover.waitFor();
    expect(await hover.textContent()).toMatch(/\d Befunde?/);
  });

  it('shows more readings where more are wanted', async () => {
    await line('clear all').click();
    await editor.run('Cranknote: Wählen, welche Ablesungen gezeigt werden');
    await editor.page.locator('.quick-input-widget .monaco-list-row', { hasText: 'Alle' }).first().click();
    await line('set 48').filter({ hasText: 'Stellung 1' }).waitFor();
  });

  it('leads from a finding to its page', async () => {
    await editor.run('Problems: Focus on Problems View');
    await problem('reading-differs').locator('a', { hasText: 'reading-differs' }).click();
    await editor.page.locator('.tab.active', { hasText: 'reading-differs' }).waitFor();
    await line('# reading-differs').waitFor();
  });

  it('shows a page of the reference as it is meant', async () => {
    await editor.run('Cranknote: Nachschlagewerk öffnen');
    await editor.page.locator('.quick-input-widget input[type="text"]').fill('idle-turn');
    await editor.page.keyboard.press('Enter');
    const page = editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    await page.locator('h1', { hasText: 'idle-turn' }).waitFor();
    await editor.picture('german-reference');
  });

  it('checks the folder as a task', async () => {
    await editor.run('Cranknote: Alle Dateien des Ordners prüfen');
    await editor.page
      .locator('.terminal-tab, .single-terminal-tab', { hasText: 'alle Dateien prüfen' })
      .first()
      .waitFor();
    await editor.run('Problems: Focus on Problems View');
    await problem('other.crank').waitFor();
    await editor.picture('german-check');
  });

  it('plans and carries over', async () => {
    const { page } = editor;
    await editor.openFile('panes.crank');
    await line('sequence panes').getByText('sequence').first().click();
    await editor.action('Control+.', 'Auf large-20 übertragen (Aufwand');
    await editor.picture('german-carry-over-menu');
    await page.keyboard.press('Escape');
    await line('turn 8').getByText('turn').first().click();
    await editor.action('Control+.', 'In shift right 2; turn');
    await editor.picture('german-shorter-fix');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('  ');
    await page.keyboard.press('Control+Space');
    const first = page.locator('.suggest-widget .monaco-list-row').first();
    await first.filter({ hasText: 'Schritte schreiben' }).waitFor();
    await editor.picture('german-plan-completion');
    await page.keyboard.press('Escape');
    await line('goal counter').getByText('goal').first().click();
    await (await editor.action('Control+.', 'Die Schritte zu diesem Ziel schreiben (Aufwand')).click();
    await line('set 912').waitFor();
    await editor.picture('german-plan');
  });

  it('shows a sheet', async () => {
    await editor.openFile('panes.crank');
    await line('set 24').click();
    await editor.run('Cranknote: Ein Blatt neben dem Text öffnen');
    const page = editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    const sheet = page.frameLocator('#sheet');
    await sheet.locator('.kind', { hasText: 'Bedienungsanleitung' }).waitFor();
    await sheet.locator('h1', { hasText: 'Scheiben für ein Fenster' }).waitFor();
    await page.locator('label', { hasText: 'Der Schreibmarke folgen' }).waitFor();
    expect(await page.locator('#kind').textContent()).toContain('Lösungsblatt');
    expect(await page.locator('html').getAttribute('lang')).toBe('de');
    await line('turn 9').click();
    await editor.page.keyboard.press('End');
    await editor.page.keyboard.type('9');
    await page.locator('#trouble', { hasText: 'Es gibt kein Blatt' }).waitFor();
    await editor.picture('german-sheet');
    await editor.page.keyboard.press('Backspace');
    await page.locator('#trouble').waitFor({ state: 'hidden' });
    // The cursor is in another file now, and there is another sheet.
    await editor.openFile('other.crank');
    await page.locator('#trouble', { hasText: 'Das Resultatwerk' }).waitFor();
    await editor.openFile('pots.crank');
  });

  it('shows the machine', async () => {
    await editor.openFile('pots.crank');
    await line('turn 6').click();
    await editor.run('Cranknote: Die Maschine neben dem Text zeigen');
    const page = pageIn(editor);
    await page.locator('#where').filter({ hasText: 'Schritt 4 von 5 · Umdrehung 6 von 6' }).waitFor();
    await page.locator('#remarks').filter({ hasText: 'Mit dem nächsten Schritt: ' }).waitFor();
    await page.locator('#remarks').filter({ hasText: 'Schraffiert: Resultat 1' }).waitFor();
    await page.locator('#step').filter({ hasText: 'Schritt' }).waitFor();
    expect(await flawsIn(editor)).toEqual([]);
    await editor.picture('german-machine');
  });

  it('steps through a sequence', async () => {
    await editor.openFile('pots.crank');
    await line('turn 6').click();
    await editor.run('Cranknote: Schrittweise durch den Rechengang gehen');
    await editor.page.locator('.debug-top-stack-frame-line').first().waitFor();
    await editor.run('View: Show Run and Debug');
    const shown = (text: string) => editor.page.locator('.debug-pane .monaco-list-row', { hasText: text }).first();
    await shown('clear all (in pots)').waitFor();
    await shown('Schlitten und Hebel').waitFor();
    await editor.page.locator('.debug-toolbar .action-label[aria-label^="Continue"]').click();
    await editor.page.locator('.exception-widget', { hasText: 'Das Resultatwerk' }).waitFor();
    await editor.picture('german-stepping');
    await editor.page.locator('.debug-toolbar .action-label[aria-label^="Stop"]').click();
    await editor.page.locator('.debug-toolbar').waitFor({ state: 'hidden' });
  });

  it('goes on after a restart of the server', async () => {
    await editor.openFile('pots.crank');
    await editor.run('Cranknote: Sprachserver neu starten');
    await line('turn 6').click();
    await editor.page.keyboard.press('End');
    await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.type('7');
    await line('turn 7').filter({ hasText: '336' }).waitFor();
  });
});
