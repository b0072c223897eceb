/** What is handed to users: the README as it stands, and the package. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { format } from '../grammar/formatter.js';
import { CODES } from '../server/sequence/findings.js';
import { checkText } from './marked.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (file: string) => readFileSync(path.join(root, file), 'utf8');
const tokens = (file: string) => new MarkdownIt().parse(read(file), {});

describe('the README', () => {
  const fences = tokens('README.md').filter(({ type }) => type === 'fence');
  const screenful = fences.find(({ content }) => content.includes('machine desk-9'))?.content ?? '';

  it('shows a file in which nothing is wrong, as the formatter writes it', () => {
    const { findings, report } = checkText(screenful);
    expect(findings).toEqual([]);
    expect(report.sequences.map(({ runs }) => runs.length)).toEqual([2, 1]);
    expect(format(screenful)).toBe(screenful);
  });

  it('gives the two commands to begin with', () => {
    const contents = fences.map(({ content }) => content.trim());
    expect(contents).toEqual(expect.arrayContaining(['npm ci && npm start', 'npm ci && npm test']));
  });

  it.each(['README.md', 'DEVELOPERS.md', 'CHANGELOG.md'])('%s leads only to files that there are', (file) => {
    const links = tokens(file).flatMap(({ children }) =>
      (children ?? []).flatMap((child) => String(child.attrGet('href') ?? child.attrGet('src') ?? '')),
    );
    const missing = links.filter(
      (link) => !link.startsWith('https://') && !existsSync(path.join(root, link.split('#')[0])),
    );
    expect(missing).toEqual([]);
  });

  it.each(['README.md', 'client/README.md'])(
    '%s has pictures by light and by dark, told in words, and none too large',
    (file) => {
      const page = read(file);
      const pictures = page.match(/<picture>[\s\S]*?<\/picture>/g) ?? [];
      expect(pictures.length).toBeGreaterThan(1);
      for (const picture of pictures) {
        const [, dark] =
          /<source media="\(prefers-color-scheme: dark\)" srcset="([^"]+-dark\.png)">/.exec(picture) ?? [];
        const [, alt, light] = /<img alt="([^"]{30,})" src="([^"]+-light\.png)">/.exec(picture) ?? [];
        expect(alt, picture).toBeDefined();
        expect(dark?.replace('-dark', '-light'), picture).toBe(light);
        for (const name of [dark, light])
          expect(existsSync(path.join(root, path.dirname(file), name ?? '')), name).toBe(true);
      }
      // Markdown within HTML would be shown as it is written.
      expect(page.match(/<img/g)?.length).toBe(pictures.length);
    },
  );

  it('has no picture that is larger than it need be, and none that nobody sees', () => {
    const folder = path.join(root, 'client/pictures');
    const named = ['README.md', 'client/README.md'].map(read).join('\n');
    for (const name of readdirSync(folder)) {
      expect(statSync(path.join(folder, name)).size, name).toBeLessThan(300_000);
      expect(named).toContain(`pictures/${name}`);
    }
  });
});

it('the changelog counts the findings that there are', () => {
  const counted = /(\d+) findings/.exec(read('CHANGELOG.md'))?.[1];
  expect(Number(counted)).toBe(Object.keys(CODES).length);
});

describe('the package', () => {
  const packed = JSON.parse(
    execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], { cwd: root, encoding: 'utf8' }),
  );
  const { files, size } = (Array.isArray(packed) ? packed : Object.values(packed))[0];

  it('holds the program, the pages and the samples, and nothing else', () => {
    const names: string[] = files.map((file: { path: string }) => file.path);
    const others = names.filter(
      (name) => !/^(?:dist|samples)\/|^grammar\/REFERENCE\.md$|^[A-Z]+(?:\.md)?$|^package\.json$/.test(name),
    );
    expect(others).toEqual([]);
    expect(names).toEqual(
      expect.arrayContaining([
        'dist/cranknote.cjs',
        'dist/server-node.cjs',
        'grammar/REFERENCE.md',
        'samples/machines.crank',
      ]),
    );
  });

  it('takes less than a megabyte, and the program itself hardly more', () => {
    expect(size).toBeLessThan(1_000_000);
    expect(statSync(path.join(root, 'dist/cranknote.cjs')).size).toBeLessThan(1_100_000);
  });
});
