/**
 * Tests of the language service read as examples: a few lines of notation with marks in them.
 *
 *     set 1‸2          the cursor; several are numbered from the top
 *     run ⟦twice⟧      a range
 *
 * The marks are taken out before the text is read.
 */
import type { Position, Range } from 'vscode-languageserver';
import { finish } from '../../grammar/gradual.js';
import { splitLines } from '../../grammar/sections.js';
import { isMarkdown, Library } from '../../server/sequence/library.js';
import { wordingFor } from '../../server/sequence/wording/index.js';
import type { AnalysedDocument, Reader } from '../../server/service/document.js';
import type { Look } from '../../server/service/picture.js';
import { DEFAULT_SETTINGS, type Settings } from '../../server/service/settings.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { withInsets } from '../../server/weave/findings.js';

export interface Marked {
  readonly text: string;
  readonly cursors: readonly Position[];
  readonly ranges: readonly Range[];
}

export function unmark(marked: string): Marked {
  const cursors: Position[] = [];
  const ranges: Range[] = [];
  const open: Position[] = [];
  let text = '';
  let line = 0;
  let character = 0;
  for (const sign of marked) {
    const here = { line, character };
    if (sign === '‸') cursors.push(here);
    else if (sign === '⟦') open.push(here);
    else if (sign === '⟧') ranges.push({ start: open.pop() ?? here, end: here });
    else {
      text += sign;
      character += sign.length;
      if (sign === '\n') {
        line++;
        character = 0;
      }
    }
  }
  ranges.sort((a, b) => a.start.line - b.start.line || a.start.character - b.start.character);
  return { text, cursors, ranges };
}

export interface Opened extends Marked {
  readonly document: AnalysedDocument;
  /** The first cursor. */
  readonly cursor: Position;
  /** The documents of all files that were given, by name. */
  readonly documents: Readonly<Record<string, AnalysedDocument>>;
}

/** Opens a marked text as `test.crank`, with other files beside it by name. */
export function openMarked(marked: string, others: Readonly<Record<string, string>> = {}, name = 'test.crank'): Opened {
  const library = new Library();
  const { text, cursors, ranges } = unmark(marked);
  const texts: Record<string, string> = { ...others, [name]: text };
  for (const [file, content] of Object.entries(texts)) library.set(addressOf(file), content);
  const documents = Object.fromEntries(
    Object.entries(texts).map(([file, content]) => [file, documentOf(library, addressOf(file), content)]),
  );
  return {
    text,
    cursors,
    ranges,
    cursor: cursors[0] ?? { line: 0, character: 0 },
    document: documents[name],
    documents,
  };
}

export const addressOf = (name: string): string => `file:///nursery/${name}`;

function documentOf(library: Library, file: string, text: string): AnalysedDocument {
  const tree = library.tree(file);
  if (!tree) throw new Error(`${file} is not known`);
  return {
    uri: file,
    file,
    version: 1,
    lines: splitLines(text),
    eol: '\n',
    isMarkdown: isMarkdown(file),
    tree,
    library,
    uriOf: (other) => other,
    report: finish(withInsets(library, library.check(file))),
  };
}

/** Somebody who reads, in English unless it is said otherwise. */
export const reader = ({
  locale = 'en',
  settings = {},
  cases = {},
  look,
}: {
  locale?: string;
  settings?: Partial<Settings>;
  cases?: Readonly<Record<string, number>>;
  look?: Look;
} = {}): Reader => ({
  locale,
  wording: wordingFor(locale),
  words: wordsFor(locale),
  settings: { ...DEFAULT_SETTINGS, ...settings },
  look,
  chosenCase: (_uri, sequence) => cases[sequence],
});

/** A text after edits, as an editor applies them: none may lie in another. */
export function applyEdits(text: string, edits: readonly { range: Range; newText: string }[]): string {
  const starts = [0];
  for (let i = 0; i < text.length; i++) if (text[i] === '\n') starts.push(i + 1);
  const at = ({ line, character }: Position) => (line < starts.length ? starts[line] + character : text.length);
  const sorted = [...edits].sort((a, b) => at(b.range.start) - at(a.range.start));
  let result = text;
  let above = text.length;
  for (const { range, newText } of sorted) {
    const [start, end] = [at(range.start), at(range.end)];
    if (end > above) throw new Error('two edits overlap');
    result = result.slice(0, start) + newText + result.slice(end);
    above = start;
  }
  return result;
}
