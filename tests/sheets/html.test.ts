/** Sheets as HTML: valid, legible for everybody, closed to the outside, and as they are meant on paper. */
import axe from 'axe-core';
import fc from 'fast-check';
import { HtmlValidate } from 'html-validate';
import { parse } from 'parse5';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toHtml } from '../../server/sheets/html.js';
import { type Block, PAPERS, type Paper, SHEET_KINDS, type Sheet, type Text } from '../../server/sheets/model.js';
import { styleOf } from '../../server/sheets/style.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { hasBrowser, openBrowser, withoutBrowser } from './browser.js';
import { awkward, seenIn } from './hostile.js';
import { specimen } from './specimen.js';

const htmlOf = (sheet: Sheet, paper: Paper = 'a4'): string => toHtml(sheet, sheetWords(sheet.language), { paper });
const ALL = SHEET_LANGUAGES.flatMap((language) => SHEET_KINDS.map((kind) => ({ ...specimen(kind), language })));

interface Node {
  readonly nodeName: string;
  readonly attrs?: readonly { readonly name: string; readonly value: string }[];
  readonly childNodes?: readonly Node[];
  readonly value?: string;
}
/** Everything in a page, in its order. */
function* nodesOf(node: Node): Generator<Node> {
  yield node;
  for (const child of node.childNodes ?? []) yield* nodesOf(child);
}
const nodesIn = (html: string): Node[] => [...nodesOf(parse(html) as Node)];
const textOf = (node: Node): string => node.value ?? (node.childNodes ?? []).map(textOf).join('');
const classOf = ({ attrs = [] }: Node): string | undefined => attrs.find(({ name }) => name === 'class')?.value;
/** What is drawn beside the steps of a sheet. */
const figuresOf = (sheet: Sheet) =>
  sheet.blocks.flatMap((block) => (block.is === 'steps' ? block.steps.flatMap(({ figure }) => figure ?? []) : []));
/** Elements and their attributes, without what is said by them. */
const skeleton = (html: string): string[] =>
  nodesIn(html).flatMap(({ nodeName, attrs }) =>
    nodeName.startsWith('#') ? [] : [`${nodeName} ${(attrs ?? []).map(({ name }) => name).join(' ')}`],
  );

describe('a sheet as HTML', () => {
  test.each(ALL.map((sheet) => [sheet.kind, sheet.language, sheet] as const))(
    'is valid: %s in %s',
    async (_kind, _language, sheet) => {
      const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
      const { results } = await validator.validateString(htmlOf(sheet));
      expect(
        results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => ({ ruleId, message, line }))),
      ).toEqual([]);
    },
  );

  test('runs nothing and fetches nothing', () => {
    for (const sheet of ALL) {
      const html = htmlOf(sheet);
      const nodes = nodesIn(html);
      const names = nodes.map(({ nodeName }) => nodeName);
      for (const name of ['script', 'link', 'img', 'iframe', 'object', 'base', 'form', 'image', 'use', 'a']) {
        expect(names).not.toContain(name);
      }
      const attributes = nodes.flatMap(({ attrs }) => attrs ?? []);
      expect(attributes.filter(({ name }) => /^(?:on|src|href|style$|xlink)/.test(name))).toEqual([]);
      // The one address is the name of SVG itself, which nobody fetches.
      expect(html.replaceAll('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(/https?:|url\(|@import/);
      const policy = nodes.find(({ attrs }) => attrs?.some(({ value }) => value === 'Content-Security-Policy'));
      expect(policy?.attrs?.find(({ name }) => name === 'content')?.value).toContain("default-src 'none'");
    }
  });

  test('a step takes the room of an empty cell, and what is found has lines right across', () => {
    const rows = [
      [['1'], ['Turn once.'], null, [], []],
      [['2'], ['Read.'], ['result 7'], [], []],
      [null, ['at the left of nothing'], null, null, null],
    ];
    const columns = [
      { head: 'No.' },
      { head: 'Step' },
      { head: 'Expected' },
      { head: 'Found', blank: 40 },
      { head: 'Remarks' },
    ];
    const fields = [{ label: 'Work done', lines: 3 }, { label: 'Signature' }];
    const html = htmlOf({
      ...specimen(),
      blocks: [
        { is: 'table', caption: '', columns, rows },
        { is: 'fields', fields },
      ],
    });
    const nodes = nodesIn(html);
    const spans = nodes
      .filter(({ nodeName }) => nodeName === 'tr')
      .slice(1)
      .map((row) => [...nodesOf(row)].filter(({ nodeName }) => nodeName === 'td'))
      .map((cells) => cells.map(({ attrs = [] }) => Number(attrs.find(({ name }) => name === 'colspan')?.value ?? 1)));
    expect(spans).toEqual([
      [1, 2, 1, 1],
      [1, 1, 1, 1, 1],
      [1, 4],
    ]);
    const lines = nodes.filter((node) => classOf(node) === 'line');
    expect(lines.map(({ attrs = [] }) => attrs.map(({ name }) => name).join(' '))).toEqual([
      'class role aria-label',
      'class aria-hidden',
      'class aria-hidden',
      'class role aria-label',
    ]);
    expect(nodes.filter((node) => classOf(node) === 'across')).toHaveLength(1);
  });

  test('how a change is drawn is said below the first drawing that shows one', () => {
    const figures = nodesIn(htmlOf(specimen('operating'))).filter(({ nodeName }) => nodeName === 'figure');
    const legends = figures.map((figure) => textOf(figure).includes('what has changed'));
    expect(legends.filter(Boolean)).toHaveLength(1);
    const [still] = figuresOf(specimen('operating'));
    const calm: Block = {
      is: 'steps',
      steps: [{ number: '1', text: ['Look.'], figure: { ...still, before: still.after } }],
    };
    expect(htmlOf({ ...specimen(), blocks: [calm] })).not.toContain('what has changed');
  });

  test('names its language, its title and its steps as they are given', () => {
    const sheet = { ...specimen('operating'), language: 'de' };
    const nodes = nodesIn(htmlOf(sheet));
    const named = (name: string) => nodes.filter(({ nodeName }) => nodeName === name);
    expect(named('html')[0].attrs).toEqual([{ name: 'lang', value: 'de' }]);
    expect(textOf(named('title')[0])).toBe('Floor area of a bay – Area of one bay on the office machine');
    expect(named('h1').map(textOf)).toEqual(['Floor area of a bay']);
    const numbers = nodes.filter((node) => classOf(node) === 'number').map(textOf);
    expect(numbers).toEqual(['1', '2', '3', '4', '5', '5a', '5b', '6']);
    expect(named('ol')).toHaveLength(1);
    expect(nodes.some((node) => classOf(node) === 'kind' && textOf(node) === 'Bedienungsanleitung')).toBe(true);
  });

  test('has every id once, and a figure for each that is wanted', () => {
    const nodes = nodesIn(htmlOf(specimen()));
    const ids = nodes.flatMap(({ attrs }) =>
      (attrs ?? []).filter(({ name }) => name === 'id').map(({ value }) => value),
    );
    expect(new Set(ids).size).toBe(ids.length);
    expect(nodes.filter(({ nodeName }) => nodeName === 'figure')).toHaveLength(7);
  });

  test('begins no page with a page that holds its title alone, and ends with none that is empty', () => {
    const blocks: Block[] = [{ is: 'page' }, { is: 'paragraph', text: ['One'] }, { is: 'page' }];
    const nodes = nodesIn(htmlOf({ ...specimen(), blocks }));
    expect(nodes.filter((node) => classOf(node)?.includes('new-page'))).toEqual([]);
  });

  test('says a foot that is the title once, and gives a table without a name none', () => {
    const title = 'Floor area of a bay';
    const blocks: Block[] = [{ is: 'table', caption: '', columns: [{ head: 'a' }], rows: [[['b']]] }];
    const html = htmlOf({ ...specimen(), title, blocks, foot: title });
    const names = nodesIn(html).map(({ nodeName }) => nodeName);
    expect(names).not.toContain('footer');
    expect(names).not.toContain('caption');
    expect(html).toContain(`content: "${title}"`);
  });

  test('lets a column be as wide as it is asked for, within bounds', () => {
    const columns = [3, 8, 10, 11, 40.4, 500].map((blank) => ({ head: `${blank}`, blank }));
    const blocks: Block[] = [{ is: 'table', caption: 'Widths', columns, rows: [[]] }];
    const html = htmlOf({ ...specimen(), blocks });
    const cells = nodesIn(html).filter(({ nodeName }) => nodeName === 'td');
    expect(cells.map(classOf)).toEqual([
      'fill ticks mm8',
      'fill ticks mm8',
      'fill ticks mm10',
      'fill mm11',
      'fill mm40',
      'fill mm80',
    ]);
    for (const width of [8, 10, 11, 40, 80]) expect(html).toContain(`.mm${width} { width: ${width}mm; }`);
  });

  test('keeps whatever a file says as text', () => {
    const plainSheet = (text: string): Sheet => ({
      ...everywhere([text]),
      title: text,
      subtitle: text,
      foot: text,
    });
    const bones = skeleton(htmlOf(plainSheet('x')));
    fc.assert(
      fc.property(awkward, (text) => {
        const html = htmlOf(plainSheet(text));
        // A foot or a caption that is blank is left out.
        if (text.trim() !== '') expect(skeleton(html)).toEqual(bones);
        const nodes = nodesIn(html);
        const marked = nodes.filter(
          (node) => ['strong', 'samp', 'code'].includes(node.nodeName) && classOf(node) !== 'word',
        );
        expect(marked.map(textOf)).toEqual(Array(3).fill(seenIn(text)));
        expect(nodes.filter(({ nodeName }) => nodeName === 'h1').map(textOf)).toEqual([seenIn(text)]);
        const captions = nodes.filter(({ nodeName }) => nodeName === 'caption').map(textOf);
        expect(captions).toEqual(text.trim() === '' ? [] : [seenIn(text)]);
        expect(html).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]/);
      }),
      { numRuns: 300 },
    );
  });
});

/** A text in every place that takes one. */
function everywhere(text: readonly string[]): Sheet {
  const [one] = text;
  const line: Text = [one];
  const blocks: Block[] = [
    { is: 'heading', level: 2, text: line },
    { is: 'heading', level: 3, text: line },
    { is: 'paragraph', text: [one, { strong: one }, { reading: one }, { code: one }, { blank: 3, label: one }, one] },
    { is: 'note', text: line },
    { is: 'caution', text: line },
    { is: 'cautions', title: one, items: [line, line] },
    { is: 'list', items: [line, line] },
    {
      is: 'steps',
      steps: [{ number: one, text: line, readings: [line], remarks: [{ is: 'note', text: line }] }],
    },
    { is: 'table', caption: one, columns: [{ head: `a${one}` }], rows: [[line], [line]] },
    { is: 'fields', fields: [{ label: one, value: one }, { label: one }] },
  ];
  return { kind: 'exercise', language: 'en', title: 'Title', blocks, foot: 'Foot' };
}

describe.skipIf(!hasBrowser)(`a sheet in the browser${withoutBrowser}`, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await openBrowser();
    page = await browser.newPage();
  });
  afterAll(async () => {
    await browser?.close();
  });
  const opened = async (sheet: Sheet, paper: Paper = 'a4'): Promise<void> => {
    await page.setContent(htmlOf(sheet, paper), { waitUntil: 'load' });
  };

  test.each([
    ['screen', 'light'],
    ['screen', 'dark'],
    ['print', 'light'],
    ['print', 'dark'],
  ] as const)('can be used by everybody: %s, %s', async (media, colorScheme) => {
    await page.emulateMedia({ media, colorScheme });
    // The other kinds have the same parts.
    for (const kind of ['operating', 'bench'] as const) {
      await opened(specimen(kind));
      // Past the page's policy, which lets no script in.
      await page.evaluate(axe.source);
      const { violations, incomplete, passes } = await page.evaluate(() =>
        (globalThis as unknown as { axe: typeof axe }).axe.run(),
      );
      const told = (found: axe.Result[]) =>
        found.flatMap(({ id, nodes }) => nodes.map(({ html, failureSummary }) => ({ id, html, failureSummary })));
      expect(told(violations)).toEqual([]);
      // What it cannot judge: letters in a figure, which stand on lines. They have the colour of the page's text.
      const unsure = told(incomplete).filter(({ html }) => !html.startsWith('<text'));
      expect(unsure).toEqual([]);
      expect(passes.map(({ id }) => id)).toContain('color-contrast');
    }
    await page.emulateMedia({ media: null, colorScheme: null });
  });

  test('is black on white on paper, whatever the screen is', async () => {
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await opened(specimen());
    const colours = await page.evaluate(
      `[...document.querySelectorAll('body *')].map((e) => getComputedStyle(e).color)`,
    );
    expect(new Set(colours as string[])).toEqual(new Set(['rgb(0, 0, 0)']));
    await page.emulateMedia({ media: null, colorScheme: null });
  });

  test('says the text of a file in the foot of its pages as it is', async () => {
    await fc.assert(
      fc.asyncProperty(awkward, async (text) => {
        await page.setContent(
          `<!DOCTYPE html><title>Foot</title><style>${styleOf({ paper: 'a4', foot: text, widths: [] }, sheetWords('en'))}</style><p>`,
        );
        const { content, elements } = (await page.evaluate(`(() => {
          const rules = [...document.styleSheets[0].cssRules];
          const css = rules.at(-1).cssText;
          const probe = new CSSStyleSheet();
          const [, content] = /@bottom-left \\{[^]*?content: ("(?:[^"\\\\]|\\\\.)*")/.exec(css);
          probe.replaceSync('p::before { content: ' + content + '}');
          document.adoptedStyleSheets = [probe];
          const shown = getComputedStyle(document.querySelector('p'), '::before').content;
          return {
            content: shown === 'none' ? '' : shown.slice(1, -1).replace(/\\\\(.)/g, '$1'),
            elements: document.querySelectorAll('*').length,
          };
        })()`)) as { content: string; elements: number };
        expect(content).toBe(seenIn(text));
        expect(elements).toBe(6);
      }),
      { numRuns: 100 },
    );
  });

  describe('printed', () => {
    const SIZES = { a4: [595, 842], letter: [612, 792] } as const;
    const POINTS_FROM_EDGE = 60;
    interface Printed {
      readonly width: number;
      readonly height: number;
      readonly lines: string;
      readonly foot: string;
    }
    async function printed(sheet: Sheet, paper: Paper): Promise<Printed[]> {
      await opened(sheet, paper);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      const read: PDFDocumentProxy = await getDocument({ data: new Uint8Array(pdf) }).promise;
      return Promise.all(
        Array.from({ length: read.numPages }, async (_, i) => {
          const sheetOfPaper = await read.getPage(i + 1);
          const [, , width, height] = sheetOfPaper.view;
          const { items } = await sheetOfPaper.getTextContent();
          const texts = items.flatMap((item) => ('str' in item ? [item] : []));
          const join = (isFoot: boolean): string =>
            texts
              .filter(({ transform }) => transform[5] < POINTS_FROM_EDGE === isFoot)
              .map(({ str }) => str)
              .join(' ')
              .replace(/\s+/g, ' ');
          return { width, height, lines: join(false), foot: join(true) };
        }),
      );
    }

    test.each(PAPERS)('on %s has the paper’s size, its title and its number on every page', async (paper) => {
      const pages = await printed(specimen('bench'), paper);
      expect(pages.length).toBeGreaterThan(3);
      pages.forEach(({ width, height, foot }, i) => {
        expect([Math.round(width), Math.round(height)]).toEqual(SIZES[paper]);
        expect(foot).toContain('Floor area of a bay · bay.crank');
        expect(foot).toContain(`Page ${i + 1} of ${pages.length}`);
      });
    });

    test('splits no step, leaves no heading alone and repeats the head of a table', async () => {
      const step = 'Turn the crank. '.repeat(12).trim();
      const rows = Array.from({ length: 60 }, (_, i): Text[] => [[`row ${i}`], []]);
      const steps = Array.from({ length: 17 }, (_, i) => ({
        number: `${i + 1}`,
        text: [`(begins ${i + 1}) ${step} ${step} (ends ${i + 1})`],
      }));
      const blocks: Block[] = [
        ...steps.flatMap((one, i): Block[] => [
          { is: 'heading', level: 3, text: [`Part ${i + 1} of it`] },
          { is: 'steps', steps: [one] },
        ]),
        { is: 'page' },
        { is: 'table', caption: 'Rows', columns: [{ head: 'Headword' }, { head: 'Reads', blank: 40 }], rows },
      ];
      const pages = await printed({ ...specimen(), blocks }, 'a4');
      const pageOf = (text: string): number => pages.findIndex(({ lines }) => lines.includes(text));
      for (const { number } of steps) {
        const at = pageOf(`(begins ${number})`);
        expect(at).toBeGreaterThanOrEqual(0);
        expect(pageOf(`(ends ${number})`)).toBe(at);
        expect(pageOf(`Part ${number} of it`)).toBe(at);
      }
      expect(pageOf('(ends 17)')).toBeGreaterThan(0);
      const first = pageOf('row 0');
      expect(first).toBeGreaterThan(pageOf('(ends 17)'));
      const withRows = pages.slice(first);
      expect(withRows.length).toBeGreaterThan(1);
      for (const { lines } of withRows) expect(lines).toContain('Headword');
    });
  });
});
