/** `cranknote/tests` and `cranknote/runTests` over the protocol: of open files and closed ones, whatever a client sends. */
import { afterEach, expect, it, vi } from 'vitest';
import {
  CancellationTokenSource,
  DidChangeWatchedFilesNotification,
  DidCloseTextDocumentNotification,
  ErrorCodes,
  HoverRequest,
  LSPErrorCodes,
} from 'vscode-languageserver-protocol/node';
import {
  RUN_TESTS,
  type RunTestsParams,
  type RunTestsResult,
  TESTS,
  type TestsParams,
  type TestTree,
} from '../../client/protocol.js';
import type { ResultsTold } from '../../server/service/test-results.js';
import type { TestTree as GivenTree } from '../../server/service/tests.js';
import { type Client, PULLED, startClient } from './client.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const PAGE = 'file:///nursery/page.md';
const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const POTS = `use "b.crank"\nsequence pots (n = 3) on desk\n  case n = 4\n  clear all\n  set 12\n  turn n\n  expect result 36\n`;

vi.spyOn(process, 'exit').mockImplementation((() => {}) as never);
const clients: Client[] = [];
const start = async (...args: Parameters<typeof startClient>) => {
  const client = await startClient(...args);
  clients.push(client);
  return client;
};
afterEach(() => {
  for (const client of clients.splice(0)) client.close();
});
const testsIn = (client: Client, uri: string) =>
  client.connection.sendRequest<TestTree | null>(TESTS, { textDocument: { uri } } satisfies TestsParams);
const run = (client: Client, params: RunTestsParams) =>
  client.connection.sendRequest<RunTestsResult | null>(RUN_TESTS, params);
const outcomes = async (client: Client, params: RunTestsParams) =>
  (await run(client, params))?.results.map(({ id, outcome }) => `${id}: ${outcome}`);

it('are of closed files as of open ones, and of what the editor has', async () => {
  const client = await start(PULLED, { files: { [A]: POTS, [B]: MACHINE } });
  const tree = await testsIn(client, A);
  expect(tree?.tests.map(({ label, children }) => [label, ...children.map((one) => one.label)])).toEqual([
    ['pots', 'defaults', 'case 1: n = 4'],
  ]);
  expect(tree?.uses).toEqual([B]);
  expect(await outcomes(client, { uri: A })).toEqual([': passed', 'pots/0: passed', 'pots/1: failed']);
  await client.open(A, POTS.replace('n = 4', 'n = 03').replace('pots', 'trays'));
  expect((await testsIn(client, A))?.tests[0].label).toBe('trays');
  expect(await outcomes(client, { uri: A, ids: ['trays'] })).toEqual(['trays/0: passed', 'trays/1: passed']);
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: A } });
  expect(await outcomes(client, { uri: A, ids: ['pots/1'] })).toEqual(['pots/1: failed']);
});

it('follow a used file, and leave out what is known', async () => {
  const client = await start(PULLED, { files: { [A]: POTS } });
  await client.open(B, MACHINE);
  const told = await run(client, { uri: A });
  const known = Object.fromEntries(told?.results.map(({ id, resultId }) => [id, resultId]) ?? []);
  expect(await outcomes(client, { uri: A, known })).toEqual([]);
  await client.change(B, 2, [{ text: MACHINE.replace('result 8', 'result 3') }]);
  expect(await outcomes(client, { uri: A, known })).toEqual(['pots/0: not-run', 'pots/1: not-run']);
  const [{ messages }] = (await run(client, { uri: A, ids: ['pots/0'] }))?.results ?? [];
  expect(messages).toMatchObject([{ uri: B, range: { start: { line: 3, character: 2 } } }]);
});

it('speak the language of the editor', async () => {
  const client = await start(PULLED, { files: { [A]: POTS, [B]: MACHINE }, locale: 'de' });
  expect((await testsIn(client, A))?.tests[0].children[0].label).toBe('Vorgaben');
  const [{ messages }] = (await run(client, { uri: A, ids: ['pots/1'] }))?.results ?? [];
  expect(messages).toMatchObject([{ expected: 'Resultat 36', actual: 'Resultat 48' }]);
});

it('go with a file that is deleted, and come with one that is made', async () => {
  const files: Record<string, string> = { [A]: POTS, [B]: MACHINE, [PAGE]: '# Pots\n' };
  const client = await start(PULLED, { files });
  const changed = (uri: string, type: 1 | 2 | 3) =>
    client.connection.sendNotification(DidChangeWatchedFilesNotification.type, { changes: [{ uri, type }] });
  expect(await testsIn(client, PAGE)).toBeNull();
  expect(await testsIn(client, A)).toBeTruthy();
  delete files[A];
  await changed(A, 3);
  expect(await testsIn(client, A)).toBeNull();
  expect(await run(client, { uri: A })).toBeNull();
  files[A] = POTS.replace('pots', 'trays');
  files[PAGE] = '# Pots\n\n```crank\nsequence pots\n```\n';
  await changed(A, 1);
  await changed(PAGE, 2);
  expect((await testsIn(client, A))?.tests[0].label).toBe('trays');
  expect((await testsIn(client, PAGE))?.tests[0].range.start.line).toBe(3);
  expect(await outcomes(client, { uri: PAGE })).toEqual([': passed', 'pots: not-run']);
});

it("of a file that can't be read say why", async () => {
  const client = await start(PULLED);
  // What may be read is less than an editor may open.
  await client.open(A, `${MACHINE}${'#'.repeat(17 * 1024 * 1024)}`);
  const problem = expect.stringMatching(/larger than 16 MB/);
  expect(await testsIn(client, A)).toEqual({ tests: [], uses: [], problem });
  const told = await run(client, { uri: A });
  expect(told?.results).toMatchObject([{ id: '', outcome: 'not-run', messages: [{ message: problem, uri: A }] }]);
});

it('answer whatever is sent', async () => {
  const client = await start();
  await client.open(A, MACHINE);
  for (const params of [undefined, null, 5, [], {}, { textDocument: {} }, { textDocument: { uri: 5 } }]) {
    const answer = client.connection.sendRequest(TESTS, params as object);
    await expect(answer, JSON.stringify(params)).rejects.toMatchObject({ code: ErrorCodes.InvalidParams });
  }
  for (const params of [undefined, null, 5, 'text', {}, { uri: 5 }, { uri: A, ids: {} }, { uri: A, known: 'x' }]) {
    const answer = client.connection.sendRequest(RUN_TESTS, params as object);
    await expect(answer, JSON.stringify(params)).rejects.toMatchObject({ code: ErrorCodes.InvalidParams });
  }
  for (const uri of ['file:///nursery/nowhere.crank', 'file:///etc/passwd', '', 'x', 'a:b?c']) {
    expect(await testsIn(client, uri), uri).toBeNull();
    expect(await run(client, { uri }), uri).toBeNull();
  }
  expect(await outcomes(client, { uri: A, known: { '': '<script>' } })).toEqual([': passed']);
});

const LONG = `${MACHINE}sequence c on desk\n  repeat 999 { repeat 90 { set 1 } }\nsequence d on desk\n  repeat 999 { repeat 90 { set 2 } }\n`;

it('let others in while a long file is run, and are cancelled', async () => {
  const client = await start(PULLED, { files: { [A]: LONG } });
  await client.open(B, `${MACHINE}sequence pots on desk\n  clear all\n`);
  const source = new CancellationTokenSource();
  let isDone = false;
  const asked = client.connection.sendRequest<RunTestsResult>(RUN_TESTS, { uri: A }, source.token).finally(() => {
    isDone = true;
  });
  const place = { textDocument: { uri: B }, position: { line: 5, character: 3 } };
  expect(await client.connection.sendRequest(HoverRequest.type, place)).toBeTruthy();
  expect(isDone).toBe(false);
  source.cancel();
  await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
});

it('are described to the client as the server gives them', () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
  const entry = { id: 'a', label: 'a', description: 'A', sequence: 'a', case: 0, range, children: [] };
  const tree: GivenTree = { tests: [entry], uses: [], problem: 'none' };
  const message = {
    message: 'm',
    uri: A,
    range,
    expected: '1',
    actual: '2',
    related: [{ message: 'm', uri: A, range }],
  };
  const told: ResultsTold = { results: [{ id: 'a', outcome: 'failed', messages: [message], resultId: '1' }] };
  // Types are what is tested: neither side may have what the other lacks.
  const taken: [TestTree, RunTestsResult] = [tree, told];
  const areSame: Same<TestTree, GivenTree> & Same<RunTestsResult, ResultsTold> = true;
  expect([taken, areSame]).toEqual([[tree, told], true]);
});
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
