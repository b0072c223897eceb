/** Places in texts that somebody is led to. */
import { l10n, Range, type TextEditor, Uri, ViewColumn, window } from 'vscode';
import type { Place } from './protocol.js';

/** Opens a text at a place, where it is open already if it is. */
export async function leadTo({ uri, range: { start, end } }: Place): Promise<TextEditor> {
  const document = Uri.parse(uri, true);
  const editor = window.visibleTextEditors.find((one) => one.document.uri.toString() === document.toString());
  return await window.showTextDocument(document, {
    viewColumn: editor?.viewColumn ?? ViewColumn.One,
    selection: new Range(start.line, start.character, end.line, end.character),
  });
}

/** What is said of a place as seen from a document. */
export function placeText(at: Place, uri: string): string {
  const line = at.range.start.line + 1;
  const file = Uri.parse(at.uri).path.split('/').at(-1) ?? '';
  return at.uri === uri ? l10n.t('Line {0}', line) : l10n.t('{0}, line {1}', file, line);
}
