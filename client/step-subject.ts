/** What is to be gone through: what a lens names, what the cursor is in, or what somebody chooses. */
import { l10n, QuickPickItemKind, window } from 'vscode';
import { documentMeant } from './documents.js';
import {
  FAULTS,
  type FaultsParams,
  type FaultsResult,
  STEPPABLE,
  type SteppableParams,
  type SteppableResult,
} from './protocol.js';
import type { Server } from './server.js';

export interface StepSubject {
  readonly uri: string;
  readonly sequence?: string;
  /** Where no sequence is named: the line of the cursor, from 0. */
  readonly line?: number;
  /** 0 for the defaults. */
  readonly case?: number;
  /** As the server writes it. */
  readonly fault?: string;
}

/** What a lens is called with; without it, what is in front. */
export function subjectFrom([uri, sequence, number]: readonly unknown[]): StepSubject | undefined {
  if (typeof uri === 'string') {
    return {
      uri,
      ...(typeof sequence === 'string' && { sequence }),
      ...(typeof number === 'number' && { case: number }),
    };
  }
  const meant = documentMeant();
  return meant && { uri: meant.document.uri.toString(), ...(meant.at && { line: meant.at.line }) };
}

/** The same with a sequence, and where that is wanted with a case: somebody is asked where there are several. */
export async function pickSequence(
  server: Server,
  subject: StepSubject | undefined,
  asksForCase = false,
): Promise<StepSubject | undefined> {
  if (!subject) {
    window.showInformationMessage(l10n.t('Open a file with a sequence first.'));
    return undefined;
  }
  const { uri, line } = subject;
  const found = await server.ask<SteppableResult>(STEPPABLE, {
    uri,
    ...(line !== undefined && { line }),
  } satisfies SteppableParams);
  if (!found || found.sequences.length === 0) {
    window.showInformationMessage(l10n.t('There is no sequence in this file.'));
    return undefined;
  }
  const sequence = subject.sequence ?? found.at ?? (await pickName(found));
  if (sequence === undefined) return undefined;
  const number = asksForCase ? await pickCase(found, sequence) : subject.case;
  if (asksForCase && number === undefined) return undefined;
  return { uri, sequence, ...(number !== undefined && { case: number }) };
}

async function pickName({ sequences }: NonNullable<SteppableResult>): Promise<string | undefined> {
  if (sequences.length === 1) return sequences[0].name;
  const items = sequences.map(({ name, title }) => ({ label: name, description: title }));
  return (await window.showQuickPick(items, { placeHolder: l10n.t('Which sequence?') }))?.label;
}

async function pickCase({ sequences }: NonNullable<SteppableResult>, sequence: string): Promise<number | undefined> {
  const cases = sequences.find(({ name }) => name === sequence)?.cases ?? [];
  if (cases.length < 2) return 0;
  return (await window.showQuickPick(cases, { placeHolder: l10n.t('With which numbers?') }))?.number;
}

/** A fault of the sequence's machine, chosen among all that it can have. */
export async function pickFault(server: Server, { uri, sequence = '' }: StepSubject): Promise<string | undefined> {
  const groups = await server.ask<FaultsResult>(FAULTS, { uri, sequence } satisfies FaultsParams);
  if (!groups || groups.length === 0) {
    window.showInformationMessage(l10n.t('{0} can’t be run, so that its machine can have no fault.', sequence));
    return undefined;
  }
  const items = groups.flatMap(({ label, faults }) => [
    { label, value: '', kind: QuickPickItemKind.Separator },
    ...faults.map((fault) => ({ label: fault.label, description: fault.value, value: fault.value })),
  ]);
  const picked = await window.showQuickPick(items, {
    placeHolder: l10n.t('Which fault does the machine have?'),
    matchOnDescription: true,
  });
  return picked?.value;
}
