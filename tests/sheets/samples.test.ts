/** What is printed of the samples: all of it valid and legible, and some of it word for word. */
import axe from 'axe-core';
import { HtmlValidate } from 'html-validate';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toHtml } from '../../server/sheets/html.js';
import { toMarkdown } from '../../server/sheets/markdown.js';
import { SHEET_KINDS, type SheetKind } from '../../server/sheets/model.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { hasBrowser, openBrowser, withoutBrowser } from './browser.js';
import { made, sampleSequences } from './made.js';

const SAMPLES = sampleSequences();

function sheetOfSample(name: string, kind: SheetKind, language = 'en') {
  const sample = SAMPLES.find((one) => one.name === name);
  if (!sample) throw new Error(`There is no sample ${name}.`);
  return made(kind, sample.report, { language, figures: 'stages' });
}
const htmlOf = (name: string, kind: SheetKind, language: string): string =>
  toHtml(sheetOfSample(name, kind, language), sheetWords(language), { paper: 'a4' });

describe('word for word', () => {
  test.each<[SheetKind, string]>([
    ['operating', 'invoice'],
    ['exercise', 'pots-on-shelves'],
    ['key', 'pots-on-shelves'],
    ['bench', 'borrow-and-bell'],
  ])('%s of %s', async (kind, name) => {
    const text = toMarkdown(sheetOfSample(name, kind), sheetWords('en'));
    await expect(text).toMatchFileSnapshot(`golden/${name}.${kind}.md`);
  });

  test('operating of seed-count, as a page in German', async () => {
    // How it looks is another matter, and would change the file with every touch.
    const html = htmlOf('seed-count', 'operating', 'de').replace(/<style>.*<\/style>/s, '<style></style>');
    await expect(html).toMatchFileSnapshot('golden/seed-count.operating.de.html');
  });
});

test('every kind of every sample is valid HTML in every language', async () => {
  const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
  const found: string[] = [];
  let pages = 0;
  for (const { name } of SAMPLES) {
    for (const kind of SHEET_KINDS) {
      for (const language of SHEET_LANGUAGES) {
        const { results } = await validator.validateString(htmlOf(name, kind, language));
        pages += 1;
        for (const { line, ruleId, message } of results.flatMap(({ messages }) => messages)) {
          found.push(`${name} ${kind} ${language}, line ${line}: ${ruleId}: ${message}`);
        }
      }
    }
  }
  expect(found).toEqual([]);
  expect(pages).toBe(SAMPLES.length * SHEET_KINDS.length * SHEET_LANGUAGES.length);
  expect(SAMPLES.length).toBeGreaterThan(25);
});

describe.skipIf(!hasBrowser)(`in a browser${withoutBrowser}`, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  test.each<[string, SheetKind, string]>([
    ['bulb-sums', 'operating', 'de'],
    ['pots-left-half-step', 'operating', 'en'],
    ['bulbs-for-beds', 'exercise', 'de'],
    ['bulbs-for-beds', 'key', 'en'],
    ['carry-proof', 'bench', 'en'],
    ['borrow-and-bell', 'bench', 'de'],
  ])('%s, %s in %s can be used by everybody', async (name, kind, language) => {
    const page = await browser.newPage({ bypassCSP: true });
    try {
      await page.setContent(htmlOf(name, kind, language));
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ media: 'screen', colorScheme });
        if (colorScheme === 'light') await page.addScriptTag({ content: axe.source });
        const violations = await page.evaluate('axe.run().then(({ violations }) => violations.map(({ id }) => id))');
        expect({ colorScheme, violations }).toEqual({ colorScheme, violations: [] });
      }
    } finally {
      await page.close();
    }
  });
});
