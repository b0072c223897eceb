/**
 * The examples that come with the extension, in a folder where they can be changed.
 *
 * Invariant: what somebody has changed is never written over. A fresh copy goes into a folder of its own.
 */
import { commands, type ExtensionContext, FileSystemError, l10n, Uri, window, workspace } from 'vscode';
import { freeName } from './free-name.js';

/** Names of the files, for what is served can't be searched. */
const LIST = 'files.json';
const FOLDER = 'examples';

export async function openExamples({ extensionUri, globalStorageUri }: ExtensionContext): Promise<void> {
  const from = Uri.joinPath(extensionUri, 'samples');
  const names: readonly string[] = JSON.parse(
    new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(from, LIST))),
  );
  const examples = await Promise.all(
    names.map(async (name) => ({ name, bytes: await workspace.fs.readFile(Uri.joinPath(from, name)) })),
  );
  const folder = await copied(examples, globalStorageUri);
  if (folder) await open(folder);
}

interface Example {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Where they are; undefined where somebody has thought better of it. */
async function copied(examples: readonly Example[], storage: Uri): Promise<Uri | undefined> {
  const folder = Uri.joinPath(storage, FOLDER);
  const here = await Promise.all(examples.map(async ({ name, bytes }) => stateOf(Uri.joinPath(folder, name), bytes)));
  const changed = here.filter((state) => state === 'changed').length;
  if (changed > 0) {
    const mine = l10n.t('Open Them as They Are');
    const fresh = l10n.t('Make a Fresh Copy Beside Them');
    const told =
      changed === 1
        ? l10n.t('One of your examples differs from those that come with the extension. It is left as it is.')
        : l10n.t(
            '{0} of your examples differ from those that come with the extension. They are left as they are.',
            changed,
          );
    const chosen = await window.showInformationMessage(told, { modal: true }, mine, fresh);
    if (chosen === fresh) return freshCopy(examples, storage);
    if (chosen !== mine) return undefined;
  }
  await write(
    examples.filter((_, i) => here[i] === 'missing'),
    folder,
  );
  return folder;
}

async function stateOf(file: Uri, bytes: Uint8Array): Promise<'missing' | 'same' | 'changed'> {
  try {
    const there = await workspace.fs.readFile(file);
    return there.length === bytes.length && there.every((byte, i) => byte === bytes[i]) ? 'same' : 'changed';
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return 'missing';
    throw error;
  }
}

async function freshCopy(examples: readonly Example[], storage: Uri): Promise<Uri> {
  const taken = new Set((await workspace.fs.readDirectory(storage)).map(([name]) => name));
  const folder = Uri.joinPath(
    storage,
    freeName(FOLDER, '', (name) => taken.has(name)),
  );
  await write(examples, folder);
  return folder;
}

async function write(examples: readonly Example[], folder: Uri): Promise<void> {
  await workspace.fs.createDirectory(folder);
  for (const { name, bytes } of examples) await workspace.fs.writeFile(Uri.joinPath(folder, name), bytes);
}

/** A folder that is open already is not taken away without being asked for. */
async function open(folder: Uri): Promise<void> {
  let forceNewWindow = false;
  if (workspace.workspaceFolders !== undefined) {
    if (workspace.workspaceFolders.some(({ uri }) => uri.toString() === folder.toString())) return;
    const here = l10n.t('This Window');
    const other = l10n.t('New Window');
    const chosen = await window.showInformationMessage(
      l10n.t('Where are the examples to be opened?'),
      { modal: true },
      here,
      other,
    );
    if (chosen === undefined) return;
    forceNewWindow = chosen === other;
  }
  await commands.executeCommand('vscode.openFolder', folder, { forceNewWindow, forceReuseWindow: !forceNewWindow });
}
