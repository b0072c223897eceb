/** The browser that sheets are tried in. Where none is installed, tests that need it are left out and say so. */
import { accessSync, constants } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

export const hasBrowser = ((): boolean => {
  try {
    accessSync(CHROMIUM, constants.X_OK);
    return true;
  } catch {
    return false;
  }
})();

/** For the name of a group of tests. */
export const withoutBrowser = hasBrowser ? '' : ` (left out: no browser at ${CHROMIUM}; CHROMIUM may name another)`;

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: CHROMIUM, args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
