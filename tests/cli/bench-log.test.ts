import axe from 'axe-core';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { hasBrowser, openBrowser, withoutBrowser } from '../sheets/browser.js';
import { SCRIPT } from './bench-script.js';
import { cranknote, folderOf } from './program.js';

const RECORDS = `bench "As it came" of nines on lever-6
  found nines result 9999999999 no bell
  found noughts result 9999990000
bench "After <b>oiling</b>" of nines on lever-6
  found nines bell result 99
bench "After mending" of nines on lever-6
  found nines result 9999999999
  found noughts result 0 bell
`;
const cwd = folderOf({
  'bench.crank': SCRIPT + RECORDS,
  'open.crank': `${SCRIPT}bench "Open" of nines on lever-6\n  found nines no bell\n`,
  'none.crank': SCRIPT,
});
const log = (...args: string[]) => cranknote(['bench-log', ...args], { cwd });

describe('bench-log', () => {
  it('puts records side by side and says what changed', () => {
    const { out, code } = log('bench.crank');
    expect(out).toContain(`nines on lever-6

  reading            sound machine  1           2   3
  1 nines: result    9999999999     –           99  –
  1 nines            bell           no bell     –
  2 noughts: result  0              9999990000      –
  2 noughts          bell                           –
`);
    expect(out).toMatch(/2 {2}After <b>oiling<\/b>\n.*\n(?:.*\n)*? +Right again: reading 1 \(nines\), bell\./);
    expect(out).toContain('Right before and wrong now: reading 1 (nines), result 9999999999.');
    expect(out).toContain('Right again: reading 1 (nines), result 9999999999; reading 2 (noughts), result 0.');
    expect(code).toBe(0);
  });
  it('fails where the last record is no pass, and where there is none', () => {
    expect(log('open.crank').code).toBe(1);
    expect(log('none.crank')).toMatchObject({ code: 2, err: expect.stringContaining('no bench record') });
  });
  it('tells other programs the same', () => {
    const { logs } = JSON.parse(log('bench.crank', '--format', 'json').out);
    expect(logs[0]).toMatchObject({
      sequence: 'nines',
      machine: 'lever-6',
      records: [{ verdict: 'unexplained' }, { verdict: 'unexplained' }, { verdict: 'pass' }],
    });
    expect(logs[0].readings[1]).toEqual({
      number: 1,
      label: 'nines',
      what: 'bell',
      sound: true,
      found: [false, true, null],
    });
  });
  it.each(['en', 'de'])('makes a valid page in %s, in which a title is text', async (language) => {
    const html = log('bench.crank', '--format', 'html', '--language', language).out;
    const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
    const { results } = await validator.validateString(html);
    expect(results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => ({ ruleId, message })))).toEqual([]);
    expect(html).toContain('After &lt;b&gt;oiling&lt;/b&gt;');
    expect(html).toContain(`<html lang="${language}">`);
  });
});

describe.skipIf(!hasBrowser)(`the page of a bench log${withoutBrowser}`, () => {
  it('is legible for everybody, and fits a narrow screen', async () => {
    const browser = await openBrowser();
    try {
      const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
      await page.setContent(log('bench.crank', '--format', 'html').out);
      const width = await page.evaluate<number>('document.documentElement.scrollWidth');
      expect(width).toBeLessThanOrEqual(390);
      await page.evaluate(axe.source);
      const { violations } = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run());
      expect(violations.map(({ id }) => id)).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});
