/** Where requests are answered: never after the end, never with a crash, each with its document in the state it needs. */
import {
  type CancellationToken,
  ErrorCodes,
  LSPErrorCodes,
  type ProtocolRequestType,
  type RequestHandler,
  type RequestType,
  ResponseError,
} from 'vscode-languageserver';
import type { AnalysedDocument, ParsedDocument } from './service/document.js';
import { Cancelled } from './service/patience.js';
import type { Session } from './session.js';

/** What a request names that is about a document. */
export interface Asked {
  readonly textDocument: { readonly uri: string };
}
type Answer<P, R> = (params: P, token: CancellationToken) => R | Promise<R>;
// biome-ignore lint/suspicious/noExplicitAny: what else a request type carries does not matter here.
type Type<P, R> = ProtocolRequestType<P, R, any, any, any>;

export class Desk {
  constructor(private readonly session: Session) {}

  on<P, R>(type: Type<P, R>, answer: Answer<P, R>): void {
    const { connection } = this.session;
    const respond = async (params: P, token: CancellationToken): Promise<R | ResponseError<void>> => {
      if (this.session.isOver) return new ResponseError(ErrorCodes.InvalidRequest, 'The server has been shut down.');
      try {
        return await answer(params, token);
      } catch (error) {
        if (error instanceof ResponseError) return error as ResponseError<void>;
        if (error instanceof Cancelled) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
        const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
        connection.console.error(`${type.method}: ${message}`);
        return new ResponseError(ErrorCodes.InternalError, `Cranknote met a mistake of its own in ${type.method}.`);
      }
    };
    connection.onRequest(type as RequestType<P, R, void>, respond as RequestHandler<P, R, void>);
  }

  /** For a request that reads a document; `null` where it is not open. */
  parsed<P extends Asked, R>(
    type: Type<P, R | null>,
    answer: (document: ParsedDocument, params: P) => R | undefined,
  ): void {
    this.on(type, async (params, token) => {
      const document = await this.session.workspace.parsed(uriIn(params), token);
      return (document && answer(document, params)) ?? null;
    });
  }

  /** For a request that needs the sequences run. */
  analysed<P extends Asked, R>(
    type: Type<P, R | null>,
    answer: (document: AnalysedDocument, params: P) => R | undefined,
  ): void {
    this.on(type, async (params, token) => {
      const document = await this.session.workspace.analysed(uriIn(params), token);
      return (document && answer(document, params)) ?? null;
    });
  }

  /** For a request that looks for names in all files. */
  everywhere<P extends Asked, R>(
    type: Type<P, R | null>,
    answer: (document: AnalysedDocument, params: P) => R | undefined,
  ): void {
    this.on(type, async (params, token) => {
      await this.session.workspace.loadAll();
      const document = await this.session.workspace.analysed(uriIn(params), token);
      return (document && answer(document, params)) ?? null;
    });
  }
}

export function uriIn(params: Asked): string {
  const uri: unknown = params?.textDocument?.uri;
  if (typeof uri !== 'string')
    throw new ResponseError(ErrorCodes.InvalidParams, 'A document is needed: textDocument.uri.');
  return uri;
}
