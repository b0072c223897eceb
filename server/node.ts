/** The door for Node: over a pipe from VS Code, or over standard input and output for any other editor. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { readText } from './cli/reading.js';
import { startServer } from './connection.js';
import type { Runtime } from './runtime.js';
import type { Files } from './service/workspace.js';

/** Files of the disk, as far as they lie in a folder of the workspace or beside a file that is open. */
const diskFiles = (folders: () => readonly string[]): Files => ({
  async read(uri) {
    if (!uri.startsWith('file:')) return { problem: 'unreadable' };
    const file = fileURLToPath(uri);
    // Nobody wants to wait for a pipe or a device.
    const stats = statSync(file, { throwIfNoEntry: false });
    return stats && !stats.isFile() && !stats.isDirectory() ? { problem: 'unreadable' } : readText(file);
  },
  async find() {
    const found: string[] = [];
    for (const folder of folders()) {
      if (!folder.startsWith('file:')) continue;
      const files = await glob('**/*.{crank,md,markdown}', {
        cwd: fileURLToPath(folder),
        absolute: true,
        ignore: ['**/node_modules/**', '**/.git/**'],
        followSymbolicLinks: false,
      });
      found.push(...files.sort().map((file) => pathToFileURL(file).href));
    }
    return found;
  },
});

/** The reference that is shipped beside the program has a heading for every finding. */
function pages(): string | undefined {
  const beside = path.resolve(path.dirname(realpathSync(process.argv[1] ?? '.')), '../grammar/REFERENCE.md');
  return existsSync(beside) ? `${pathToFileURL(beside).href}#{code}` : undefined;
}

const nodeRuntime = (version: string): Runtime => {
  const found = pages();
  return {
    version,
    now: () => performance.now(),
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    files: diskFiles,
    ...(found && { pages: found }),
  };
};

/** Serves the client that has started this process, over the channel named on the command line (`--stdio`, `--node-ipc`). */
export function serve(version: string): void {
  startServer(createConnection(ProposedFeatures.all), nodeRuntime(version));
}

/** Serves over two streams, for whoever runs the server inside a process of their own. */
export function serveStreams(input: NodeJS.ReadableStream, output: NodeJS.WritableStream, version: string): void {
  startServer(createConnection(ProposedFeatures.all, input, output), nodeRuntime(version));
}
