/** Runs tests: the server says what passes, and the editor is told so. */
import {
  type CancellationToken,
  Location,
  type TestController,
  type TestItem,
  TestMessage,
  TestMessageStackFrame,
  type TestRun,
  TestRunRequest,
} from 'vscode';
import {
  RUN_TESTS,
  type RunTestsParams,
  type RunTestsResult,
  type TestResult,
  type TestMessage as Told,
} from './protocol.js';
import type { Server } from './server.js';
import type { TestFile, TestFiles } from './test-files.js';

/** Tests that are run again whenever something changes on which they rest. */
interface Followed {
  readonly request: TestRunRequest;
  readonly token: CancellationToken;
}

export class TestRuns {
  private readonly followed = new Set<Followed>();
  /** How the server calls the result that an item shows. */
  private readonly shown = new WeakMap<TestItem, string>();
  private last: Promise<void> = Promise.resolve();

  constructor(
    private readonly server: Server,
    private readonly controller: TestController,
    private readonly files: TestFiles,
  ) {}

  /** Runs what is wanted, file by file. */
  async run(request: TestRunRequest, token: CancellationToken): Promise<void> {
    const run = this.controller.createTestRun(request);
    try {
      const wanted = await this.wanted(request);
      for (const items of wanted.values()) for (const item of items) run.enqueued(item);
      for (const [file, items] of wanted) {
        if (token.isCancellationRequested) break;
        for (const item of items) run.started(item);
        await this.runFile(run, file, items, token);
      }
    } finally {
      run.end();
    }
  }

  private async runFile(run: TestRun, file: TestFile, items: readonly TestItem[], token?: CancellationToken) {
    try {
      const answer = await this.ask(file, items, {}, token);
      const results = new Map(answer.map((result) => [result.id, result]));
      for (const item of items) this.tell(run, item, results.get(this.idOf(item)));
    } catch (error) {
      if (token?.isCancellationRequested) return;
      // The server did not answer: that is nobody's failure, and is said where it was asked for.
      const message = new TestMessage(error instanceof Error ? error.message : String(error));
      for (const item of items) run.errored(item, message);
    }
  }

  /** Runs what is wanted, and again whatever a change touches, until nobody wants that any more. */
  async follow(request: TestRunRequest, token: CancellationToken): Promise<void> {
    const followed = { request, token };
    this.followed.add(followed);
    token.onCancellationRequested(() => this.followed.delete(followed));
    await this.run(request, token);
  }

  /** Files have other results, perhaps: those that are followed are told, the others are out of date. */
  affected(files: readonly TestFile[]): void {
    this.last = this.last.then(() => this.lookAgain(files)).catch(() => undefined);
  }

  private async lookAgain(files: readonly TestFile[]): Promise<void> {
    const touched = new Map<TestItem, TestResult>();
    const followed = new Map<Followed, ReadonlySet<TestItem>>();
    for (const one of this.followed) followed.set(one, new Set([...(await this.wanted(one.request)).values()].flat()));
    const isFollowed = (item: TestItem) => [...followed.values()].some((items) => items.has(item));
    for (const file of files) {
      const items = testsIn(file.item).filter((item) => this.shown.has(item) || isFollowed(item));
      if (items.length === 0) continue;
      const known = Object.fromEntries(items.map((item) => [this.idOf(item), this.shown.get(item) ?? '']));
      const results = new Map((await this.ask(file, items, known)).map((result) => [result.id, result]));
      for (const item of items) {
        const result = results.get(this.idOf(item));
        if (result) touched.set(item, result);
      }
    }
    for (const [{ request }, items] of followed) {
      const own = [...touched.keys()].filter((item) => items.has(item));
      if (own.length > 0) this.tellAgain(request, own, touched);
    }
    const outdated = [...touched.keys()].filter((item) => !isFollowed(item));
    for (const item of outdated) this.shown.delete(item);
    if (outdated.length > 0) this.controller.invalidateTestResults(outdated);
  }

  private tellAgain(request: TestRunRequest, items: TestItem[], results: ReadonlyMap<TestItem, TestResult>): void {
    const again = new TestRunRequest(items, undefined, request.profile, true);
    const run = this.controller.createTestRun(again);
    for (const item of items) {
      run.started(item);
      this.tell(run, item, results.get(item));
    }
    run.end();
  }

  /** The result of one test is shown, as it is now, though somebody may have ended the run by ending a session. */
  async runOne(run: TestRun, item: TestItem): Promise<void> {
    const file = this.files.of(item)?.file;
    if (file) await this.runFile(run, file, [item]);
  }

  /** The tests that are asked for, by file; those of a file stand behind it. */
  async wanted({ include, exclude = [] }: TestRunRequest): Promise<Map<TestFile, TestItem[]>> {
    if (!include) await this.files.find();
    const left = new Set(exclude);
    const wanted = new Map<TestFile, Set<TestItem>>();
    for (const item of include ?? this.files.all.map((file) => file.item)) {
      const file = this.files.of(item)?.file;
      if (!file || isWithin(item, left)) continue;
      await this.files.loaded(file);
      const items = testsIn(item).filter((one) => !isWithin(one, left));
      wanted.set(file, new Set([...(wanted.get(file) ?? []), ...items]));
    }
    return new Map([...wanted].map(([file, items]) => [file, [...items]]));
  }

  private async ask(
    { uri }: TestFile,
    items: readonly TestItem[],
    known: Readonly<Record<string, string>>,
    token?: CancellationToken,
  ): Promise<readonly TestResult[]> {
    const ids = items.map((item) => this.idOf(item));
    const params: RunTestsParams = { uri: this.server.client.code2ProtocolConverter.asUri(uri), ids, known };
    return (await this.server.ask<RunTestsResult | null>(RUN_TESTS, params, token))?.results ?? [];
  }

  private idOf = (item: TestItem): string => this.files.of(item)?.id ?? '';

  private tell(run: TestRun, item: TestItem, result: TestResult | undefined): void {
    if (!result) return run.skipped(item);
    this.shown.set(item, result.resultId);
    const messages = result.messages.map((told) => this.messageOf(told));
    if (result.outcome === 'passed') run.passed(item);
    else if (result.outcome === 'failed') run.failed(item, messages);
    else run.errored(item, messages);
    run.appendOutput(`${result.outcome === 'passed' ? '✓' : '✗'} ${pathOf(item)}\r\n`, undefined, item);
    for (const message of messages) run.appendOutput(`    ${message.message}\r\n`, message.location, item);
  }

  private messageOf({ message: text, uri, range, expected, actual, related }: Told): TestMessage {
    const { protocol2CodeConverter: convert } = this.server.client;
    const message =
      expected === undefined || actual === undefined ? new TestMessage(text) : TestMessage.diff(text, expected, actual);
    message.location = new Location(convert.asUri(uri), convert.asRange(range));
    if (related) {
      message.stackTrace = related.map(
        (other) =>
          new TestMessageStackFrame(other.message, convert.asUri(other.uri), convert.asRange(other.range).start),
      );
    }
    return message;
  }
}

/** An item, if something stands behind it itself, and all such items below. A sequence with cases is no test. */
function testsIn(item: TestItem): TestItem[] {
  const below = [...item.children].flatMap(([, child]) => testsIn(child));
  return item.parent && below.length > 0 ? below : [item, ...below];
}

function isWithin(item: TestItem, items: ReadonlySet<TestItem>): boolean {
  for (let one: TestItem | undefined = item; one; one = one.parent) if (items.has(one)) return true;
  return false;
}

/** An item with all that it belongs to, the file first. */
const pathOf = ({ label, parent }: TestItem): string => (parent ? `${pathOf(parent)} › ${label}` : label);
