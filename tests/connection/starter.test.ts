/** `cranknote/starter` over the protocol: what there is to choose, and the file. */
import { afterEach, expect, it, vi } from 'vitest';
import { ErrorCodes } from 'vscode-languageserver-protocol/node';
import { STARTER, type StarterAnswer, type StarterParams } from '../../client/protocol.js';
import { checkText } from '../marked.js';
import { type Client, PULLED, startClient } from './client.js';

vi.spyOn(process, 'exit').mockImplementation((() => {}) as never);
const clients: Client[] = [];
const start = async () => {
  const client = await startClient(PULLED);
  clients.push(client);
  return client;
};
afterEach(() => {
  for (const client of clients.splice(0)) client.close();
});
const ask = (client: Client, params: StarterParams) => client.connection.sendRequest<StarterAnswer>(STARTER, params);

it('tells what there is to choose, and makes what was chosen', async () => {
  const client = await start();
  const offers = await ask(client, {});
  expect(offers.file).toBeUndefined();
  const [machine] = offers.machines;
  const { file } = await ask(client, { machine: machine.value, task: machine.tasks[0], language: 'de' });
  expect(file?.name).toBe('beetfläche');
  expect(checkText(file?.text ?? '').findings).toEqual([]);
});

it('refuses with a reason', async () => {
  const client = await start();
  for (const params of [{ machine: 'adding', task: 'divide' }, { machine: 'loom' }, { language: 'fr' }]) {
    const refused = ask(client, params);
    await expect(refused).rejects.toMatchObject({ code: ErrorCodes.InvalidParams });
    await expect(refused).rejects.toThrow(/Adding machine|one of/);
  }
});
