/** A file to begin with: which machine, which task, and a new document that needs nothing else. */
import { l10n, Selection, type TextDocument, Uri, type WorkspaceFolder, window, workspace } from 'vscode';
import { freeName } from './free-name.js';
import { STARTER, type StarterAnswer, type StarterOffer, type StarterParams } from './protocol.js';
import type { Server } from './server.js';

export async function beginSequence(server: Server): Promise<void> {
  const ask = (params: StarterParams) => server.ask<StarterAnswer>(STARTER, params);
  const { machines, tasks } = await ask({});
  const machine = await choose(machines, 1, l10n.t('Which kind of machine is it?'));
  if (!machine) return;
  const possible = tasks.filter(({ value }) => machine.tasks.includes(value));
  const task = await choose(possible, 2, l10n.t('What is it for?'));
  if (!task) return;
  const { file } = await ask({ machine: machine.value, task: task.value });
  if (file) await show(await opened(file.name, file.text));
}

/** A list to choose from; undefined where somebody has thought better of it. */
async function choose<T extends StarterOffer>(offers: readonly T[], step: number, question: string) {
  const items = offers.map((offer) => ({ label: offer.label, detail: offer.detail, offer }));
  const title = l10n.t('New crank sequence, {0} of {1}', step, 2);
  const chosen = await window.showQuickPick(items, {
    title,
    placeHolder: question,
    matchOnDetail: true,
    ignoreFocusOut: true,
  });
  return chosen?.offer;
}

/** In a folder it has a name already, which nothing else has, and is not saved yet. */
async function opened(name: string, text: string): Promise<TextDocument> {
  const folder = workspace.workspaceFolders?.find(canName);
  if (!folder) return workspace.openTextDocument({ language: 'crank', content: text });
  const taken = new Set((await workspace.fs.readDirectory(folder.uri)).map(([file]) => file));
  const isTaken = (file: string) =>
    taken.has(file) || workspace.textDocuments.some(({ uri }) => uri.path.endsWith(`/${file}`));
  const file = freeName(name, '.crank', isTaken);
  const document = await workspace.openTextDocument(Uri.joinPath(folder.uri, file).with({ scheme: 'untitled' }));
  const editor = await window.showTextDocument(document);
  await editor.edit((edit) => edit.insert(document.positionAt(0), text), {
    undoStopBefore: false,
    undoStopAfter: false,
  });
  return document;
}

/** The editor makes files of its own on disks alone, here or where it is connected to. */
const canName = ({ uri: { scheme } }: WorkspaceFolder): boolean => scheme === 'file' || scheme === 'vscode-remote';

/** The cursor stands in the sequence. */
async function show(document: TextDocument): Promise<void> {
  const lines = document.getText().split('\n');
  const line = Math.max(
    0,
    lines.findIndex((one) => one.startsWith('sequence ')),
  );
  const editor = await window.showTextDocument(document);
  editor.selection = new Selection(line, 0, line, 0);
}
