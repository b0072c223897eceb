/**
 * The files that an editor has open, and those that they use, with everything found in them.
 *
 * Invariant: whoever waits for a document gets that of the newest text. A newer edit stops work on an older one.
 */
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';
import { URI } from 'vscode-uri';
import type { Gradual } from '../../grammar/gradual.js';
import { linesIn } from '../../grammar/sections.js';
import type { FileReport } from '../sequence/file.js';
import type { FileProblem } from '../sequence/findings.js';
import { isMarkdown, Library } from '../sequence/library.js';
import { pathFrom, rootOf } from '../sequence/uses.js';
import { withInsets } from '../weave/findings.js';
import type { AnalysedDocument, ParsedDocument } from './document.js';
import { type Clock, type Interest, SharedWork } from './patience.js';
import { OpenText } from './text.js';

/**
 * What the library calls a file that a client names by its address: the same with nothing encoded, for `use` names files
 * as they are called.
 */
export function fileOf(uri: string): string {
  const { scheme, authority, path, query } = URI.parse(uri);
  const drive = path.replace(/^\/[A-Z]:/, (letter) => letter.toLowerCase());
  return `${scheme}://${authority}${drive}${query ? `?${query}` : ''}`;
}

/** The address of a file that no client has named yet. */
function addressOf(file: string): string {
  const [, scheme, authority, path] = /^([a-z][a-z0-9+.-]*):\/\/([^/]*)([\s\S]*)$/i.exec(file) ?? [];
  return scheme ? URI.from({ scheme, authority, path }).toString() : file;
}

/** Reads files that are not open. */
export interface Files {
  read(uri: string): Promise<{ readonly text: string } | { readonly problem: FileProblem }>;
  /** The addresses of all files of the notation and Markdown pages in the workspace. */
  find(): Promise<readonly string[]>;
}

/** Files of a workspace that are read, at most; and used files that are followed from one document. */
const MOST_FILES = 2_000;

/** Work on a document, with pauses. */
type WorkOn<T> = (document: AnalysedDocument) => Gradual<T & object>;

interface Open {
  readonly uri: string;
  readonly file: string;
  version: number;
  readonly text: OpenText;
  /** The library knows the newest text. */
  isRead: boolean;
  /** The version of the text that the library knows, which may be an older one; missing if it knows none. */
  readVersion?: number;
  reading?: SharedWork<true> | undefined;
  /** The lines of what is kept as one text, split once for every version. */
  lines?: readonly string[] | undefined;
}

export class Workspace {
  readonly library = new Library();
  private readonly open = new Map<string, Open>();
  /** What clients call files, by what the library calls them. */
  private readonly uris = new Map<string, string>();
  private readonly reading = new Map<string, Promise<void>>();
  private readonly checking = new Map<string, SharedWork<FileReport>>();
  /** Counts changes of the library: work begun before the last one is of no use. */
  private revision = 0;
  private loading: Promise<void> | undefined;

  constructor(
    private readonly clock: Clock,
    private readonly files: Files | undefined,
    /** The folders of the workspace, by the client's names. */
    private readonly folders: () => readonly string[] = () => [],
  ) {}

  /** Documents that are open, by the client's names. */
  get openUris(): string[] {
    return [...this.open.values()].map(({ uri }) => uri);
  }

  isOpen(uri: string): boolean {
    return this.open.has(fileOf(uri));
  }

  /** The version of a document on which all rests that is known of it; undefined if that is what the disk has. */
  versionOf(uri: string): number | undefined {
    return this.open.get(fileOf(uri))?.readVersion;
  }

  uriOf = (file: string): string => this.uris.get(file) ?? addressOf(file);

  didOpen(uri: string, version: number, text: string): void {
    const file = fileOf(uri);
    this.uris.set(file, uri);
    this.open.set(file, { uri, file, version, text: new OpenText(uri, text), isRead: false });
    this.changed();
  }

  didChange(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): void {
    const open = this.open.get(fileOf(uri));
    if (!open) return;
    open.version = version;
    open.lines = undefined;
    open.reading = undefined;
    for (const change of changes) {
      const edit = open.text.change(change);
      if (!edit) open.isRead = false;
      else if (open.isRead) this.library.edit(open.file, edit);
    }
    if (open.isRead) open.readVersion = version;
    this.changed();
  }

  /** What was open is again what the disk has. */
  didClose(uri: string): void {
    const file = fileOf(uri);
    if (!this.open.delete(file)) return;
    this.library.remove(file);
    this.changed();
  }

  /** A file changed on disk; it is read again when somebody needs it. */
  didChangeOnDisk(uri: string): void {
    const file = fileOf(uri);
    if (this.open.has(file)) return;
    this.reading.delete(file);
    const isKnown = this.library.has(file);
    this.library.remove(file);
    this.changed();
    if (isKnown || this.loading) this.uris.set(file, uri);
    if (this.loading) this.loading = this.loading.then(() => this.read(file));
  }

  /** Work on no document, for as long as somebody waits for it. */
  async patiently<T>(work: Gradual<T>, interest: Interest): Promise<T | undefined> {
    return new SharedWork(work, this.clock, () => false).wait(interest);
  }

  private changed(): void {
    this.revision++;
    this.checking.clear();
  }

  /** The open documents that a file has a part in: itself, and those that use it, directly or not. */
  dependents(uri: string): string[] {
    const file = fileOf(uri);
    return [...this.open.values()]
      .filter((open) => open.file === file || this.library.reachable(open.file).includes(file))
      .map((open) => open.uri);
  }

  /** The document as it is written; undefined if it is not open. */
  async parsed(uri: string, interest: Interest): Promise<ParsedDocument | undefined> {
    const open = this.open.get(fileOf(uri));
    if (!open) return undefined;
    await this.readOpen(open, interest);
    return this.open.get(open.file) === open ? this.documentOf(open) : undefined;
  }

  /** Any known file as it is written, open or not, with all that it uses read as well. */
  async parsedFile(uri: string, interest: Interest): Promise<ParsedDocument | undefined> {
    const file = fileOf(uri);
    await this.read(file);
    await this.readUsed(file, interest);
    const open = this.open.get(file);
    return open ? this.parsed(uri, interest) : this.closedDocument(file);
  }

  /** The document with its sequences run; undefined if it is not open. */
  async analysed(uri: string, interest: Interest): Promise<AnalysedDocument | undefined> {
    const file = fileOf(uri);
    for (;;) {
      const open = this.open.get(file);
      if (!open) return undefined;
      await this.readOpen(open, interest);
      await this.readUsed(file, interest);
      const report = await this.check(file, interest);
      if (report && this.open.get(file) === open && open.isRead) return { ...this.documentOf(open), report };
    }
  }

  /** What comes of work on an open document; it begins afresh where the world has changed meanwhile. */
  worked<T>(uri: string, interest: Interest, work: WorkOn<T>): Promise<T | undefined> {
    return this.workedOn(() => this.analysed(uri, interest), interest, work);
  }

  /** The same for any known file, open or not. */
  workedFile<T>(uri: string, interest: Interest, work: WorkOn<T>): Promise<T | undefined> {
    return this.workedOn(() => this.analysedFile(uri, interest), interest, work);
  }

  private async workedOn<T>(
    analyse: () => Promise<AnalysedDocument | undefined>,
    interest: Interest,
    work: WorkOn<T>,
  ): Promise<T | undefined> {
    for (;;) {
      const document = await analyse();
      if (!document) return undefined;
      const { revision } = this;
      const done = await new SharedWork(work(document), this.clock, () => this.revision !== revision).wait(interest);
      if (done) return done;
    }
  }

  /** Any known file as a document, open or not. */
  async analysedFile(uri: string, interest: Interest): Promise<AnalysedDocument | undefined> {
    if (this.isOpen(uri)) return this.analysed(uri, interest);
    const file = fileOf(uri);
    for (;;) {
      await this.read(file);
      await this.readUsed(file, interest);
      const report = await this.check(file, interest);
      const document = this.closedDocument(file);
      // It may have been opened meanwhile.
      if (this.isOpen(uri)) return this.analysed(uri, interest);
      if (!document || this.library.problemOf(file)) return undefined;
      if (report) return { ...document, report };
    }
  }

  /** All that is found in a file, and in the insets of a page. */
  private *checked(file: string): Gradual<FileReport> {
    return yield* withInsets(this.library, yield* this.library.checkGradually(file));
  }

  private async check(file: string, interest: Interest): Promise<FileReport | undefined> {
    const { revision } = this;
    let shared = this.checking.get(file);
    if (!shared) {
      const work = this.checked(file);
      shared = new SharedWork(work, this.clock, () => this.revision !== revision);
      this.checking.set(file, shared);
    }
    try {
      return await shared.wait(interest);
    } finally {
      if (this.checking.get(file) === shared) this.checking.delete(file);
    }
  }

  private documentOf(open: Open): ParsedDocument {
    const { uri, file, version, text } = open;
    open.lines ??= text.lines;
    const tree = this.library.tree(file) ?? { sections: [], lineCount: 0 };
    const { library, uriOf } = this;
    return { uri, file, version, lines: open.lines, eol: text.eol, isMarkdown: isMarkdown(file), tree, library, uriOf };
  }

  /** Of Markdown that is not open only the lines in fences are known. */
  private closedDocument(file: string): ParsedDocument | undefined {
    const tree = this.library.tree(file);
    if (!tree) return undefined;
    const lines = linesIn(tree);
    const { library, uriOf } = this;
    const uri = uriOf(file);
    return { uri, file, version: 0, lines, eol: '\n', isMarkdown: isMarkdown(file), tree, library, uriOf };
  }

  private async readOpen(open: Open, interest: Interest): Promise<void> {
    while (!open.isRead && this.open.get(open.file) === open) {
      const { version, file, text } = open;
      if (text.isTooLong) this.library.setProblem(file, 'too-large');
      else {
        const isStale = () => open.version !== version || this.open.get(file) !== open;
        open.reading ??= new SharedWork(done(this.library.setGradually(file, text.text)), this.clock, isStale);
        const { reading } = open;
        const isDone = await reading.wait(interest);
        if (open.reading === reading) open.reading = undefined;
        if (!isDone || isStale() || open.isRead) continue;
      }
      open.isRead = true;
      open.readVersion = version;
      this.changed();
    }
  }

  /** Files that a file uses, directly or through others, are read once they are needed. */
  private async readUsed(file: string, interest: Interest): Promise<void> {
    for (let rounds = 0; rounds < MOST_FILES && !interest.isCancellationRequested; rounds++) {
      const isWanted = (other: string) => other !== file && !(this.open.get(other)?.isRead ?? this.library.has(other));
      const wanted = this.library.reachable(file).filter(isWanted);
      if (wanted.length === 0) return;
      await Promise.all(wanted.slice(0, MOST_FILES).map((other) => this.read(other)));
    }
  }

  private async read(file: string): Promise<void> {
    const open = this.open.get(file);
    if (open) return this.readOpen(open, NEVER);
    if (this.library.has(file)) return;
    let reading = this.reading.get(file);
    if (!reading) {
      reading = this.readFromDisk(file).finally(() => this.reading.delete(file));
      this.reading.set(file, reading);
    }
    return reading;
  }

  private async readFromDisk(file: string): Promise<void> {
    const read = this.isInside(file) ? await this.readText(file) : ({ problem: 'outside' } as const);
    // It may have been opened meanwhile.
    if (this.open.has(file) || this.library.has(file)) return;
    if ('problem' in read) this.library.setProblem(file, read.problem);
    else this.library.set(file, read.text);
    this.changed();
  }

  private async readText(file: string): ReturnType<Files['read']> {
    const unreadable = { problem: 'unreadable' } as const;
    try {
      return (await this.files?.read(this.uriOf(file))) ?? unreadable;
    } catch {
      return unreadable;
    }
  }

  /** Whether a file lies in the workspace, or below the folder of a document that is open and lies in none. */
  private isInside(file: string): boolean {
    const folders = this.folders().map((uri) => `${fileOf(uri).replace(/\/$/, '')}/`);
    const isIn = (other: string) => folders.some((folder) => other.startsWith(folder));
    if (isIn(file)) return true;
    return [...this.open.keys()].some(
      (open) => !isIn(open) && file.startsWith(open.slice(0, open.lastIndexOf('/') + 1)),
    );
  }

  /**
   * Reads the files of the workspace, once, so that names are found in all of them, and what is open as it is now. A
   * client that finds none yet, or can't look, is asked again the next time.
   */
  async loadAll(): Promise<void> {
    this.loading ??= this.findAndRead()
      .catch(() => 0)
      .then((found) => {
        if (found === 0) this.loading = undefined;
      });
    await this.loading;
    for (const open of [...this.open.values()]) await this.readOpen(open, NEVER);
  }

  /** How many there are. */
  private async findAndRead(): Promise<number> {
    const found = (await this.files?.find()) ?? [];
    for (const uri of found.slice(0, MOST_FILES)) {
      const file = fileOf(uri);
      if (!this.uris.has(file)) this.uris.set(file, uri);
      await this.read(file);
    }
    return found.length;
  }

  /** Files of the workspace as `use` would name them in a file, itself left out. */
  async filesBeside(file: string): Promise<string[]> {
    await this.loadAll();
    return this.library.fileNames().flatMap((other) => {
      const isReached = other !== file && !this.library.problemOf(other) && rootOf(other) === rootOf(file);
      return isReached ? [pathFrom(file, other)] : [];
    });
  }

  /** The client's names of all files that are known and can be read. */
  knownUris(): string[] {
    const known = this.library.fileNames().filter((file) => this.library.problemOf(file) === undefined);
    return known.map((file) => this.open.get(file)?.uri ?? this.uriOf(file));
  }
}

function* done(work: Gradual<void>): Gradual<true> {
  yield* work;
  return true;
}

const NEVER: Interest = { isCancellationRequested: false, onCancellationRequested: () => ({ dispose() {} }) };
