/** How long a client waits: from the start of the process to the first answer, and for what is asked while writing. */
import { type ChildProcess, spawn } from 'node:child_process';
import {
  CancellationTokenSource,
  CompletionRequest,
  createProtocolConnection,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  InlayHintRequest,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { crankText } from './texts.js';

const SERVER = 'dist/server-node.cjs';
const URI = 'file:///bench/lots.crank';
const LINES = 1_000;
const SCREENFUL = 50;

interface Server {
  readonly process: ChildProcess;
  readonly connection: ProtocolConnection;
}

async function start(): Promise<Server> {
  const process = spawn(globalThis.process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  if (!process.stdout || !process.stdin) throw new Error('the server has no pipes');
  const connection = createProtocolConnection(
    new StreamMessageReader(process.stdout),
    new StreamMessageWriter(process.stdin),
  );
  connection.listen();
  await connection.sendRequest(InitializeRequest.type, { processId: null, rootUri: null, capabilities: {} });
  return { process, connection };
}

const stop = ({ process, connection }: Server): void => {
  connection.dispose();
  process.kill();
};

async function timesOf(work: (round: number) => Promise<unknown>, rounds: number, warm: number): Promise<number[]> {
  const times: number[] = [];
  for (let round = 0; round < warm + rounds; round++) {
    const from = performance.now();
    await work(round);
    if (round >= warm) times.push(performance.now() - from);
  }
  return times.sort((a, b) => a - b);
}

/** Lines of a table: what was asked, the median and the time that 95 of 100 do not take longer than. */
export async function answers(): Promise<string[]> {
  const starts = await timesOf(async () => stop(await start()), 15, 2);
  const server = await start();
  const { connection } = server;
  const text = crankText(LINES);
  await connection.sendNotification(InitializedNotification.type, {});
  await connection.sendNotification(DidOpenTextDocumentNotification.type, {
    textDocument: { uri: URI, languageId: 'crank', version: 1, text },
  });
  const textDocument = { uri: URI };
  const lineAt = (round: number) => 10 + ((round * 37) % (LINES - SCREENFUL - 10));
  const at = (round: number) => ({ textDocument, position: { line: lineAt(round), character: 3 } });
  const hovers = await timesOf((round) => connection.sendRequest(HoverRequest.type, at(round)), 300, 50);
  const completions = await timesOf((round) => connection.sendRequest(CompletionRequest.type, at(round)), 300, 50);
  const inlays = await timesOf(
    (round) => {
      const start = { line: lineAt(round), character: 0 };
      const range = { start, end: { line: start.line + SCREENFUL, character: 0 } };
      return connection.sendRequest(InlayHintRequest.type, { textDocument, range });
    },
    300,
    50,
  );
  const cancels = await cancelling(connection);
  stop(server);
  return [
    row('start to the answer to initialize', starts),
    row(`hover, in ${LINES} lines`, hovers),
    row('completion', completions),
    row(`readings of ${SCREENFUL} lines`, inlays),
    row('cancelling, in the longest run there is', cancels),
  ];
}

/** Nearly as many steps and turns as a sequence may take; each round it is another text, so that nothing is known. */
const longText = (round: number): string =>
  `machine m\n  setting 4\n  counter 4\n  result 8\nsequence long on m\n  clear all\n  set ${round + 1}\n${'  repeat 330 {\n    turn 10\n    turn back 10\n  }\n'.repeat(150)}`;

/** From the cancelling of a request that waits for such a run to the answer that it is cancelled. */
async function cancelling(connection: ProtocolConnection): Promise<number[]> {
  const times: number[] = [];
  const textDocument = { uri: 'file:///bench/long.crank' };
  for (let round = 0; times.length < 20 && round < 100; round++) {
    const document = { ...textDocument, languageId: 'crank', version: 1, text: longText(round) };
    await connection.sendNotification(DidOpenTextDocumentNotification.type, { textDocument: document });
    const source = new CancellationTokenSource();
    const asked = connection.sendRequest(
      HoverRequest.type,
      { textDocument, position: { line: 5, character: 3 } },
      source.token,
    );
    await new Promise((resolve) => setTimeout(resolve, 10 + round));
    const from = performance.now();
    source.cancel();
    await asked.then(
      () => {},
      () => times.push(performance.now() - from),
    );
    await connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument });
  }
  return times.sort((a, b) => a - b);
}

function row(what: string, times: readonly number[]): string {
  const at = (share: number) => `${times[Math.min(times.length - 1, Math.floor(times.length * share))].toFixed(1)} ms`;
  return `${what.padEnd(40)} p50 ${at(0.5).padStart(9)}   p95 ${at(0.95).padStart(9)}`;
}
