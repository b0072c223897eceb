/** What the status bar says about the document in front: how many findings, which readings are shown. */
import { type Disposable, LanguageStatusSeverity, l10n, languages, window, workspace } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { readingsShown } from './cases.js';
import { isOurs, SELECTOR } from './documents.js';

export class Status implements Disposable {
  private readonly findings = languages.createLanguageStatusItem('cranknote.findings', SELECTOR);
  private readonly readings = languages.createLanguageStatusItem('cranknote.readings', SELECTOR);
  private readonly parts: Disposable[];
  private readonly work = new Set<unknown>();

  constructor(private readonly client: BaseLanguageClient) {
    this.findings.name = l10n.t('Findings of Cranknote');
    this.findings.command = { command: 'workbench.actions.view.problems', title: l10n.t('Show') };
    this.readings.name = l10n.t('Readings of Cranknote');
    this.readings.command = { command: 'cranknote.chooseReadings', title: l10n.t('Choose') };
    this.parts = [
      this.findings,
      this.readings,
      client.onDidChangeState(() => this.update()),
      languages.onDidChangeDiagnostics(() => this.update()),
      window.onDidChangeActiveTextEditor(() => this.update()),
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('cranknote')) this.update();
      }),
    ];
    this.update();
  }

  /** Long work that the server tells of, by its token. */
  working(token: unknown, kind: 'begin' | 'report' | 'end'): void {
    if (kind === 'end') this.work.delete(token);
    else this.work.add(token);
    this.update();
  }

  private update(): void {
    const { state } = this.client;
    this.findings.busy = state === State.Starting || this.work.size > 0;
    this.findings.text = state === State.StartFailed ? l10n.t('The language server did not start') : findingsText();
    this.findings.severity =
      state === State.StartFailed ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    this.readings.text = {
      changed: l10n.t('Readings: changed'),
      all: l10n.t('Readings: all'),
      off: l10n.t('Readings: off'),
    }[readingsShown()];
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
  }
}

function findingsText(): string {
  const document = window.activeTextEditor?.document;
  if (!document || !isOurs(document)) return '';
  const count = languages.getDiagnostics(document.uri).filter(({ source }) => source === 'cranknote').length;
  if (count === 0) return l10n.t('Nothing to remark');
  return count === 1 ? l10n.t('1 finding') : l10n.t('{0} findings', count);
}
