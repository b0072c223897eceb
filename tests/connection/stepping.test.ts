/** Stepping by way of the language server: messages are relayed, texts change under a session, others look into it. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { afterEach, expect, it, vi } from 'vitest';
import {
  DidChangeWatchedFilesNotification,
  DidCloseTextDocumentNotification,
  FileChangeType,
  InlineValueRequest,
} from 'vscode-languageserver-protocol';
import {
  FAULTS,
  type FaultsResult,
  STEP,
  STEP_END,
  STEPPABLE,
  STEPPED,
  type StepParams,
  type SteppableResult,
} from '../../client/protocol.js';
import { type Client, PULLED, startClient } from './client.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const POTS = `${MACHINE}sequence pots "Pots" (n = 3) on desk\n  case n = 5\n  clear all\n  set 12\n  turn n\n  expect result 36\n`;

vi.spyOn(process, 'exit').mockImplementation((() => {}) as never);
const clients: Client[] = [];
afterEach(() => {
  for (const client of clients.splice(0)) client.close();
});

interface Session {
  readonly events: DebugProtocol.Event[];
  ask(command: string, args?: object): Promise<DebugProtocol.Response>;
  /** Asks, and waits until an event comes that was not there before. */
  until(event: string, command?: string, args?: object): Promise<DebugProtocol.Event>;
  at(): Promise<string>;
}

async function start(files: Readonly<Record<string, string>> = {}): Promise<Client> {
  const client = await startClient(PULLED, { files });
  clients.push(client);
  return client;
}

/** What each client was told, in its order. */
const relayed = new WeakMap<Client, ((params: StepParams) => void)[]>();

/** A session that is relayed, by a name of its own. */
function sessionOf(client: Client, name: string): Session {
  const { connection } = client;
  const heard: DebugProtocol.ProtocolMessage[] = [];
  const events: DebugProtocol.Event[] = [];
  const listeners = relayed.get(client) ?? [];
  relayed.set(client, listeners);
  connection.onNotification(STEPPED, (params: StepParams) => {
    for (const listener of listeners) listener(params);
  });
  listeners.push(({ session, message }) => {
    if (session !== name) return;
    heard.push(message as DebugProtocol.ProtocolMessage);
    if ((message as DebugProtocol.Event).type === 'event') events.push(message as DebugProtocol.Event);
  });
  let seq = 0;
  const ask = async (command: string, args: object = {}) => {
    const own = ++seq;
    await connection.sendNotification(STEP, {
      session: name,
      message: { type: 'request', seq: own, command, arguments: args },
    });
    return vi.waitFor(() => {
      const answer = heard.find(
        (one) => one.type === 'response' && (one as DebugProtocol.Response).request_seq === own,
      );
      if (!answer) throw new Error(`${command} is not answered yet`);
      return answer as DebugProtocol.Response;
    }, 20_000);
  };
  return {
    events,
    ask,
    async until(event, command, args) {
      const before = events.length;
      if (command) await ask(command, args);
      return vi.waitFor(() => {
        const found = events.slice(command ? before : 0).find((one) => one.event === event);
        if (!found) throw new Error(`${event} has not come yet`);
        return found;
      }, 20_000);
    },
    async at() {
      const { body } = await ask('stackTrace', { threadId: 1 });
      return `${body.stackFrames[0].line}: ${body.stackFrames[0].name}`;
    },
  };
}

async function launched(client: Client, args: object = {}, name = 'one'): Promise<Session> {
  const session = sessionOf(client, name);
  await session.ask('initialize', { adapterID: 'cranknote', linesStartAt1: true });
  const answer = await session.ask('launch', { program: A, ...args });
  expect(answer.message).toBeUndefined();
  await session.ask('setExceptionBreakpoints', { filters: [] });
  await session.until('stopped', 'configurationDone');
  return session;
}
const said = ({ events }: Session) =>
  events.flatMap(({ event, body }) => (event === 'output' ? [String(body.output).trimEnd()] : []));

it('goes through what the editor has, not what the disk has', async () => {
  const client = await start({ [A]: MACHINE });
  await client.open(A, POTS);
  const session = await launched(client, { case: 1 });
  expect(await session.at()).toBe('7: clear all (in pots, case 1)');
  await session.until('stopped', 'next');
  expect(await session.at()).toBe('8: set 12 (in pots, case 1)');
});

it('lets others look: values beside the text are those of the session', async () => {
  const client = await start();
  await client.open(A, POTS);
  const session = await launched(client);
  for (let i = 0; i < 2; i++) await session.until('stopped', 'next');
  await session.until('stopped', 'stepIn');
  const { body } = await session.ask('stackTrace', { threadId: 1 });
  const [{ id, line }] = body.stackFrames;
  const stoppedLocation = { start: { line: line - 1, character: 2 }, end: { line: line - 1, character: 8 } };
  const values = (frameId: number) =>
    client.connection.sendRequest(InlineValueRequest.type, {
      textDocument: { uri: A },
      range: { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } },
      context: { frameId, stoppedLocation },
    });
  const texts = (await values(id))?.map((value) => ('text' in value ? value.text : ''));
  expect(texts).toEqual(['setting 12', 'counter 1', 'result 12', 'position 1']);
  // Of no session that is known, it is what the whole run shows.
  expect(JSON.stringify(await values(999))).toContain('result 36');
});

it('goes on at the same step where the text changes, and says so once', async () => {
  const client = await start();
  await client.open(A, POTS);
  const session = await launched(client);
  for (let i = 0; i < 2; i++) await session.until('stopped', 'next');
  expect(await session.at()).toBe('9: turn 3 (in pots)');
  const set = { start: { line: 7, character: 0 }, end: { line: 7, character: 0 } };
  await client.change(A, 2, [{ range: set, text: '  # the pots\n' }]);
  await session.until('invalidated');
  expect(await session.at()).toBe('10: turn 3 (in pots)');
  await client.change(A, 3, [
    { range: { start: { line: 8, character: 6 }, end: { line: 8, character: 8 } }, text: '14' },
  ]);
  await vi.waitFor(async () => {
    expect((await session.ask('evaluate', { expression: 'setting' })).body.result).toBe('0014 = 14');
  }, 20_000);
  expect(said(session)).toEqual(['The text has changed: the session goes on in the new run.']);
  // A line above the sequence moves it.
  await client.change(A, 4, [
    { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text: '# desk\n' },
  ]);
  await vi.waitFor(async () => expect(await session.at()).toBe('11: turn 3 (in pots)'), 20_000);
});

it.each<[string, (client: Client) => Promise<unknown>, string]>([
  [
    'the sequence is gone',
    (client) => client.change(A, 2, [{ text: MACHINE }]),
    'There is no sequence in this file. The session ends.',
  ],
  [
    'it can not be run any more',
    (client) => client.change(A, 2, [{ text: POTS.replace('on desk', 'on table') }]),
    'pots can’t be run: look at what is found in its text and its machine. The session ends.',
  ],
  [
    'its case is gone',
    (client) => client.change(A, 2, [{ text: POTS.replace('  case n = 5\n', '') }]),
    'pots has no case 1: there are 0 cases, and 0 means the defaults. The session ends.',
  ],
  [
    'the file is closed, and its changes are lost',
    ({ connection }) =>
      connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: A } }),
    'The file was closed without its changes being saved. The session ends.',
  ],
  [
    'the file is deleted',
    ({ connection }) =>
      connection.sendNotification(DidChangeWatchedFilesNotification.type, {
        changes: [{ uri: A, type: FileChangeType.Deleted }],
      }),
    'The file can’t be read any more: it was moved, deleted, or lies outside this folder. The session ends.',
  ],
])('ends where %s', async (_, change, sentence) => {
  const client = await start({ [A]: POTS.replace('set 12', 'set 11') });
  await client.open(A, POTS);
  const session = await launched(client, { case: 1 });
  await change(client);
  await session.until('terminated');
  expect(said(session)).toEqual([sentence]);
  // Whoever still asks is answered.
  expect((await session.ask('disconnect')).success).toBe(true);
});

it('goes on where the file is closed as it was saved, and where it is opened again', async () => {
  const client = await start({ [A]: POTS });
  await client.open(A, POTS);
  const session = await launched(client);
  await session.until('stopped', 'next');
  await session.ask('evaluate', { expression: 'set 9', context: 'repl' });
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: A } });
  await client.open(A, POTS);
  await session.until('stopped', 'stepIn');
  expect(said(session)).toEqual([]);
  expect(await session.at()).toBe('9: turn 3 (in pots)');
});

it('serves several sessions beside one another', async () => {
  const client = await start();
  await client.open(A, POTS);
  const one = await launched(client, {}, 'one');
  const other = await launched(client, { case: 1 }, 'other');
  await one.until('stopped', 'next');
  expect([await one.at(), await other.at()]).toEqual(['8: set 12 (in pots)', '7: clear all (in pots, case 1)']);
  await client.connection.sendNotification(STEP_END, { session: 'one' });
  await other.until('stopped', 'continue');
  expect(await other.at()).toContain('the end');
});

it('answers whatever is sent', async () => {
  const client = await start();
  const { connection } = client;
  for (const params of [null, 5, {}, { session: 5 }, { session: 'x' }, { session: 'x', message: 5 }]) {
    await connection.sendNotification(STEP, params as never);
    await connection.sendNotification(STEP_END, params as never);
  }
  await client.open(A, POTS);
  const session = await launched(client);
  for (const args of [null, 5, [], { frameId: {} }, { variablesReference: -3 }, { source: {} }, { threadId: 'x' }]) {
    for (const command of [
      'scopes',
      'variables',
      'setVariable',
      'evaluate',
      'stackTrace',
      'breakpointLocations',
      'dataBreakpointInfo',
    ]) {
      const answer = await session.ask(command, args as never);
      expect(String(answer.message ?? ''), command).not.toContain('mistake of its own in evaluate');
    }
  }
  expect(await session.at()).toBe('7: clear all (in pots)');
});

it('tells what can be stepped through, and with which faults', async () => {
  const { connection, open } = await start();
  await open(A, POTS);
  const found = await connection.sendRequest<SteppableResult>(STEPPABLE, { uri: A, line: 8 });
  expect(found?.at).toBe('pots');
  expect(found?.sequences).toMatchObject([
    {
      name: 'pots',
      title: 'Pots',
      cases: [
        { number: 0, label: 'defaults' },
        { number: 1, label: 'case 1: n = 5' },
      ],
    },
  ]);
  expect(await connection.sendRequest(STEPPABLE, { uri: A, line: 1 })).not.toHaveProperty('at');
  expect(await connection.sendRequest(STEPPABLE, { uri: B })).toBeNull();
  const faults = await connection.sendRequest<FaultsResult>(FAULTS, { uri: A, sequence: 'pots' });
  expect(faults?.map(({ label }) => label)).toEqual(['levers', 'tens carry', 'counter', 'clearing']);
  expect(faults?.[0].faults).toContainEqual({ value: 'lever-dead 2', label: 'lever 2 drives nothing' });
  expect(await connection.sendRequest(FAULTS, { uri: A, sequence: 'jars' })).toBeNull();
  await expect(connection.sendRequest(FAULTS, { uri: A })).rejects.toThrow('sequence');
  await expect(connection.sendRequest(STEPPABLE, {})).rejects.toThrow('uri');
});
