/** The door for a web worker, in a real worker: the bundle that is shipped, over messages. */
import { readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { expect, it, vi } from 'vitest';

/** What a browser gives a worker, on top of what Node gives one. */
const BROWSER = `
const { parentPort } = require('node:worker_threads');
globalThis.self = globalThis;
globalThis.postMessage = (message) => parentPort.postMessage(message);
globalThis.addEventListener = () => {};
parentPort.on('message', (data) => globalThis.onmessage?.({ data }));
`;

it('answers in a worker that has nothing of Node', async () => {
  const bundle = readFileSync(new URL('../../dist/server-worker.js', import.meta.url), 'utf8');
  const worker = new Worker(`${BROWSER}\n(function (require, module, exports, process, Buffer) {${bundle}\n})();`, {
    eval: true,
  });
  const answers = new Map<number, (result: unknown) => void>();
  const stepped: unknown[] = [];
  worker.on(
    'message',
    (message: { id?: number; method?: string; result?: unknown; error?: unknown; params?: unknown }) => {
      if (message.method === 'cranknote/stepped') stepped.push(message.params);
      if (message.id !== undefined && message.method === undefined)
        answers.get(message.id)?.(message.result ?? message.error);
      else if (message.id !== undefined) worker.postMessage({ jsonrpc: '2.0', id: message.id, result: null });
    },
  );
  let id = 0;
  const ask = (method: string, params: unknown) =>
    new Promise<unknown>((resolve) => {
      answers.set(++id, resolve);
      worker.postMessage({ jsonrpc: '2.0', id, method, params });
    });
  const tell = (method: string, params: unknown) => worker.postMessage({ jsonrpc: '2.0', method, params });
  try {
    const initialized = await ask('initialize', { processId: null, rootUri: null, capabilities: {} });
    expect(initialized).toMatchObject({ capabilities: { hoverProvider: true }, serverInfo: { name: 'Cranknote' } });
    tell('initialized', {});
    const uri = 'memory:/pots.crank';
    const text = 'machine desk\n  setting 4\n  result 8\nsequence s on desk\n  clear all\n  set 12\n  turn 3\n';
    tell('textDocument/didOpen', { textDocument: { uri, languageId: 'crank', version: 1, text } });
    const range = { start: { line: 6, character: 0 }, end: { line: 6, character: 8 } };
    const hints = await ask('textDocument/inlayHint', { textDocument: { uri }, range });
    expect(JSON.stringify(hints)).toContain('36');
    const step = (command: string, args: object) =>
      tell('cranknote/step', { session: 'one', message: { type: 'request', seq: 1, command, arguments: args } });
    step('initialize', {});
    step('launch', { program: uri });
    step('configurationDone', {});
    step('next', { threadId: 1 });
    step('next', { threadId: 1 });
    step('stackTrace', { threadId: 1 });
    await vi.waitFor(() => expect(JSON.stringify(stepped)).toContain('"name":"turn 3 (in s)"'), 20_000);
  } finally {
    await worker.terminate();
  }
});
