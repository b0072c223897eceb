/** Paths of `use` lines as links. */
import { describe, expect, it } from 'vitest';
import { documentLinks } from '../../server/service/links.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { addressOf, openMarked } from './editor.js';

describe('links', () => {
  it('lead to the files that are there', () => {
    const { document, ranges } = openMarked(
      'use "⟦machines.crank⟧"\nuse "nowhere.crank"\nuse "/etc/x.crank"\n  use   "⟦./trays/small.crank⟧" # "a.crank"\nuse\n',
      { 'machines.crank': '', 'trays/small.crank': '' },
    );
    expect(documentLinks(document, wordsFor('en'))).toEqual([
      { range: ranges[0], target: addressOf('machines.crank'), tooltip: 'Open machines.crank' },
      { range: ranges[1], target: addressOf('trays/small.crank'), tooltip: 'Open ./trays/small.crank' },
    ]);
  });

  it('stand in the fences of a page', () => {
    const { document, ranges } = openMarked(
      'use "m.crank"\n\n> ```crank\n> use "⟦m.crank⟧"\n> ```\n',
      { 'm.crank': '' },
      'page.md',
    );
    expect(documentLinks(document, wordsFor('de'))).toEqual([
      { range: ranges[0], target: addressOf('m.crank'), tooltip: 'm.crank öffnen' },
    ]);
  });
});
