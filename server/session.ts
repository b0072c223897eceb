/** One client, from its first message to its last. */
import {
  CodeLensRefreshRequest,
  type Connection,
  MessageType,
  type ProgressToken,
  ShowMessageNotification,
  WorkDoneProgress,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { Sessions } from './adapter/sessions.js';
import type { Client, Offered } from './capabilities.js';
import type { Runtime } from './runtime.js';
import { wordingFor } from './sequence/wording/index.js';
import type { DiagnosticOptions } from './service/diagnostics.js';
import type { Reader } from './service/document.js';
import type { Look } from './service/picture.js';
import { DEFAULT_SETTINGS, type Settings } from './service/settings.js';
import { wordsFor } from './service/wording/index.js';
import type { Workspace } from './service/workspace.js';

/** The extension's own message: what stands in fences may be another thing, though their text is not. */
const REFRESH_FENCES = 'cranknote/refreshFences';

export class Session {
  /** Who steps through sequences. */
  readonly steppers = new Sessions();
  settings: Settings = DEFAULT_SETTINGS;
  /** How the client's theme looks, if it shows pictures in hovers. */
  look: Look | undefined;
  /** The client has asked to shut down: nothing is answered any more. */
  isOver = false;
  readonly diagnosticOptions: DiagnosticOptions;
  private readonly showsFences: boolean;
  /** The cases chosen by lenses: by document, then by sequence. */
  private readonly cases = new Map<string, Map<string, number>>();

  constructor(
    readonly connection: Connection,
    readonly workspace: Workspace,
    readonly client: Client,
    offered: Offered,
    runtime: Runtime,
    private readonly locale: string,
  ) {
    this.look = offered.look;
    this.showsFences = offered.preview;
    this.diagnosticOptions = {
      related: client.relatedInformation,
      tags: client.tags,
      links: client.codeLinks,
      pages: offered.pages ?? runtime.pages,
    };
  }

  /** Who reads what the features say. */
  get reader(): Reader {
    return this.readerOf(this.locale);
  }

  /** The same in a language that somebody asks for. */
  readerOf(locale: string): Reader {
    const { settings, look } = this;
    const chosenCase = (uri: string, sequence: string) => this.cases.get(uri)?.get(sequence);
    return { locale, wording: wordingFor(locale), words: wordsFor(locale), settings, look, chosenCase };
  }

  /**
   * Edits as the client takes them. Features only say which document; a client that can is told the version as well, so
   * that it does not make them in a text that has changed since.
   */
  editsFor({ changes = {} }: WorkspaceEdit): WorkspaceEdit {
    if (!this.client.versionedEdits) return { changes };
    return {
      documentChanges: Object.entries(changes).map(([uri, edits]) => ({
        textDocument: { uri, version: this.workspace.versionOf(uri) ?? null },
        edits,
      })),
    };
  }

  /** What depends on more than the text is asked for again: it holds for all documents alike. */
  refresh(): void {
    const { client, connection, isOver } = this;
    if (isOver) return;
    const ask = (what: Promise<unknown>) => what.catch(() => {});
    if (client.refreshesInlays) void ask(connection.languages.inlayHint.refresh());
    if (client.refreshesLenses) void ask(connection.sendRequest(CodeLensRefreshRequest.type));
    if (client.refreshesDiagnostics) void ask(connection.languages.diagnostics.refresh());
    if (this.showsFences) void ask(connection.sendNotification(REFRESH_FENCES));
  }

  /** Says something to the person, who need not answer. */
  tell(message: string): void {
    void this.connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Info, message });
  }

  /** Tells of long work under way, at a token that the client has given or accepted. */
  begin(token: ProgressToken, title: string): void {
    void this.connection.sendProgress(WorkDoneProgress.type, token, { kind: 'begin', title, percentage: 0 });
  }

  report(token: ProgressToken, done: number, all: number): void {
    const percentage = Math.floor((100 * done) / Math.max(1, all));
    const value = { kind: 'report', percentage, message: `${done} / ${all}` } as const;
    void this.connection.sendProgress(WorkDoneProgress.type, token, value);
  }

  end(token: ProgressToken): void {
    void this.connection.sendProgress(WorkDoneProgress.type, token, { kind: 'end' });
  }

  /** Holds until the document is closed. */
  chooseCase(uri: string, sequence: string, number: number): void {
    if (!this.workspace.isOpen(uri)) return;
    const chosen = this.cases.get(uri) ?? new Map<string, number>();
    this.cases.set(uri, chosen.set(sequence, number));
  }

  forgetCases(uri: string): void {
    this.cases.delete(uri);
  }
}
