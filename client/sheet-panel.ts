/** One panel with a sheet: asks the server for it, and keeps the last one where the text has an error. */
import {
  CancellationTokenSource,
  type ExtensionContext,
  env,
  l10n,
  type TextEditor,
  type Uri,
  type WebviewPanel,
} from 'vscode';
import { ErrorCodes, ResponseError } from 'vscode-languageclient';
import { giveIcon, pageFor } from './panel-page.js';
import type { Subject } from './panel-target.js';
import type { Keeper, Panel } from './panels.js';
import { leadTo, placeText } from './places.js';
import { SHEET, type SheetAnswer, type SheetChoices, type SheetParams } from './protocol.js';
import { type Server, tell } from './server.js';
import type { FromPage, PanelState, ToPage, Trouble } from './sheet-messages.js';
import { printSheet, type SheetToMake, saveSheet, unreadable } from './sheet-out.js';
import { SHEET_PAGE } from './sheet-page.js';
import { choicesFrom } from './sheet-state.js';
import { SheetTarget } from './sheet-target.js';
import { pageTexts } from './sheet-texts.js';

/** Who has to know what happens in a panel. */
interface SheetKeeper extends Keeper {
  chosen(choices: SheetChoices): void;
}

export class SheetPanel implements Panel<PanelState> {
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
    private readonly keeper: SheetKeeper,
  ) {
    this.target = new SheetTarget(state);
    giveIcon(panel, context.extensionUri);
    panel.webview.onDidReceiveMessage((message: FromPage) => void this.take(message).catch(tell));
    panel.onDidChangeViewState(() => {
      if (panel.visible && this.isStale) this.refresh();
    });
    panel.onDidDispose(() => {
      this.asking?.cancel();
      keeper.closed();
    });
    panel.webview.html = pageFor(panel.webview, context.extensionUri, 'sheet', SHEET_PAGE);
  }

  get state(): PanelState {
    return this.target.state;
  }

  get isVisible(): boolean {
    return this.panel.visible;
  }

  holds({ uri, sequence }: Subject): boolean {
    return (
      !this.state.follows && sequence !== undefined && this.state.uri === uri && this.answer?.sequence === sequence
    );
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  show(subject: Subject): void {
    this.target.show(subject);
    this.refresh();
  }

  follow({ document: { uri, version }, selection }: TextEditor): boolean {
    const shown = this.answered === this.state.uri ? this.answer : undefined;
    return this.target.follow({ uri: uri.toString(), version }, selection.active.line, shown);
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
    if (at) await leadTo(at);
  }
}

const isNonsense = (error: unknown): boolean =>
  error instanceof ResponseError && error.code === ErrorCodes.InvalidParams;

function troubleIn({ refused }: SheetAnswer, uri: string): Trouble | undefined {
  if (!refused) return undefined;
  const { message, at } = refused;
  return at ? { message, place: placeText(at, uri) } : { message };
}
