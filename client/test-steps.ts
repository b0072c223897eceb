/** Stepping through a test: the editor's debugger is started on it. */
import { type CancellationToken, type DebugSession, debug, type TestRun, workspace } from 'vscode';
import type { Tested } from './test-files.js';

/** Starts stepping through a sequence, and resolves when somebody has come to its end, or has ended it. */
export async function stepThrough(
  { file: { uri }, sequence, case: number = 0 }: Tested,
  name: string,
  run: TestRun,
  token: CancellationToken,
): Promise<void> {
  const configuration = {
    type: 'cranknote',
    request: 'launch',
    name,
    program: uri.toString(),
    sequence,
    // The defaults are no case.
    ...(number > 0 && { case: number }),
  };
  let own: DebugSession | undefined;
  let end = (): void => undefined;
  const ended = new Promise<void>((resolve) => {
    end = resolve;
  });
  const watching = [
    debug.onDidStartDebugSession((session) => {
      if (session.type === configuration.type && session.configuration.name === name) own ??= session;
    }),
    debug.onDidTerminateDebugSession(({ id }) => {
      if (id === own?.id) end();
    }),
    token.onCancellationRequested(() => {
      // Without a session all of them would be ended.
      if (own) void debug.stopDebugging(own);
      end();
    }),
  ];
  try {
    const folder = workspace.getWorkspaceFolder(uri);
    if (await debug.startDebugging(folder, configuration, { testRun: run })) await ended;
  } finally {
    for (const one of watching) one.dispose();
  }
}
