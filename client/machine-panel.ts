/**
 * One panel with a machine: asks the server for the moment that is wanted, and keeps the last machine where there is none.
 *
 * Invariant: at most one moment is asked for and one is being drawn at a time; what is wanted meanwhile waits, and the
 * latest wins. A panel that nobody sees asks nothing.
 */
import {
  CancellationTokenSource,
  type ExtensionContext,
  env,
  l10n,
  type TextEditor,
  type Uri,
  type WebviewPanel,
} from 'vscode';
import type { FromMachinePage, MachineState, ToMachinePage } from './machine-messages.js';
import { MACHINE_PAGE } from './machine-page.js';
import { MachineShown } from './machine-shown.js';
import { MachineTarget } from './machine-target.js';
import { machineTexts } from './machine-texts.js';
import { giveIcon, pageFor } from './panel-page.js';
import type { Subject } from './panel-target.js';
import type { Keeper, Panel } from './panels.js';
import { leadTo } from './places.js';
import {
  MACHINE,
  MACHINE_ORIGIN,
  type MachineAnswer,
  type OriginAnswer,
  type OriginParams,
  type Place,
} from './protocol.js';
import { type Server, tell } from './server.js';
import { StepMark } from './step-mark.js';

interface MachineKeeper extends Keeper {
  /** Somebody has chosen a case: the readings beside the text are to be the same. */
  chosen(uri: string, sequence: string, number: number): void;
}

export class MachinePanel implements Panel<MachineState> {
  private readonly target: MachineTarget;
  private readonly mark = new StepMark();
  private readonly shown = new MachineShown();
  private asking: CancellationTokenSource | undefined;
  /** What was sent is not seen yet; and something newer waits until it is. */
  private isDrawing = false;
  private isHeldBack = false;
  private isReady = false;
  /** The place that this very panel has led to: the cursor that stands there is not followed. */
  private ledTo: string | undefined;

  constructor(
    private readonly panel: WebviewPanel,
    state: MachineState,
    private readonly server: Server,
    context: ExtensionContext,
    private readonly keeper: MachineKeeper,
  ) {
    this.target = new MachineTarget(state);
    giveIcon(panel, context.extensionUri);
    panel.webview.onDidReceiveMessage((message: FromMachinePage) => void this.take(message).catch(tell));
    panel.onDidChangeViewState(() => {
      this.isDrawing = false;
      if (panel.visible) void this.pump();
      else this.mark.clear();
    });
    panel.onDidDispose(() => {
      this.asking?.cancel();
      this.mark.dispose();
      keeper.closed();
    });
    panel.webview.html = pageFor(panel.webview, context.extensionUri, 'machine', MACHINE_PAGE);
  }

  get state(): MachineState {
    return this.target.state;
  }

  get isVisible(): boolean {
    return this.panel.visible;
  }

  holds({ uri, sequence }: Subject): boolean {
    return (
      !this.state.follows &&
      sequence !== undefined &&
      this.state.uri === uri &&
      this.shown.answer?.sequence === sequence
    );
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  show(subject: Subject): void {
    this.target.show(subject);
    void this.pump();
  }

  follow({ document: { uri, version }, selection: { active, isEmpty } }: TextEditor): boolean {
    const { line, character } = active;
    const place = placeKey(uri.toString(), line, character);
    if (this.ledTo === LEADING || (this.ledTo === place && !isEmpty)) return false;
    this.ledTo = undefined;
    const shown = this.shown.of(this.state.uri);
    const where = this.target.follow({ uri: uri.toString(), version }, line, character, shown);
    if (where !== 'away') void this.pump();
    return false;
  }

  moved(from: Uri, to: Uri): void {
    this.target.moved(from.toString(), to.toString());
  }

  hold(): void {
    if (!this.state.follows) return;
    this.target.hold(this.shown.answer?.sequence);
    this.post();
  }

  refresh(): void {
    this.target.again();
    void this.pump();
  }

  /** A case of a sequence is shown beside the text. */
  caseChosen(uri: string, sequence: string, number: number): void {
    if (uri !== this.state.uri || sequence !== this.shown.answer?.sequence) return;
    this.target.choose(number);
    void this.pump();
  }

  /** A session of the debugger stands still, or is over: whoever goes with the cursor shows its machine. */
  stepped(session: string, isOver: boolean): void {
    if (!isOver && this.state.follows) this.target.step(session);
    else if (!this.target.stepped(session)) return;
    void this.pump();
  }

  /** Asks for what is wanted, if it is seen, and nothing is under way. */
  private async pump(): Promise<void> {
    if (!this.panel.visible || !this.isReady || this.asking || this.isHeldBack) return;
    const params = this.target.next(this.shown.of(this.state.uri)?.sequence);
    if (!params) return;
    const asking = new CancellationTokenSource();
    this.asking = asking;
    const { uri, stepping } = params;
    try {
      const answer = await this.server.ask<MachineAnswer | null>(MACHINE, params, asking.token);
      this.asking = undefined;
      // Where the cursor has gone into another document meanwhile, that is asked for next.
      if (this.state.uri === uri) this.taken(answer, answer?.uri ?? uri, stepping);
    } catch (error) {
      this.asking = undefined;
      if (asking.token.isCancellationRequested) return;
      this.shown.failed(error);
      this.post();
    }
    void this.pump();
  }

  private taken(answer: MachineAnswer | null, uri: string, stepping: string | undefined): void {
    const isStepping = answer?.isStepping === true;
    // A session that the server does not know is over.
    if (stepping !== undefined && !isStepping) this.target.stepped(stepping);
    if (answer && !isStepping && this.target.found(answer)) {
      this.target.again();
      return;
    }
    this.shown.take(answer, uri);
    if (answer?.frame) {
      const { sequence, frame } = answer;
      this.target.came(frame.moment, isStepping && sequence !== undefined ? { uri, sequence } : undefined);
    }
    this.post();
  }

  private post(): void {
    this.isHeldBack = this.isDrawing;
    if (!this.isReady || this.isHeldBack) return;
    const { shown, state } = this;
    const { frame, answer } = shown;
    this.panel.title = answer?.sequence === undefined ? l10n.t('Machine') : l10n.t('{0}: machine', answer.sequence);
    this.isDrawing = true;
    this.send({ is: 'view', view: shown.view(state) });
    // Where the cursor decides, it says itself which step is meant, and the debugger marks its own.
    if (state.character === undefined && frame?.step && this.target.session === undefined) this.mark.put(frame.step.at);
    else this.mark.clear();
  }

  private send(message: ToMachinePage): void {
    void this.panel.webview.postMessage(message);
  }

  private async take(message: FromMachinePage): Promise<void> {
    switch (message.is) {
      case 'ready': {
        this.isReady = true;
        this.isDrawing = false;
        this.isHeldBack = false;
        this.send({ is: 'texts', language: env.language, texts: machineTexts() });
        if (this.shown.answer) this.post();
        return this.pump();
      }
      case 'drawn': {
        this.isDrawing = false;
        if (this.isHeldBack) this.post();
        return this.pump();
      }
      case 'sequence': {
        this.target.stayWith(message.name);
        return this.pump();
      }
      case 'case':
        return this.choose(message.number);
      case 'follow': {
        if (!message.on) return this.hold();
        this.target.release();
        this.post();
        return this.keeper.follows();
      }
      case 'moment': {
        this.target.goTo(message.moment);
        return this.pump();
      }
      case 'move': {
        this.target.go({ by: message.by, count: message.count });
        return this.pump();
      }
      case 'step':
        return this.lead(this.shown.frame?.step?.at);
      case 'part':
        return this.toOrigin(message.part);
      case 'mend':
        return this.lead(this.shown.answer?.trouble?.at);
    }
  }

  private async choose(number: number): Promise<void> {
    const sequence = this.shown.answer?.sequence;
    this.target.choose(number);
    if (sequence !== undefined) this.keeper.chosen(this.state.uri, sequence, number);
    return this.pump();
  }

  /** Shows the moment at which a part came to stand so, and leads to the step that did it. */
  private async toOrigin(part: string): Promise<void> {
    const { answer, frame } = this.shown;
    if (answer?.sequence === undefined || !frame) return;
    const { sequence, case: number } = answer;
    const { session } = this.target;
    const params: OriginParams = {
      ...{ uri: this.state.uri, sequence, case: number, moment: frame.moment, part },
      ...(session !== undefined && { stepping: session }),
    };
    const origin = await this.server.ask<OriginAnswer | null>(MACHINE_ORIGIN, params);
    if (!origin) return;
    if (origin.moment !== undefined) {
      this.target.goTo(origin.moment);
      void this.pump();
    }
    await this.lead(origin);
  }

  /** Leads to a place without going after the cursor there, for the panel has led and not followed. */
  private async lead(at: Place | undefined): Promise<void> {
    if (!at) return;
    this.ledTo = LEADING;
    try {
      const { document, selection } = await leadTo(at);
      this.ledTo = placeKey(document.uri.toString(), selection.active.line, selection.active.character);
    } catch (error) {
      this.ledTo = undefined;
      throw error;
    }
  }
}

/** The cursor is on its way. */
const LEADING = '';
const placeKey = (uri: string, line: number, character: number): string => `${line} ${character} ${uri}`;
