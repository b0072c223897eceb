/** The server as an editor meets it: over streams, with everything that may go wrong. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import {
  CancellationTokenSource,
  type CodeAction,
  CodeActionRequest,
  CodeActionResolveRequest,
  CodeActionTriggerKind,
  CodeLensRequest,
  CompletionRequest,
  DidCloseTextDocumentNotification,
  DocumentDiagnosticRequest,
  ExecuteCommandRequest,
  HoverRequest,
  InlayHintRequest,
  LSPErrorCodes,
  type MarkupContent,
  RenameRequest,
  SemanticTokensRequest,
  ShowMessageNotification,
  ShutdownRequest,
  WillRenameFilesRequest,
  WorkspaceDiagnosticRequest,
} from 'vscode-languageserver-protocol/node';
import { type Client, PULLED, PUSHED, startClient } from './client.js';

const A = 'file:///nursery/a.crank';
const B = 'file:///nursery/b.crank';
const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';
const WRONG = `${MACHINE}sequence pots on desk\n  clear all\n  set 12\n  turn 3\n  expect result 35\n`;
const whole = { start: { line: 0, character: 0 }, end: { line: 1_000, character: 0 } };

/** A connection that ends its process would end the tests. */
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
const codes = (diagnostics: readonly { code?: unknown }[]) => diagnostics.map(({ code }) => code);

describe('findings', () => {
  it('are pushed to a client that can do no better, with code, page and version', async () => {
    const client = await start(PUSHED);
    expect(client.initialized.capabilities.diagnosticProvider).toBeUndefined();
    await client.open(A, WRONG, 7);
    const [diagnostic, ...others] = await client.nextPublished(A, 7);
    expect(others).toEqual([]);
    expect(diagnostic).toMatchObject({
      code: 'reading-differs',
      source: 'cranknote',
      severity: 1,
      codeDescription: { href: 'reference:/reading-differs' },
      range: { start: { line: 8, character: 2 }, end: { line: 8, character: 18 } },
    });
    await client.change(A, 8, [
      { range: { start: { line: 8, character: 16 }, end: { line: 8, character: 18 } }, text: '36' },
    ]);
    expect(await client.nextPublished(A, 8)).toEqual([]);
  });

  it('are pulled by a client that can, and told once', async () => {
    const client = await start(PULLED);
    await client.open(A, WRONG);
    const first = await client.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: A } });
    expect(first.kind === 'full' && codes(first.items)).toEqual(['reading-differs']);
    const again = await client.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument: { uri: A },
      ...(first.kind === 'full' && first.resultId && { previousResultId: first.resultId }),
    });
    expect(again.kind).toBe('unchanged');
    expect(client.published).toEqual([]);
  });

  it('are found in all files of the workspace', async () => {
    const client = await start(PULLED, { files: { [A]: WRONG, [B]: 'use "a.crank"\nsequence s on desk\n  turn\n' } });
    const { items } = await client.connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const found = items.map((item) => [item.uri, item.kind === 'full' ? codes(item.items) : 'unchanged']);
    expect(found).toEqual([
      [A, ['reading-differs']],
      [B, ['assumes-clear', 'idle-turn']],
    ]);
  });

  it('speak the language of the client', async () => {
    const client = await start(PUSHED, { locale: 'de-AT' });
    await client.open(A, WRONG);
    const [{ message }] = await client.nextPublished(A, 1);
    expect(message).toContain('Resultatwerk');
  });
});

describe('a used file', () => {
  const USER = 'use "b.crank"\nsequence s on desk\n  clear all\n  set 12345\n';

  it('that changes in another tab refreshes those that need it, and no other', async () => {
    const client = await start(PUSHED);
    await client.open(B, MACHINE);
    await client.open(A, USER);
    await client.open('file:///nursery/c.crank', MACHINE);
    expect(codes(await client.nextPublished(A, 1))).toEqual(['setting-too-long']);
    await client.nextPublished('file:///nursery/c.crank', 1);
    // What is told once more after all files of the folder have been looked for is awaited as well.
    await new Promise((resolve) => setTimeout(resolve, 100));
    const before = client.published.length;
    await client.change(B, 2, [
      { range: { start: { line: 1, character: 10 }, end: { line: 1, character: 11 } }, text: '5' },
    ]);
    await vi.waitFor(() => expect(client.published.slice(before).map(({ uri }) => uri)).toContain(A));
    expect(client.published.findLast(({ uri }) => uri === A)?.diagnostics).toEqual([]);
    expect(
      client.published
        .slice(before)
        .map(({ uri }) => uri)
        .sort(),
    ).toEqual([A, B]);
  });

  it('that changes on the disk refreshes them too', async () => {
    const files = { [B]: MACHINE };
    const client = await start(PULLED, { files });
    await client.open(A, USER);
    const ask = async () => {
      const report = await client.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: A } });
      return report.kind === 'full' ? codes(report.items) : report.kind;
    };
    expect(await ask()).toEqual(['setting-too-long']);
    await vi.waitFor(() => expect(client.asked).toContain('workspace/inlayHint/refresh'));
    client.asked.length = 0;
    files[B] = MACHINE.replace('setting 4', 'setting 5');
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: B, type: 2 }] });
    expect(await ask()).toEqual([]);
    await vi.waitFor(() => expect(client.asked).toContain('workspace/inlayHint/refresh'));
  });
});

describe('the machine in hovers', () => {
  const hovered = async (client: Client): Promise<string> => {
    const params = { textDocument: { uri: A }, position: { line: 7, character: 4 } };
    const found = await client.connection.sendRequest(HoverRequest.type, params);
    return (found?.contents as MarkupContent | undefined)?.value ?? '';
  };
  const drawing = (text: string): string =>
    Buffer.from(/svg\+xml;base64,([^|]+)/.exec(text)?.[1] ?? '', 'base64').toString();

  it('is in letters and figures for a client that says nothing of pictures, or nothing that makes sense', async () => {
    for (const look of [undefined, 'plaid', '__proto__']) {
      const client = await start(PUSHED, look === undefined ? {} : { look });
      await client.open(A, WRONG);
      await client.connection.sendNotification('cranknote/look', { look: 'dark' });
      expect(await hovered(client)).toMatch(/```\nposition 1/);
    }
  });

  it('is drawn for one that does, in the colours of its theme', async () => {
    const client = await start(PUSHED, { look: 'light' });
    await client.open(A, WRONG);
    expect(drawing(await hovered(client))).toContain(' color="#1c2321"');
    for (const look of ['high-contrast-dark', 'plaid', 7, undefined]) {
      await client.connection.sendNotification('cranknote/look', { look });
      expect(drawing(await hovered(client))).toContain(' color="#ffffff"');
    }
    await client.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { cranknote: { hovers: { figure: 'text' } } },
    });
    expect(await hovered(client)).toMatch(/```\nposition 1/);
  });
});

describe('what a preview of Markdown shows', () => {
  const PAGE = 'file:///nursery/page.md';
  const fence = (text: string): string => `\`\`\`crank\n${text}\n\`\`\`\n\n`;
  const TEXT = `${fence('use "a.crank"')}${fence('sequence one on desk\n  turn 2')}${fence('sequence two on desk\n  set 12; turn 3')}`;
  interface Told {
    readonly resultId: string;
    readonly fences: readonly { readonly content: string; readonly html?: string; readonly same?: number }[];
  }
  const told = (client: Client, previousResultId?: unknown, uri: unknown = PAGE): Promise<Told | null> =>
    client.connection.sendRequest('cranknote/fences', { textDocument: { uri }, previousResultId });
  /** Whether the server says that it is to be asked again. */
  const refreshed = (client: Client): Promise<void> =>
    new Promise((resolve) => void client.connection.onNotification('cranknote/refreshFences', () => resolve()));

  it('is told once, and after an edit only what is new', async () => {
    const client = await start(PUSHED, { files: { [A]: MACHINE } });
    await client.open(PAGE, TEXT);
    const first = await told(client);
    expect(first?.fences.map(({ html }) => html?.includes('<svg'))).toEqual([false, true, true]);
    await client.change(PAGE, 2, [
      { range: { start: { line: 6, character: 7 }, end: { line: 6, character: 8 } }, text: '4' },
    ]);
    const second = await told(client, first?.resultId);
    expect(second?.fences.map(({ same }) => same)).toEqual([0, undefined, 2]);
    expect(second?.fences[1].html).toContain('Counter 4.');
    // Of an answer that is long past, nothing can be the same.
    expect((await told(client, first?.resultId))?.fences.every(({ html }) => html !== undefined)).toBe(true);
    for (const odd of [7, null, {}, 'x']) expect((await told(client, odd))?.fences[1].html).toContain('Counter 4.');
  });

  it('is nothing of a page that is not open, and an error where none is named', async () => {
    const client = await start();
    expect(await told(client)).toBeNull();
    for (const uri of [undefined, 7, null]) {
      await expect(told(client, undefined, uri ?? {})).rejects.toThrow('A document is needed');
    }
    expect(await told(client, undefined, 'no address at all')).toBeNull();
  });

  it('is to be asked for again when another case is chosen, or a file that it uses has changed', async () => {
    const client = await start(PUSHED, { files: { [A]: MACHINE }, preview: true });
    await client.open(A, MACHINE);
    await client.open(
      PAGE,
      TEXT.replace('two on desk', 'two (a = 3) on desk\n  case a = 4').replace('turn 3', 'turn a'),
    );
    const first = await told(client);
    expect(first?.fences[2].html).toContain('(a = 3)');
    const chosen = refreshed(client);
    const args = { command: 'cranknote.server.chooseCase', arguments: [PAGE, 'two', 1] };
    await client.connection.sendRequest('workspace/executeCommand', args);
    await chosen;
    const second = await told(client, first?.resultId);
    expect(second?.fences.map(({ same }) => same)).toEqual([0, 1, undefined]);
    expect(second?.fences[2].html).toContain('(a = 4)');
    const used = refreshed(client);
    await client.change(A, 2, [{ range: whole, text: MACHINE.replace('result 8', 'result 9') }]);
    await used;
    expect((await told(client, second?.resultId))?.fences.map(({ same }) => same)).toEqual([0, undefined, undefined]);
  });

  it('is refreshed for no client that shows none', async () => {
    const client = await start(PUSHED, { files: { [A]: MACHINE } });
    let count = 0;
    client.connection.onNotification('cranknote/refreshFences', () => {
      count++;
    });
    await client.open(PAGE, TEXT);
    const args = { command: 'cranknote.server.chooseCase', arguments: [PAGE, 'two', 1] };
    await client.connection.sendRequest('workspace/executeCommand', args);
    await told(client);
    expect(count).toBe(0);
  });
});

describe('long work', () => {
  const LONG = `${MACHINE}sequence long on desk\n  clear all\n  set 1\n${'  repeat 300 {\n    turn 9\n    turn back 9\n  }\n'.repeat(160)}`;

  it('is cancelled', async () => {
    const client = await start(PULLED);
    await client.open(A, LONG);
    const source = new CancellationTokenSource();
    const asked = client.connection.sendRequest(
      HoverRequest.type,
      { textDocument: { uri: A }, position: { line: 5, character: 3 } },
      source.token,
    );
    setTimeout(() => source.cancel(), 5);
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });

  it('gives way to a newer edit', async () => {
    const client = await start(PULLED);
    await client.open(A, LONG);
    const asked = client.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: A } });
    await client.change(A, 2, [{ text: WRONG }]);
    const report = await asked;
    expect(report.kind === 'full' && codes(report.items)).toEqual(['reading-differs']);
  });
});

describe('a client that behaves badly', () => {
  const lives = async (client: Client) => {
    await client.open(B, WRONG, 99);
    const hints = await client.connection.sendRequest(InlayHintRequest.type, {
      textDocument: { uri: B },
      range: whole,
    });
    expect(hints?.length).toBeGreaterThan(0);
  };

  it('asks for documents that nobody knows', async () => {
    const client = await start();
    const position = { line: 0, character: 0 };
    const unknown = { uri: 'file:///nowhere.crank' };
    expect(await client.connection.sendRequest(HoverRequest.type, { textDocument: unknown, position })).toBeNull();
    await client.change('file:///nowhere.crank', 2, [{ text: 'x' }]);
    await client.connection.sendNotification('textDocument/didClose', { textDocument: unknown });
    await lives(client);
  });

  it.each([
    { line: -1, character: -1 },
    { line: 1e9, character: 1e9 },
    { line: 0.5, character: Number.NaN },
    { line: 'one', character: null },
    null,
    undefined,
  ])('sends the position %j', async (position) => {
    const client = await start();
    await client.open(A, WRONG);
    await client.connection.sendRequest(HoverRequest.method, { textDocument: { uri: A }, position }).catch(() => {});
    await client.connection
      .sendRequest(CompletionRequest.method, { textDocument: { uri: A }, position })
      .catch(() => {});
    await client.change(A, 2, [{ range: { start: position, end: position }, text: 'x' }]);
    await lives(client);
  });

  it('sends messages of no shape', async () => {
    const client = await start();
    for (const params of [undefined, null, 5, 'text', [], {}, { textDocument: 5 }, { textDocument: { uri: 5 } }]) {
      for (const method of ['textDocument/hover', 'textDocument/rename', 'workspace/executeCommand', 'no/such']) {
        await client.connection.sendRequest(method, params as object).catch(() => {});
      }
      for (const method of [
        'textDocument/didOpen',
        'textDocument/didChange',
        'workspace/didChangeWatchedFiles',
        'no/such',
      ]) {
        await client.connection.sendNotification(method, params as object);
      }
    }
    await lives(client);
  });

  it('sends what is no message at all', async () => {
    const client = await start();
    client.send('Content-Length: 7\r\n\r\n{"a": }');
    client.send('Content-Length: 2\r\n\r\n[]');
    client.send('Content-Length: 4\r\n\r\nnull');
    await lives(client);
  });

  it('sends a text of 50 MB', async () => {
    const client = await start();
    await client.open(A, `# ${'beds and pots '.repeat(3_700_000)}`);
    expect(codes(await client.nextPublished(A))).toEqual(['file-not-found']);
    await lives(client);
  });

  it('goes on after it has shut the server down', async () => {
    const client = await start();
    await client.open(A, WRONG);
    await client.connection.sendRequest(ShutdownRequest.type);
    const asked = client.connection.sendRequest(SemanticTokensRequest.type, { textDocument: { uri: A } });
    await expect(asked).rejects.toThrow('shut down');
  });

  it('asks for a command that there is not', async () => {
    const client = await start();
    const asked = client.connection.sendRequest(ExecuteCommandRequest.type, { command: 'rm', arguments: ['-rf'] });
    await expect(asked).rejects.toThrow('rm does not exist');
    await lives(client);
  });
});

it('a chosen case changes the readings, and the client is asked to look again', async () => {
  const client = await start(PULLED);
  await client.open(A, `${MACHINE}sequence s (a = 3) on desk\n  case a = 4\n  clear all\n  set a\n  turn\n`);
  const readings = async () => {
    const range = { start: { line: 8, character: 0 }, end: { line: 8, character: 7 } };
    const hints = await client.connection.sendRequest(InlayHintRequest.type, { textDocument: { uri: A }, range });
    return JSON.stringify(hints?.map(({ label }) => label));
  };
  expect(await readings()).toContain('3');
  const args = { command: 'cranknote.server.chooseCase', arguments: [A, 's', 1] };
  await client.connection.sendRequest(ExecuteCommandRequest.type, args);
  expect(await readings()).toContain('4');
  await vi.waitFor(() => expect(client.asked).toContain('workspace/inlayHint/refresh'));
});

it('a chosen case is forgotten with its document, and can not be chosen where nothing is open', async () => {
  const client = await start(PULLED);
  const text = `${MACHINE}sequence s (a = 3) on desk\n  case a = 4\n  clear all\n  set a\n  turn\n`;
  const shown = async (uri: string) => {
    const lenses = await client.connection.sendRequest(CodeLensRequest.type, { textDocument: { uri } });
    return lenses?.flatMap(({ command }) => (command?.title.endsWith('(shown)') ? [command.title] : []));
  };
  const choose = (uri: string) =>
    client.connection.sendRequest(ExecuteCommandRequest.type, {
      command: 'cranknote.server.chooseCase',
      arguments: [uri, 's', 1],
    });
  await client.open(A, text);
  await client.open(B, text);
  await choose(A);
  await choose(B);
  expect(await shown(A)).toEqual(['case 1: a = 4 (shown)']);
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: A } });
  await choose(A);
  await client.open(A, text);
  expect(await shown(A)).toEqual(['defaults (shown)']);
  expect(await shown(B)).toEqual(['case 1: a = 4 (shown)']);
});

describe('edits', () => {
  const C = 'file:///nursery/c.crank';
  const SHED = `use "a.crank"\nsequence s on desk\n  clear all\n  set 2\n  multiply by 3\n  trun\n`;
  const FAR = 'use "a.crank"\nmachine far like desk\n';
  /** With one document that is open and has changed since, and one that is only on the disk. */
  const begin = async (edits: object) => {
    const client = await start({ ...PULLED, workspace: { ...PULLED.workspace, ...edits } }, { files: { [C]: FAR } });
    await client.open(A, MACHINE, 4);
    await client.open(B, `# To be thrown away\n${SHED}`, 1);
    await client.change(B, 2, [{ text: SHED }]);
    const ask = client.connection;
    const place = { textDocument: { uri: A }, position: { line: 0, character: 9 } };
    const rename = await ask.sendRequest(RenameRequest.type, { ...place, newName: 'office' });
    const lines = { start: { line: 4, character: 2 }, end: { line: 4, character: 2 } };
    const mistake = { start: { line: 5, character: 3 }, end: { line: 5, character: 3 } };
    const actions = async (range: typeof lines) =>
      (await ask.sendRequest(CodeActionRequest.type, {
        textDocument: { uri: B },
        range,
        context: { diagnostics: [] },
      })) as CodeAction[];
    const [open] = (await actions(lines)).filter(({ data }) => data.refactoring);
    const [fix] = await actions(mistake);
    return {
      rename,
      move: await ask.sendRequest(WillRenameFilesRequest.type, {
        files: [{ oldUri: A, newUri: 'file:///nursery/machines.crank' }],
      }),
      fix: fix.edit,
      refactoring: (await ask.sendRequest(CodeActionResolveRequest.type, open)).edit,
    };
  };
  const at = (line: number, from: number, to: number, newText: string) => ({
    range: { start: { line, character: from }, end: { line, character: to } },
    newText,
  });
  const renamed: [string, object[]][] = [
    [A, [at(0, 8, 12, 'office')]],
    [B, [at(1, 14, 18, 'office')]],
    [C, [at(1, 17, 21, 'office')]],
  ];
  const moved: [string, object[]][] = [B, C].map((uri) => [uri, [at(0, 4, 13, '"machines.crank"')]]);
  const byFile = (files: readonly [string, object[]][]) => ({ changes: Object.fromEntries(files) });
  const versions: Record<string, number | null> = { [A]: 4, [B]: 2, [C]: null };
  const byVersion = (files: readonly [string, object[]][]) => ({
    documentChanges: files.map(([uri, edits]) => ({ textDocument: { uri, version: versions[uri] }, edits })),
  });
  /** Nothing depends on the order of files. */
  const sorted = <T extends { documentChanges?: { textDocument?: { uri: string } }[] }>(edit: T): T => {
    const key = (change: { textDocument?: { uri: string } }) => change.textDocument?.uri ?? '';
    edit.documentChanges?.sort((a, b) => (key(a) < key(b) ? -1 : 1));
    return edit;
  };

  it('name documents alone to a client that can do no better', async () => {
    const { rename, move, fix, refactoring } = await begin({});
    expect(rename).toEqual(byFile(renamed));
    expect(move).toEqual(byFile(moved));
    expect(fix).toEqual(byFile([[B, [at(5, 2, 6, 'turn')]]]));
    expect(Object.keys(refactoring ?? {})).toEqual(['changes']);
    expect(Object.keys(refactoring?.changes ?? {})).toEqual([B]);
  });

  it('name the version too to a client that can, and none where only the disk has the file', async () => {
    const { rename, move, fix, refactoring } = await begin({ workspaceEdit: { documentChanges: true } });
    expect(sorted(rename as never)).toEqual(byVersion(renamed));
    expect(sorted(move as never)).toEqual(byVersion(moved));
    expect(fix).toEqual(byVersion([[B, [at(5, 2, 6, 'turn')]]]));
    expect(Object.keys(refactoring ?? {})).toEqual(['documentChanges']);
    expect(refactoring?.documentChanges).toMatchObject([{ textDocument: { uri: B, version: 2 } }]);
  });
});

describe('an action that turns out to be impossible', () => {
  const text = `${MACHINE}sequence pots on desk\n  goal result = 1234567 * 7654321\n`;
  const on = { start: { line: 5, character: 2 }, end: { line: 5, character: 2 } };
  const ask = async (client: Client, triggerKind: CodeActionTriggerKind) => {
    const context = { diagnostics: [], triggerKind };
    const params = { textDocument: { uri: A }, range: on, context };
    return (await client.connection.sendRequest(CodeActionRequest.type, params)) as CodeAction[];
  };

  it('says why in the list that a person asks for, and else when it is chosen', async () => {
    const client = await start();
    const told: string[] = [];
    client.connection.onNotification(ShowMessageNotification.type, ({ message }) => void told.push(message));
    await client.open(A, text);
    const [asked] = await ask(client, CodeActionTriggerKind.Invoked);
    expect(asked).toMatchObject({
      title: 'Write the steps for this goal',
      disabled: { reason: expect.stringContaining('places, and at least') },
    });
    const [unasked] = await ask(client, CodeActionTriggerKind.Automatic);
    expect(unasked.disabled).toBeUndefined();
    expect(told).toEqual([]);
    const resolved = await client.connection.sendRequest(CodeActionResolveRequest.type, unasked);
    expect(resolved.edit).toBeUndefined();
    expect(told).toEqual([asked.disabled?.reason]);
  });
});
