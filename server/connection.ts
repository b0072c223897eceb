/**
 * The server: `startServer` answers a client over any connection.
 *
 * Invariant: whatever a client sends, the server lives on: what makes no sense is answered with an error, or ignored.
 */
import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
} from 'vscode-languageserver';
import { answerRequests } from './answers.js';
import { capabilitiesFor, clientOf, offeredBy } from './capabilities.js';
import { Desk } from './desk.js';
import { Publisher } from './publishing.js';
import { clientFiles } from './remote.js';
import type { Runtime } from './runtime.js';
import { lookFrom } from './service/picture.js';
import { settingsFrom } from './service/settings.js';
import { type Files, Workspace } from './service/workspace.js';
import { Session } from './session.js';
import { Stepping } from './stepping.js';

/** The extension's own message: its theme has changed. */
const LOOK = 'cranknote/look';

/** Answers a client until it leaves. The connection is listened to at once, so that no message is lost. */
export function startServer(connection: Connection, runtime: Runtime): void {
  let folders: string[] = [];
  let session: Session | undefined;
  let publisher: Publisher | undefined;

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    const client = clientOf(params);
    const offered = offeredBy(params.initializationOptions);
    folders = (params.workspaceFolders ?? []).map(({ uri }) => uri);
    if (folders.length === 0 && params.rootUri) folders = [params.rootUri];
    const files: Files | undefined = offered.files ? clientFiles(connection) : runtime.files?.(() => folders);
    const workspace = new Workspace(runtime, files, () => folders);
    const locale = offered.locale ?? params.locale ?? 'en';
    session = new Session(connection, workspace, client, offered, runtime, locale);
    session.settings = settingsFrom((params.initializationOptions as { settings?: unknown } | undefined)?.settings);
    publisher = new Publisher(session);
    const desk = new Desk(session);
    const stepping = new Stepping(session, runtime, desk);
    follow(session, publisher, stepping);
    answerRequests(desk, session, publisher);
    return {
      capabilities: capabilitiesFor(client),
      serverInfo: { name: 'Cranknote', version: runtime.version },
    };
  });

  connection.onInitialized(async () => {
    if (!session) return;
    const { client, workspace } = session;
    const register = (what: Promise<unknown>) => what.catch((error) => connection.console.warn(String(error)));
    if (client.registersSettings) {
      void register(connection.client.register(DidChangeConfigurationNotification.type, { section: 'cranknote' }));
    }
    if (client.registersWatching) {
      const watchers = [{ globPattern: '**/*.{crank,md,markdown}' }];
      void register(connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }));
    }
    if (client.tellsFolders) {
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        folders = folders.filter((uri) => !gone.has(uri)).concat(added.map(({ uri }) => uri));
      });
    }
    await askForSettings(session);
    // Names are looked for in all files: whether a machine is used, who runs a sequence.
    await workspace.loadAll();
    publisher?.changed(workspace.openUris);
    session.refresh();
  });

  connection.onShutdown(() => {
    if (session) session.isOver = true;
  });
  connection.listen();
}

async function askForSettings(session: Session): Promise<void> {
  if (!session.client.asksForSettings) return;
  try {
    session.settings = settingsFrom(await session.connection.workspace.getConfiguration('cranknote'));
  } catch (error) {
    session.connection.console.warn(String(error));
  }
}

/** Follows what happens to documents and files. */
function follow(session: Session, publisher: Publisher, stepping: Stepping): void {
  const { connection, workspace } = session;
  /** Those that need a file have to look again; one in another tab is only asked for its readings if it is told so. */
  const affect = (uri: string, others: readonly string[]) => {
    publisher.changed(others);
    if (others.some((other) => other !== uri)) session.refresh();
  };
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => {
    if (typeof uri !== 'string' || typeof text !== 'string') return;
    const before = workspace.dependents(uri);
    workspace.didOpen(uri, version, text);
    stepping.changed(uri, 'edited');
    affect(uri, [...new Set([uri, ...before])]);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    if (!workspace.isOpen(uri) || !Array.isArray(contentChanges)) return;
    workspace.didChange(uri, version, contentChanges);
    stepping.changed(uri, 'edited');
    affect(uri, workspace.dependents(uri));
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    const others = workspace.dependents(uri).filter((other) => other !== uri);
    workspace.didClose(uri);
    stepping.changed(uri, 'closed');
    session.forgetCases(uri);
    publisher.closed(uri);
    affect(uri, others);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    const affected = new Set<string>();
    for (const { uri, type } of changes) {
      if (type === FileChangeType.Deleted) stepping.deleted(uri);
      if (workspace.isOpen(uri)) continue;
      for (const other of workspace.dependents(uri)) affected.add(other);
      workspace.didChangeOnDisk(uri);
      stepping.changed(uri, 'edited');
    }
    if (affected.size > 0) affect('', [...affected]);
  });
  connection.onDidChangeConfiguration(async ({ settings }) => {
    if (session.client.asksForSettings) await askForSettings(session);
    else session.settings = settingsFrom((settings as { cranknote?: unknown } | undefined)?.cranknote);
    session.refresh();
  });
  // Only a client that has said how it looks shows pictures.
  connection.onNotification(LOOK, (params: { readonly look?: unknown } | undefined) => {
    if (session.look) session.look = lookFrom(params?.look) ?? session.look;
  });
}
