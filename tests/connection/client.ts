/** A client of the protocol, in the same process, over streams as an editor has them. */
import { PassThrough } from 'node:stream';
import {
  createProtocolConnection,
  type Diagnostic,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  ExitNotification,
  InitializedNotification,
  type InitializeParams,
  InitializeRequest,
  type InitializeResult,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { serveStreams } from '../../server/node.js';

export interface Client {
  readonly connection: ProtocolConnection;
  readonly initialized: InitializeResult;
  /** What was published, in order. */
  readonly published: { readonly uri: string; readonly version?: number; readonly diagnostics: Diagnostic[] }[];
  /** Requests of the server, by method. */
  readonly asked: string[];
  /** Raw bytes to the server, for what no client would send. */
  send(bytes: string): void;
  open(uri: string, text: string, version?: number): Promise<void>;
  change(uri: string, version: number, changes: object[]): Promise<void>;
  /** Waits until something is published for a document, after those that were seen already. */
  nextPublished(uri: string, version?: number): Promise<Diagnostic[]>;
  close(): void;
}

export const PUSHED = {
  textDocument: { publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true } },
};
export const PULLED = {
  textDocument: { diagnostic: { relatedInformation: true } },
  workspace: { inlayHint: { refreshSupport: true }, diagnostics: { refreshSupport: true } },
};

export async function startClient(
  capabilities: InitializeParams['capabilities'] = PUSHED,
  options: { files?: Readonly<Record<string, string>>; locale?: string; look?: string; preview?: boolean } = {},
): Promise<Client> {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  serveStreams(toServer, toClient, '0.0.0');
  const connection = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  const published: Client['published'] = [];
  const asked: string[] = [];
  const waiting = new Set<() => void>();
  connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
    published.push(params as Client['published'][number]);
    for (const wake of waiting) wake();
  });
  const files = options.files ?? {};
  connection.onRequest('cranknote/read', ({ uri }: { uri: string }): unknown =>
    files[uri] === undefined ? { problem: 'missing' } : { text: files[uri] },
  );
  connection.onRequest('cranknote/find', () => ({ uris: Object.keys(files) }));
  const other = (method: string) => {
    asked.push(method);
    return null;
  };
  (connection.onRequest as unknown as (answer: typeof other) => void)(other);
  connection.listen();
  const initialized = await connection.sendRequest(InitializeRequest.type, {
    processId: null,
    rootUri: null,
    workspaceFolders: [{ uri: 'file:///nursery', name: 'nursery' }],
    capabilities,
    initializationOptions: {
      files: true,
      pages: 'reference:/{code}',
      ...(options.look && { look: options.look }),
      ...(options.preview && { preview: true }),
    },
    ...(options.locale && { locale: options.locale }),
  });
  await connection.sendNotification(InitializedNotification.type, {});
  let seen = 0;
  return {
    connection,
    initialized,
    published,
    asked,
    send: (bytes) => void toServer.write(bytes),
    open: (uri, text, version = 1) =>
      connection.sendNotification(DidOpenTextDocumentNotification.type, {
        textDocument: { uri, languageId: 'crank', version, text },
      }),
    change: (uri, version, contentChanges) =>
      connection.sendNotification(DidChangeTextDocumentNotification.type, {
        textDocument: { uri, version },
        contentChanges: contentChanges as never,
      }),
    async nextPublished(uri, version) {
      for (;;) {
        const at = published.findIndex((p, i) => i >= seen && p.uri === uri && (version ?? p.version) === p.version);
        if (at >= 0) {
          seen = at + 1;
          return published[at].diagnostics;
        }
        await new Promise<void>((resolve) => {
          const wake = () => {
            waiting.delete(wake);
            resolve();
          };
          waiting.add(wake);
        });
      }
    },
    close() {
      void connection.sendNotification(ExitNotification.type).catch(() => {});
      connection.dispose();
    },
  };
}
