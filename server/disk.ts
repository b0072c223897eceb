/** Reads files and standard input: the command line's, and the server's where it runs in Node. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { FileProblem } from './sequence/findings.js';
import { LONGEST_FILE } from './sequence/library.js';

/** The name under which standard input is known. */
export const STANDARD_INPUT = '<stdin>';

export type Read = { readonly text: string } | { readonly problem: FileProblem };

/** A file's text, or why it has none. */
export function readText(file: string): Read {
  try {
    if (file === STANDARD_INPUT) return readFrom(0);
    const from = openSync(file, 'r');
    try {
      return fstatSync(from).isDirectory() ? { problem: 'folder' } : readFrom(from);
    } finally {
      closeSync(from);
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EISDIR') return { problem: 'folder' };
    return { problem: code === 'ENOENT' || code === 'ENOTDIR' ? 'missing' : 'unreadable' };
  }
}

/** Bytes of UTF-8 that a character takes at most, as characters are counted here. */
const MOST_BYTES = 3;

/** Reads piece by piece and no further than a file may be long, for a device or a pipe may never end. */
function readFrom(from: number): Read {
  const pieces: Buffer[] = [];
  let size = 0;
  for (;;) {
    const piece = Buffer.allocUnsafe(64 * 1024);
    const length = readPiece(from, piece);
    if (length === 0) return decode(Buffer.concat(pieces));
    pieces.push(piece.subarray(0, length));
    size += length;
    if (size > MOST_BYTES * LONGEST_FILE) return { problem: 'too-large' };
  }
}

/** A pipe that has nothing to read yet is waited for. */
function readPiece(from: number, piece: Buffer): number {
  for (;;) {
    try {
      return readSync(from, piece);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
}

function decode(bytes: Uint8Array): Read {
  // Text has no NUL: what has one is a picture, a program, or UTF-16.
  if (bytes.includes(0)) return { problem: 'not-text' };
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.length > LONGEST_FILE ? { problem: 'too-large' } : { text };
  } catch {
    return { problem: 'not-text' };
  }
}
