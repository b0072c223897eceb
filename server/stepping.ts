/**
 * Stepping by way of the language server: a client relays the debug protocol's messages of any number of sessions, and
 * the server answers them, for it knows the texts.
 */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { ErrorCodes, ProtocolRequestType, ResponseError } from 'vscode-languageserver';
import { type Change, StepAdapter } from './adapter/adapter.js';
import type { Desk } from './desk.js';
import type { Runtime } from './runtime.js';
import { type FaultGroup, faultsFor, type SteppableAnswer, steppableIn } from './service/steppable.js';
import { fileOf } from './service/workspace.js';
import type { Session } from './session.js';

/** Client to server: `session`, the name that the client has for it, and a message of the debug protocol. */
const STEP = 'cranknote/step';
/** Server to client: the same the other way round. */
const STEPPED = 'cranknote/stepped';
/** Client to server: nobody listens to a session any more. */
const STEP_END = 'cranknote/stepEnd';

/** Which sequences of a document there are to step through, and in which of them a line lies. */
const STEPPABLE = new ProtocolRequestType<unknown, SteppableAnswer | null, never, void, void>('cranknote/steppable');
/** The faults with which a sequence of a document can be stepped through. */
const FAULTS = new ProtocolRequestType<unknown, readonly FaultGroup[] | null, never, void, void>('cranknote/faults');

export class Stepping {
  private readonly adapters = new Map<string, StepAdapter>();

  constructor(
    private readonly session: Session,
    private readonly runtime: Runtime,
    desk: Desk,
  ) {
    const { connection, workspace } = session;
    connection.onNotification(STEP, (params: unknown) => {
      const { session: id, message } = fields(params);
      if (typeof id === 'string' && isMessage(message) && !session.isOver) this.adapterOf(id).handleMessage(message);
    });
    connection.onNotification(STEP_END, (params: unknown) => {
      const { session: id } = fields(params);
      if (typeof id !== 'string') return;
      this.adapters.get(id)?.end();
      this.adapters.delete(id);
    });
    desk.on(STEPPABLE, async (params, token) => {
      const { uri, line } = fields(params);
      if (typeof uri !== 'string') throw new ResponseError(ErrorCodes.InvalidParams, 'A document is needed: uri.');
      const document = await workspace.analysedFile(uri, token);
      return document ? steppableIn(document, typeof line === 'number' ? line : undefined, session.reader) : null;
    });
    desk.on(FAULTS, async (params, token) => {
      const { uri, sequence } = fields(params);
      if (typeof uri !== 'string' || typeof sequence !== 'string') {
        throw new ResponseError(ErrorCodes.InvalidParams, 'A document and a sequence are needed: uri, sequence.');
      }
      const document = await workspace.analysedFile(uri, token);
      return (document && faultsFor(document, sequence, session.reader)) ?? null;
    });
  }

  /** A document or file is another one: whoever goes through it has to look. */
  changed(uri: string, change: Change): void {
    const files = new Set([fileOf(uri)]);
    for (const adapter of this.adapters.values()) if (adapter.rests(files)) adapter.filesChanged(change);
  }

  /** A file is gone, and with it whatever is gone through in it. */
  deleted(uri: string): void {
    const text = this.session.reader.words.stepping.text.gone;
    for (const adapter of this.adapters.values()) if (fileOf(adapter.uri) === fileOf(uri)) adapter.end(text);
    this.changed(uri, 'edited');
  }

  private adapterOf(id: string): StepAdapter {
    const known = this.adapters.get(id);
    if (known) return known;
    const { session, runtime } = this;
    const adapter = new StepAdapter(id, {
      workspace: session.workspace,
      clock: runtime,
      sessions: session.steppers,
      // The editor's own language, whatever its debugger says: it is what all else is told in.
      reader: (_, wished) => (wished ? session.readerOf(wished) : session.reader),
    });
    adapter.onDidSendMessage((message) => {
      void session.connection.sendNotification(STEPPED, { session: id, message });
    });
    this.adapters.set(id, adapter);
    return adapter;
  }
}

const fields = (params: unknown): Readonly<Record<string, unknown>> =>
  typeof params === 'object' && params !== null ? (params as Record<string, unknown>) : {};

const isMessage = (message: unknown): message is DebugProtocol.ProtocolMessage =>
  typeof message === 'object' && message !== null && typeof (message as { type?: unknown }).type === 'string';
