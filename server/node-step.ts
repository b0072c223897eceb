/** Stepping for an editor that starts an adapter of its own: the debug protocol over standard input and output. */
import { statSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { StepAdapter } from './adapter/adapter.js';
import { Sessions } from './adapter/sessions.js';
import { diskFiles, nodeRuntime } from './node.js';
import { wordingFor } from './sequence/wording/index.js';
import type { Reader } from './service/document.js';
import { DEFAULT_SETTINGS } from './service/settings.js';
import { wordsFor } from './service/wording/index.js';
import { Workspace } from './service/workspace.js';

/** Serves the client that has started this process, for one session. */
export function step(version: string): void {
  const runtime = nodeRuntime(version);
  const folders = [pathToFileURL(`${process.cwd()}/`).href];
  const workspace = new Workspace(
    runtime,
    diskFiles(() => folders),
    () => folders,
  );
  const times = new FileTimes();
  const adapter = new StepAdapter('step', {
    workspace,
    clock: runtime,
    sessions: new Sessions(),
    reader: (ofClient, wished) => readerIn(wished ?? ofClient ?? 'en'),
    // As on the command line: the folder in which it is started, or that of the file.
    entering: (uri) => void (uri.startsWith('file:') && folders.push(new URL('.', uri).href)),
    lookAround: () => lookAround(adapter, workspace, times),
  });
  adapter.start(process.stdin, process.stdout);
  process.stdin.on('close', () => process.exit());
}

const readerIn = (locale: string): Reader => ({
  locale,
  wording: wordingFor(locale),
  words: wordsFor(locale),
  settings: DEFAULT_SETTINGS,
  chosenCase: () => undefined,
});

/** Nobody tells of files that change: they are looked at before somebody goes on. */
function lookAround(adapter: StepAdapter, workspace: Workspace, times: FileTimes): void {
  const changed = workspace.knownUris().filter((uri) => times.hasChanged(uri));
  for (const uri of changed) workspace.didChangeOnDisk(uri);
  if (changed.length > 0) adapter.filesChanged('edited');
}

/** When files were changed last, as far as somebody has looked. */
class FileTimes {
  private readonly known = new Map<string, number>();

  hasChanged(uri: string): boolean {
    if (!uri.startsWith('file:')) return false;
    const time = statSync(fileURLToPath(uri), { throwIfNoEntry: false })?.mtimeMs ?? 0;
    const before = this.known.get(uri);
    this.known.set(uri, time);
    return before !== undefined && before !== time;
  }
}
