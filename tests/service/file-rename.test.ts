/** `use` lines that follow the files. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Library } from '../../server/sequence/library.js';
import { editsForFileRename } from '../../server/service/file-rename.js';
import { addressOf, applyEdits } from './editor.js';

function libraryOf(texts: Record<string, string>): Library {
  const library = new Library();
  for (const [name, text] of Object.entries(texts)) library.set(addressOf(name), text);
  return library;
}

/** The files that are edited, and what becomes of them; files are named from the nursery's folder. */
function mended(texts: Record<string, string>, ...moves: [string, string][]): Record<string, string> | undefined {
  const same = (name: string) => name;
  const edits = editsForFileRename(
    { library: libraryOf(texts), uriOf: same, fileOf: same },
    moves.map(([from, to]) => ({ oldUri: addressOf(from), newUri: addressOf(to) })),
  );
  if (!edits) return undefined;
  return Object.fromEntries(
    Object.entries(edits.changes ?? {}).map(([uri, changes]) => {
      const name = uri.slice(addressOf('').length);
      return [name, applyEdits(texts[name], changes)];
    }),
  );
}

describe('when a file gets another name', () => {
  it('the lines that use it follow, wherever they stand', () => {
    const texts = {
      'machines.crank': '',
      'day.crank': '# "machines.crank"\nuse  "machines.crank" # all\nuse "./machines.crank"\nuse "other.crank"\n',
      'class/one.crank': 'use "../machines.crank"\n',
      'page.md': 'use "machines.crank"\n\n```crank\nuse "machines.crank"\n```\n',
    };
    expect(mended(texts, ['machines.crank', 'desk.crank'])).toEqual({
      'day.crank': '# "machines.crank"\nuse  "desk.crank" # all\nuse "./desk.crank"\nuse "other.crank"\n',
      'class/one.crank': 'use "../desk.crank"\n',
      'page.md': 'use "machines.crank"\n\n```crank\nuse "desk.crank"\n```\n',
    });
  });

  it('nothing is to be done where nobody uses it', () => {
    expect(mended({ 'a.crank': 'use "b.crank"\n', 'b.crank': '' }, ['c.crank', 'd.crank'])).toBeUndefined();
    expect(mended({ 'a.crank': 'use "b.crank"\n', 'b.crank': '' }, ['a.crank', 'd.crank'])).toBeUndefined();
  });

  it('quotation marks in it are escaped', () => {
    expect(mended({ 'a.crank': 'use "b.crank"\n', 'b.crank': '' }, ['b.crank', 'the "b".crank'])).toEqual({
      'a.crank': 'use "the \\"b\\".crank"\n',
    });
  });

  it('a name that would be taken for an address gets a dot before it', () => {
    expect(mended({ 'a.crank': 'use "b.crank"\n', 'b.crank': '' }, ['b.crank', 'a:b.crank'])).toEqual({
      'a.crank': 'use "./a:b.crank"\n',
    });
  });
});

describe('when a file moves to another folder', () => {
  it('its own lines are mended, and those that lead to it', () => {
    const texts = {
      'machines.crank': '',
      'day.crank': 'use "machines.crank"\nuse "class/one.crank"\n',
      'class/one.crank': '',
      'all.crank': 'use "day.crank"\n',
    };
    expect(mended(texts, ['day.crank', 'class/day.crank'])).toEqual({
      'day.crank': 'use "../machines.crank"\nuse "one.crank"\n',
      'all.crank': 'use "class/day.crank"\n',
    });
  });

  it('together with what it uses, the line between them stays', () => {
    const texts = { 'a.crank': 'use "b.crank"\nuse "c.crank"\n', 'b.crank': '', 'c.crank': '' };
    expect(mended(texts, ['a.crank', 'far/a.crank'], ['b.crank', 'far/b.crank'])).toEqual({
      'a.crank': 'use "b.crank"\nuse "../c.crank"\n',
    });
  });

  it('a path is never made absolute', () => {
    const texts = { 'a.crank': 'use "b.crank"\n', 'b.crank': '' };
    const same = (name: string) => name;
    const edits = editsForFileRename({ library: libraryOf(texts), uriOf: same, fileOf: same }, [
      { oldUri: addressOf('b.crank'), newUri: 'vscode-remote://elsewhere/b.crank' },
    ]);
    expect(edits).toBeUndefined();
  });
});

describe('when a folder moves', () => {
  it('all that lead into it follow, and all that lead out of it', () => {
    const texts = {
      'machines.crank': '',
      'class/one.crank': 'use "../machines.crank"\nuse "two.crank"\nuse "deep/three.crank"\n',
      'class/two.crank': '',
      'class/deep/three.crank': 'use "../../machines.crank"\n',
      'classes.crank': 'use "class/one.crank"\n',
    };
    expect(mended(texts, ['class', 'school/class'])).toEqual({
      'class/one.crank': 'use "../../machines.crank"\nuse "two.crank"\nuse "deep/three.crank"\n',
      'class/deep/three.crank': 'use "../../../machines.crank"\n',
      'classes.crank': 'use "school/class/one.crank"\n',
    });
    expect(mended(texts, ['class/', 'school/'])).toEqual({ 'classes.crank': 'use "school/one.crank"\n' });
  });
});

describe('any moves', () => {
  const name = fc
    .array(fc.constantFrom('a', 'b', 'c'), { minLength: 1, maxLength: 3 })
    .map((parts) => `${parts.join('/')}.crank`);

  it('leave every line leading to the same file', () => {
    fc.assert(
      fc.property(fc.uniqueArray(name, { minLength: 3, maxLength: 6 }), name, (files, target) => {
        const [first, second, ...rest] = files;
        fc.pre(!files.includes(target));
        const up = first
          .split('/')
          .slice(1)
          .map(() => '../')
          .join('');
        const texts = {
          [first]: [second, ...rest].map((file) => `use "${up}${file}"\n`).join(''),
          [second]: '',
          ...Object.fromEntries(rest.map((file) => [file, ''])),
        };
        for (const moving of [first, second]) {
          const moved = (file: string) => (file === moving ? target : file);
          const after = mended(texts, [moving, target]) ?? {};
          const library = libraryOf(
            Object.fromEntries(Object.entries(texts).map(([file, text]) => [moved(file), after[file] ?? text])),
          );
          expect(library.usedBy(addressOf(moved(first)))).toEqual(
            [second, ...rest].map((file) => addressOf(moved(file))),
          );
        }
      }),
    );
  });
});
