/** VS Code for the web, which has no server: a page of files, shown and driven by Chromium, with the extension in it. */
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Editor, freePort, HOME, nurseryIn, openEditor, SETTINGS } from './editor.js';

const WEB = path.join(HOME, 'web');
const SERVE = path.join(WEB, 'node_modules/@vscode/test-web/out/server/index.js');

/** Whether there is one; `tests/editor/install.sh` brings it. */
export const isWebInstalled = existsSync(path.join(WEB, '.done'));

/**
 * Starts it on some files, which are served and can't be saved.
 *
 * @param extension the folder of the extension, as it is packed
 */
export async function startWebEditor(extension: string, files: Readonly<Record<string, string>>): Promise<Editor> {
  const port = await freePort();
  const profile = mkdtempSync(path.join(tmpdir(), 'cranknote-web-'));
  const folder = nurseryIn(profile, files);
  mkdirSync(path.join(folder, '.vscode'));
  writeFileSync(path.join(folder, '.vscode/settings.json'), JSON.stringify(SETTINGS));
  cpSync(extension, path.join(profile, 'extensions/cranknote'), { recursive: true });
  const build = ['--quality', 'stable', '--commit', '0'.repeat(40), '--testRunnerDataDir', path.join(WEB, 'builds')];
  const place = ['--host', 'localhost', '--port', `${port}`, '--browser', 'none'];
  const server = spawn(
    process.execPath,
    [SERVE, ...build, ...place, '--extensionPath', path.join(profile, 'extensions'), folder],
    { stdio: 'ignore', detached: true },
  );
  const editor = await openEditor(profile, `http://localhost:${port}/`, folder, server);
  return {
    ...editor,
    /** Through the explorer: files that are only served can't be searched. */
    async openFile(name) {
      const { page } = editor;
      const row = page.locator('.explorer-folders-view .monaco-list-row', { hasText: new RegExp(`^\\s*${name}\\s*`) });
      await row.first().dblclick();
      await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
    },
  };
}
