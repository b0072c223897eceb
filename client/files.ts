/**
 * Files for the language server, read through the editor, so that virtual workspaces and the web work as disks do.
 *
 * Invariant: whatever is asked for, the answer is a text or a problem with a name; nothing is thrown.
 */
import { FileSystemError, FileType, Uri, workspace } from 'vscode';
import type { FindResult, ReadResult } from './protocol.js';

/** Files that may hold the notation. */
export const FILES = '**/*.{crank,md,markdown}';

const LEFT_OUT = '**/{node_modules,.git}/**';
/** Files that are part of the workspace and nobody's own. */
export const isLeftOut = ({ path }: Uri): boolean => /\/(?:node_modules|\.git)\//.test(path);
const MOST_FILES = 5_000;

/** Characters that a file may have, as on the command line, and bytes of UTF-8 that a character takes at most. */
const LONGEST_FILE = 16_000_000;
const MOST_BYTES = 3;

export async function read(address: string): Promise<ReadResult> {
  try {
    const uri = Uri.parse(address, true);
    const { type, size } = await workspace.fs.stat(uri);
    if ((type & FileType.Directory) !== 0) return { problem: 'folder' };
    if (size > MOST_BYTES * LONGEST_FILE) return { problem: 'too-large' };
    return decode(await workspace.fs.readFile(uri));
  } catch (error) {
    return { problem: problemOf(error) };
  }
}

function problemOf(error: unknown): 'missing' | 'folder' | 'unreadable' {
  const code = error instanceof FileSystemError ? error.code : '';
  if (code === 'FileNotFound' || code === 'FileNotADirectory') return 'missing';
  return code === 'FileIsADirectory' ? 'folder' : 'unreadable';
}

function decode(bytes: Uint8Array): ReadResult {
  // Text has no NUL: what has one is a picture, a program, or UTF-16.
  if (bytes.includes(0)) return { problem: 'not-text' };
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.length > LONGEST_FILE ? { problem: 'too-large' } : { text };
  } catch {
    return { problem: 'not-text' };
  }
}

export async function find(): Promise<FindResult> {
  const found = await workspace.findFiles(FILES, LEFT_OUT, MOST_FILES);
  return { uris: found.map((uri) => uri.toString()) };
}
