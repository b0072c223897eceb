/** Finds and reads files for the command line. */
import { existsSync, lstatSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { convertPathToPattern, globSync, isDynamicPattern } from 'tinyglobby';
import { type Read, readText, STANDARD_INPUT } from '../disk.js';
import { isIdle } from '../sequence/idle.js';
import { Library } from '../sequence/library.js';
import { problemText } from './reading.js';

/** Something that can't be run; the message is for the user. */
export class CannotRun extends Error {}

const IGNORED = ['**/node_modules/**', '**/.git/**'];

/** A file to work on, and the folder above which its `use` lines can't lead. */
export interface Entry {
  /** As it is shown: from the working folder where it lies below it. */
  readonly file: string;
  readonly root: string;
  /** What the library calls it, where its own name does not tell what it is. */
  readonly as?: string;
}

const leadsOut = (relative: string): boolean => /^\.\.(?:[\\/]|$)/.test(relative) || path.isAbsolute(relative);

const shownPath = (absolute: string): string => {
  const relative = path.relative(process.cwd(), absolute);
  const shown = relative !== '' && !leadsOut(relative) ? relative : absolute;
  // Whatever a file is called, it is not standard input.
  return (shown === STANDARD_INPUT ? `./${shown}` : shown).split(path.sep).join('/');
};

/** The files that paths, folders and patterns stand for, each once, in the order in which they are named. */
export function findEntries(named: readonly string[]): Entry[] {
  const entries = new Map<string, Entry>();
  const add = (absolute: string, root: string) => {
    const file = shownPath(absolute);
    if (!entries.has(file)) entries.set(file, { file, root: path.isAbsolute(file) ? root : process.cwd() });
  };
  for (const name of named) {
    if (name === '-') {
      entries.set(STANDARD_INPUT, { file: STANDARD_INPUT, root: process.cwd() });
      continue;
    }
    const absolute = path.resolve(name);
    const kind = kindOf(absolute);
    if (kind === 'folder') for (const below of filesBelow(absolute)) add(below, absolute);
    else if (kind !== undefined) add(absolute, path.dirname(absolute));
    else if (isDynamicPattern(name)) for (const match of matches(name)) add(match, path.dirname(match));
    else throw new CannotRun(`There is no file or folder ${name}.`);
  }
  return [...entries.values()];
}

/** What a name stands for, links followed; a link that leads nowhere is a file that can't be read. */
function kindOf(name: string): 'folder' | 'file' | 'other' | undefined {
  try {
    const stats = statSync(name);
    return stats.isDirectory() ? 'folder' : stats.isFile() ? 'file' : 'other';
  } catch {
    return isThere(name) ? 'other' : undefined;
  }
}

function isThere(name: string): boolean {
  try {
    return lstatSync(name) !== undefined;
  } catch {
    return false;
  }
}

/** Links are left aside: they may lead in circles, or to files that nobody named. */
const filesBelow = (folder: string): string[] =>
  globSync(`${convertPathToPattern(folder)}/**/*.{crank,md,markdown}`, {
    absolute: true,
    ignore: IGNORED,
    followSymbolicLinks: false,
  }).sort();

/** What a pattern names; a file to which several links lead is one file. */
function matches(pattern: string): string[] {
  const found = new Map<string, string>();
  for (const match of globSync(pattern.split(path.sep).join('/'), { absolute: true, ignore: IGNORED }).sort()) {
    const file = real(match);
    if (!found.has(file) || file === path.resolve(match)) found.set(file, match);
  }
  if (found.size === 0) throw new CannotRun(`No file matches ${pattern}.`);
  return [...found.values()].sort();
}

/** Takes a file into the library, and every file that it uses. Returns its text; nothing, and a message, if it can't be read. */
function load(library: Library, entry: Entry, complain: (message: string) => void): string | undefined {
  const { file, root } = entry;
  const read = readText(file);
  if ('problem' in read) {
    complain(problemText(file, read.problem));
    return undefined;
  }
  library.set(knownAs(entry), read.text);
  loadUsed(library, knownAs(entry), root);
  return read.text;
}

/** What the library calls a file. */
export const knownAs = ({ file, as }: Entry): string => as ?? file;

/** Reads what a file uses, and what that uses, unless it leads out of the folder. */
function loadUsed(library: Library, file: string, root: string): void {
  const seen = new Set([file]);
  for (const known of seen) {
    for (const used of library.usedBy(known)) {
      seen.add(used);
      if (library.has(used)) continue;
      const read = isInside(used, root) ? readUsed(used) : ({ problem: 'outside' } as const);
      if ('problem' in read) library.setProblem(used, read.problem);
      else library.set(used, read.text);
    }
  }
}

/** What a file uses is a file: nobody wants to wait for a pipe or a device. */
const readUsed = (file: string): Read =>
  kindOf(file) === 'other' && existsSync(file) ? { problem: 'unreadable' } : readText(file);

/** Links are followed before it is decided where a file lies. */
const isInside = (file: string, root: string): boolean => !leadsOut(path.relative(real(root), real(file)));

/** Where a path leads once links are followed. */
function real(name: string): string {
  try {
    return realpathSync(name);
  } catch {
    return path.resolve(name);
  }
}

/** A library with these files and all that they use, and the texts of those that could be read. */
export function loadAll(
  entries: readonly Entry[],
  complain: (message: string) => void,
): { library: Library; files: Map<string, string> } {
  const library = new Library();
  const files = new Map<string, string>();
  for (const entry of entries) {
    const text = load(library, entry, complain);
    if (text !== undefined && !isIdle(library, knownAs(entry))) files.set(knownAs(entry), text);
  }
  return { library, files };
}
