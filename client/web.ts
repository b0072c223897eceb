/** The extension in a browser: the server is a web worker. */
import { type ExtensionContext, Uri } from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { activateOn } from './activate.js';

export function activate(context: ExtensionContext): void {
  const address = Uri.joinPath(context.extensionUri, 'dist/server-worker.js').toString(true);
  let worker: Worker | undefined;
  /** A worker serves once: whoever starts the server again gets a new one. */
  const start = async () => {
    worker?.terminate();
    worker = new Worker(address);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  activateOn({ createClient: (options) => new LanguageClient('cranknote', 'Cranknote', start, options) }, context);
}

export { deactivate } from './activate.js';
