/** What goes by names and structure, in texts that nobody wrote: no broken line and no odd position stops it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ResponseError } from 'vscode-languageserver';
import { WORDS } from '../../grammar/tokens.js';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from '../../server/service/call-hierarchy.js';
import { definitionLinks } from '../../server/service/definition.js';
import type { ParsedDocument } from '../../server/service/document.js';
import { foldingRanges } from '../../server/service/folding.js';
import { formatDocument, formatOnType, formatRange } from '../../server/service/formatting.js';
import { highlights } from '../../server/service/highlight.js';
import { linkedEditing } from '../../server/service/linked-editing.js';
import { documentLinks } from '../../server/service/links.js';
import { references } from '../../server/service/references.js';
import { prepareRename, rename } from '../../server/service/rename.js';
import { selectionRanges } from '../../server/service/selection.js';
import { semanticTokens } from '../../server/service/semantic-tokens.js';
import { documentSymbols } from '../../server/service/symbols.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { openMarked } from './editor.js';

const marks = [
  '\n',
  '\n',
  '{',
  '}',
  ';',
  '"',
  '#',
  '(',
  ')',
  '=',
  ',',
  'a ',
  'b ',
  '5 ',
  'repeat 2 {',
  '```crank\n',
  '> ',
];
const sections = ['\nsequence a\n', '\nmachine b\n', '\nbench "B" of a on b\n', '\nuse "x.crank"\n'];
const anyMixture = fc
  .array(fc.constantFrom(...WORDS.map(({ word }) => `${word} `), ...marks, ...marks, ...sections), { maxLength: 40 })
  .map((parts) => parts.join(''));

const words = wordsFor('en');

/** Lets through what a reader is to be told. */
function unlessRefused(act: () => unknown): void {
  try {
    act();
  } catch (error) {
    if (!(error instanceof ResponseError)) throw error;
  }
}

function askEverything(document: ParsedDocument, at: { line: number; character: number }): void {
  definitionLinks(document, at);
  references(document, at, true);
  highlights(document, at);
  unlessRefused(() => prepareRename(document, at, words));
  unlessRefused(() => rename(document, at, 'quite-another', words));
  linkedEditing(document, at);
  documentLinks(document, words);
  documentSymbols(document, words);
  foldingRanges(document);
  selectionRanges(document, [at]);
  semanticTokens(document);
  formatDocument(document);
  formatRange(document, { start: at, end: at });
  formatOnType(document, at, '\n');
  formatOnType(document, at, '}');
  for (const item of prepareCallHierarchy(document, at)) {
    incomingCalls(document.library, document.uriOf, item);
    outgoingCalls(document.library, document.uriOf, item);
  }
}

describe('in any text, at any position', () => {
  it.each(['test.crank', 'page.md'])('of %s, all of it answers', (name) => {
    fc.assert(
      fc.property(
        anyMixture,
        fc.integer({ min: -1, max: 12 }),
        fc.integer({ min: -1, max: 20 }),
        (text, line, character) => {
          const { document } = openMarked(text, {}, name);
          expect(() => askEverything(document, { line, character })).not.toThrow();
        },
      ),
      { numRuns: 300 },
    );
  });
});
