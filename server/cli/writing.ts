/** Writes files for the command line, whole or not at all. */
import { randomUUID } from 'node:crypto';
import {
  accessSync,
  chmodSync,
  chownSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';

/**
 * Writes beside the file and then puts the new one in its place, so that it is never half written. The file keeps its
 * rights and its owner, and a link to it stays a link. Throws where it can't be written: then it is as it was.
 */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const real = realpathSync(file);
  const stats = statSync(real);
  if (!stats.isFile()) throw new Error('not a file');
  // A file that is protected from writing stays so, even where its folder would allow to replace it.
  accessSync(real, constants.W_OK);
  // Its name begins with a dot: were the machine to fail now, nobody would take it for a sequence.
  const beside = path.join(path.dirname(real), `.cranknote-${randomUUID()}.new`);
  try {
    writeThrough(beside, content);
    takeOver(beside, stats);
    renameSync(beside, real);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** Writes a file that may not be there yet, in the same way. */
export function writeNew(file: string, content: string | Uint8Array): void {
  if (existsSync(file)) return writeWhole(file, content);
  const beside = path.join(path.dirname(file), `.cranknote-${randomUUID()}.new`);
  try {
    writeThrough(beside, content);
    chmodSync(beside, 0o666 & ~process.umask());
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** What it leaves behind is on the disk. */
function writeThrough(file: string, content: string | Uint8Array): void {
  const to = openSync(file, 'wx', 0o600);
  try {
    writeFileSync(to, content);
    fsyncSync(to);
  } finally {
    closeSync(to);
  }
}

function takeOver(file: string, { uid, gid, mode }: Stats): void {
  const made = statSync(file);
  if (made.uid !== uid || made.gid !== gid) chownSync(file, uid, gid);
  chmodSync(file, mode);
}
