/** The door for a web worker. */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { startServer } from './connection.js';

/** Put in when the program is bundled. */
declare const CRANKNOTE_VERSION: string;
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

// The reader has to be there and listen in the turn in which the worker starts, or the first message is lost.
const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(self),
  new BrowserMessageWriter(self),
);
startServer(connection, {
  version: CRANKNOTE_VERSION,
  now: () => performance.now(),
  pause: () => new Promise((resolve) => setTimeout(resolve)),
});
