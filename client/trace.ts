/** Readings as a document: everything that a sequence makes the machine show, step by step. */
import { type Disposable, l10n, languages, Uri, ViewColumn, window, workspace } from 'vscode';
import { TextDocumentContentRequest } from 'vscode-languageclient';
import { isOurs } from './documents.js';
import { TRACE_SCHEME, type TraceQuery } from './protocol.js';
import type { Server } from './server.js';

/** What is traced stands in the address, and the name is what the tab shows. */
export function traceUri(query: TraceQuery): Uri {
  const { uri, sequence, case: inCase } = query;
  const what = sequence ?? Uri.parse(uri).path.split('/').at(-1) ?? '';
  const name = inCase ? l10n.t('{0}, case {1}: readings', what, inCase) : l10n.t('{0}: readings', what);
  return Uri.from({ scheme: TRACE_SCHEME, path: `/${name}`, query: JSON.stringify(query) });
}

/** Opens traces, whose text the server gives, and keeps the open ones fresh. */
export class Traces implements Disposable {
  private timer: ReturnType<typeof setTimeout> | undefined;
  // Another file may be used by the one that is traced, so a change in any of them counts.
  private readonly watching = workspace.onDidChangeTextDocument(({ document }) => {
    if (!isOurs(document)) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.refresh(), 300);
  });

  constructor(private readonly server: Server) {}

  async show(query: TraceQuery): Promise<void> {
    await this.server.start();
    const opened = await workspace.openTextDocument(traceUri(query));
    // A table is shown without what an editor draws around code.
    const document = await languages.setTextDocumentLanguage(opened, 'crank-trace');
    await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preserveFocus: true });
  }

  private refresh(): void {
    const feature = this.server.client.getFeature(TextDocumentContentRequest.method);
    for (const { uri } of workspace.textDocuments) {
      if (uri.scheme !== TRACE_SCHEME) continue;
      for (const { onDidChangeEmitter } of feature?.getProviders() ?? []) onDidChangeEmitter.fire(uri);
    }
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.watching.dispose();
  }
}
