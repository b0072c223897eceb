/** Finds and reads files for the command line. */
import { lstatSync, readFileSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { convertPathToPattern, globSync, isDynamicPattern } from 'tinyglobby';
import type { FileProblem } from '../sequence/findings.js';
import { isMarkdown, Library, LONGEST_FILE } from '../sequence/library.js';

/** Something that can't be run; the message is for the user. */
export class CannotRun extends Error {}

/** The name under which standard input is known. */
export const STANDARD_INPUT = '<stdin>';

const IGNORED = ['**/node_modules/**', '**/.git/**'];

/** A file to work on, and the folder above which its `use` lines can't lead. */
export interface Entry {
  /** As it is shown: from the working folder where it lies below it. */
  readonly file: string;
  readonly root: string;
}

const shownPath = (absolute: string): string => {
  const relative = path.relative(process.cwd(), absolute);
  const isBelow = relative !== '' && !relative.startsWith('..') && !path.isAbsolute(relative);
  return (isBelow ? relative : absolute).split(path.sep).join('/');
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
    const isThere = lstatSync(absolute, { throwIfNoEntry: false }) !== undefined;
    if (isThere && statSync(absolute, { throwIfNoEntry: false })?.isDirectory()) {
      for (const below of filesBelow(absolute)) add(below, absolute);
    } else if (isThere) add(absolute, path.dirname(absolute));
    else if (isDynamicPattern(name)) for (const match of matches(name)) add(match, path.dirname(match));
    else throw new CannotRun(`There is no file or folder ${name}.`);
  }
  return [...entries.values()];
}

const filesBelow = (folder: string): string[] =>
  globSync(`${convertPathToPattern(folder)}/**/*.{crank,md,markdown}`, { absolute: true, ignore: IGNORED }).sort();

function matches(pattern: string): string[] {
  const found = globSync(pattern.split(path.sep).join('/'), { absolute: true, ignore: IGNORED }).sort();
  if (found.length === 0) throw new CannotRun(`No file matches ${pattern}.`);
  return found;
}

/** A file's text, or why it has none. */
export function readText(file: string): { readonly text: string } | { readonly problem: FileProblem } {
  try {
    if (file !== STANDARD_INPUT) {
      const stats = statSync(file);
      if (stats.isDirectory()) return { problem: 'folder' };
      if (stats.size > 4 * LONGEST_FILE) return { problem: 'too-large' };
    }
    return decode(readFileSync(file === STANDARD_INPUT ? 0 : file));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return { problem: code === 'ENOENT' || code === 'ENOTDIR' ? 'missing' : 'unreadable' };
  }
}

function decode(bytes: Uint8Array): { readonly text: string } | { readonly problem: FileProblem } {
  if (bytes.length > 4 * LONGEST_FILE) return { problem: 'too-large' };
  // Text has no NUL: what has one is a picture, a program, or UTF-16.
  if (bytes.includes(0)) return { problem: 'not-text' };
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.length > LONGEST_FILE ? { problem: 'too-large' } : { text };
  } catch {
    return { problem: 'not-text' };
  }
}

const PROBLEM: Readonly<Record<FileProblem, string>> = {
  missing: 'is not there',
  outside: 'lies outside the folder',
  'not-relative': 'is not a path',
  folder: 'is a folder, not a file',
  unreadable: "can't be read",
  'too-large': 'is larger than 16 MB and is not read',
  'not-text': 'is not text in UTF-8',
};

export const problemText = (file: string, problem: FileProblem): string => `${file} ${PROBLEM[problem]}.`;

/** Takes a file into the library, and every file that it uses; false, and a message, if the file itself can't be read. */
export function load(library: Library, { file, root }: Entry, complain: (message: string) => void): string | undefined {
  const read = readText(file);
  if ('problem' in read) {
    complain(problemText(file, read.problem));
    return undefined;
  }
  library.set(file, read.text);
  loadUsed(library, file, root);
  return read.text;
}

/** Reads what a file uses, and what that uses, unless it leads out of the folder. */
export function loadUsed(library: Library, file: string, root: string): void {
  for (let wanted = library.wanted(file); wanted.length > 0; wanted = library.wanted(file)) {
    for (const used of wanted) {
      const read = isInside(used, root) ? readText(used) : ({ problem: 'outside' } as const);
      if ('problem' in read) library.setProblem(used, read.problem);
      else library.set(used, read.text);
    }
  }
}

/** Links are followed before it is decided where a file lies. */
function isInside(file: string, root: string): boolean {
  const real = (name: string) => {
    try {
      return realpathSync(name);
    } catch {
      return path.resolve(name);
    }
  };
  const relative = path.relative(real(root), real(path.resolve(file)));
  return !relative.startsWith('..') && !path.isAbsolute(relative);
}

/** A library with these files and all that they use. `all` is called for every file that could be read. */
export function loadAll(
  entries: readonly Entry[],
  complain: (message: string) => void,
): { library: Library; files: Map<string, string> } {
  const library = new Library();
  const files = new Map<string, string>();
  for (const entry of entries) {
    const text = load(library, entry, complain);
    // A Markdown page without a crank fence is nobody's mistake.
    if (text !== undefined && !(isMarkdown(entry.file) && library.tree(entry.file)?.sections.every(isBlank))) {
      files.set(entry.file, text);
    }
  }
  return { library, files };
}

const isBlank = ({ section }: { section: { kind: string; lines: readonly { text: string }[] } }): boolean =>
  section.kind === 'preamble' && section.lines.every(({ text }) => text.trim() === '');
