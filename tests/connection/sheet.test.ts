/** `cranknote/sheet` over the protocol: of what stands in the editor, with pauses, whatever a client sends. */
import { afterEach, expect, it, vi } from 'vitest';
import {
  CancellationTokenSource,
  DidCloseTextDocumentNotification,
  ErrorCodes,
  HoverRequest,
  LSPErrorCodes,
} from 'vscode-languageserver-protocol/node';
import { SHEET, type SheetAnswer, type SheetParams } from '../../client/protocol.js';
import type { SheetAnswer as Given } from '../../server/service/sheet.js';
import { type Client, PULLED, startClient } from './client.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const POTS = `${MACHINE}sequence pots "Pots" on desk\n  clear all\n  set 12\n  turn 3\n  expect result 36\n`;

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
const ask = (client: Client, params: SheetParams) => client.connection.sendRequest<SheetAnswer | null>(SHEET, params);

it('is of what the editor has, not of what is on the disk', async () => {
  const client = await start(PULLED, { files: { [A]: POTS } });
  // Closed, it is what the disk has.
  expect((await ask(client, { uri: A }))?.sheet?.content).toContain('Set <samp>12');
  await client.open(A, POTS.replace('set 12', 'set 13').replace('36', '39'));
  expect((await ask(client, { uri: A }))?.sheet?.content).toContain('Set <samp>13');
  await client.change(A, 2, [{ text: POTS.replace('36', '37') }]);
  const refused = await ask(client, { uri: A, sequence: 'pots' });
  expect(refused?.sheet).toBeUndefined();
  expect(refused?.refused?.at).toEqual({
    uri: A,
    range: { start: { line: 8, character: 2 }, end: { line: 8, character: 18 } },
  });
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: A } });
  expect((await ask(client, { uri: A }))?.sheet?.content).toContain('Set <samp>12');
});

it('follows a used file', async () => {
  const client = await start(PULLED, { files: { [B]: MACHINE } });
  await client.open(A, POTS.replace(MACHINE, 'use "b.crank"\n'));
  expect((await ask(client, { uri: A }))?.sheet).toBeDefined();
  await client.open(B, MACHINE.replace('setting 4', 'setting 1'));
  expect((await ask(client, { uri: A }))?.refused?.message).toContain('There is no sheet');
});

it('is none of a document that nobody knows, or that lies outside the workspace', async () => {
  const client = await start(PULLED, { files: { 'file:///shed/a.crank': POTS } });
  for (const uri of ['file:///nursery/nowhere.crank', 'file:///shed/a.crank', 'file:///etc/passwd', '', 'x', 'a:b?c']) {
    expect(await ask(client, { uri }), uri).toBeNull();
  }
});

it('answers whatever is sent', async () => {
  const client = await start();
  await client.open(A, POTS);
  const awkward: unknown[] = [undefined, null, 5, 'text', [], {}, { uri: 5 }, { uri: A, kind: 'poster' }];
  awkward.push({ uri: A, language: '../../x' }, { uri: A, figures: {} }, { uri: A, line: -1 }, { uri: A, paper: null });
  awkward.push({ uri: A, sequence: ['pots'] }, { uri: A, format: 'pdf' }, { uri: A, kind: '__proto__' });
  for (const params of awkward) {
    const answer = client.connection.sendRequest(SHEET, params as object);
    await (params && (params as { paper?: unknown }).paper === null
      ? expect(answer).resolves.toBeTruthy()
      : expect(answer, JSON.stringify(params)).rejects.toMatchObject({ code: ErrorCodes.InvalidParams }));
  }
  const hostile = await ask(client, { uri: A, sequence: '<script>alert(1)</script>\u202e' });
  expect(hostile?.refused?.message).toBe('There is no sequence called <script>alert(1)</script>\ufffd in this file.');
  expect((await ask(client, { uri: A }))?.sheet).toBeDefined();
});

const MANY = Array.from({ length: 400 }, (_, i) => `  case a = ${i + 1}, b = ${i + 7}\n`).join('');
const LONG = `machine desk\n  setting 9\n  counter 8\n  result 13\nsequence c (a = 3, b = 4) on desk\n${MANY}  clear all\n  set a\n  multiply by b\n  ask result\n`;

it('lets others in while a long one is made, and is cancelled', async () => {
  const client = await start(PULLED);
  await client.open(A, LONG);
  await client.open(B, POTS);
  await ask(client, { uri: A, kind: 'operating' });
  const source = new CancellationTokenSource();
  const params: SheetParams = { uri: A, kind: 'key', figures: 'all' };
  let isMade = false;
  const made = client.connection.sendRequest<SheetAnswer>(SHEET, params, source.token).finally(() => {
    isMade = true;
  });
  const place = { textDocument: { uri: B }, position: { line: 6, character: 3 } };
  expect(await client.connection.sendRequest(HoverRequest.type, place)).toBeTruthy();
  expect(isMade).toBe(false);
  source.cancel();
  await expect(made).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
});

it('is made of the newest text where that changes meanwhile', async () => {
  const client = await start(PULLED);
  await client.open(A, LONG);
  const asked = ask(client, { uri: A, kind: 'key' });
  await client.change(A, 2, [{ text: POTS }]);
  expect((await asked)?.sequence).toBe('pots');
});

it('is described to the client as the server gives it', () => {
  const given: Given = { sequences: [], choices: CHOICES, offers: { kind: [], language: [], paper: [], figures: [] } };
  // Types are what is tested: neither side may have what the other lacks.
  const taken: SheetAnswer = given;
  const areSame: Same<keyof SheetAnswer, keyof Given> = true;
  expect([taken, areSame]).toEqual([given, true]);
});
const CHOICES = { kind: 'bench', language: 'en', paper: 'a4', figures: 'none', format: 'html' } as const;
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
