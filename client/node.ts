/** The extension beside a disk: server and command line are processes of their own. */
import { fork } from 'node:child_process';
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateOn, type Exports } from './activate.js';
import type { RunProgram } from './tasks.js';

export function activate(context: ExtensionContext): Exports {
  const module = context.asAbsolutePath('dist/server-node.cjs');
  return activateOn(
    {
      createClient: (options) =>
        new LanguageClient('cranknote', 'Cranknote', { module, transport: TransportKind.ipc }, options),
      run: programAt(context.asAbsolutePath('dist/cranknote.cjs')),
    },
    context,
  );
}

export { deactivate } from './activate.js';

/** The program writes into pipes, so that it breaks no line of a message: the Problems view reads it whole. */
const programAt =
  (program: string): RunProgram =>
  (args, folder, write, cancelled) =>
    new Promise((resolve, reject) => {
      const child = fork(program, args, { cwd: folder, silent: true, execArgv: [] });
      for (const stream of [child.stdout, child.stderr]) {
        stream?.setEncoding('utf8');
        stream?.on('data', write);
      }
      child.on('error', reject);
      child.on('close', (code) => resolve(code ?? 2));
      void cancelled.then(() => child.kill());
    });
