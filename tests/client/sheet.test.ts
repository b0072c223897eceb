/** Sheets in the extension, where no editor is needed to try them: what is kept, and the ways to paper. */
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { URI, Utils } from 'vscode-uri';
import type { SheetAnswer } from '../../client/protocol.js';
import type { ToPage } from '../../client/sheet-messages.js';
import { printSheet, saveSheet } from '../../client/sheet-out.js';
import { choicesFrom, stateFrom } from '../../client/sheet-state.js';
import { styleOf } from '../../server/sheets/style.js';
import { sheetWords } from '../../server/sheets/wording/index.js';

/** As much of an editor as a sheet needs on its way out. */
const editor = vi.hoisted(() => ({
  written: new Map<string, string>(),
  deleted: [] as string[],
  opened: [] as string[],
  said: [] as string[],
  opens: true,
  target: undefined as unknown,
  asked: undefined as { defaultUri?: { toString(): string } } | undefined,
  env: { uiKind: 1, remoteName: undefined as string | undefined },
  folders: undefined as unknown,
}));
vi.mock('vscode', async () => {
  const uri = await import('vscode-uri');
  return {
    Uri: Object.assign(uri.URI, { joinPath: uri.Utils.joinPath }),
    UIKind: { Desktop: 1, Web: 2 },
    l10n: { t: (text: string, ...gaps: string[]) => text.replace(/\{(\d)\}/g, (_, n) => gaps[Number(n)]) },
    env: Object.assign(editor.env, {
      openExternal: async (address: URI) => {
        editor.opened.push(address.toString());
        return editor.opens;
      },
    }),
    window: {
      showSaveDialog: async (options: typeof editor.asked) => {
        editor.asked = options;
        return editor.target;
      },
      showInformationMessage: (text: string) => void editor.said.push(text),
      showWarningMessage: (text: string) => void editor.said.push(text),
    },
    workspace: {
      get workspaceFolders() {
        return editor.folders;
      },
      fs: {
        writeFile: async (address: URI, bytes: Uint8Array) =>
          void editor.written.set(address.toString(), new TextDecoder().decode(bytes)),
        createDirectory: async () => {},
        delete: async (address: URI) => {
          editor.deleted.push(address.toString());
          throw new Error('There is no such folder.');
        },
      },
    },
  };
});

const answer = (content: string): SheetAnswer => ({
  sequence: 'pots',
  sequences: [],
  choices: { kind: 'key', language: 'de', paper: 'a4', figures: 'none', format: 'html' },
  offers: { kind: [], language: [], paper: [], figures: [] },
  sheet: { title: 'Pots', content },
});
const sheet = { uri: 'file:///nursery/a.crank', make: async (format: string) => answer(`a sheet as ${format}`) };
const refused = {
  uri: sheet.uri,
  make: async () => {
    const { sheet: _, ...none } = answer('');
    return { ...none, refused: { message: 'There is no sheet.' } };
  },
};
beforeEach(() => {
  editor.written.clear();
  Object.assign(editor, { opened: [], said: [], opens: true, target: undefined, asked: undefined, folders: undefined });
  Object.assign(editor.env, { uiKind: 1, remoteName: undefined });
});

describe('a sheet to be printed', () => {
  const print = async (what: typeof sheet | typeof refused): Promise<ToPage[]> => {
    const sent: ToPage[] = [];
    await printSheet(what, URI.parse('file:///storage'), (message) => sent.push(message));
    return sent;
  };

  it('is opened in the browser of the same machine, from a folder that begins empty', async () => {
    const [told, ...more] = await print(sheet);
    expect(told).toEqual({ is: 'told', text: 'The sheet is open in your browser. Print it there.' });
    expect(more).toEqual([]);
    expect(editor.opened).toEqual(['file:///storage/print/pots.key.html']);
    expect(editor.written.get(editor.opened[0])).toBe('a sheet as html');
    await print(sheet);
    expect(editor.deleted).toEqual(['file:///storage/print']);
  });

  it('is downloaded where no browser opens, the editor is in one, or the files are on another machine', async () => {
    const ways = [{ opens: false }, { env: { uiKind: 2 } }, { env: { uiKind: 1, remoteName: 'ssh-remote' } }];
    for (const { env = {}, ...way } of ways) {
      Object.assign(editor, way);
      Object.assign(editor.env, env);
      const [download, told] = await print(sheet);
      expect(download).toEqual({ is: 'download', name: 'pots.key.html', content: 'a sheet as html' });
      expect(told).toMatchObject({ is: 'told', text: expect.stringContaining('pots.key.html is downloaded.') });
    }
  });

  it('is none where the text is wrong', async () => {
    expect(await print(refused)).toEqual([]);
    expect(editor.said).toEqual(['There is no sheet.']);
    expect(editor.written.size).toBe(0);
  });
});

describe('a sheet to be saved', () => {
  it('lies beside its text, as the command line calls it', async () => {
    await saveSheet(sheet);
    expect(String(editor.asked?.defaultUri)).toBe('file:///nursery/pots.key.html');
    expect(editor.written.size).toBe(0);
  });

  it('is a page, or Markdown by its ending', async () => {
    for (const [name, content] of [
      ['a.html', 'a sheet as html'],
      ['b.md', 'a sheet as markdown'],
      ['c.Markdown', 'a sheet as markdown'],
    ]) {
      const target = Utils.joinPath(URI.parse('file:///nursery'), name);
      editor.target = target;
      await saveSheet(sheet);
      expect(editor.written.get(target.toString())).toBe(content);
      expect(editor.said.at(-1)).toBe(`The sheet is saved as ${name}.`);
    }
  });

  it('of a text that lies nowhere yet lies in the folder, if there is one', async () => {
    const untitled = { ...sheet, uri: 'untitled:Untitled-1' };
    await saveSheet(untitled);
    expect(editor.asked).not.toHaveProperty('defaultUri');
    editor.folders = [{ uri: URI.parse('file:///nursery') }];
    await saveSheet(untitled);
    expect(String(editor.asked?.defaultUri)).toBe('file:///nursery/pots.key.html');
  });

  it("is none where the text is wrong, or can't be read", async () => {
    await saveSheet(refused);
    await saveSheet({ uri: sheet.uri, make: async () => null });
    expect(editor.said).toEqual(['There is no sheet.', expect.stringContaining('can’t be read any more')]);
    expect(editor.asked).toBeUndefined();
  });
});

describe('what is kept', () => {
  it('is read again', () => {
    const state = { uri: 'file:///a.crank', line: 4, follows: true, choices: { kind: 'key', language: 'de' } };
    expect(stateFrom({ ...state, scroll: 12 })).toEqual(state);
  });

  it.each([undefined, null, 5, 'text', [], {}, { uri: 5 }])('as %j is nothing', (kept) => {
    expect(stateFrom(kept)).toBeUndefined();
    expect(choicesFrom(kept)).toEqual({});
  });

  it('is left out where it makes no sense', () => {
    const kept = {
      uri: 'a:b',
      sequence: 5,
      line: -1,
      follows: 'yes',
      choices: { kind: {}, paper: 'a4', __proto__: null, x: 'y' },
    };
    expect(stateFrom(kept)).toEqual({ uri: 'a:b', follows: false, choices: { paper: 'a4' } });
  });
});

it('the colours that high contrast replaces are those of a sheet, which asks whether it is dark', () => {
  const source = readFileSync(new URL('../../client/page/sheet-colours.ts', import.meta.url), 'utf8');
  const names = Array.from(source.matchAll(/'(--(?!vscode)[a-z-]+)':/g), ([, name]) => name);
  const style = styleOf({ paper: 'a4', foot: '', widths: [] }, sheetWords('en'));
  expect(names.sort()).toEqual([...new Set(Array.from(style.matchAll(/(--[a-z-]+): #/g), ([, name]) => name))].sort());
  expect(style.match(/prefers-color-scheme: dark/g)).toHaveLength(1);
});
