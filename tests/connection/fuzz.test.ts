/** Random edits over the protocol's own path: what was followed equals what is fresh, and no request ever throws. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CancellationToken } from 'vscode-languageserver';
import { finish } from '../../grammar/gradual.js';
import { wordingFor } from '../../server/sequence/wording/index.js';
import { completions } from '../../server/service/completion.js';
import { definition } from '../../server/service/definition.js';
import { type DiagnosticOptions, diagnosticsOf } from '../../server/service/diagnostics.js';
import { fencesGradually } from '../../server/service/fences.js';
import { foldingRanges } from '../../server/service/folding.js';
import { formatDocument } from '../../server/service/formatting.js';
import { highlights } from '../../server/service/highlight.js';
import { hover } from '../../server/service/hover.js';
import { inlayHints } from '../../server/service/inlay.js';
import { linkedEditing } from '../../server/service/linked-editing.js';
import { shownMachine } from '../../server/service/machine.js';
import { references } from '../../server/service/references.js';
import { selectionRanges } from '../../server/service/selection.js';
import { semanticTokens } from '../../server/service/semantic-tokens.js';
import { signatureHelp } from '../../server/service/signature.js';
import { documentSymbols } from '../../server/service/symbols.js';
import { resultsGradually } from '../../server/service/test-results.js';
import { testsOf } from '../../server/service/tests.js';
import { Workspace } from '../../server/service/workspace.js';
import { reader } from '../service/editor.js';

const SAMPLES = new URL('../../samples/', import.meta.url);
const samples = Object.fromEntries(
  readdirSync(SAMPLES).map((name) => [name, readFileSync(new URL(name, SAMPLES), 'utf8')] as const),
);
const OPTIONS: DiagnosticOptions = { related: true, tags: true, links: true };
const FOLDER = 'file:///nursery';
const clock = { now: () => 0, pause: async () => {} };
const files = {
  read: async (uri: string) => {
    const text = samples[uri.slice(FOLDER.length + 1)];
    return text === undefined ? { problem: 'missing' as const } : { text };
  },
  find: async () => [],
};
const workspaceWith = () => new Workspace(clock, files, () => [FOLDER]);

const PIECES = [
  'turn',
  ' 3',
  '\n',
  '\n\n',
  '  set 12',
  'sequence s on desk-8\n',
  '{',
  '}',
  '"',
  '#',
  ';',
  ' as x',
  '.',
  '−',
  '\u{1d7d8}',
];
const edit = fc.record({
  line: fc.nat(250),
  character: fc.nat(60),
  lines: fc.constantFrom(0, 0, 0, 1, 5),
  length: fc.nat(12),
  text: fc.array(fc.constantFrom(...PIECES), { maxLength: 3 }).map((pieces) => pieces.join('')),
});
const names = Object.keys(samples).filter((name) => /\.(?:crank|md)$/.test(name));

/** Everything that is said of a document as a whole. */
async function saidOf(workspace: Workspace, uri: string) {
  const document = await workspace.analysed(uri, CancellationToken.None);
  if (!document) throw new Error('the document is not open');
  const end = { line: document.lines.length, character: 0 };
  const range = { start: { line: 0, character: 0 }, end };
  const english = reader();
  return {
    text: document.lines,
    diagnostics: diagnosticsOf(document, english, OPTIONS),
    inlays: inlayHints(document, range, english),
    tokens: semanticTokens(document),
    symbols: documentSymbols(document, english.words),
    folding: foldingRanges(document),
    formatting: formatDocument(document),
    fences: finish(fencesGradually(document, english)),
    tests: testsOf(document, english),
    // How the results are called is known to the server alone.
    results: finish(resultsGradually(document, { uri }, english)).results.map(({ resultId: _, ...told }) => told),
  };
}

test('whatever is edited, what is said is what is said of the text afresh', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...names),
      fc.array(edit, { minLength: 1, maxLength: 12 }),
      async (name, edits) => {
        const uri = `${FOLDER}/${name}`;
        const followed = workspaceWith();
        followed.didOpen(uri, 1, samples[name]);
        for (const [i, { line, character, lines, length, text }] of edits.entries()) {
          if (i % 3 === 0) await followed.analysed(uri, CancellationToken.None);
          const range = {
            start: { line, character },
            end: { line: line + lines, character: lines ? length : character + length },
          };
          followed.didChange(uri, i + 2, [{ range, text }]);
        }
        const said = await saidOf(followed, uri);
        const fresh = workspaceWith();
        fresh.didOpen(uri, 1, said.text.join('\n'));
        expect(said).toEqual(await saidOf(fresh, uri));
      },
    ),
    { numRuns: 60 },
  );
});

test('no request throws, at whatever place', async () => {
  let answers = 0;
  for (const locale of ['en', 'de']) {
    const someone = reader({ locale, ...(locale === 'de' && { look: 'dark' }) });
    for (const name of names) {
      const workspace = workspaceWith();
      const uri = `${FOLDER}/${name}`;
      // Cut in the middle of everything, so that much of it can't be read.
      workspace.didOpen(uri, 1, samples[name].replaceAll(/( \d)(\d*)\n/g, '$1\n').replaceAll(' on ', ' '));
      const document = await workspace.analysed(uri, CancellationToken.None);
      if (!document) throw new Error('the document is not open');
      expect(wordingFor(locale)).toBe(someone.wording);
      for (let line = 0; line < document.lines.length; line += 3) {
        for (let character = 0; character <= document.lines[line].length; character += 2) {
          const position = { line, character };
          const said = [
            hover(document, position, someone),
            signatureHelp(document, position, someone),
            definition(document, position),
            highlights(document, position),
            linkedEditing(document, position),
            selectionRanges(document, [position]),
            character % 8 === 0 && finish(shownMachine(document, { uri, ...position }, someone)),
            character % 8 === 0 && references(document, position, true),
            character % 8 === 0 && completions(document, position, someone, { snippets: true }),
          ];
          answers += said.length;
        }
      }
    }
  }
  expect(answers).toBeGreaterThan(10_000);
});
