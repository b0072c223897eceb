/** What the client can do, and what the server offers it in turn. */
import {
  type ClientCapabilities,
  type InitializeParams,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { ACTION_KINDS } from './service/actions.js';
import { CHOOSE_CASE } from './service/commands.js';
import { type Look, lookFrom } from './service/picture.js';
import { TOKEN_LEGEND } from './service/semantic-tokens.js';

/** What the extension for VS Code tells of itself; any of it may be missing in another editor. */
export interface Offered {
  /** It answers `cranknote/read` and `cranknote/find`. */
  readonly files: boolean;
  /** It has pages for findings, at this address. */
  readonly pages?: string;
  readonly locale?: string;
  /** It shows pictures in hovers; how its theme looks. */
  readonly look?: Look;
  /** It shows fences in a preview of Markdown (`cranknote/fences`), and wants to be told when they have to be asked for again. */
  readonly preview: boolean;
}

export function offeredBy(options: unknown): Offered {
  const at = (key: string): unknown =>
    typeof options === 'object' && options !== null ? (options as Record<string, unknown>)[key] : undefined;
  const text = (key: string) => (typeof at(key) === 'string' ? { [key]: at(key) as string } : {});
  const look = lookFrom(at('look'));
  return {
    files: at('files') === true,
    ...text('pages'),
    ...text('locale'),
    ...(look && { look }),
    preview: at('preview') === true,
  };
}

/** The abilities of a client that make a difference. */
export interface Client {
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesInlays: boolean;
  readonly refreshesLenses: boolean;
  readonly asksForSettings: boolean;
  readonly registersSettings: boolean;
  readonly registersWatching: boolean;
  readonly tellsFolders: boolean;
  readonly snippets: boolean;
  readonly insertReplace: boolean;
  readonly lineFoldingOnly: boolean;
  readonly foldingLimit: number | undefined;
  readonly locationLinks: boolean;
  /** It takes edits with the version of the document that they are meant for. */
  readonly versionedEdits: boolean;
  readonly relatedInformation: boolean;
  readonly tags: boolean;
  readonly codeLinks: boolean;
}

export function clientOf({ capabilities }: InitializeParams): Client {
  const { textDocument: text, workspace }: ClientCapabilities = capabilities ?? {};
  const diagnostics = text?.diagnostic ?? text?.publishDiagnostics;
  return {
    pullsDiagnostics: text?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesInlays: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    asksForSettings: workspace?.configuration === true,
    registersSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatching: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    tellsFolders: workspace?.workspaceFolders === true,
    snippets: text?.completion?.completionItem?.snippetSupport === true,
    insertReplace: text?.completion?.completionItem?.insertReplaceSupport === true,
    lineFoldingOnly: text?.foldingRange?.lineFoldingOnly === true,
    foldingLimit: text?.foldingRange?.rangeLimit,
    locationLinks: text?.definition?.linkSupport === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    relatedInformation: diagnostics?.relatedInformation === true,
    tags: diagnostics?.tagSupport !== undefined,
    codeLinks: diagnostics?.codeDescriptionSupport === true,
  };
}

const FILES = {
  filters: [{ pattern: { glob: '**/*.{crank,md,markdown}' } }, { pattern: { glob: '**', matches: 'folder' as const } }],
};

/** How a document with a trace is addressed: what it is the trace of stands behind the question mark. */
export const TRACE_SCHEME = 'cranknote-trace';

export function capabilitiesFor(client: Client): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    ...(client.pullsDiagnostics && {
      diagnosticProvider: { identifier: 'cranknote', interFileDependencies: true, workspaceDiagnostics: true },
    }),
    inlayHintProvider: { resolveProvider: false },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '"', '/', '('], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [' ', '(', ','], retriggerCharacters: [')'] },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    documentSymbolProvider: { label: 'Cranknote' },
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    semanticTokensProvider: { legend: TOKEN_LEGEND, full: { delta: true }, range: true },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: { rangesSupport: true },
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] },
    documentLinkProvider: {},
    codeLensProvider: { resolveProvider: true },
    codeActionProvider: {
      codeActionKinds: [...ACTION_KINDS],
      resolveProvider: true,
    },
    callHierarchyProvider: true,
    linkedEditingRangeProvider: true,
    inlineValueProvider: true,
    executeCommandProvider: { commands: [CHOOSE_CASE] },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: FILES },
      textDocumentContent: { schemes: [TRACE_SCHEME] },
    },
  };
}
