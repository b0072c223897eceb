/** What may stand in a comment for an inset of a Markdown page. */
import { type CompletionItem, CompletionItemKind, type Position } from 'vscode-languageserver';
import { INSET_FIGURES, INSET_KINDS, INSET_WORDS } from '../../../grammar/insets.js';
import { SHEET_LANGUAGES } from '../../sheets/wording/index.js';
import type { ParsedDocument, Reader } from '../document.js';
import { positionIn } from '../text.js';
import { markdown } from './candidate.js';

/** A comment that is being typed, alone on its line. */
const BEGUN =
  /^[ \t>]*(?:(?:[-+*]|\d{1,9}[.)])[ \t]+)*<!--[ \t]*(?:(?<colon>crank:)[ \t]*(?<words>[^>]*)|(?<begun>[a-z]*:?))$/;

/** Undefined where no such comment is being typed. */
export function insetCompletions(
  document: ParsedDocument,
  position: Position,
  { words }: Reader,
): CompletionItem[] | undefined {
  if (!document.isMarkdown) return undefined;
  const { line, character } = positionIn(document.lines, position);
  const text = document.lines[line];
  const typed = BEGUN.exec(text.slice(0, character))?.groups;
  if (!typed) return undefined;
  const behind = text.slice(character);
  const close = /^\s*-*>?\s*$/.test(behind) ? ' -->' : '';
  const to = close === '' ? character : text.length;
  const item = (label: string, from: number, newText: string, end: number, documentation?: string): CompletionItem => ({
    label,
    kind: CompletionItemKind.Keyword,
    filterText: newText,
    textEdit: { range: { start: { line, character: from }, end: { line, character: end } }, newText },
    ...(documentation !== undefined && { documentation: markdown(documentation) }),
  });
  if (typed.colon === undefined) {
    const from = character - typed.begun.length;
    return INSET_KINDS.map((kind) => item(`crank: ${kind}`, from, `crank: ${kind}${close}`, to, words.insets[kind]));
  }
  const parts = typed.words.split(/[ \t]+/);
  const last = parts.at(-1) ?? '';
  const from = character - last.length;
  if (parts.length === 1) {
    const blank = text[from - 1] === ':' ? ' ' : '';
    return INSET_KINDS.map((kind) => item(kind, from, `${blank}${kind}${close}`, to, words.insets[kind]));
  }
  if (parts.length % 2 === 0) {
    const left = INSET_WORDS.filter((word) => !parts.slice(1, -1).includes(word));
    return left.map((word) => item(word, from, word, character));
  }
  return valuesFor(parts.at(-2) ?? '', document).map((value) => item(value, from, value, character));
}

function valuesFor(word: string, { library, file }: ParsedDocument): readonly string[] {
  switch (word) {
    case 'of':
      return [...library.declarations(file).sequences.keys()];
    case 'in':
      return SHEET_LANGUAGES;
    case 'figures':
      return INSET_FIGURES;
    default:
      return [];
  }
}
