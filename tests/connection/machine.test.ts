/** `cranknote/machine` over the protocol: of what stands in the editor, with pauses, whatever a client sends. */
import { afterEach, expect, it, vi } from 'vitest';
import {
  CancellationTokenSource,
  ErrorCodes,
  ExecuteCommandRequest,
  HoverRequest,
  LSPErrorCodes,
} from 'vscode-languageserver-protocol/node';
import {
  CHOOSE_CASE,
  MACHINE,
  MACHINE_ORIGIN,
  type MachineAnswer,
  type MachineFrame,
  type MachineParams,
  type OriginAnswer,
  type OriginParams,
} from '../../client/protocol.js';
import type { MachineFrame as GivenFrame } from '../../server/service/machine/frame.js';
import type { Origin } from '../../server/service/machine/origin.js';
import type { MachineAnswer as Given } from '../../server/service/machine.js';
import { type Client, PULLED, startClient } from './client.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const MACHINE_LINES = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const POTS = `${MACHINE_LINES}sequence pots (a = 12) on desk\n  case a = 15\n  clear all\n  set a\n  turn 3\n`;

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
const ask = (client: Client, params: MachineParams) =>
  client.connection.sendRequest<MachineAnswer | null>(MACHINE, params);
const origin = (client: Client, params: OriginParams) =>
  client.connection.sendRequest<OriginAnswer | null>(MACHINE_ORIGIN, params);

it('shows what the editor has, at the cursor and at a moment', async () => {
  const client = await start(PULLED, { files: { [A]: POTS } });
  // Closed, it is what the disk has.
  expect((await ask(client, { uri: A, line: 7, character: 3 }))?.frame?.step?.text).toBe('set 12');
  await client.open(A, POTS.replace('turn 3', 'turn 5'));
  expect((await ask(client, { uri: A, line: 8, character: 3 }))?.frame?.moment).toBe(7);
  expect((await ask(client, { uri: A, moment: 99 }))?.frame).toMatchObject({ moment: 7, moments: 8, steps: 3 });
  await client.change(A, 2, [{ text: POTS }]);
  const moves = [{ by: 'step', count: -1 }] as const;
  expect((await ask(client, { uri: A, moment: 99, moves }))?.frame?.step?.text).toBe('set 12');
});

it('tells where a part was moved, in the machine of another file as well', async () => {
  const client = await start(PULLED, { files: { [B]: MACHINE_LINES } });
  await client.open(A, POTS.replace(MACHINE_LINES, 'use "b.crank"\n'));
  expect(await origin(client, { uri: A, moment: 5, part: 'result-2' })).toMatchObject({ uri: A, moment: 5 });
  expect(await origin(client, { uri: A, moment: 5, part: 'result-7' })).toEqual({
    uri: B,
    range: { start: { line: 3, character: 2 }, end: { line: 3, character: 10 } },
  });
  expect(await origin(client, { uri: A, moment: 5, part: 'x' })).toBeNull();
});

it('is of the case that a lens has chosen', async () => {
  const client = await start();
  await client.open(A, POTS);
  await ask(client, { uri: A });
  const command = { command: CHOOSE_CASE, arguments: [A, 'pots', 1] };
  await client.connection.sendRequest(ExecuteCommandRequest.type, command);
  expect((await ask(client, { uri: A, moment: 2 }))?.frame?.step?.text).toBe('set 15');
  expect((await ask(client, { uri: A, moment: 2, case: 0 }))?.frame?.step?.text).toBe('set 12');
});

it('answers whatever is sent', async () => {
  const client = await start();
  await client.open(A, POTS);
  const move = (by: unknown, count: unknown) => ({ uri: A, moves: [{ by, count }] });
  const awkward: unknown[] = [
    undefined,
    null,
    5,
    'text',
    [],
    {},
    { uri: 5 },
    { uri: A, line: -1 },
    { uri: A, case: 0.5 },
  ];
  awkward.push(
    { uri: A, moment: Number.NaN },
    { uri: A, moment: '5' },
    { uri: A, moves: 'step' },
    { uri: A, moves: {} },
  );
  awkward.push(move('jump', 1), move('step', 1e9), move('__proto__', 1), move('turn', null), { uri: A, moves: [null] });
  awkward.push({ uri: A, moves: Array(1_000).fill({ by: 'step', count: 1 }) });
  for (const params of awkward) {
    for (const request of [MACHINE, MACHINE_ORIGIN]) {
      const answer = client.connection.sendRequest(request, params as object);
      await expect(answer, JSON.stringify(params)).rejects.toMatchObject({ code: ErrorCodes.InvalidParams });
    }
  }
  await expect(client.connection.sendRequest(MACHINE_ORIGIN, { uri: A, part: 5 })).rejects.toMatchObject({
    code: ErrorCodes.InvalidParams,
  });
  for (const uri of ['file:///nursery/nowhere.crank', 'file:///etc/passwd', '', 'x', 'a:b?c']) {
    expect(await ask(client, { uri }), uri).toBeNull();
    expect(await origin(client, { uri, part: 'carriage' }), uri).toBeNull();
  }
  const hostile = await ask(client, { uri: A, sequence: '<script>alert(1)</script>\u202e' });
  expect(hostile?.trouble?.message).toContain('called <script>alert(1)</script>\ufffd in');
  expect((await ask(client, { uri: A }))?.frame).toBeDefined();
});

it('lets others in while a long run is made ready, and can be cancelled', async () => {
  const client = await start(PULLED);
  const long = `${MACHINE_LINES}sequence long on desk\n  repeat 900 { repeat 100 { set 1; shift right; shift left } }\n`;
  await client.open(A, long.replace('repeat 100', 'repeat 30'));
  await client.open(B, POTS);
  // What is run for findings is run already.
  const place = { textDocument: { uri: B }, position: { line: 7, character: 3 } };
  await client.connection.sendRequest(HoverRequest.type, { ...place, textDocument: { uri: A } });
  let isMade = false;
  const made = ask(client, { uri: A }).finally(() => {
    isMade = true;
  });
  expect(await client.connection.sendRequest(HoverRequest.type, place)).toBeTruthy();
  expect(isMade).toBe(false);
  expect((await made)?.frame?.moments).toBe(81_001);
  // Another run, which nobody has gone through yet.
  await client.change(A, 2, [{ text: long.replace('repeat 100', 'repeat 29') }]);
  const source = new CancellationTokenSource();
  const dropped = client.connection.sendRequest<MachineAnswer>(MACHINE, { uri: A }, source.token);
  source.cancel();
  await expect(dropped).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
});

it('is of the text where nobody knows the session', async () => {
  const client = await start();
  await client.open(A, POTS);
  const answer = await ask(client, { uri: A, moment: 2, stepping: 'lost' });
  expect([answer?.isStepping, answer?.frame?.step?.text]).toEqual([undefined, 'set 12']);
});

it('is described to the client as the server gives it', () => {
  const given: Given = { uri: A, sequences: [], cases: [], case: 0 };
  // Types are what is tested: neither side may have what the other lacks.
  const taken: MachineAnswer = given;
  const areSame: readonly [
    Same<keyof MachineAnswer, keyof Given>,
    Same<keyof MachineFrame, keyof GivenFrame>,
    Same<keyof OriginAnswer, keyof Origin>,
  ] = [true, true, true];
  expect([taken, areSame]).toEqual([given, [true, true, true]]);
});
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
