/** Answers requests: each finds its document in the state that it needs and hands it to a feature. */
import {
  type CancellationToken,
  DocumentDiagnosticRequest,
  ErrorCodes,
  ExecuteCommandRequest,
  InlayHintRequest,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import type { Publisher } from './publishing.js';
import { CHOOSE_CASE } from './service/commands.js';
import type { AnalysedDocument, ParsedDocument } from './service/document.js';
import { Cancelled } from './service/patience.js';
import type { Session } from './session.js';

export function answerRequests(_session: Session, _publisher: Publisher): void {

}
