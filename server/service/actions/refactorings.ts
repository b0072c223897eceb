/** Steps written in another way that comes to the same. */
import type { CodeActionKind, Range, TextEdit } from 'vscode-languageserver';
import type { AnalysedDocument } from '../document.js';
import type { Words } from '../wording/index.js';

/** A rewriting that is offered; its edits are worked out when they are wanted. */
export interface Offer {
  readonly name: string;
  readonly kind: CodeActionKind;
  readonly title: string;
  /** Why it can't be done here. */
  readonly disabled?: string;
}

export const offeredRefactorings = (
  _document: AnalysedDocument,
  _range: Range,
  _words: Words['actions'],
  _isWanted: (kind: CodeActionKind) => boolean,
): Offer[] => [];

export const refactoring = (
  _document: AnalysedDocument,
  _name: string,
  _range: Range,
  _words: Words['actions'],
): TextEdit[] | undefined => undefined;
