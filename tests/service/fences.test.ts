import fc from 'fast-check';
import { HtmlValidate } from 'html-validate';
import { parseFragment } from 'parse5';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { fencesGradually } from '../../server/service/fences.js';
import { awkward } from '../sheets/hostile.js';
import { openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6 "The office machine"\n  setting 6\n  counter 6\n  result 12\n';

const views = (text: string, wishes: Parameters<typeof reader>[0] = {}, name = 'page.md') =>
  finish(fencesGradually(openMarked(text, {}, name).document, reader(wishes)));

const page = (...fences: string[]): string =>
  fences.map((text) => `Prose.\n\n\`\`\`crank\n${text}\n\`\`\`\n`).join('\n');

/** What is to be read in a piece of HTML, a line a paragraph, list item or row; drawings are left out. */
const read = (html: string): string[] =>
  html
    .replace(/<svg[\s\S]*?<\/svg>/g, '[drawn] ')
    .replace(/<\/t[hd]>/g, '|')
    .replace(/<\/(?:p|li|tr|figure)>/g, '\n')
    .replace(/\n(?=[^\n<])|<[^>]*>/g, (part) => (part.startsWith('\n') ? '\n' : ''))
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

const BAY = 'sequence bay "One bay" (a = 12) on office-6\n  case a = 15\n  clear all\n  set a\n  turn 3';

describe('a fence in a preview', () => {
  test('has the machine drawn after its last step, and the readings of each', () => {
    const [, { content, html }] = views(page(OFFICE, `${BAY}\n  expect counter 3`));
    expect(content).toBe(`${BAY}\n  expect counter 3\n`);
    expect(read(html)).toEqual([
      'One bay, on The office machine (a = 12)',
      '[drawn] After turn 3',
      'Step|Setting|Counter|Result|',
      'clear all||||',
      'set a|12|||',
      'turn 3||3|36|',
      'expect counter 3||3||',
    ]);
    expect(html).toContain('Setting 12. Result 36. Counter 3.');
  });

  test('says what was found in it, with what it is about; hints are left to the editor', () => {
    const [, { html }] = views(page(OFFICE, `${BAY.replace('turn 3', 'turn 8')}\n  expect result 97`));
    expect(read(html)[0]).toMatch(/^error expect result 97 – The result reads 96, not 97\./);
    expect(html).not.toContain('shift right');
    const [, german] = views(page(OFFICE, `${BAY}\n  expect result 37`), { locale: 'de' });
    expect(read(german.html)[0]).toMatch(/^Fehler expect result 37 – /);
    expect(read(german.html)[1]).toBe('One bay, auf The office machine (a = 12)');
  });

  test('follows the chosen case', () => {
    const lines = (cases: Record<string, number>) => read(views(page(OFFICE, BAY), { cases })[1].html);
    expect(lines({ bay: 1 })[0]).toBe('One bay, on The office machine (a = 15) · case 1');
    expect(lines({ bay: 1 }).at(-1)).toBe('turn 3||3|45|');
    expect(lines({}).at(-1)).toBe('turn 3||3|36|');
  });

  test('has what it holds of a sequence that goes on in the next one', () => {
    const [, begun, done] = views(page(OFFICE, BAY, '  shift right\n  turn 2'));
    expect(read(begun.html).slice(1)).toEqual([
      '[drawn] After turn 3',
      'Step|Setting|Counter|Result|',
      'clear all||||',
      'set a|12|||',
      'turn 3||3|36|',
    ]);
    expect(read(done.html)).toEqual([
      'One bay, on The office machine (a = 12)',
      '[drawn] After turn 2',
      'Step|Setting|Counter|Result|Position|',
      'shift right||||2|',
      'turn 2||23|276||',
    ]);
  });

  test('has each of its sequences, and a machine in words', () => {
    const [{ html }] = views(page(`${OFFICE}sequence a on office-6\n  turn\nsequence b on office-6\n  set 5; turn 2`));
    expect(read(html).filter((line) => /The office machine|^6 setting|drawn/.test(line))).toEqual([
      'The office machine',
      expect.stringMatching(/^6 setting levers, 6 places in the counter, 12 places in the result/),
      'a, on The office machine',
      '[drawn] After turn',
      'b, on The office machine',
      '[drawn] After turn 2',
    ]);
  });

  test('shows how far a run comes that breaks off', () => {
    const [, first, second] = views(
      page(OFFICE, 'sequence a on office-6\n  set 0\n  turn back until overdraw', '  turn 3'),
    );
    expect(read(first.html)).toContain('[drawn] After turn back until overdraw');
    expect(read(second.html).at(-1)).toMatch(/^The run breaks off here: one step is not carried out\./);
    expect(second.html).not.toContain('<svg');
  });

  test('has nothing where there is nothing to show, and says why where nothing can be run', () => {
    const [used, nothing, lost] = views(
      page('# only a remark', 'sequence a on office-6', 'sequence b on attic-9\n  turn'),
    );
    expect([used.html, nothing.html]).toEqual(['', expect.not.stringContaining('<svg')]);
    expect(read(lost.html)[0]).toMatch(/^error attic-9 – /);
    expect(lost.html).not.toContain('<svg');
  });

  test('is found in quotations and lists, by its text as a page shows it', () => {
    const quoted = `> \`\`\`crank\n${`${OFFICE}sequence a on office-6\n  turn 2`.replace(/^/gm, '> ')}\n> \`\`\`\n`;
    const [{ content, html }] = views(quoted);
    expect(content).toBe(`${OFFICE}sequence a on office-6\n  turn 2\n`);
    expect(read(html)).toContain('[drawn] After turn 2');
  });

  test('is only there in Markdown', () => expect(views(OFFICE, {}, 'a.crank')).toEqual([]));

  test('is said to be left out where a page has too many', () => {
    const many = views(page(...Array.from({ length: 203 }, () => '# remark'), OFFICE));
    expect(many).toHaveLength(204);
    expect(many[199].html).toBe('');
    expect(read(many[203].html)).toEqual(['The page has more blocks than a preview can show: this one is left out.']);
  });

  test('is the same again while its run is the same', () => {
    const { document } = openMarked(page(OFFICE, BAY), {}, 'page.md');
    const [first, again] = [1, 2].map(() => finish(fencesGradually(document, reader())));
    expect(again).toEqual(first);
    expect(finish(fencesGradually(document, reader({ locale: 'de' })))[1].html).toContain('Nach <code>turn 3</code>');
  });
});

interface Element {
  readonly nodeName: string;
  readonly attrs?: readonly { readonly name: string }[];
  readonly childNodes?: readonly Element[];
}
function* elementsIn(node: Element): Generator<Element> {
  if (!node.nodeName.startsWith('#')) yield node;
  for (const child of node.childNodes ?? []) yield* elementsIn(child);
}
const OURS = new Set(
  `div p ul li strong code samp figure figcaption table thead tbody tr th td
   svg title desc g rect path circle text`.split(/\s+/),
);

describe('whatever is written in a file', () => {
  const validate = new HtmlValidate({
    extends: ['html-validate:standard'],
    rules: { 'require-sri': 'off', 'svg-focusable': 'off' },
  });

  test('comes out as text', async () => {
    const quoted = (text: string) => text.replace(/["\r\n\u0085\u2028\u2029\f\v]/g, '');
    await fc.assert(
      fc.asyncProperty(awkward, async (text) => {
        const title = quoted(text);
        const fence = `machine a "${title}"\n  setting 4\n  counter 4\n  result 8\nsequence b "${title}" on a\n  turn\n  ${title}`;
        const [view] = views(`~~~~~~~~~~~~ crank\n${fence}\n~~~~~~~~~~~~\n`);
        const html = view?.html ?? '';
        const elements = [...elementsIn(parseFragment(html) as Element)];
        const names = new Set(elements.map(({ nodeName }) => nodeName));
        expect([...names].filter((one) => !OURS.has(one))).toEqual([]);
        const attributes = elements.flatMap(({ attrs = [] }) => attrs.map(({ name }) => name));
        expect(attributes.filter((one) => /^on|^style$|^id$|href|^src/.test(one))).toEqual([]);
        expect(html).not.toMatch(/[\u202a-\u202e\u2066-\u2069\u0000]/);
        const { results } = await validate.validateString(
          `<!DOCTYPE html><html lang="en"><head><title>a</title></head><body>${html}</body></html>`,
        );
        expect(
          results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`)),
        ).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
