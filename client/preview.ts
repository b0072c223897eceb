/**
 * The preview of Markdown: below each `crank` fence the machine after it, its readings, and what was found.
 *
 * The preview asks for a whole page at once and waits for nobody. So it is given what the server said last, and is made
 * anew if that has become another thing meanwhile. The server is asked as soon as somebody writes: its answer is mostly
 * there before the preview, which takes its time, asks.
 */
import type MarkdownIt from 'markdown-it';
import { commands, Disposable, languages, type TextDocument, type Uri, workspace } from 'vscode';
import { State } from 'vscode-languageclient';
import { SELECTOR } from './documents.js';
import { below, type Fence, fencesOf } from './fences.js';
import { FENCES, type FencesParams, type FencesResult, REFRESH_FENCES } from './protocol.js';
import type { Server } from './server.js';

/** Pages that have been in a preview and are followed; when one is closed, nobody says so. */
const MOST_PAGES = 10;

/** Milliseconds after an edit until a preview shows it; it waits for 300 itself. */
const SETTLED = 800;
/** Milliseconds after which a preview that was to be made anew and was not has been closed. */
const GIVEN_UP = 5_000;

type Tokens = Parameters<NonNullable<MarkdownIt['renderer']['rules']['fence']>>[0];

interface Page {
  readonly uri: Uri;
  /** What the server said last, and how it calls that. */
  told: readonly Fence[];
  resultId?: string | undefined;
  /** What the preview has got, and of which version of the text. */
  contents: readonly string[];
  shown: readonly string[];
  version: number;
  isAsking: boolean;
  /** Something has changed since the server was asked. */
  isStale: boolean;
  settling?: ReturnType<typeof setTimeout> | undefined;
  /** There seems to be no preview of it any more. */
  isClosed: boolean;
}

export class Preview implements Disposable {
  /** The one that was rendered last at the end. */
  private readonly pages = new Map<string, Page>();
  /** The server could not be asked: until it is started again, nobody tries. */
  private isOff = false;
  private readonly parts: Disposable[];

  constructor(private readonly server: Server) {
    const { client } = server;
    this.parts = [
      client.onNotification(REFRESH_FENCES, () => this.askAll()),
      client.onDidChangeState(({ newState }) => {
        for (const page of this.pages.values()) page.resultId = undefined;
        if (newState !== State.Running) return;
        this.isOff = false;
        this.askAll();
      }),
      workspace.onDidChangeTextDocument(({ document }) => {
        const page = this.pages.get(document.uri.toString());
        if (page) void this.ask(page);
      }),
      workspace.onDidOpenTextDocument(({ uri }) => {
        const page = this.pages.get(uri.toString());
        if (page) void this.ask(page);
      }),
      new Disposable(() => {
        for (const { settling } of this.pages.values()) clearTimeout(settling);
      }),
    ];
  }

  /** What the Markdown of the editor calls: it lets others add to what is rendered. */
  readonly extendMarkdownIt = (markdown: MarkdownIt): MarkdownIt => {
    const { rules } = markdown.renderer;
    const source = rules.fence;
    rules.fence = (tokens, i, options, env, self) => {
      const written = source ? source(tokens, i, options, env, self) : self.renderToken(tokens, i, options);
      return isCrank(tokens[i]) ? written + this.belowFence(tokens, i, env) : written;
    };
    return markdown;
  };

  private belowFence(tokens: Tokens, i: number, env: unknown): string {
    const document = documentIn(env);
    if (!document) return '';
    const fences = fencesIn(tokens);
    const at = fences.get(tokens[i]) ?? 0;
    const page = this.pageOf(document);
    if (at === 0) {
      const isUnknown = page.resultId === undefined || page.isClosed;
      clearTimeout(page.settling);
      page.isClosed = false;
      page.contents = [...fences.keys()].map(({ content }) => content);
      page.shown = below(page.contents, page.told);
      page.version = document.version;
      if (isUnknown) void this.ask(page);
    }
    return page.shown[at] ?? '';
  }

  private pageOf({ uri }: TextDocument): Page {
    const key = uri.toString();
    const page = this.pages.get(key) ?? {
      uri,
      told: [],
      contents: [],
      shown: [],
      version: 0,
      isAsking: false,
      isStale: false,
      isClosed: false,
    };
    this.pages.delete(key);
    this.pages.set(key, page);
    for (const [other, { settling }] of this.pages) {
      if (this.pages.size <= MOST_PAGES) break;
      clearTimeout(settling);
      this.pages.delete(other);
    }
    return page;
  }

  private askAll(): void {
    for (const page of this.pages.values()) void this.ask(page);
  }

  /** Asks one question at a time; what comes in between is asked for afterwards, at once. */
  private async ask(page: Page): Promise<void> {
    page.isStale = true;
    if (page.isAsking || page.isClosed || this.isOff) return;
    page.isAsking = true;
    try {
      while (page.isStale) {
        page.isStale = false;
        const { resultId } = page;
        const params: FencesParams = {
          textDocument: { uri: this.server.client.code2ProtocolConverter.asUri(page.uri) },
          ...(resultId !== undefined && { previousResultId: resultId }),
        };
        const answer = await this.server.ask<FencesResult>(FENCES, params);
        if (!answer) continue;
        page.told = fencesOf(answer, page.told);
        page.resultId = answer.resultId;
        this.told(page);
      }
    } catch {
      // The client says itself what is wrong with its server; the page is shown without what it would say.
      this.isOff = !this.server.client.isRunning();
    } finally {
      page.isAsking = false;
    }
  }

  /** A preview that has to show an edit takes what is told now; any other is made anew if it shows something else. */
  private told(page: Page): void {
    clearTimeout(page.settling);
    const document = workspace.textDocuments.find(({ uri }) => uri.toString() === page.uri.toString());
    if (document && document.version > page.version) page.settling = setTimeout(() => refresh(page), SETTLED);
    else refresh(page);
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
  }
}

/** The fences among the tokens of a page, with their numbers from the top; a page is rendered again from the same tokens. */
function fencesIn(tokens: Tokens): ReadonlyMap<Tokens[number], number> {
  let fences = FENCES_IN.get(tokens);
  if (!fences) {
    fences = new Map(tokens.filter(isCrank).map((token, i) => [token, i]));
    FENCES_IN.set(tokens, fences);
  }
  return fences;
}
const FENCES_IN = new WeakMap<Tokens, ReadonlyMap<Tokens[number], number>>();

const isCrank = ({ type, info }: Tokens[number]): boolean =>
  type === 'fence' && info.trim().split(/\s+/)[0] === 'crank';

/** The document that is rendered, if the server looks at it. */
function documentIn(env: unknown): TextDocument | undefined {
  const uri = (env as { readonly currentDocument?: Uri } | undefined)?.currentDocument?.toString();
  const document = uri && workspace.textDocuments.find((other) => other.uri.toString() === uri);
  return document && languages.match(SELECTOR, document) > 0 ? document : undefined;
}

/** Invariant: once a preview has got what was told, it is not made anew before something else is told. */
function refresh(page: Page): void {
  const now = below(page.contents, page.told);
  if (now.every((html, i) => html === page.shown[i])) return;
  // Nobody says that a preview was closed. Others would be made anew for it at every edit.
  page.settling = setTimeout(() => {
    page.isClosed = true;
  }, GIVEN_UP);
  commands.executeCommand('markdown.preview.refresh').then(undefined, () => undefined);
}
