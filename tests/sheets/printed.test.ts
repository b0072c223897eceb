/** Every sheet of every sample on paper: nothing split, nothing cut off, no heading alone at the foot of a page. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toHtml } from '../../server/sheets/html.js';
import { PAPERS, type Paper, SHEET_KINDS, type Sheet } from '../../server/sheets/model.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { hasBrowser, openBrowser, withoutBrowser } from './browser.js';
import { made, sampleSequences } from './made.js';
import { type Counts, pagesOf } from './printed.js';
import { specimen } from './specimen.js';

const SAMPLES = sampleSequences();
/** Right margin and foot of the pages in points, as the style has them; what overhangs by a hair is none. */
const MARGIN = { right: (17 / 25.4) * 72, bottom: (21 / 25.4) * 72 };
const HAIR = 1.5;
/** Print areas in px at 96 to the inch: 37 mm less than the paper is wide. */
const AREA: Readonly<Record<Paper, number>> = { a4: 654, letter: 676 };
const TOLD: readonly (keyof Counts)[] = ['headings', 'items', 'rows', 'figures'];

/** What is wrong with a sheet on this paper, in words; nothing if nothing is. */
async function flawsOf(sheet: Sheet, paper: Paper, page: Page): Promise<string[]> {
  await page.setViewportSize({ width: AREA[paper], height: 900 });
  await page.setContent(toHtml(sheet, sheetWords(sheet.language), { paper }));
  const { width, ...inPage } = (await page.evaluate(`({
    headings: document.querySelectorAll('h1, h2, h3').length,
    items: document.querySelectorAll('li').length,
    rows: document.querySelectorAll('tbody tr').length,
    figures: document.querySelectorAll('figure').length,
    width: document.documentElement.scrollWidth,
  })`)) as Counts & { width: number };
  const pages = await pagesOf(await page.pdf({ preferCSSPageSize: true, tagged: true }));
  const flaws = width > AREA[paper] ? [`${width - AREA[paper]} px too wide`] : [];
  for (const what of TOLD) {
    const printed = pages.reduce((sum, { counts }) => sum + counts[what], 0);
    if (printed !== inPage[what]) flaws.push(`${inPage[what]} ${what} came to ${printed} on paper`);
  }
  pages.forEach(({ endsWith, right, bottom }, i) => {
    if (endsWith.length === 0) flaws.push(`page ${i + 1} is empty`);
    if (isHeading(endsWith)) flaws.push(`page ${i + 1} ends with a heading`);
    if (right < MARGIN.right - HAIR) flaws.push(`page ${i + 1} is cut off at the right`);
    if (bottom < MARGIN.bottom - HAIR) flaws.push(`page ${i + 1} runs into its foot`);
  });
  return flaws;
}

/** A caption of a table stands above it, one of a figure below. */
const isHeading = (roles: readonly string[]): boolean =>
  roles.some((role, i) => /^(?:H\d|TH)$/.test(role) || (role === 'Caption' && roles[i - 1] === 'Table'));

describe.skipIf(!hasBrowser)(`on paper${withoutBrowser}`, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await openBrowser();
    page = await browser.newPage();
    await page.emulateMedia({ media: 'print' });
  });
  afterAll(() => browser.close());

  test.each(
    SHEET_KINDS.flatMap((kind) =>
      SHEET_LANGUAGES.flatMap((language) => PAPERS.map((paper) => ({ kind, language, paper }))),
    ),
  )('$kind of every sample, in $language on $paper', async ({ kind, language, paper }) => {
    const found: string[] = [];
    let count = 0;
    for (const { name, report } of SAMPLES) {
      const flaws = await flawsOf(made(kind, report, { language, figures: 'stages' }), paper, page);
      found.push(...flaws.map((flaw) => `${name}: ${flaw}`));
      count++;
    }
    expect(found).toEqual([]);
    expect(count).toBeGreaterThan(25);
  });

  test('what is split, alone or too wide is noticed', async () => {
    const long = 'Turn the crank. '.repeat(40).trim();
    const step = { number: '1', text: [Array.from({ length: 30 }, () => long).join(' ')] };
    const heading = { is: 'heading', level: 2, text: ['Alone'] } as const;
    const wide = { is: 'paragraph', text: [{ reading: '9'.repeat(200) }] } as const;
    const flaws = (sheet: Partial<Sheet>) => flawsOf({ ...specimen(), ...sheet }, 'a4', page);
    expect(await flaws({ blocks: [{ is: 'steps', steps: [step] }] })).toContainEqual(
      expect.stringMatching(/^1 items came to [2-9] on paper$/),
    );
    expect(await flaws({ blocks: [heading] })).toEqual(['page 1 ends with a heading']);
    expect(await flaws({ blocks: [wide] })).toContainEqual(expect.stringMatching(/^\d+ px too wide$/));
  });
});
