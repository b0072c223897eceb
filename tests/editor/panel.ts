/** What tests of panels have in common: the page in its frames, its flaws, and themes. */
import axe from 'axe-core';
import type { FrameLocator, Locator } from 'playwright-core';
import type { Editor } from './editor.js';

/** The page of the panel that is seen. */
export const pageIn = (editor: Editor): FrameLocator =>
  editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');

/** Of a colour as the browser tells it, 0 to 255. */
export const brightness = (colour: string): number => {
  const [red, green, blue] = (colour.match(/\d+/g) ?? []).map(Number);
  return 0.3 * red + 0.6 * green + 0.1 * blue;
};

/** What is wrong with the page for those who can't see it, or not well. */
export async function flawsIn(editor: Editor): Promise<string[]> {
  const frame = await (await pageIn(editor).locator('body').elementHandle())?.ownerFrame();
  if (!frame) throw new Error('the panel has no page');
  await frame.evaluate(axe.source);
  const run = "axe.run(document, { iframes: false, resultTypes: ['violations'] })";
  const { violations } = await frame.evaluate<axe.AxeResults>(run);
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}

export const THEMES = ['Light High Contrast', 'Dark High Contrast', 'Dark Modern', 'Light Modern'] as const;

/** The class that the editor gives to pages in a theme. */
const CLASSES = {
  'Light High Contrast': 'vscode-high-contrast-light',
  'Dark High Contrast': 'vscode-high-contrast',
  'Dark Modern': 'vscode-dark',
  'Light Modern': 'vscode-light',
} as const;

export async function chooseTheme(editor: Editor, theme: (typeof THEMES)[number]): Promise<void> {
  await editor.theme(theme);
  await pageIn(editor).locator(`body.${CLASSES[theme]}`).waitFor();
}

/** A line of the text. */
export const lineIn = (editor: Editor, text: string): Locator =>
  editor.page.locator('.view-line', { hasText: text }).first();
