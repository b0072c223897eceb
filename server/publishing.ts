/** Brings findings to the client: pushed to one that can't ask for them, and kept ready for one that can. */
import {
  CancellationToken,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { FileReport } from './sequence/file.js';
import { diagnosticsOf } from './service/diagnostics.js';
import type { AnalysedDocument } from './service/document.js';
import { numberOf } from './service/numbered.js';
import type { Interest } from './service/patience.js';
import type { Session } from './session.js';

/** Findings that have been brought once need not be brought again: a name for each state. */
const idOf = (report: FileReport, locale: string): string => `${numberOf(report)} ${locale}`;

export class Publisher {
  private readonly due = new Set<string>();
  private isBusy = false;

  constructor(private readonly session: Session) {}

  /** Some documents have, or may have, other findings than before. */
  changed(uris: readonly string[]): void {
    if (this.session.client.pullsDiagnostics) return;
    for (const uri of uris) this.due.add(uri);
    if (!this.isBusy) void this.publishDue();
  }

  /** A document that is closed has no findings. */
  closed(uri: string): void {
    this.due.delete(uri);
    if (!this.session.client.pullsDiagnostics) void this.session.connection.sendDiagnostics({ uri, diagnostics: [] });
  }

  private async publishDue(): Promise<void> {
    this.isBusy = true;
    try {
      for (let [uri] = this.due; uri !== undefined && !this.session.isOver; [uri] = this.due) {
        this.due.delete(uri);
        const document = await this.session.workspace.analysed(uri, CancellationToken.None);
        // What has changed meanwhile is due again.
        if (document && !this.due.has(uri)) await this.publish(document);
      }
    } catch (error) {
      this.session.connection.console.error(String(error));
    } finally {
      this.isBusy = false;
    }
  }

  private async publish(document: AnalysedDocument): Promise<void> {
    const { connection, reader, diagnosticOptions } = this.session;
    const diagnostics = diagnosticsOf(document, reader, diagnosticOptions);
    await connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics });
  }

  /** The answer to a client that asks. */
  async pull(uri: string, previous: string | undefined, interest: Interest): Promise<DocumentDiagnosticReport> {
    const document = await this.session.workspace.analysed(uri, interest);
    if (!document) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    return this.reportOn(document, previous);
  }

  private reportOn(document: AnalysedDocument, previous: string | undefined): DocumentDiagnosticReport {
    const { reader, diagnosticOptions } = this.session;
    const resultId = idOf(document.report, reader.locale);
    if (resultId === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    const items = diagnosticsOf(document, reader, diagnosticOptions);
    return { kind: DocumentDiagnosticReportKind.Full, resultId, items };
  }

  /** The findings of every file of the workspace, one after the other. */
  async pullAll(
    previous: ReadonlyMap<string, string>,
    interest: Interest,
    bring: (report: WorkspaceDocumentDiagnosticReport, done: number, all: number) => void,
  ): Promise<void> {
    const { workspace } = this.session;
    await workspace.loadAll();
    const uris = workspace.knownUris();
    for (const [i, uri] of uris.entries()) {
      if (interest.isCancellationRequested || this.session.isOver) return;
      const document = await workspace.analysedFile(uri, interest);
      if (!document) continue;
      const report = this.reportOn(document, previous.get(uri));
      bring({ uri, version: workspace.versionOf(uri) ?? null, ...report }, i + 1, uris.length);
    }
  }
}
