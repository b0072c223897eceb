/**
 * A document as the features see it.
 *
 * Invariant: a feature is a pure function of one of these and a position. It never sees a connection, and it never
 * changes what it is given.
 */
import type { CrankFile } from '../../grammar/tree.js';
import type { FileReport } from '../sequence/file.js';
import type { Library } from '../sequence/library.js';
import type { Wording } from '../sequence/wording/index.js';
import type { Look } from './picture.js';
import type { Settings } from './settings.js';
import type { Words } from './wording/index.js';

/** A document whose text is read: its tree is always that of its newest text. */
export interface ParsedDocument {
  /** As the client calls it. */
  readonly uri: string;
  /** As the library calls it. */
  readonly file: string;
  readonly version: number;
  /** The text, line by line, as it is written. In Markdown, `tree` sees the lines outside the fences as blank. */
  readonly lines: readonly string[];
  /** The line end that new lines are to have. */
  readonly eol: '\n' | '\r\n' | '\r';
  readonly isMarkdown: boolean;
  readonly tree: CrankFile;
  readonly library: Library;
  /** What a client calls a file of the library. */
  readonly uriOf: (file: string) => string;
}

/** A document whose sequences have been run. */
export interface AnalysedDocument extends ParsedDocument {
  readonly report: FileReport;
}

/** What a feature may know besides: the reader's language and wishes. */
export interface Reader {
  readonly locale: string;
  /** What findings say. */
  readonly wording: Wording;
  /** What features say. */
  readonly words: Words;
  readonly settings: Settings;
  /** How the client's theme looks, if it shows pictures in hovers. */
  readonly look?: Look | undefined;
  /** The case chosen by a lens, by sequence name; where none is chosen, `settings.readingsCase`. */
  readonly chosenCase: (uri: string, sequence: string) => number | undefined;
}
