/** The extension's manifest: what it names is there, and everything that a person reads is there in German too. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { SETTINGS, type SettingSchema } from '../../server/service/settings.js';

const client = fileURLToPath(new URL('../../client', import.meta.url));
const read = (file: string): string => readFileSync(path.join(client, file), 'utf8');
const texts = (file: string): Record<string, string> => JSON.parse(read(file));
const manifest = JSON.parse(read('package.json'));
const sources = readdirSync(client)
  .filter((name) => name.endsWith('.ts'))
  .map(read)
  .join('\n');

describe('what the manifest says', () => {
  const english = texts('package.nls.json');
  const german = texts('package.nls.de.json');

  /** The texts that the settings get when the extension is packed. */
  const settingTexts = Object.entries<SettingSchema>(SETTINGS).flatMap(([name, schema]) => [
    `setting.${name}`,
    ...(schema.enum ?? []).map((value) => `setting.${name}.${value}`),
  ]);
  const traceTexts = ['', '.off', '.messages', '.verbose'].map((end) => `setting.trace.server${end}`);
  const named = Array.from(read('package.json').matchAll(/%([\w.]+)%/g), ([, key]) => key);

  it('has each of its texts, and none too many', () => {
    expect(Object.keys(english).sort()).toEqual(
      [...new Set([...named, ...settingTexts, ...traceTexts, 'setting.list'])].sort(),
    );
  });

  it('is in German as well', () => {
    expect(Object.keys(german).sort()).toEqual(Object.keys(english).sort());
    for (const [key, text] of Object.entries(german)) expect(text, key).not.toBe('');
  });

  it('keeps the settings to the table of the server', () => {
    expect(manifest.contributes.configuration).toEqual({});
  });
});

describe('what the extension says', () => {
  const german = texts('l10n/bundle.l10n.de.json');
  const said = Array.from(sources.matchAll(/l10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g), ([, text]) => text);

  it('is in German, all of it and nothing else', () => {
    expect(Object.keys(german).sort()).toEqual([...new Set(said)].sort());
  });

  it('has the same gaps in German', () => {
    const gaps = (text: string) => [...(text.match(/\{\d\}/g) ?? [])].sort();
    for (const [english, text] of Object.entries(german)) expect(gaps(text), english).toEqual(gaps(english));
  });
});

describe('commands', () => {
  const offered: string[] = manifest.contributes.commands.map(({ command }: { command: string }) => command);
  const registered = Array.from(sources.matchAll(/\bcommand\('(\w+)'/g), ([, name]) => `cranknote.${name}`);

  it('are all carried out', () => {
    expect(registered).toEqual(expect.arrayContaining(offered));
  });

  it('in menus are among them', () => {
    const items = Object.values<{ command: string }[]>(manifest.contributes.menus).flat();
    for (const { command } of items) expect(offered).toContain(command);
  });
});

it('the pictures that it names are there', () => {
  const [{ icon }] = manifest.contributes.languages;
  for (const file of [manifest.icon, icon.light, icon.dark])
    expect(existsSync(path.join(client, file)), file).toBe(true);
});
