/** The reference as the extension shows it: a page for each entry. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { entriesOf, LISTS, pageOf, WHOLE } from '../../client/entries.js';
import { wordsOf } from '../../grammar/tokens.js';
import { CODES } from '../../server/sequence/findings.js';
import { SETTINGS } from '../../server/service/settings.js';

const text = readFileSync(fileURLToPath(new URL('../../grammar/REFERENCE.md', import.meta.url)), 'utf8');
const entries = entriesOf(text);

describe('the pages of the reference', () => {
  it.each(Object.keys(CODES))('there is one for %s', (code) => {
    expect(entries.get(code)).toMatch(new RegExp(`^# ${code}\n\n[^]+\`\`\`crank`));
  });

  it('each begins with its heading and ends before the next', () => {
    expect(wordsOf('step').filter((word) => entries.has(word)).length).toBeGreaterThan(10);
    for (const [entry, page] of entries) {
      const [heading, ...others] = page.match(/^#+ .*/gm) ?? [];
      expect([heading, ...others]).toEqual([`# ${entry in LISTS ? LISTS[entry as keyof typeof LISTS] : entry}`]);
    }
  });

  it('there are lists of all findings and of all settings', () => {
    const findings = entries.get('findings') ?? '';
    for (const code of Object.keys(CODES)) expect(findings).toContain(`](${pageOf(code)})`);
    const settings = entries.get('settings') ?? '';
    for (const name of Object.keys(SETTINGS)) expect(settings).toContain(`\`cranknote.${name}\``);
    expect(findings + settings).not.toContain('<!--');
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
