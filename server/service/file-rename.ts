/**
 * Mends `use` lines when files or folders are to be renamed: those that lead to a file that moves, and the relative
 * ones of a file that moves itself.
 */
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Library } from '../sequence/library.js';
import { pathFrom, resolveUse } from '../sequence/uses.js';
import { rangeOn } from './spots.js';

/** The known files, and what a client calls them. */
export interface KnownFiles {
  readonly library: Library;
  readonly uriOf: (file: string) => string;
  /** What the library calls a file that a client names. */
  readonly fileOf: (uri: string) => string;
}

export interface FileMove {
  readonly oldUri: string;
  readonly newUri: string;
}

/** The edits that are to be made before the files move, in the files under their old names; undefined without any. */
export function editsForFileRename(files: KnownFiles, moves: readonly FileMove[]): WorkspaceEdit | undefined {
  const { library, uriOf, fileOf } = files;
  const moved = mover(moves.map(({ oldUri, newUri }) => ({ from: fileOf(oldUri), to: fileOf(newUri) })));
  const changes: NonNullable<WorkspaceEdit['changes']> = {};
  for (const file of library.fileNames()) {
    const edits = editsIn(library, file, moved);
    if (edits.length > 0) changes[uriOf(file)] = edits;
  }
  return Object.keys(changes).length > 0 ? { changes } : undefined;
}

type Mover = (file: string) => string;

/** Where a file is to be found afterwards. */
function mover(moves: readonly { readonly from: string; readonly to: string }[]): Mover {
  const bare = (name: string) => name.replace(/\/+$/, '');
  const known = moves.map(({ from, to }) => ({ from: bare(from), to: bare(to) }));
  // The innermost folder that moves decides.
  known.sort((a, b) => b.from.length - a.from.length);
  return (file) => {
    const move = known.find(({ from }) => file === from || file.startsWith(`${from}/`));
    return move ? move.to + file.slice(move.from.length) : file;
  };
}

function editsIn(library: Library, file: string, moved: Mover): TextEdit[] {
  const home = moved(file);
  return (library.tree(file)?.sections ?? []).flatMap(({ section, line }) => {
    if (section.kind !== 'use' || !section.header) return [];
    const { path } = section.header;
    const target = leadsTo(file, path.value);
    if (target === undefined) return [];
    const wanted = moved(target);
    if ((home === file && wanted === target) || leadsTo(home, path.value) === wanted) return [];
    const written = pathTo(home, wanted, path.value.startsWith('./'));
    return written === undefined ? [] : [{ range: rangeOn(line, path), newText: quoted(written) }];
  });
}

function leadsTo(from: string, path: string): string | undefined {
  const target = resolveUse(from, path);
  return 'file' in target ? target.file : undefined;
}

/** A relative path from one file to another; undefined where there is none that the notation could write. */
function pathTo(from: string, to: string, withDot: boolean): string | undefined {
  const path = pathFrom(from, to);
  const dotted = `./${path}`;
  const candidates = withDot && !path.startsWith('../') ? [dotted] : [path, dotted];
  // Anything odd, such as another host, or a name that looks like an address, shows when it is followed.
  return candidates.find((candidate) => !/[\r\n]/.test(candidate) && leadsTo(from, candidate) === to);
}

const quoted = (path: string): string => `"${path.replace(/["\\]/g, '\\$&')}"`;
