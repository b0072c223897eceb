/** Coverage as a page: valid, legible for everybody, and closed to what files may say. */
import axe from 'axe-core';
import { HtmlValidate } from 'html-validate';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { coveragePage } from '../../server/cli/output/coverage-page.js';
import { coverageOf } from '../../server/proving/coverage.js';
import { proposalsFor } from '../../server/proving/script.js';
import { checkFiles } from '../marked.js';
import { machine } from '../sequence/machines.js';
import { hasBrowser, openBrowser, withoutBrowser } from '../sheets/browser.js';

/** The page of one sequence on a machine with everything. */
function page(file = 'proofs.crank', title = 'Machine in the packing shed'): string {
  const text = `${machine('full').replace('machine stores', `machine stores "${title}"`)}sequence proof on stores
  clear all
  set 1111
  turn
  expect result 1111
  repeat 2 { set 5; clear setting; set 0 }
sequence quiet on stores
  clear all
`;
  const { library, report } = checkFiles({ [file]: text });
  const [proof, quiet] = report.sequences;
  const coverage = finish(coverageOf(proof.runs));
  const script = {
    profile: coverage.profile,
    sequences: [{ file, report: proof }],
    coverage,
    proposals: finish(proposalsFor(coverage)),
  };
  return coveragePage({ library, scripts: [script], leftOut: [{ file, report: quiet, why: 'nobody-looks' }] });
}

test('is valid', async () => {
  const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
  const { results } = await validator.validateString(page());
  expect(
    results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => ({ ruleId, message, line }))),
  ).toEqual([]);
});

test('shows the places of each register, those that are proved told apart by a sign and a word', () => {
  const html = page();
  const rowOf = (title: string) => new RegExp(`<tr><th scope="row">${title}</th>(.*?)</tr>`).exec(html)?.[1] ?? '';
  expect(rowOf('drives at all').match(/class="yes"/g)).toHaveLength(4);
  expect(rowOf('drives 1').match(/■<\/span><span class="said">caught/g)).toHaveLength(4);
  expect(rowOf('drives 2').match(/□<\/span><span class="said">uncaught/g)).toHaveLength(4);
  // Out of the highest place nothing is carried on.
  expect(rowOf('carries, adding')).toMatch(/^<td><\/td><td class="no">/);
  expect(html).toContain('bell: uncaught');
  expect(html).toContain('quiet in proofs.crank: nobody looks, for it has no expect and no ask');
});

test('leaves out what the machine has not got', () => {
  expect(page()).toContain('takes a figure in a transfer');
  const { library, report } = checkFiles({
    'a.crank': `${machine('adder')}sequence s on stores\n  clear all\n  ask result\n`,
  });
  const [sequence] = report.sequences;
  const coverage = finish(coverageOf(sequence.runs));
  const script = { profile: coverage.profile, sequences: [{ file: 'a.crank', report: sequence }], coverage };
  const html = coveragePage({ library, scripts: [{ ...script, proposals: [] }], leftOut: [] });
  for (const absent of ['transfer', 'Map of the counter', 'bell', 'Not judged', 'catch the rest']) {
    expect(html).not.toContain(absent);
  }
});

test('says what files are called, and makes nothing of it', () => {
  const html = page('<img src=x onerror=a()>.crank', '</style><script>alert(1)</script>&amp;');
  expect(html).not.toMatch(/<(?:img|script)/);
  expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;&amp;amp;');
  expect(html).toContain('&lt;img src=x onerror=a()&gt;.crank');
});

describe.skipIf(!hasBrowser)(`in a browser${withoutBrowser}`, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser?.close());

  test.each(['light', 'dark'] as const)(
    'can be read by everybody: %s',
    async (colorScheme) => {
      const tab = await browser.newPage({ bypassCSP: true, colorScheme });
      await tab.setContent(page());
      await tab.evaluate(axe.source);
      const { violations, incomplete, passes } = await tab.evaluate(() =>
        (globalThis as unknown as { axe: typeof axe }).axe.run(),
      );
      const told = (found: axe.Result[]) => found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
      expect(told(violations)).toEqual([]);
      // What it cannot judge: single signs. They have the colours of the words beside them.
      expect(told(incomplete).filter((one) => !one.includes('<span aria-hidden="true">'))).toEqual([]);
      expect(passes.map(({ id }) => id)).toContain('color-contrast');
      await tab.close();
    },
    60_000,
  );
});
