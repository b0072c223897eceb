/** The extension in a browser: the server is a web worker. */
import { type ExtensionContext, Uri, workspace } from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { activateOn, type Exports } from './activate.js';

/** As much of a web worker as is needed here; the types of Node know another one. */
interface ServerWorker extends EventTarget {
  terminate(): void;
}
declare const Worker: new (address: string) => ServerWorker & ConstructorParameters<typeof BrowserMessageReader>[0];

export function activate(context: ExtensionContext): Exports {
  const bundle = Uri.joinPath(context.extensionUri, 'dist/server-worker.js');
  let worker: ServerWorker | undefined;
  /** A worker serves once: whoever starts the server again gets a new one. */
  const start = async () => {
    worker?.terminate();
    // Read through the editor: where the extension comes from another machine, a worker can't be loaded from there.
    const source = new Blob([await workspace.fs.readFile(bundle)], { type: 'text/javascript' });
    const address = URL.createObjectURL(source);
    const own = new Worker(address);
    worker = own;
    return { reader: new BrowserMessageReader(own), writer: new BrowserMessageWriter(own) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  return activateOn(
    { createClient: (options) => new LanguageClient('cranknote', 'Cranknote', start, options) },
    context,
  );
}

export { deactivate } from './activate.js';
