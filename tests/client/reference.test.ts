/** The reference as the extension shows it: a page for each entry. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { entriesOf, pageOf, WHOLE } from '../../client/entries.js';
import { wordsOf } from '../../grammar/tokens.js';
import { CODES } from '../../server/sequence/findings.js';

const text = readFileSync(fileURLToPath(new URL('../../grammar/REFERENCE.md', import.meta.url)), 'utf8');
const entries = entriesOf(text);

describe('the pages of the reference', () => {
  it.each(Object.keys(CODES))('there is one for %s', (code) => {
    expect(entries.get(code)).toMatch(new RegExp(`^# ${code}\n\n[^]+\`\`\`crank`));
  });

  it('each begins with its heading and ends before the next', () => {
    expect(wordsOf('step').filter((word) => entries.has(word)).length).toBeGreaterThan(10);
    for (const [entry, page] of entries)
      expect(page.match(/^#+ .*/gm)?.filter((line) => line !== `# ${entry}`)).toEqual([]);
  });

  it('lead to one another, or into the whole', () => {
    const pages = new Set([...entries.keys(), WHOLE].map(pageOf));
    const links = [...entries.values()].flatMap((page) =>
      Array.from(page.matchAll(/\]\(([^)]*)\)/g), ([, link]) => link),
    );
    expect(links.length).toBeGreaterThan(5);
    for (const link of links) expect(pages.has(link.split('#')[0]) || link.startsWith('https://'), link).toBe(true);
  });
});
