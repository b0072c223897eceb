/**
 * A sheet saved, or printed. No view of an editor can print: the window refuses it. The sheet is put where a browser
 * finds it, and printed from there.
 */
import { env, l10n, UIKind, Uri, window, workspace } from 'vscode';
import type { SheetAnswer } from './protocol.js';
import type { ToPage } from './sheet-messages.js';

/** A sheet that can be had in either format, made of the text as it stands. */
export interface SheetToMake {
  readonly uri: string;
  readonly make: (format: 'html' | 'markdown') => Promise<SheetAnswer | null>;
}

/** The editor runs where its files are, so that a browser of the same machine can open one. */
export const printsInBrowser = (): boolean => env.uiKind === UIKind.Desktop && env.remoteName === undefined;

/** Asks where to; the ending says whether it is a page or Markdown. */
export async function saveSheet({ uri, make }: SheetToMake): Promise<void> {
  const made = await sheetOr(make('html'));
  if (!made) return;
  const source = Uri.parse(uri, true);
  // What was never saved lies nowhere.
  const folder = source.scheme === 'untitled' ? workspace.workspaceFolders?.[0]?.uri : Uri.joinPath(source, '..');
  const target = await window.showSaveDialog({
    ...(folder && { defaultUri: Uri.joinPath(folder, fileName(made)) }),
    filters: { [l10n.t('Page for a browser')]: ['html'], Markdown: ['md'] },
  });
  if (!target) return;
  const isMarkdown = /\.(?:md|markdown)$/i.test(target.path);
  const sheet = isMarkdown ? await sheetOr(make('markdown')) : made;
  if (!sheet) return;
  await workspace.fs.writeFile(target, new TextEncoder().encode(sheet.content));
  window.showInformationMessage(l10n.t('The sheet is saved as {0}.', target.path.split('/').at(-1) ?? ''));
}

/** Opens the sheet in the browser; where that can't be reached from here, the browser that shows the editor keeps it. */
export async function printSheet({ make }: SheetToMake, storage: Uri, send: (message: ToPage) => void): Promise<void> {
  const made = await sheetOr(make('html'));
  if (!made) return;
  const name = fileName(made);
  if (printsInBrowser()) {
    const file = Uri.joinPath(await freshFolder(storage), name);
    await workspace.fs.writeFile(file, new TextEncoder().encode(made.content));
    if (await env.openExternal(file)) {
      send({ is: 'told', text: l10n.t('The sheet is open in your browser. Print it there.') });
      return;
    }
  }
  send({ is: 'download', name, content: made.content });
  send({ is: 'told', text: l10n.t('{0} is downloaded. Open it in a browser, and print it there.', name) });
}

interface Made {
  readonly content: string;
  readonly sequence: string;
  readonly kind: string;
}

/** Says why there is no sheet, where there is none. */
async function sheetOr(asked: Promise<SheetAnswer | null>): Promise<Made | undefined> {
  const answer = await asked;
  if (answer?.sheet && answer.sequence !== undefined)
    return { content: answer.sheet.content, sequence: answer.sequence, kind: answer.choices.kind };
  window.showWarningMessage(answer?.refused?.message ?? unreadable());
  return undefined;
}

export const unreadable = (): string =>
  l10n.t('The file can’t be read any more: it was moved, deleted, or lies outside this folder.');

/** As the command line calls it. */
const fileName = ({ sequence, kind }: Made): string => `${sequence}.${kind}.html`;

let cleared: Promise<Uri> | undefined;

/** A folder for sheets to be printed; what was left there before this start of the editor is gone. */
function freshFolder(storage: Uri): Promise<Uri> {
  cleared ??= (async () => {
    const folder = Uri.joinPath(storage, 'print');
    await Promise.resolve(workspace.fs.delete(folder, { recursive: true })).catch(() => undefined);
    await workspace.fs.createDirectory(folder);
    return folder;
  })();
  return cleared;
}
