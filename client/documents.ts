/** Which documents the language server looks at. */
import { languages, type Position, type TextDocument, type TextDocumentChangeEvent, window, workspace } from 'vscode';

/**
 * Markdown goes by the name of the file, as on the command line. The pages of the reference are Markdown under another
 * ending, and are no workspace's files: they are left alone.
 */
export const SELECTOR = [{ language: 'crank' }, { language: 'markdown', pattern: '**/*.{md,markdown}' }];

export const isOurs = (document: TextDocument): boolean => languages.match(SELECTOR, document) > 0;

/** The line on which a block of the notation begins. */
const FENCE = /^[\s>]*(?:[-+*]\s+|\d+[.)]\s+)?(?:`{3,}|~{3,})\s*crank(?:\s|$)/;

/** A comment that asks for something to be put into a page. */
const INSET = /<!--\s*crank:/;

/** A page has a block of the notation, or an inset, or what looks like one. */
export const mayHoldNotation = (text: string): boolean =>
  INSET.test(text) || text.split(/\r\n|[\n\r]/).some((line) => FENCE.test(line));

/** The document is written in the notation, or holds a block of it: most Markdown does not. */
export function holdsNotation(document: TextDocument): boolean {
  if (!isOurs(document)) return false;
  return document.languageId === 'crank' || hasFence(document, 0, document.lineCount - 1);
}

/** The same, for what a change has touched alone. */
export const bringsNotation = ({ document, contentChanges }: TextDocumentChangeEvent): boolean =>
  isOurs(document) &&
  contentChanges.some(({ range, text }) =>
    hasFence(document, range.start.line, range.start.line + text.split('\n').length - 1),
  );

function hasFence(document: TextDocument, from: number, to: number): boolean {
  const last = Math.min(to, document.lineCount - 1);
  for (let line = from; line <= last; line++) if (FENCE.test(document.lineAt(line).text)) return true;
  return false;
}

/**
 * The document that somebody means: the one in front; where no text is in front, one that can be seen, or else one that
 * is open. With where its cursor is.
 */
export function documentMeant(): { readonly document: TextDocument; readonly at?: Position } | undefined {
  const { activeTextEditor, visibleTextEditors } = window;
  const seen = activeTextEditor ? [activeTextEditor] : visibleTextEditors;
  const editor = seen.find(({ document }) => isOurs(document));
  if (editor) return { document: editor.document, at: editor.selection.active };
  const open = activeTextEditor ? undefined : workspace.textDocuments.findLast(holdsNotation);
  return open && { document: open };
}
