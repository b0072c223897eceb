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
import { SheetTarget } from './sheet-target.js';
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
  private trouble: Trouble | undefined;
  private readonly target: SheetTarget;
  private isReady = false;
  /** Something has changed while nobody could see it. */
  private isStale = true;

  constructor(
    private readonly panel: WebviewPanel,
    state: PanelState,
    private readonly server: Server,
    private readonly context: ExtensionContext,
    private readonly keeper: Keeper,
  ) {
    this.target = new SheetTarget(state);
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

  get state(): PanelState {
    return this.target.state;
  }

  /** It stays with this very sequence. */
  holds({ uri, sequence }: SheetSubject): boolean {
    return (
      !this.state.follows && sequence !== undefined && this.state.uri === uri && this.answer?.sequence === sequence
    );
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  show(subject: SheetSubject): void {
    this.target.show(subject);
    this.refresh();
  }

  /** The cursor stands elsewhere; says whether another sheet may have to be shown. */
  follow({ uri, version }: TextDocument, line: number): boolean {
    const shown = this.answered === this.state.uri ? this.answer : undefined;
    return this.state.follows && this.target.follow({ uri: uri.toString(), version }, line, shown);
  }

  moved(from: Uri, to: Uri): void {
    this.target.moved(from.toString(), to.toString());
  }

  hold(): void {
    if (!this.state.follows) return;
    this.target.hold(this.answer?.sequence);
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
      if (answer && this.target.found(answer)) return this.update();
      this.isStale = false;
      // Of a file that can't be read any more the last answer is kept, but not of another one.
      this.answer = answer ?? (uri === this.answered ? this.answer : undefined);
      this.answered = uri;
      this.trouble = answer ? troubleIn(answer, uri) : { message: unreadable() };
      if (answer?.sheet) this.last = { of: this.name(answer), html: answer.sheet.content };
    } catch (error) {
      if (asking.token.isCancellationRequested) return;
      // Choices may have been kept from another version, and this one has them not.
      if (isNonsense(error) && this.target.forgetChoices()) return this.update();
      this.trouble = { message: error instanceof Error ? error.message : String(error) };
    }
    this.post();
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
        this.target.choose(choice);
        this.keeper.chosen(choice);
        return this.refresh();
      }
      case 'sequence': {
        this.target.hold(message.name);
        return this.refresh();
      }
      case 'follow': {
        if (!message.on) return this.hold();
        this.target.release();
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

const isNonsense = (error: unknown): boolean =>
  error instanceof ResponseError && error.code === ErrorCodes.InvalidParams;

function troubleIn({ refused }: SheetAnswer, uri: string): Trouble | undefined {
  if (!refused) return undefined;
  const { message, at } = refused;
  if (!at) return { message };
  const line = at.range.start.line + 1;
  const file = Uri.parse(at.uri).path.split('/').at(-1) ?? '';
  return { message, place: at.uri === uri ? l10n.t('Line {0}', line) : l10n.t('{0}, line {1}', file, line) };
}
