/** Which feature answers which request. */
import {
  CallHierarchyIncomingCallsRequest,
  CallHierarchyOutgoingCallsRequest,
  CallHierarchyPrepareRequest,
  type CodeAction,
  CodeActionRequest,
  CodeActionResolveRequest,
  CodeActionTriggerKind,
  CodeLensRequest,
  CodeLensResolveRequest,
  CompletionRequest,
  CompletionResolveRequest,
  DefinitionRequest,
  DocumentDiagnosticRequest,
  DocumentFormattingRequest,
  DocumentHighlightRequest,
  DocumentLinkRequest,
  DocumentOnTypeFormattingRequest,
  DocumentRangeFormattingRequest,
  DocumentRangesFormattingRequest,
  DocumentSymbolRequest,
  ErrorCodes,
  ExecuteCommandRequest,
  FoldingRangeRequest,
  HoverRequest,
  InlayHintRequest,
  InlineValueRequest,
  LinkedEditingRangeRequest,
  type Position,
  PrepareRenameRequest,
  ProtocolRequestType,
  type Range,
  ReferencesRequest,
  RenameRequest,
  ResponseError,
  SelectionRangeRequest,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
  SignatureHelpRequest,
  TextDocumentContentRequest,
  WillRenameFilesRequest,
  WorkspaceDiagnosticRequest,
  WorkspaceSymbolRequest,
} from 'vscode-languageserver';
import { type Asked, type Desk, uriIn } from './desk.js';
import { answerMachine } from './machine-answers.js';
import type { Publisher } from './publishing.js';
import { codeActionsGradually, resolveActionGradually } from './service/actions.js';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from './service/call-hierarchy.js';
import { CHOOSE_CASE } from './service/commands.js';
import { completions, resolveCompletion, wantsFiles } from './service/completion.js';
import { definition, definitionLinks } from './service/definition.js';
import type { AnalysedDocument, ParsedDocument } from './service/document.js';
import { type FenceView, fencesGradually } from './service/fences.js';
import { editsForFileRename } from './service/file-rename.js';
import { foldingRanges } from './service/folding.js';
import { formatDocument, formatOnType, formatRange, formatRanges } from './service/formatting.js';
import { highlights } from './service/highlight.js';
import { hoverGradually } from './service/hover.js';
import { inlayHints } from './service/inlay.js';
import { inlineValues, valuesInSession } from './service/inline-values.js';
import { codeLenses, resolveLensGradually } from './service/lens.js';
import { linkedEditing } from './service/linked-editing.js';
import { documentLinks } from './service/links.js';
import { references } from './service/references.js';
import { prepareRename, rename } from './service/rename.js';
import { selectionRanges } from './service/selection.js';
import { deltaOf, semanticTokens } from './service/semantic-tokens.js';
import { type SheetAnswer, sheetAsked, shownSheetGradually } from './service/sheet.js';
import { signatureHelp } from './service/signature.js';
import { type StarterAnswer, starterAnswerGradually, starterAsked } from './service/starter.js';
import { documentSymbols, workspaceSymbols } from './service/symbols.js';
import { positionIn, rangeIn } from './service/text.js';
import { tracedText } from './service/traced.js';
import { fileOf } from './service/workspace.js';
import type { Session } from './session.js';
import { answerTests } from './tests.js';
import { traceAsked } from './traces.js';

interface AskedAt extends Asked {
  readonly position: Position;
}
interface AskedIn extends Asked {
  readonly range: Range;
}
/** The extension's own request: what its preview of Markdown shows below each fence. */
const FENCES = new ProtocolRequestType<AskedAgain, FencesTold | null, never, void, void>('cranknote/fences');
interface AskedAgain extends Asked {
  readonly previousResultId?: string;
}
interface FencesTold {
  readonly resultId: string;
  /** The HTML of each, or that of which of the result before it is the same. */
  readonly fences: readonly (FenceView | { readonly content: string; readonly same: number })[];
}

const at = (document: ParsedDocument, { position }: AskedAt): Position => positionIn(document.lines, position);
const within = (document: ParsedDocument, { range }: AskedIn): Range => rangeIn(document.lines, range);

export function answerRequests(desk: Desk, session: Session, publisher: Publisher): void {
  answerFindings(desk, session, publisher);
  answerReadings(desk, session);
  answerMachine(desk, session);
  answerFences(desk, session);
  answerWriting(desk, session);
  answerActions(desk, session);
  answerNames(desk, session);
  answerStructure(desk, session);
  answerColours(desk);
  answerFormatting(desk);
  answerTests(desk, session);
}

function answerFindings(desk: Desk, session: Session, publisher: Publisher): void {
  desk.on(DocumentDiagnosticRequest.type, (params, token) =>
    publisher.pull(uriIn(params), params.previousResultId, token),
  );
  desk.on(WorkspaceDiagnosticRequest.type, async ({ previousResultIds, workDoneToken, partialResultToken }, token) => {
    const previous = new Map(previousResultIds?.map(({ uri, value }) => [uri, value]));
    const { connection } = session;
    const items: Parameters<Parameters<Publisher['pullAll']>[2]>[0][] = [];
    if (workDoneToken !== undefined) session.begin(workDoneToken, session.reader.words.progress.checking);
    try {
      await publisher.pullAll(previous, token, (report, done, all) => {
        if (partialResultToken === undefined) items.push(report);
        else
          void connection.sendProgress(WorkspaceDiagnosticRequest.partialResult, partialResultToken, {
            items: [report],
          });
        if (workDoneToken !== undefined) session.report(workDoneToken, done, all);
      });
    } finally {
      if (workDoneToken !== undefined) session.end(workDoneToken);
    }
    return { items };
  });
}

/** A sheet of a sequence: a request of our own, for whoever shows one. */
const SHEET = new ProtocolRequestType<unknown, SheetAnswer | null, never, void, void>('cranknote/sheet');

function answerReadings(desk: Desk, session: Session): void {
  const { workspace } = session;
  desk.analysed(InlayHintRequest.type, (document, params) =>
    inlayHints(document, within(document, params), session.reader),
  );
  desk.on(HoverRequest.type, async (params, token) => {
    const done = await workspace.worked(uriIn(params), token, function* (document) {
      // Nothing to say is an answer as well.
      return { said: yield* hoverGradually(document, at(document, params), session.reader) };
    });
    return done?.said ?? null;
  });
  desk.analysed(InlineValueRequest.type, (document, params) => {
    const { frameId, stoppedLocation } = params.context ?? {};
    const range = within(document, params);
    const stopped = session.steppers.ofFrame(frameId);
    if (!stopped) return inlineValues(document, range, stoppedLocation?.end?.line, session.reader);
    const { timeline, stand } = stopped;
    const shown = { state: timeline.stateAt(stand.moment), profile: timeline.run.order.profile };
    return valuesInSession(document, range, stoppedLocation?.start?.line, shown, session.reader);
  });
  desk.on(TextDocumentContentRequest.type, async ({ uri }, token) => {
    const asked = traceAsked(String(uri));
    const document = asked && (await workspace.analysedFile(asked.uri, token));
    return { text: document ? tracedText(document, asked.sequence, asked.case, session.reader) : '' };
  });
  desk.on(SHEET, async (sent, token) => {
    const asked = sheetAsked(sent, session.reader.locale);
    if (typeof asked === 'string') throw new ResponseError(ErrorCodes.InvalidParams, asked);
    const made = await workspace.workedFile(asked.uri, token, (document) =>
      shownSheetGradually(document, asked, session.reader),
    );
    return made ?? null;
  });
  desk.analysed(CodeLensRequest.type, (document) => codeLenses(document, session.reader));
  desk.on(CodeLensResolveRequest.type, async (lens, token) => {
    await workspace.loadAll();
    const uri = addressIn(lens?.data);
    const work = (document: AnalysedDocument) => resolveLensGradually(document, lens, session.reader);
    return (uri === undefined ? undefined : await workspace.worked(uri, token, work)) ?? lens;
  });
  desk.on(ExecuteCommandRequest.type, ({ command, arguments: args }) => {
    const [uri, sequence, number] = args ?? [];
    if (
      command !== CHOOSE_CASE ||
      typeof uri !== 'string' ||
      typeof sequence !== 'string' ||
      !Number.isInteger(number)
    ) {
      throw new ResponseError(ErrorCodes.InvalidParams, `${command} does not exist, or needs other arguments.`);
    }
    session.chooseCase(uri, sequence, number);
    session.refresh();
    return null;
  });
}

function answerNames(desk: Desk, session: Session): void {
  const { workspace, client } = session;
  desk.analysed(DefinitionRequest.type, (document, params) =>
    client.locationLinks ? definitionLinks(document, at(document, params)) : definition(document, at(document, params)),
  );
  desk.everywhere(ReferencesRequest.type, (document, params) =>
    references(document, at(document, params), params.context?.includeDeclaration === true),
  );
  desk.parsed(DocumentHighlightRequest.type, (document, params) => highlights(document, at(document, params)));
  desk.everywhere(PrepareRenameRequest.type, (document, params) =>
    prepareRename(document, at(document, params), session.reader.words),
  );
  desk.everywhere(RenameRequest.type, (document, params) => {
    const edit = rename(document, at(document, params), String(params.newName), session.reader.words);
    return edit && session.editsFor(edit);
  });
  desk.parsed(LinkedEditingRangeRequest.type, (document, params) => linkedEditing(document, at(document, params)));
  desk.analysed(DocumentLinkRequest.type, (document) => documentLinks(document, session.reader.words));
  desk.on(WillRenameFilesRequest.type, async ({ files }) => {
    await workspace.loadAll();
    const { library, uriOf } = workspace;
    const edit = editsForFileRename({ library, uriOf, fileOf }, files);
    return edit ? session.editsFor(edit) : null;
  });
}

/** A file to begin with: a request of our own, for whoever offers one. */
const STARTER = new ProtocolRequestType<unknown, StarterAnswer, never, void, void>('cranknote/starter');

function answerWriting(desk: Desk, session: Session): void {
  const { workspace, client } = session;
  desk.on(STARTER, async (sent, token) => {
    const asked = starterAsked(sent, session.reader.locale);
    if (typeof asked === 'string') throw new ResponseError(ErrorCodes.InvalidParams, asked);
    const answer = await workspace.patiently(starterAnswerGradually(asked, session.reader.locale), token);
    if (!answer || typeof answer === 'string') throw new ResponseError(ErrorCodes.InvalidParams, answer ?? '');
    return answer;
  });
  desk.on(CompletionRequest.type, async (params, token) => {
    const document = await workspace.parsed(uriIn(params), token);
    if (!document) return null;
    const position = at(document, params);
    const files = wantsFiles(document, position) ? await workspace.filesBeside(document.file) : [];
    const { snippets, insertReplace } = client;
    const trigger = params.context?.triggerCharacter;
    return completions(document, position, session.reader, {
      files,
      snippets,
      insertReplace,
      ...(trigger !== undefined && { trigger }),
    });
  });
  desk.on(CompletionResolveRequest.type, async (item, token) => {
    const uri: unknown = item?.data?.uri;
    const document = typeof uri === 'string' ? await workspace.parsed(uri, token) : undefined;
    return document ? resolveCompletion(document, item, session.reader) : item;
  });
  desk.parsed(SignatureHelpRequest.type, (document, params) =>
    signatureHelp(document, at(document, params), session.reader),
  );
}

/** Which document an item named when it was offered. */
function addressIn(data: unknown): string | undefined {
  const uri = typeof data === 'object' && data !== null ? (data as { uri?: unknown }).uri : undefined;
  return typeof uri === 'string' ? uri : undefined;
}

const withEdits = (session: Session, action: CodeAction): CodeAction =>
  action.edit ? { ...action, edit: session.editsFor(action.edit) } : action;

function answerActions(desk: Desk, session: Session): void {
  desk.on(CodeActionRequest.type, async (params, token) => {
    const uri = uriIn(params);
    const { only, diagnostics, triggerKind } = params.context ?? {};
    const isAutomatic = triggerKind === CodeActionTriggerKind.Automatic;
    const actions = await session.workspace.worked(uri, token, (document) =>
      codeActionsGradually(document, within(document, params), { only, isAutomatic }, session.reader),
    );
    if (!actions) return null;
    return actions.map((action) => {
      const code = action.data?.code;
      const mended = diagnostics?.filter((diagnostic) => code !== undefined && diagnostic.code === code);
      const data = { ...action.data, uri };
      return withEdits(session, { ...action, ...(mended?.length && { diagnostics: mended }), data });
    });
  });
  desk.on(CodeActionResolveRequest.type, async (action, token) => {
    const uri = addressIn(action?.data);
    const resolved =
      uri === undefined
        ? undefined
        : await session.workspace.worked(uri, token, (document) =>
            resolveActionGradually(document, action, session.reader),
          );
    if (!resolved) return action;
    // It was offered before anybody knew: the client makes nothing of it, and the reason would be lost.
    if (resolved.disabled) session.tell(resolved.disabled.reason);
    return withEdits(session, resolved);
  });
}

function answerStructure(desk: Desk, session: Session): void {
  const { workspace, client } = session;
  const { library, uriOf } = workspace;
  desk.parsed(DocumentSymbolRequest.type, (document) => documentSymbols(document, session.reader.words));
  desk.on(WorkspaceSymbolRequest.type, async ({ query }) => {
    await workspace.loadAll();
    return workspaceSymbols(library, uriOf, String(query ?? ''));
  });
  desk.everywhere(CallHierarchyPrepareRequest.type, (document, params) =>
    prepareCallHierarchy(document, at(document, params)),
  );
  desk.on(CallHierarchyIncomingCallsRequest.type, ({ item }) => incomingCalls(library, uriOf, item));
  desk.on(CallHierarchyOutgoingCallsRequest.type, ({ item }) => outgoingCalls(library, uriOf, item));
  desk.parsed(FoldingRangeRequest.type, (document) => {
    const { lineFoldingOnly, foldingLimit } = client;
    return foldingRanges(document, { lineFoldingOnly, ...(foldingLimit && { rangeLimit: foldingLimit }) });
  });
  desk.parsed(SelectionRangeRequest.type, (document, { positions }) =>
    selectionRanges(document, Array.isArray(positions) ? positions : []),
  );
}

/** What a client was told of each document, so that it may ask for what has changed since. */
class Told<T> {
  private readonly known = new Map<string, { readonly resultId: string; readonly data: T }>();
  private lastId = 0;

  /** @param most documents; those that are closed long since need not be kept */
  constructor(private readonly most: number) {}

  /** What it was told last, if that is what it means. */
  before(uri: string, resultId: string | undefined): T | undefined {
    const told = this.known.get(uri);
    return told && told.resultId === resultId ? told.data : undefined;
  }

  remember(uri: string, data: T): { readonly resultId: string; readonly data: T } {
    const told = { resultId: String(++this.lastId), data };
    this.known.delete(uri);
    this.known.set(uri, told);
    if (this.known.size > this.most) this.known.delete([...this.known.keys()][0]);
    return told;
  }
}
const MOST_COLOURED = 50;
const MOST_PREVIEWED = 10;

/** What stands below fences in a preview: at every edit, and hardly anything of it is new. */
function answerFences(desk: Desk, session: Session): void {
  const told = new Told<ReadonlyMap<string, number>>(MOST_PREVIEWED);
  desk.on(FENCES, async (params, token) => {
    const uri = uriIn(params);
    const before = told.before(uri, params.previousResultId);
    const views = await session.workspace.worked(uri, token, (document) => fencesGradually(document, session.reader));
    if (!views) return null;
    const { resultId } = told.remember(uri, new Map(views.map(({ html }, i) => [html, i])));
    const fences = views.map(({ content, html }) => {
      const same = before?.get(html);
      return same === undefined ? { content, html } : { content, same };
    });
    return { resultId, fences };
  });
}

/** Colours that a client has, by document: it may ask for what has changed since. */
function answerColours(desk: Desk): void {
  const told = new Told<number[]>(MOST_COLOURED);
  desk.parsed(SemanticTokensRequest.type, (document) => told.remember(document.uri, semanticTokens(document)));
  desk.parsed(SemanticTokensDeltaRequest.type, (document, { previousResultId }) => {
    const before = told.before(document.uri, previousResultId);
    const { resultId, data } = told.remember(document.uri, semanticTokens(document));
    return before ? { resultId, edits: deltaOf(before, data) } : { resultId, data };
  });
  desk.parsed(SemanticTokensRangeRequest.type, (document, params) => ({
    data: semanticTokens(document, within(document, params)),
  }));
}

function answerFormatting(desk: Desk): void {
  desk.parsed(DocumentFormattingRequest.type, formatDocument);
  desk.parsed(DocumentRangeFormattingRequest.type, (document, params) =>
    formatRange(document, within(document, params)),
  );
  desk.parsed(DocumentRangesFormattingRequest.type, (document, { ranges }) =>
    formatRanges(document, Array.isArray(ranges) ? ranges : []),
  );
  desk.parsed(DocumentOnTypeFormattingRequest.type, (document, params) =>
    formatOnType(document, at(document, params), params.ch),
  );
}
