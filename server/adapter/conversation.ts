/**
 * Who asks is answered, one request after the other.
 *
 * Invariant: every request is answered, once; a mistake of our own ends no more than what it happened in.
 */
import { Event, Response } from '@vscode/debugadapter/lib/messages.js';
import { ProtocolServer } from '@vscode/debugadapter/lib/protocol.js';
import type { DebugProtocol } from '@vscode/debugprotocol';
import { onOneLine } from '../service/markdown.js';
import { Cancelled } from '../service/patience.js';

type Answer = object | undefined;
/** Answers a request; whatever its arguments are, nothing is sure of them. */
export type Handler = (args: never) => Answer | Promise<Answer>;

/** A request that is answered with a sentence of what is wrong. */
export class Refused extends Error {}

export abstract class Conversation extends ProtocolServer {
  private queue: Promise<void> = Promise.resolve();
  private next: (() => void)[] = [];

  protected abstract readonly handlers: Readonly<Record<string, Handler>>;
  /** What is said of a request that nobody answers. */
  protected abstract unknown(command: string): string;
  /** A request has come, and may have to wait for its turn. */
  protected abstract isComing(command: string): void;
  /** Nothing more can be said. */
  abstract end(why?: string): void;

  protected override dispatchRequest(request: DebugProtocol.Request): void {
    this.isComing(request.command);
    this.queue = this.queue.then(() => this.respond(request));
  }

  private async respond(request: DebugProtocol.Request): Promise<void> {
    const response: DebugProtocol.Response = new Response(request);
    const handler = Object.hasOwn(this.handlers, request.command) ? this.handlers[request.command] : undefined;
    try {
      if (!handler) throw new Refused(this.unknown(onOneLine(String(request.command))));
      const body = await handler((request.arguments ?? {}) as never);
      if (body) response.body = body;
    } catch (error) {
      const isMeant = error instanceof Refused || error instanceof Cancelled;
      const said = isMeant ? error.message : `Cranknote met a mistake of its own in ${request.command}.`;
      response.success = false;
      response.message = said;
      response.body = { error: { id: 1, format: said.replace(/[{}]/g, ''), showUser: request.command === 'launch' } };
      if (!isMeant) this.write(String(error instanceof Error ? error.stack : error), 'stderr');
    }
    this.sendResponse(response);
    for (const next of this.next.splice(0)) next();
  }

  /** Does something as soon as the answer is sent that is being made. */
  protected afterwards(what: () => void): void {
    this.next.push(what);
  }

  /** Does something when all that came before is answered. */
  protected inTurn(what: () => Promise<void>): void {
    this.queue = this.queue.then(() => this.guarded(what));
  }

  /** Does something that nobody waits for: a mistake in it ends the conversation, and not the server. */
  protected async guarded(what: () => Promise<void>): Promise<void> {
    try {
      await what();
    } catch (error) {
      if (!(error instanceof Cancelled)) this.end(error instanceof Error ? error.message : String(error));
    }
  }

  protected write(text: string, category: 'console' | 'important' | 'stderr' | 'stdout'): void {
    this.sendEvent(new Event('output', { category, output: `${text}\n` }));
  }
}
