/**
 * Takes the pictures of the READMEs in VS Code itself, by light and by dark: `npm run picture:editor`. A scene more is an
 * entry in `SCENES`, and its name in a README.
 */
import { statSync } from 'node:fs';
import type { Locator } from 'playwright-core';
import { type Editor, isInstalled, startEditor } from '../editor/editor.js';

const THEMES = { light: 'Light Modern', dark: 'Dark Modern' } as const;
const SIZE = { width: 1180, height: 680 };
/** A page with pictures is to be there soon. */
const LARGEST = 300_000;

const PANES = `use "machines.crank"

# Glass for the new frames: 24 panes at 3.15.
sequence panes "Glass for the frames" on pinwheel-9
  goal result = 24 * 3.15

  clear all
  points setting 2 result 2
  set 3.15
  turn 4
  shift right
  turn 2
  expect counter 24 result 75.40
  shift left
`;
const SLIPS = `use "machines.crank"

# Two deliveries of labels, one after the other.
sequence labels "Labels in stock" on pinwheel-9
  goal result = 1250 + 340

  clear all
  note "What lies in the drawer."
  set 1250
  turn
  note "What has come in."
  set 340
  turn
  expect counter 2 result 1590 as stock
`;
/** An exercise for the class, and a reading that is not true. */
const POTS = `use "machines.crank"

# Pots on the benches, for the class.
sequence pots "Pots on the benches" (rows = 12, pots = 34) on desk-8
  case rows = 15, pots = 28
  case rows = 102, pots = 9
  goal result = rows * pots

  clear all
  set rows
  multiply by pots
  ask counter result

sequence trays "Plants in the trays" on desk-8
  goal result = 48 * 6

  clear all
  set 48
  turn 6
  expect counter 6 result 298
`;
const FILES = { 'panes.crank': PANES, 'labels.crank': SLIPS, 'pots.crank': POTS };

/** Without what takes room and is not about the notation. */
const SETTINGS = {
  'workbench.activityBar.location': 'hidden',
  'workbench.layoutControl.enabled': false,
  'window.commandCenter': false,
  'editor.minimap.enabled': false,
  'editor.fontSize': 15,
  'editor.scrollBeyondLastLine': false,
  'breadcrumbs.enabled': false,
};

interface Scene {
  /** Brings the editor to where the picture is taken, whatever it shows now. */
  readonly set: (editor: Editor) => Promise<void>;
  /** How much is shown of it, from the top; all of it if nothing is said. */
  readonly height?: number;
}

const line = ({ page }: Editor, text: string): Locator => page.locator('.view-line', { hasText: text }).first();
/** The test explorer takes the place of the files, which are not shown here. */
const hideSideBar = async (editor: Editor) => {
  const bar = editor.page.locator('.part.sidebar');
  if (await bar.isVisible()) await editor.run('View: Toggle Primary Side Bar Visibility');
};

const hidePanel = async (editor: Editor) => {
  if (await editor.page.locator('.part.panel').isVisible()) await editor.run('View: Hide Panel');
};

const alone = async (editor: Editor, file: string) => {
  const toolbar = editor.page.locator('.debug-toolbar');
  if (await toolbar.isVisible()) await editor.run('Debug: Stop');
  await toolbar.waitFor({ state: 'hidden' });
  await hideSideBar(editor);
  await hidePanel(editor);
  await editor.run('View: Close All Editor Groups');
  await editor.openFile(file);
};

const SCENES: Readonly<Record<string, Scene>> = {
  readings: {
    height: 450,
    set: async (editor) => {
      await alone(editor, 'panes.crank');
      await line(editor, 'turn 2').filter({ hasText: '75.60' }).waitFor();
      await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
      await editor.run('Problems: Focus on Problems View');
      await editor.page.locator('.markers-panel .monaco-list-row', { hasText: 'The result reads 75.60' }).waitFor();
    },
  },
  machine: {
    height: 620,
    set: async (editor) => {
      await alone(editor, 'panes.crank');
      await line(editor, 'turn 2').filter({ hasText: '75.60' }).click();
      await editor.run('Cranknote: Show the Machine Beside the Text');
      const panel = editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
      await panel.locator('#remarks', { hasText: 'With the next step' }).waitFor();
    },
  },
  stepping: {
    height: 560,
    set: async (editor) => {
      await alone(editor, 'labels.crank');
      await line(editor, 'set 340').filter({ hasText: 'setting' }).click();
      await editor.run('Cranknote: Step Through the Sequence');
      await editor.run('View: Show Run and Debug');
      const frames = editor.page.locator('.debug-call-stack .monaco-list-row');
      await frames.filter({ hasText: 'clear all' }).waitFor();
      for (const next of ['note "What lies', 'set 1250', 'turn', 'note "What has come', 'set 340', 'turn']) {
        await editor.page.locator('.debug-toolbar .action-label[aria-label^="Step Over"]:not(.disabled)').click();
        await frames.filter({ hasText: next }).first().waitFor();
      }
      await hidePanel(editor);
    },
  },
  tests: {
    height: 520,
    set: async (editor) => {
      await alone(editor, 'pots.crank');
      await line(editor, 'turn 6').filter({ hasText: '288' }).waitFor();
      await editor.run('Testing: Focus on Test Explorer View');
      const row = (text: string) => editor.page.locator('.test-explorer .monaco-list-row', { hasText: text }).first();
      await row('pots.crank').waitFor();
      await editor.run('Test: Run All Tests');
      await row('pots.crank').and(editor.page.locator('[aria-label*="(Failed)"]')).waitFor();
      // The results have taken the focus.
      await editor.run('Testing: Focus on Test Explorer View');
      if (!(await row('Plants in the trays').isVisible())) {
        await row('pots.crank').click();
        await editor.page.keyboard.press('ArrowRight');
      }
      await row('Plants in the trays').waitFor();
      await editor.run('View: Hide Panel');
    },
  },
  sheet: {
    set: async (editor) => {
      await alone(editor, 'labels.crank');
      await line(editor, 'turn').filter({ hasText: 'result' }).waitFor();
      await line(editor, 'set 340').click();
      await editor.run('Cranknote: Open a Sheet Beside the Text');
      const panel = editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
      const sheet = panel.frameLocator('#sheet');
      await sheet.locator('h1', { hasText: 'Labels in stock' }).waitFor();
      // Up to where the machine is drawn.
      const figure = sheet.locator('ol svg').last();
      await figure.evaluate((svg) => Reflect.apply(Reflect.get(svg, 'scrollIntoView'), svg, [false]));
    },
  },
};

async function takePictures(): Promise<void> {
  if (!isInstalled) throw new Error('There is no editor: bash tests/editor/install.sh brings one.');
  const editor = await startEditor('dist/cranknote.vsix', FILES, 'en', SETTINGS);
  try {
    await editor.page.setViewportSize(SIZE);
    for (const [look, theme] of Object.entries(THEMES)) {
      await editor.theme(theme);
      for (const [name, { set, height = SIZE.height }] of Object.entries(SCENES)) {
        const path = `client/pictures/${name}-${look}.png`;
        await set(editor);
        // Nothing is pointed at.
        await editor.page.mouse.move(SIZE.width / 2, SIZE.height - 2);
        // What blinks, fades or is loaded late.
        await editor.page.waitForTimeout(1_500);
        await editor.page.screenshot({ path, caret: 'hide', clip: { x: 0, y: 0, ...SIZE, height } });
        const { size } = statSync(path);
        console.log(`${path}  ${Math.round(size / 1000)} kB`);
        if (size > LARGEST) throw new Error(`${path} is too large.`);
      }
    }
  } finally {
    await editor.close();
  }
}

void takePictures();
