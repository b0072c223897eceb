/** The tests of an editor: requests of our own, for whoever shows what passes and what does not. */
import { ErrorCodes, ProtocolRequestType, ResponseError } from 'vscode-languageserver';
import { type Asked, type Desk, uriIn } from './desk.js';
import { type ResultsTold, resultsAsked, resultsGradually, unreadResults } from './service/test-results.js';
import { type TestTree, testsOf } from './service/tests.js';
import { fileOf } from './service/workspace.js';
import type { Session } from './session.js';

/** The tests of a file, open or not; null where it has none. */
const TESTS = new ProtocolRequestType<Asked, TestTree | null, never, void, void>('cranknote/tests');
/** What passes of them; null where there is no such file. */
const RUN_TESTS = new ProtocolRequestType<unknown, ResultsTold | null, never, void, void>('cranknote/runTests');

export function answerTests(desk: Desk, session: Session): void {
  const { workspace } = session;
  desk.on(TESTS, async (params, token) => {
    const document = await workspace.parsedFile(uriIn(params), token);
    return (document && testsOf(document, session.reader)) ?? null;
  });
  desk.on(RUN_TESTS, async (sent, token) => {
    const asked = resultsAsked(sent);
    if (typeof asked === 'string') throw new ResponseError(ErrorCodes.InvalidParams, asked);
    const { uri } = asked;
    const told = await workspace.workedFile(uri, token, (document) =>
      resultsGradually(document, asked, session.reader),
    );
    return told ?? unreadResults(workspace.library, fileOf(uri), uri, session.reader) ?? null;
  });
}
