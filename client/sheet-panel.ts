/** One panel with a sheet: asks the server for it, and keeps the last one where the text has an error. */
import {
  CancellationTokenSource,
  type ExtensionContext,
  env,
  l10n,
  Range,
  type TextDocument,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import { ErrorCodes, ResponseError } from 'vscode-languageclient';
import { SHEET, type SheetAnswer, type SheetChoices, type SheetParams } from './protocol.js';
import { type Server, tell } from './server.js';
import type { FromPage, PanelState, SheetSubject, ToPage, Trouble } from './sheet-messages.js';
import { printSheet, type SheetToMake, saveSheet, unreadable } from './sheet-out.js';
import { pageFor } from './sheet-page.js';
import { choicesFrom } from './sheet-state.js';
import { pageTexts } from './sheet-texts.js';

/** Who has to know what happens in a panel. */
interface Keeper {
  chosen(choices: SheetChoices): void;
  /** It is to go with the cursor from now on. */
  follows(): void;
  closed(): void;
}

export class SheetPanel {
  private asking: CancellationTokenSource | undefined;
  private answer: SheetAnswer | undefined;
  /** The document that it is of. */
  private answered: string | undefined;
  /** The last sheet that could be made, and what it is a sheet of. */
  private last = { of: '', html: '' };
  /** What the page has; undefined where it has to be told everything. */
  private shown: string | undefined;
  /** Of what a sequence was found last. */
  private home: SheetSubject | undefined;
  /** The version of the document that the cursor has led to; missing where somebody has asked for it. */
  private visited: string | undefined;
  /** A version of a document that has no sequences. */
  private barren: string | undefined;
  private trouble: Trouble | undefined;
  private isReady = false;
  /** Something has changed while nobody could see it. */
  private isStale = true;

  constructor(
    private readonly panel: WebviewPanel,
    private state: PanelState,
    private readonly server: Server,
    private readonly context: ExtensionContext,
    private readonly keeper: Keeper,
  ) {
    panel.iconPath = {
      light: Uri.joinPath(context.extensionUri, 'icons/crank-light.svg'),
      dark: Uri.joinPath(context.extensionUri, 'icons/crank-dark.svg'),
    };
    panel.webview.onDidReceiveMessage((message: FromPage) => void this.take(message).catch(tell));
    panel.onDidChangeViewState(() => {
      if (panel.visible && this.isStale) this.refresh();
    });
    panel.onDidDispose(() => {
      this.asking?.cancel();
      keeper.closed();
    });
    panel.webview.html = pageFor(panel.webview, context.extensionUri);
  }

  get follows(): boolean {
    return this.state.follows;
  }

  get subject(): SheetSubject {
    const { uri, sequence, line } = this.state;
    return { uri, ...(sequence !== undefined && { sequence }), ...(line !== undefined && { line }) };
  }

  /** It stays with this very sequence. */
  holds({ uri, sequence }: SheetSubject): boolean {
    return !this.follows && sequence !== undefined && this.state.uri === uri && this.answer?.sequence === sequence;
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  show(subject: SheetSubject): void {
    const { follows, choices } = this.state;
    this.state = { ...subject, follows, choices };
    this.visited = undefined;
    this.refresh();
  }

  /** The cursor stands elsewhere; says whether that is in another sequence than the one that is shown. */
  follow(document: TextDocument, line: number): boolean {
    const { follows, choices } = this.state;
    const uri = document.uri.toString();
    const isSame = uri === this.state.uri;
    const version = `${document.version} ${uri}`;
    if (!isSame && version === this.barren) return false;
    const { sequences = [], sequence } = this.answer ?? {};
    const at = isSame ? sequences.find(({ range }) => range.start.line <= line && line < range.end.line) : undefined;
    // Between sequences there is nothing to show instead.
    if (isSame && this.answer && !at) return false;
    this.visited = version;
    this.state = { uri, line, follows, choices };
    return at === undefined || at.name !== sequence;
  }

  /** A file, or a folder with all that is in it, has another address now. */
  moved(from: string, to: string): void {
    const { uri } = this.state;
    if (uri === from || uri.startsWith(`${from}/`)) this.state = { ...this.state, uri: to + uri.slice(from.length) };
  }

  hold(): void {
    if (!this.follows) return;
    const { line: _, ...state } = this.state;
    const sequence = this.answer?.sequence ?? state.sequence;
    this.state = { ...(sequence === undefined ? this.state : { ...state, sequence }), follows: false };
    this.post();
  }

  refresh(): void {
    this.isStale = true;
    if (this.panel.visible && this.isReady) void this.update();
  }

  private async update(): Promise<void> {
    this.asking?.cancel();
    const asking = new CancellationTokenSource();
    this.asking = asking;
    const { uri } = this.state;
    try {
      const answer = await this.ask(this.state, {}, asking);
      // Where the cursor has gone into another document meanwhile, that is asked for soon.
      if (asking.token.isCancellationRequested || this.state.uri !== uri) return;
      if (answer?.sequences.length === 0 && this.goBack()) return this.update();
      this.isStale = false;
      // Of a file that can't be read any more the last answer is kept, but not of another one.
      this.answer = answer ?? (uri === this.answered ? this.answer : undefined);
      this.answered = uri;
      this.trouble = answer ? troubleIn(answer, uri) : { message: unreadable() };
      if (answer?.sequence !== undefined) this.home = this.subject;
      if (answer?.sheet) this.last = { of: this.name(answer), html: answer.sheet.content };
    } catch (error) {
      if (asking.token.isCancellationRequested) return;
      if (this.hasOldChoices(error)) return this.update();
      this.trouble = { message: error instanceof Error ? error.message : String(error) };
    }
    this.post();
  }

  /** A file without sequences, such as one of machines, has nothing to show instead: what was shown before stays. */
  private goBack(): boolean {
    const { uri, follows, choices } = this.state;
    if (!this.home || this.home.uri === uri || this.visited === undefined) return false;
    this.barren = this.visited;
    this.state = { ...this.home, follows, choices };
    return true;
  }

  /** Choices that were kept from another version, and that this one has not: it goes on without them. */
  private hasOldChoices(error: unknown): boolean {
    const { choices } = this.state;
    const isRefused = error instanceof ResponseError && error.code === ErrorCodes.InvalidParams;
    if (!isRefused || Object.keys(choices).length === 0) return false;
    this.state = { ...this.state, choices: {} };
    return true;
  }

  private ask(
    { uri, sequence, line, choices }: PanelState,
    more: Pick<SheetParams, 'format'>,
    asking?: CancellationTokenSource,
  ): Promise<SheetAnswer | null> {
    const params: SheetParams = {
      uri,
      ...(sequence === undefined ? {} : { sequence }),
      ...(line === undefined ? {} : { line }),
      ...choices,
      ...more,
    };
    return this.server.ask<SheetAnswer | null>(SHEET, params, asking?.token);
  }

  /** Of what a sheet is one: an older one may stand in for it as long as that is the same. */
  private name({ sequence, choices }: SheetAnswer): string {
    return JSON.stringify([this.state.uri, sequence ?? this.state.sequence, choices]);
  }

  private post(): void {
    if (!this.isReady) return;
    const { answer, state, trouble } = this;
    const isOf = answer !== undefined && this.last.of === this.name(answer);
    const html = isOf ? this.last.html : '';
    const shown = html === '' ? {} : { shown: l10n.t('Below is the last sheet that could be made.') };
    this.panel.title = answer?.sequence === undefined ? l10n.t('Sheet') : l10n.t('{0}: sheet', answer.sequence);
    this.send({
      is: 'view',
      view: {
        state,
        sequence: answer?.sequence,
        sequences: answer?.sequences ?? [],
        made: answer?.choices,
        offers: answer?.offers,
        trouble: trouble && { ...trouble, ...shown },
        ...(html !== this.shown && { html }),
      },
    });
    this.shown = html;
  }

  private send(message: ToPage): void {
    void this.panel.webview.postMessage(message);
  }

  private async take(message: FromPage): Promise<void> {
    switch (message.is) {
      case 'ready': {
        this.isReady = true;
        this.shown = undefined;
        this.send({ is: 'texts', language: env.language, texts: pageTexts() });
        if (this.answer) this.post();
        return this.isStale ? this.refresh() : undefined;
      }
      case 'choose': {
        const choice = choicesFrom({ [message.name]: message.value });
        this.state = { ...this.state, choices: { ...this.state.choices, ...choice } };
        this.keeper.chosen(choice);
        return this.refresh();
      }
      case 'sequence': {
        const { uri, choices } = this.state;
        this.state = { uri, sequence: message.name, follows: false, choices };
        return this.refresh();
      }
      case 'follow': {
        if (!message.on) return this.hold();
        this.state = { ...this.state, follows: true };
        this.post();
        return this.keeper.follows();
      }
      case 'save':
        return saveSheet(this.order());
      case 'print':
        return printSheet(this.order(), this.context.globalStorageUri, (told) => this.send(told));
      case 'mend':
        return this.mend();
    }
  }

  /** What is saved or printed is made of the text as it then stands, and of what is shown now, wherever the cursor goes. */
  private order(): SheetToMake {
    const { state } = this;
    return { uri: state.uri, make: (format) => this.ask(state, { format }) };
  }

  private async mend(): Promise<void> {
    const at = this.answer?.refused?.at;
    if (!at) return;
    const { start, end } = at.range;
    const uri = Uri.parse(at.uri, true);
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
    await window.showTextDocument(uri, {
      viewColumn: editor?.viewColumn ?? ViewColumn.One,
      selection: new Range(start.line, start.character, end.line, end.character),
    });
  }
}

function troubleIn({ refused }: SheetAnswer, uri: string): Trouble | undefined {
  if (!refused) return undefined;
  const { message, at } = refused;
  if (!at) return { message };
  const line = at.range.start.line + 1;
  const file = Uri.parse(at.uri).path.split('/').at(-1) ?? '';
  return { message, place: at.uri === uri ? l10n.t('Line {0}', line) : l10n.t('{0}, line {1}', file, line) };
}
