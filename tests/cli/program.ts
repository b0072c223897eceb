/** Runs the program that users run, in folders of its own. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

export const PROGRAM = fileURLToPath(new URL('../../dist/cranknote.cjs', import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly cwd: string;
  readonly input?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  /** As which user, where the tests themselves may do everything. */
  readonly uid?: number;
}

/** Whether the tests run with every right, so that files can't be protected from them. */
export const IS_ROOT = process.getuid?.() === 0;
/** A user without rights. */
export const NOBODY = 65534;

/** Runs `cranknote` with arguments; a run of more than 50 seconds counts as hanging and has no exit code. */
export function cranknote(args: readonly string[], { cwd, input = '', env, uid }: RunOptions): Ran {
  const done = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd,
    input,
    env: { PATH: process.env.PATH ?? '', HOME: cwd, ...env },
    encoding: 'utf8',
    timeout: 50_000,
    maxBuffer: 256 * 1024 * 1024,
    ...(uid !== undefined && { uid, gid: uid }),
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

const made: string[] = [];
afterAll(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A new folder with these files in it, wiped after the tests. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'cranknote-'));
  made.push(folder);
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), text);
  }
  return folder;
}

/** Everything below a folder, by path: a file's text, or where a link leads. */
export function listing(folder: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const name = path.join(entry.parentPath, entry.name);
    const shown = path.relative(folder, name);
    if (entry.isSymbolicLink()) found[shown] = `-> ${readlinkSync(name)}`;
    else if (entry.isFile()) found[shown] = readFileSync(name, 'latin1');
    else found[shown] = entry.isDirectory() ? 'folder' : 'other';
  }
  return found;
}

/** A machine for the examples, in lines that other lines follow. */
export const MACHINE = `machine bench-6
  setting 6
  counter 4
  result 10
`;

/** No stack trace, no crash: what a user may be shown of a run that failed. */
export const LOOKS_BROKEN = /\n\s+at |node:internal|mistake of its own|\bundefined\b|\bNaN\b|\[object/;
