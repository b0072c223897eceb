/** The reference says what is true: every example on it is cranked, every form and every finding has its entry. */
import { describe, expect, it } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { crankFences, formatMarkdown } from '../../grammar/markdown.js';
import { WORDS } from '../../grammar/tokens.js';
import { CODES } from '../../server/sequence/findings.js';
import { SETTINGS } from '../../server/service/settings.js';
import { checkFiles, expectMarked } from '../marked.js';
import { asFiles, type Fence, PAGE_PATH, pageText, readPage } from './page.js';
import { findingsTable, settingsTable, withFreshTables, wordsTable } from './tables.js';

const text = pageText();
const page = readPage(text);
const named = (fences: readonly Fence[]) =>
  fences.map((fence) => [`line ${fence.line} (${fence.entry})`, fence] as const);
const examples = page.fences.filter(({ kind, file }) => kind === 'example' && file === undefined);
const mistakes = page.fences.filter(({ kind, file }) => kind === 'mistake' && file === undefined);
const entry = (title: string) => {
  const found = page.entries.filter((e) => e.title === title);
  expect(found.length, `entries headed “${title}”`).toBe(1);
  return found[0];
};
/** What people wrote, without the generated tables. */
const handWritten = text.replaceAll(/<!-- \w+: generated -->[\s\S]*?<!-- end -->/g, '');
const hasWord = (body: string, word: string) =>
  new RegExp(`(?<![\\p{L}\\p{N}-])${word}(?![\\p{L}\\p{N}-])`, 'u').test(body.replaceAll(/"[^"]*"|#.*/g, ''));
const check = (fence: Fence, level?: 'hint') => {
  const { text: file, others } = asFiles(page, fence);
  return expectMarked(file, { ...(level && { level }), others, isPage: fence.isPage });
};

describe('the tables', () => {
  it('are what the program has', async () => {
    await expect(
      withFreshTables(text),
      'Stale: write them again with `npx vitest run tests/reference --update`',
    ).toMatchFileSnapshot(PAGE_PATH);
  });

  it('have a row for every word, every finding and every setting', () => {
    for (const { word, meaning } of WORDS) {
      expect(wordsTable()).toContain(`\`${word}\``);
      expect(wordsTable()).toContain(meaning);
    }
    for (const [code, level] of Object.entries(CODES)) expect(findingsTable(text)).toContain(`(#${code}) | ${level} |`);
    for (const name of Object.keys(SETTINGS)) {
      expect(settingsTable()).toMatch(new RegExp(`^\\| \`cranknote\\.${name}\` \\|.* \\| .*\\w\\. \\|$`, 'm'));
    }
  });

  it('replace what stood in their place, and nothing else', () => {
    const stale = text.replace(wordsTable(), '| old |').replace(findingsTable(text), '');
    expect(stale).not.toBe(text);
    expect(withFreshTables(stale)).toBe(withFreshTables(text));
    expect(() => withFreshTables(text.replace('<!-- words: generated -->', ''))).toThrow('table of words');
  });
});

describe('the page', () => {
  it('holds nothing that is read when it is checked as a Markdown page', () => {
    expect(crankFences(text)).toEqual([]);
  });

  it('links to headings that it has', () => {
    const slugs = new Set(
      [...text.matchAll(/^#{1,3} (.+)$/gm)].map(([, heading]) =>
        heading
          .toLowerCase()
          .replaceAll(/[^\p{L}\p{N}\s-]/gu, '')
          .replaceAll(' ', '-'),
      ),
    );
    const links = [...text.matchAll(/\]\(#([^)]+)\)/g)].map(([, target]) => target);
    expect(links.length).toBeGreaterThan(100);
    expect(links.filter((target) => !slugs.has(target))).toEqual([]);
  });

  it('describes machines that can be built', () => {
    const [machines] = page.fences.filter(({ kind }) => kind === 'machines');
    expect(checkFiles({ 'machines.crank': machines.text }).findings).toEqual([]);
  });

  it.each(WORDS.map(({ word }) => word))('uses “%s” in an example', (word) => {
    expect(page.fences.some((fence) => hasWord(fence.text, word))).toBe(true);
  });

  it.each(named(page.fences))('has the example on %s written as the formatter writes it', (_, fence) => {
    expect(fence.isPage ? formatMarkdown(fence.text) : format(fence.text)).toBe(fence.text);
  });
});

describe('forms', () => {
  const written = WORDS.flatMap(({ word, forms = {} }) =>
    Object.entries(forms).flatMap(([kind, list]) => list.map((form) => [form, kind, word] as const)),
  );
  it.each(written)('shows `%s` (%s)', (form, kind, word) => {
    const [machineSection] = page.entries.filter(({ section }) => section === '2. A machine');
    const where = kind === 'step' ? entry(word).text : kind === 'machine' ? machineSection.text : handWritten;
    expect(where).toContain(`\`${form}\``);
  });

  it.each(WORDS.filter(({ kinds }) => kinds.includes('step')).map(({ word }) => word))(
    'has an entry for %s, with an example of it',
    (word) => {
      const { fences } = entry(word);
      const isUsed = new RegExp(`(^|[;{])\\s*${word}(?![\\p{L}\\p{N}-])`, 'mu');
      expect(fences.some(({ kind, text: body }) => kind === 'example' && isUsed.test(body))).toBe(true);
    },
  );
});

describe('examples', () => {
  it.each(named(examples))('are right: %s', (_, fence) => {
    const { findings, report } = check(fence);
    const grave = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(grave.map(({ message }) => message)).toEqual([]);
    expect(report.sequences.length).toBeGreaterThan(0);
    expect(report.sequences.every(({ runs }) => runs.length > 0 && runs.every(({ brokeOff }) => !brokeOff))).toBe(true);
  });

  it.each(named(examples))('show a reading: %s', (_, fence) => {
    expect(/^\s*(expect|goal) |; (expect) /m.test(fence.text)).toBe(true);
  });

  it('are cranked, so that a wrong reading would be seen', () => {
    const changed = examples.map((fence) => ({
      ...fence,
      text: fence.text.replace(/(expect (?:result|counter) )\d+/, '$11234567890'),
    }));
    const wrong = changed.filter((fence, i) => fence.text !== examples[i].text);
    expect(wrong.length).toBeGreaterThan(40);
    for (const fence of wrong) {
      const { text: file, others } = asFiles(page, fence);
      const codes = checkFiles({ [fence.isPage ? 'test.md' : 'test.crank']: file, ...others }).findings.map(
        ({ code }) => code,
      );
      expect(codes, `line ${fence.line}`).toContain('reading-differs');
    }
  });
});

describe('findings', () => {
  const codes = Object.keys(CODES);

  it('have their entries in the order of the program', () => {
    const titles = page.entries.filter(({ section, title }) => section === '8. Findings' && title !== '');
    expect(titles.map(({ title }) => title)).toEqual(codes);
  });

  it.each(codes)('%s has a mistake that shows it, and the same done right', (code) => {
    const { fences } = entry(code);
    const shown = fences.filter(({ kind, file }) => kind === 'mistake' && file === undefined);
    expect(shown.length).toBeGreaterThan(0);
    for (const fence of shown) expect(check(fence).findings.map((f) => f.code)).toContain(code);
    const right = fences.filter(({ kind, file }) => kind === 'example' && file === undefined);
    expect(right.length).toBeGreaterThan(0);
    for (const fence of right) expect(check(fence).findings.map((f) => f.code)).not.toContain(code);
  });

  it('are marked on every line that has them', () => {
    for (const fence of mistakes) check(fence);
    expect(mistakes.length).toBeGreaterThanOrEqual(codes.length);
  });
});
