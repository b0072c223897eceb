/** The package of the extension: what is in it, and that it is no larger than it need be. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { SETTINGS } from '../../server/service/settings.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = path.join(root, 'dist/extension');

describe('the packed extension', () => {
  beforeAll(() => {
    execFileSync(process.execPath, ['client/package.mjs'], { cwd: root, stdio: 'pipe' });
  });
  const files = () =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /\.\w+$|LICENSE/.test(name));
  const manifest = () => JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));

  it('holds what its manifest names', () => {
    const { main, browser, icon, contributes } = manifest();
    const { languages, grammars, snippets } = contributes;
    const named = [main, browser, icon, languages[0].configuration, languages[0].icon.light, languages[0].icon.dark];
    for (const { path: file } of [...grammars, ...snippets]) named.push(file);
    const held = files();
    for (const file of named) expect(held).toContain(path.normalize(file));
  });

  it('has the version of the project and is no module, for its bundles are none', () => {
    const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
    expect(manifest().version).toBe(version);
    expect(manifest().type).toBeUndefined();
  });

  it('has the settings of the table with their schema', () => {
    const { properties } = manifest().contributes.configuration;
    for (const [name, schema] of Object.entries(SETTINGS)) {
      expect(properties[`cranknote.${name}`]).toMatchObject(schema);
    }
    expect(Object.keys(properties)).toHaveLength(Object.keys(SETTINGS).length + 1);
  });

  it('holds no source, no map and no picture that nobody sees', () => {
    expect(files().filter((name) => /\.(?:ts|mjs|map)$|node_modules|pictures/.test(name))).toEqual([]);
  });

  it('holds every example, by its name, and the pictures of the first steps', () => {
    const held = files();
    const examples = readdirSync(path.join(root, 'samples')).sort();
    const list = JSON.parse(readFileSync(path.join(folder, 'samples/files.json'), 'utf8'));
    expect(list).toEqual(examples);
    for (const name of examples) expect(held).toContain(path.join('samples', name));
    for (const name of readdirSync(path.join(root, 'client/walkthrough')))
      expect(held).toContain(path.join('walkthrough', name));
  });

  it('leads from each setting to the list of all, in either language', () => {
    for (const file of ['package.nls.json', 'package.nls.de.json']) {
      const texts = JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
      for (const name of Object.keys(SETTINGS))
        expect(texts[`setting.${name}`]).toMatch(/\n\n\[.+\]\(command:cranknote\.openSettingsList\)$/);
    }
    const { properties } = manifest().contributes.configuration;
    for (const name of Object.keys(SETTINGS))
      expect(properties[`cranknote.${name}`].markdownDescription).toBe(`%setting.${name}%`);
  });

  it('has a page without pictures, for those are not packed', () => {
    const page = readFileSync(path.join(folder, 'README.md'), 'utf8');
    expect(page).toContain('## To begin');
    expect(page).not.toMatch(/<picture|<img|!\[/);
  });

  it('takes no more than a megabyte and a half', () => {
    expect(statSync(path.join(root, 'dist/cranknote.vsix')).size).toBeLessThan(1_500_000);
  });
});
