/** Files by way of the client: the same on a disk, on the web and in a workspace that is nowhere at all. */
import { type Connection, RequestType, RequestType0 } from 'vscode-languageserver';
import type { FileProblem } from './sequence/findings.js';
import { LONGEST_FILE } from './sequence/library.js';
import type { Files } from './service/workspace.js';

type Read = { readonly text: string } | { readonly problem: FileProblem };
const ReadFile = new RequestType<{ uri: string }, Read, void>('cranknote/read');
const FindFiles = new RequestType0<{ uris: string[] }, void>('cranknote/find');

export const clientFiles = (connection: Connection): Files => ({
  async read(uri) {
    const read: Partial<{ text: string; problem: FileProblem }> = await connection.sendRequest(ReadFile, { uri });
    if (typeof read?.text !== 'string') return { problem: read?.problem ?? 'unreadable' };
    return read.text.length > LONGEST_FILE ? { problem: 'too-large' } : { text: read.text };
  },
  async find() {
    const { uris } = await connection.sendRequest(FindFiles);
    return Array.isArray(uris) ? uris.filter((uri) => typeof uri === 'string') : [];
  },
});
