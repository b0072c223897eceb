/** The tests of all files, as the editor lists them: found when somebody wants to see them, and kept as the files are. */
import {
  type Disposable,
  EventEmitter,
  type TestController,
  type TestItem,
  type TextDocument,
  Uri,
  workspace,
} from 'vscode';
import { State } from 'vscode-languageclient';
import { holdsNotation, isOurs, mayHoldNotation } from './documents.js';
import { find, isLeftOut, read } from './files.js';
import { TESTS, type TestEntry, type TestsParams, type TestTree } from './protocol.js';
import type { Server } from './server.js';

/** Milliseconds after the last change: the server is told of files on the disk 250 after it. */
const PAUSE = 300;

/** A file with tests. */
export interface TestFile {
  readonly uri: Uri;
  /** Stands for the text itself as well, for what is in no sequence. */
  readonly item: TestItem;
  /** Other files on which it rests, by their addresses. */
  uses: ReadonlySet<string>;
  isLoaded: boolean;
}

/** What an item of the list stands for. */
export interface Tested {
  readonly file: TestFile;
  /** By which the server knows it; empty for the text itself. */
  readonly id: string;
  readonly sequence?: string;
  readonly case?: number;
}

export interface FileEvents {
  readonly onDidChange: Watch;
  readonly onDidCreate: Watch;
  readonly onDidDelete: Watch;
}
type Watch = (listener: (uri: Uri) => void) => Disposable;

export class TestFiles implements Disposable {
  private readonly files = new Map<string, TestFile>();
  private readonly tested = new WeakMap<TestItem, Tested>();
  private readonly due = new Map<string, Uri>();
  /** How often each file was asked about: an older answer than the last is of no use. */
  private readonly asked = new Map<string, number>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private finding: Promise<void> | undefined;
  private readonly affecting = new EventEmitter<readonly TestFile[]>();
  /** Files whose results may be others than before: one of them has changed, or a file on which it rests. */
  readonly onDidAffect = this.affecting.event;
  private readonly parts: Disposable[];

  constructor(
    private readonly server: Server,
    private readonly controller: TestController,
    events: FileEvents,
  ) {
    const changed = (document: TextDocument) => {
      if (isOurs(document) && (this.has(document.uri) || holdsNotation(document))) this.touch(document.uri);
    };
    /** Before anybody wants to see the tests only those of open documents are known. */
    const onDisk = (uri: Uri) => {
      if (this.finding || this.has(uri)) this.touch(uri);
    };
    const below = (folder: Uri) => this.touchBelow(folder);
    this.parts = [
      workspace.onDidOpenTextDocument(changed),
      workspace.onDidChangeTextDocument(({ document }) => changed(document)),
      workspace.onDidCloseTextDocument(changed),
      events.onDidCreate(onDisk),
      events.onDidChange(onDisk),
      events.onDidDelete(onDisk),
      // Where a folder goes, nothing is said of the files in it.
      workspace.onDidDeleteFiles(({ files }) => files.forEach(below)),
      workspace.onDidRenameFiles(({ files }) => {
        for (const { oldUri } of files) below(oldUri);
        void this.findAgain();
      }),
      workspace.onDidChangeWorkspaceFolders(() => {
        void this.findAgain();
      }),
      server.client.onDidChangeState(({ oldState, newState }) => {
        // A server that is started for the first time was started by somebody who asks.
        if (newState === State.Running && oldState !== State.Running) for (const { uri } of this.all) this.touch(uri);
      }),
      this.affecting,
    ];
    for (const document of workspace.textDocuments) changed(document);
  }

  /** Those that are known. */
  get all(): TestFile[] {
    return [...this.files.values()];
  }

  has(uri: Uri): boolean {
    return this.files.has(uri.toString());
  }

  /** What an item stands for; undefined for one that is gone. */
  of(item: TestItem): Tested | undefined {
    const tested = this.tested.get(item);
    return tested && this.files.get(tested.file.uri.toString()) === tested.file ? tested : undefined;
  }

  /** Finds the files of the workspace, once; the tests of each are there soon afterwards. */
  find(): Promise<void> {
    this.finding ??= this.findAll().catch((error: unknown) => {
      this.finding = undefined;
      this.server.client.error('The tests could not be found.', error, false);
    });
    return this.finding;
  }

  /** The same again, where somebody has looked already. */
  async findAgain(): Promise<void> {
    if (!this.finding) return;
    // Some of those that are known may be gone.
    for (const { uri } of this.all) this.due.set(uri.toString(), uri);
    this.finding = undefined;
    await this.find();
  }

  private async findAll(): Promise<void> {
    for (const address of (await find()).uris) {
      const uri = Uri.parse(address);
      if (!isTested(uri)) continue;
      // A file of the notation has tests in any case, and is listed at once.
      if (uri.path.endsWith('.crank')) this.fileAt(uri);
      else if (!(await holdsSome(uri))) continue;
      this.due.set(uri.toString(), uri);
    }
    await this.loadDue();
  }

  /** Asks for the tests of a file, if that was not done yet. */
  async loaded(file: TestFile): Promise<void> {
    if (!file.isLoaded) await this.load(file.uri);
  }

  private touch(uri: Uri): void {
    if (!isTested(uri)) return;
    this.due.set(uri.toString(), uri);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.loadDue(), PAUSE);
  }

  private touchBelow(folder: Uri): void {
    const start = `${folder.path}/`;
    for (const { uri } of this.files.values()) {
      if (uri.scheme === folder.scheme && (uri.path === folder.path || uri.path.startsWith(start))) this.touch(uri);
    }
  }

  /** Brings up to date what has changed, and all that rests on it. */
  private async loadDue(): Promise<void> {
    const touched = new Set(this.due.keys());
    const uris = [...this.due.values()];
    this.due.clear();
    for (const [address, { uri, uses }] of this.files) {
      if (!touched.has(address) && [...uses].some((used) => touched.has(used))) uris.push(uri);
    }
    const affected: TestFile[] = [];
    for (const uri of uris) {
      const file = await this.load(uri);
      if (file) affected.push(file);
    }
    if (affected.length > 0) this.affecting.fire(affected);
  }

  private async load(uri: Uri): Promise<TestFile | undefined> {
    const address = uri.toString();
    const turn = (this.asked.get(address) ?? 0) + 1;
    this.asked.set(address, turn);
    const params: TestsParams = { textDocument: { uri: this.server.client.code2ProtocolConverter.asUri(uri) } };
    try {
      const tree = isListed(uri) ? await this.server.ask<TestTree | null>(TESTS, params) : null;
      if (this.asked.get(address) !== turn) return this.files.get(address);
      if (tree) return this.keep(uri, tree);
      this.files.delete(address);
      this.controller.items.delete(address);
    } catch {
      // The client says itself what is wrong with its server; what was listed stays.
      const file = this.files.get(address);
      if (file) file.item.busy = false;
    }
    return undefined;
  }

  private fileAt(uri: Uri): TestFile {
    const address = uri.toString();
    let file = this.files.get(address);
    if (!file) {
      const item = this.controller.createTestItem(address, workspace.asRelativePath(uri), uri);
      item.canResolveChildren = true;
      item.busy = true;
      file = { uri, item, uses: new Set(), isLoaded: false };
      this.files.set(address, file);
      this.tested.set(item, { file, id: '' });
      this.controller.items.add(item);
    }
    return file;
  }

  private keep(uri: Uri, { tests, uses, problem }: TestTree): TestFile {
    const file = this.fileAt(uri);
    const { item } = file;
    item.busy = false;
    item.error = problem;
    item.canResolveChildren = tests.length > 0;
    file.uses = new Set(uses.map((used) => this.server.client.protocol2CodeConverter.asUri(used).toString()));
    file.isLoaded = true;
    this.keepBelow(item, file, tests);
    return file;
  }

  /** Items that are there already stay: on them hang the results. */
  private keepBelow(parent: TestItem, file: TestFile, entries: readonly TestEntry[]): void {
    const items = entries.map((entry, i) => {
      const item = parent.children.get(entry.id) ?? this.controller.createTestItem(entry.id, entry.label, file.uri);
      item.label = entry.label;
      item.description = entry.description ?? '';
      item.range = this.server.client.protocol2CodeConverter.asRange(entry.range);
      item.sortText = String(i).padStart(6, '0');
      this.tested.set(item, { file, id: entry.id, sequence: entry.sequence, case: entry.case });
      this.keepBelow(item, file, entry.children);
      return item;
    });
    parent.children.replace(items);
  }

  dispose(): void {
    clearTimeout(this.timer);
    for (const part of this.parts) part.dispose();
  }
}

/** A page in the middle of a comparison, of a repository's past or of the reference is no file that somebody tests. */
const isTested = (uri: Uri): boolean =>
  !isLeftOut(uri) &&
  (workspace.getWorkspaceFolder(uri) !== undefined || ['file', 'vscode-remote', 'untitled'].includes(uri.scheme));

/** What lies outside of the workspace is listed while it is open. */
const isListed = (uri: Uri): boolean =>
  workspace.getWorkspaceFolder(uri) !== undefined ||
  workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());

/** A page is looked at before the server is asked about it: most Markdown has nothing to do with it. */
async function holdsSome(uri: Uri): Promise<boolean> {
  const found = await read(uri.toString());
  return 'text' in found && mayHoldNotation(found.text);
}
