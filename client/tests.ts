/** The test explorer: every sequence and every case is a test, which passes where `check` finds no error. */
import {
  type CancellationToken,
  Disposable,
  l10n,
  type TestItem,
  TestRunProfileKind,
  type TestRunRequest,
  tests,
} from 'vscode';
import type { Server } from './server.js';
import { type FileEvents, TestFiles } from './test-files.js';
import { TestRuns } from './test-runs.js';
import { stepThrough } from './test-steps.js';

export class Tests implements Disposable {
  private readonly controller = tests.createTestController('cranknote', 'Cranknote');
  private readonly files: TestFiles;
  private readonly runs: TestRuns;
  private readonly parts: Disposable[];

  constructor(server: Server, events: FileEvents) {
    const { controller } = this;
    this.files = new TestFiles(server, controller, events);
    this.runs = new TestRuns(server, controller, this.files);
    controller.resolveHandler = async (item) => {
      const file = item && this.files.of(item)?.file;
      if (file) await this.files.loaded(file);
      else if (!item) await this.files.find();
    };
    controller.refreshHandler = () => this.files.findAgain();
    const run = (request: TestRunRequest, token: CancellationToken) =>
      request.continuous ? this.runs.follow(request, token) : this.runs.run(request, token);
    const { Run, Debug } = TestRunProfileKind;
    this.parts = [
      controller,
      this.files,
      this.files.onDidAffect((files) => this.runs.affected(files)),
      controller.createRunProfile(l10n.t('Run'), Run, run, true, undefined, true),
      controller.createRunProfile(l10n.t('Step through'), Debug, (...asked) => this.step(...asked), true),
    ];
  }

  /** One after the other, for nobody can step through two at once. */
  private async step(request: TestRunRequest, token: CancellationToken): Promise<void> {
    const run = this.controller.createTestRun(request);
    try {
      for (const items of (await this.runs.wanted(request)).values()) {
        for (const item of items) {
          const tested = this.files.of(item);
          if (token.isCancellationRequested || tested?.sequence === undefined) continue;
          run.started(item);
          await stepThrough(tested, nameOf(item), run, token);
          await this.runs.runOne(run, item);
        }
      }
    } finally {
      run.end();
    }
  }

  dispose(): void {
    Disposable.from(...this.parts).dispose();
  }
}

/** A case with the sequence that it belongs to. */
const nameOf = ({ label, parent }: TestItem): string => (parent?.parent ? `${parent.label}, ${label}` : label);
