/** The door for Node: over a pipe from VS Code, or over standard input and output for any other editor. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from './connection.js';
import { readText } from './disk.js';
import type { Runtime } from './runtime.js';
import type { Files } from './service/workspace.js';

/** Files of the disk, as far as they lie in a folder of the workspace or beside a file that is open. */
export const diskFiles = (folders: () => readonly string[]): Files => ({
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
      for await (const file of filesBelow(fileURLToPath(folder))) {
        found.push(pathToFileURL(file).href);
        if (found.length >= MOST_FOUND) return found;
      }
    }
    return found;
  },
});

const MOST_FOUND = 10_000;
const IGNORED = new Set(['node_modules', '.git']);

/** Files of the notation and Markdown pages below a folder. Links are left aside: they may lead in circles. */
async function* filesBelow(folder: string): AsyncGenerator<string> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const name = path.join(folder, entry.name);
    if (entry.isDirectory() && !IGNORED.has(entry.name)) yield* filesBelow(name);
    else if (entry.isFile() && /\.(?:crank|md|markdown)$/i.test(entry.name)) yield name;
  }
}

/** The reference that is shipped beside the program has a heading for every finding. */
function pages(): string | undefined {
  const beside = path.resolve(path.dirname(realpathSync(process.argv[1] ?? '.')), '../grammar/REFERENCE.md');
  return existsSync(beside) ? `${pathToFileURL(beside).href}#{code}` : undefined;
}

/** What Node gives a server. */
export const nodeRuntime = (version: string): Runtime => {
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
