/** Everywhere a name is used. */
import type { Location, Position } from 'vscode-languageserver';
import type { ParsedDocument } from './document.js';
import { nameAt, occurrencesOf } from './names.js';

/** The places of the name at a position in all known files; of a path, all `use` lines that lead to the same file. */
export function references(document: ParsedDocument, position: Position, withDeclaration: boolean): Location[] {
  const spot = nameAt(document, position);
  if (!spot) return [];
  return occurrencesOf(document, spot)
    .filter(({ isDeclaration }) => withDeclaration || !isDeclaration)
    .map(({ uri, range }) => ({ uri, range }));
}
