/** Turns a page into PDF by the browser that is installed here: any that is built on Chromium. */
import { execFile } from 'node:child_process';
import { accessSync, constants, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { CannotRun } from './files.js';

/** As they are called on the path, and where they stand where nobody puts them there. */
const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
  'msedge',
];
const PLACES: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
    (app) => `/Applications/${app}.app/Contents/MacOS/${app}`,
  ),
  win32: ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((folder) => {
    const base = process.env[folder];
    return base
      ? ['Google\\Chrome\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'].map((file) =>
          path.join(base, file),
        )
      : [];
  }),
};
const ENOUGH_TIME = 60_000;

/** The first browser that is there, or undefined. */
export function findBrowser(): string | undefined {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter((folder) => folder !== '');
  const ends = process.platform === 'win32' ? ['.exe'] : [''];
  const onPath = NAMES.flatMap((name) => folders.flatMap((folder) => ends.map((end) => path.join(folder, name + end))));
  return [...onPath, ...(PLACES[process.platform] ?? [])].find(isRunnable);
}

function isRunnable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** A page as PDF; a message for the user where it can't be had. */
export async function toPdf(html: string): Promise<Buffer> {
  const browser = findBrowser();
  if (browser === undefined) {
    throw new CannotRun(
      'PDF is made by a browser built on Chromium, and none is installed here. Install one, or make the sheet with --format html and print it from any browser.',
    );
  }
  const folder = mkdtempSync(path.join(os.tmpdir(), 'cranknote-'));
  try {
    const page = path.join(folder, 'sheet.html');
    const pdf = path.join(folder, 'sheet.pdf');
    writeFileSync(page, html);
    await run(browser, [
      '--headless=new',
      '--disable-gpu',
      '--disable-extensions',
      '--no-first-run',
      '--no-pdf-header-footer',
      // A browser that runs as the system's own user refuses to shut itself in.
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      `--user-data-dir=${path.join(folder, 'profile')}`,
      `--print-to-pdf=${pdf}`,
      pathToFileURL(page).href,
    ]);
    return readFileSync(pdf);
  } catch (error) {
    if (error instanceof CannotRun) throw error;
    throw new CannotRun(`${path.basename(browser)} could not make the PDF. The sheet can be had with --format html.`);
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

const run = (file: string, args: readonly string[]): Promise<void> =>
  new Promise((resolve, reject) => {
    execFile(file, [...args], { timeout: ENOUGH_TIME }, (error) => (error ? reject(error) : resolve()));
  });
