/** Readings as a document: everything that a sequence makes the machine show, step by step. */
import {
  type Disposable,
  EventEmitter,
  l10n,
  type TextDocumentContentProvider,
  Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import { isOurs } from './documents.js';
import { TRACE, type TraceParams, type TraceText } from './protocol.js';
import type { Server } from './server.js';

const SCHEME = 'cranknote-trace';

/** The address of a trace says what is traced, and its name is what the tab shows. */
export function traceUri(params: TraceParams): Uri {
  const { uri, sequence, case: inCase } = params;
  const what = sequence ?? Uri.parse(uri).path.split('/').at(-1) ?? '';
  const name = inCase ? l10n.t('{0}, case {1}: readings', what, inCase) : l10n.t('{0}: readings', what);
  return Uri.from({ scheme: SCHEME, path: `/${name}`, query: JSON.stringify(params) });
}

export class Traces implements TextDocumentContentProvider, Disposable {
  private readonly changed = new EventEmitter<Uri>();
  readonly onDidChange = this.changed.event;
  private readonly parts: Disposable[];
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly server: Server) {
    this.parts = [
      this.changed,
      workspace.registerTextDocumentContentProvider(SCHEME, this),
      // Another file may be used by the one that is traced, so each change counts.
      workspace.onDidChangeTextDocument(({ document }) => {
        if (isOurs(document)) this.refreshSoon();
      }),
    ];
  }

  async provideTextDocumentContent({ query }: Uri): Promise<string> {
    const params: TraceParams = JSON.parse(query);
    return (await this.server.ask<TraceText>(TRACE, params)).text;
  }

  async show(params: TraceParams): Promise<void> {
    const document = await workspace.openTextDocument(traceUri(params));
    await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preserveFocus: true });
  }

  private refreshSoon(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      for (const { uri } of workspace.textDocuments) if (uri.scheme === SCHEME) this.changed.fire(uri);
    }, 300);
  }

  dispose(): void {
    clearTimeout(this.timer);
    for (const part of this.parts) part.dispose();
  }
}
