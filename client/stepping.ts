/**
 * Going through a sequence with the editor's debugger. The server does it, for it knows the texts; here its messages are
 * handed on, in whatever host the extension runs.
 */
import {
  type DebugAdapter,
  DebugAdapterInlineImplementation,
  type DebugConfiguration,
  type DebugProtocolMessage,
  type DebugSession,
  type Disposable,
  debug,
  EventEmitter,
  l10n,
  languages,
} from 'vscode';
import { State } from 'vscode-languageclient';
import { SELECTOR } from './documents.js';
import { STEP, STEP_END, STEPPED, type StepParams } from './protocol.js';
import type { Server } from './server.js';
import { askedAt } from './step-hover.js';
import { pickFault, pickSequence, type StepSubject, subjectFrom } from './step-subject.js';

/** What the debugger calls sessions of ours. */
export const STEP_TYPE = 'cranknote';

/** A session has come to stand still, shows something else where it stands, or has ended. */
export interface Move {
  /** As the server knows it, too. */
  readonly session: string;
  readonly state: 'stopped' | 'ended';
}

export class Stepping implements Disposable {
  private readonly moved = new EventEmitter<Move>();
  /** Told whenever a session of ours stands still or ends; what it then shows, the server knows by the session's id. */
  readonly onDidMove = this.moved.event;
  private readonly relays = new Map<string, Relay>();
  private readonly parts: Disposable[];

  constructor(private readonly server: Server) {
    const { client } = server;
    this.parts = [
      this.moved,
      debug.registerDebugAdapterDescriptorFactory(STEP_TYPE, {
        createDebugAdapterDescriptor: (session) => new DebugAdapterInlineImplementation(this.relayFor(session)),
      }),
      debug.registerDebugConfigurationProvider(STEP_TYPE, {
        resolveDebugConfiguration: (_, config) => this.resolve(config),
      }),
      languages.registerEvaluatableExpressionProvider(SELECTOR, { provideEvaluatableExpression: askedAt }),
      client.onNotification(STEPPED, ({ session, message }: StepParams) => this.relays.get(session)?.heard(message)),
      client.onDidChangeState(({ newState }) => {
        // What a server knew of sessions is gone with it.
        if (newState === State.Running) return;
        const why = l10n.t('The language server has stopped, and with it the session.');
        for (const relay of [...this.relays.values()]) relay.end(why);
      }),
    ];
  }

  /** Goes through a sequence: the one that a lens names, or that the cursor is in. */
  async start(...args: readonly unknown[]): Promise<void> {
    await this.launch(await pickSequence(this.server, subjectFrom(args)));
  }

  /** The same on a machine with a fault that somebody chooses, in a case that they choose. */
  async startWithFault(): Promise<void> {
    const subject = await pickSequence(this.server, subjectFrom([]), true);
    const fault = subject && (await pickFault(this.server, subject));
    if (subject && fault !== undefined) await this.launch({ ...subject, fault });
  }

  private async launch(subject: StepSubject | undefined): Promise<void> {
    if (subject) await debug.startDebugging(undefined, configurationOf(subject));
  }

  /** Without a configuration, and where one says too little: what the cursor is in, or what is chosen. */
  private async resolve(config: DebugConfiguration): Promise<DebugConfiguration | undefined> {
    const front = subjectFrom([]);
    const isEmpty = !config.type && !config.request && !config.name;
    // In another file somebody wants another debugger.
    if (isEmpty && !front) return undefined;
    const { program, sequence, case: number } = config;
    // A variable of the editor would give a path, which says too little where files have none.
    const isFront = typeof program !== 'string' || /^\$\{\w+\}$/.test(program);
    const own = {
      ...(typeof sequence === 'string' && { sequence }),
      ...(typeof number === 'number' && { case: number }),
    };
    if (!isFront && !isAddress(program)) return { ...config, ...own };
    const asked = isFront ? front && { ...front, ...own } : { uri: program, ...own };
    const subject = await pickSequence(this.server, asked);
    if (!subject) return undefined;
    const { name, ...rest } = configurationOf(subject);
    return { ...config, ...rest, name: config.name || name };
  }

  private relayFor({ id }: DebugSession): Relay {
    const relay = new Relay(
      this.server,
      id,
      (state) => this.moved.fire({ session: id, state }),
      () => {
        if (this.relays.get(id) === relay) this.relays.delete(id);
      },
    );
    this.relays.set(id, relay);
    return relay;
  }

  dispose(): void {
    for (const relay of [...this.relays.values()]) relay.dispose();
    for (const part of this.parts) part.dispose();
  }
}

/** As opposed to a path, which the server looks up on the disk. */
const isAddress = (program: string): boolean => /^[a-z][a-z0-9+.-]+:/i.test(program);

/** How a session of a sequence is asked for. */
function configurationOf({ uri, sequence, case: number, fault }: StepSubject): DebugConfiguration {
  const name = sequence ?? uri.split('/').at(-1) ?? uri;
  return {
    type: STEP_TYPE,
    request: 'launch',
    name: number ? l10n.t('{0}, case {1}', name, number) : name,
    program: uri,
    ...(sequence !== undefined && { sequence }),
    ...(number !== undefined && { case: number }),
    ...(fault !== undefined && { fault }),
  };
}

/** Stands between the debugger and the server for one session. */
class Relay implements DebugAdapter {
  private readonly sent = new EventEmitter<DebugProtocolMessage>();
  readonly onDidSendMessage = this.sent.event;
  private isOver = false;

  constructor(
    private readonly server: Server,
    private readonly session: string,
    private readonly moved: (state: Move['state']) => void,
    private readonly closed: () => void,
  ) {}

  handleMessage(message: DebugProtocolMessage): void {
    if (this.isOver) return this.answerAfterEnd(message);
    this.server
      .start()
      .then(() => this.server.notify(STEP, { session: this.session, message }))
      .catch((error: unknown) => this.end(error instanceof Error ? error.message : String(error)));
  }

  /** Something that the server says. */
  heard(message: object): void {
    const { type, event } = message as { type?: unknown; event?: unknown };
    this.sent.fire(message as DebugProtocolMessage);
    if (type !== 'event') return;
    // Something was done by hand, or the text is another: where it stands, the machine shows something else.
    if (event === 'stopped' || event === 'invalidated') this.moved('stopped');
    if (event === 'terminated') this.over();
  }

  /** The server will say no more. */
  end(why: string): void {
    if (this.isOver) return;
    this.sent.fire(eventOf('output', { category: 'important', output: `${why}\n` }));
    this.sent.fire(eventOf('terminated', {}));
    this.over();
  }

  private over(): void {
    if (this.isOver) return;
    this.isOver = true;
    this.moved('ended');
  }

  /** The debugger still says good-bye, and waits for an answer. */
  private answerAfterEnd(message: DebugProtocolMessage): void {
    const { type, seq, command } = message as { type?: unknown; seq?: number; command?: string };
    if (type !== 'request') return;
    const isLeave = command === 'disconnect' || command === 'terminate';
    const response = { type: 'response', seq: 0, request_seq: seq, command, success: isLeave };
    this.sent.fire(response as DebugProtocolMessage);
  }

  dispose(): void {
    this.server.notify(STEP_END, { session: this.session });
    this.over();
    this.closed();
    this.sent.dispose();
  }
}

const eventOf = (event: string, body: object): DebugProtocolMessage =>
  ({ type: 'event', seq: 0, event, body }) as DebugProtocolMessage;
