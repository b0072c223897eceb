/** Which case's readings are shown beside a sequence, and which readings at all. */
import {
  type CodeLens,
  ConfigurationTarget,
  commands,
  l10n,
  type QuickPickItem,
  type TextEditor,
  window,
  workspace,
} from 'vscode';
import { CHOOSE_CASE } from './protocol.js';
import type { Server } from './server.js';

/** What a lens is called with: address, sequence and case. */
export type CaseArguments = readonly [uri: string, sequence: string, number: number];

const isCaseArguments = (args: readonly unknown[]): args is CaseArguments =>
  typeof args[0] === 'string' && typeof args[1] === 'string' && typeof args[2] === 'number';

/**
 * Carries out a lens; called without its arguments, asks for a case of the sequence that the cursor is in. Returns what
 * was chosen.
 */
export async function chooseCase(server: Server, ...args: readonly unknown[]): Promise<CaseArguments | undefined> {
  const chosen = isCaseArguments(args) ? args : await askForCase();
  if (chosen) await server.execute(CHOOSE_CASE, chosen);
  return chosen;
}

async function askForCase(): Promise<CaseArguments | undefined> {
  const editor = window.activeTextEditor;
  if (!editor) return undefined;
  const items = (await lensesAbove(editor)).flatMap(({ command }) => {
    const args: readonly unknown[] = command?.arguments ?? [];
    return command?.command === 'cranknote.chooseCase' && isCaseArguments(args) ? [{ label: command.title, args }] : [];
  });
  if (items.length === 0) {
    window.showInformationMessage(l10n.t('The sequence at the cursor has no other cases.'));
    return undefined;
  }
  return (await window.showQuickPick(items))?.args;
}

/** The lenses of the section that the cursor is in: those nearest above it. */
async function lensesAbove({ document, selection }: TextEditor): Promise<CodeLens[]> {
  const lenses = await commands.executeCommand<CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 1_000);
  const above = lenses.filter(({ range }) => range.start.line <= selection.active.line);
  const nearest = Math.max(...above.map(({ range }) => range.start.line));
  return above.filter(({ range }) => range.start.line === nearest);
}

/** Which readings are shown, from the table of the settings. */
export type Readings = 'off' | 'changed' | 'all';

export const readingsShown = (): Readings =>
  workspace.getConfiguration('cranknote').get<Readings>('readings.show', 'changed');

/** Lets the user choose; the setting is changed where it is made, or for the user where it is made nowhere. */
export async function chooseReadings(): Promise<void> {
  const items: (QuickPickItem & { readonly readings: Readings })[] = [
    { readings: 'changed', label: l10n.t('Changed'), description: l10n.t('what the step has changed') },
    { readings: 'all', label: l10n.t('All'), description: l10n.t('every register and the carriage') },
    { readings: 'off', label: l10n.t('Off'), description: l10n.t('no readings beside the steps') },
  ];
  const chosen = await window.showQuickPick(items, { placeHolder: l10n.t('Readings beside the steps') });
  if (!chosen) return;
  const configuration = workspace.getConfiguration('cranknote');
  const made = configuration.inspect('readings.show');
  const target = made?.workspaceValue === undefined ? ConfigurationTarget.Global : ConfigurationTarget.Workspace;
  await configuration.update('readings.show', chosen.readings, target);
}
