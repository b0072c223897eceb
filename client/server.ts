/** The language server as the extension's other parts know it: it is started when first needed, and once. */
import { type CancellationToken, type Disposable, l10n, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

export class Server implements Disposable {
  private started: Promise<void> | undefined;

  constructor(readonly client: BaseLanguageClient) {}

  /** Resolves as soon as the server can be asked. A start that failed is tried again by whoever asks next. */
  start(): Promise<void> {
    this.started ??= this.client.start().catch((error: unknown) => {
      this.started = undefined;
      throw error;
    });
    return this.started;
  }

  /** Starts the server for something that nobody waits for; the client itself says what went wrong. */
  startUnasked(): void {
    this.start().catch((error: unknown) => this.client.error('The language server did not start.', error, false));
  }

  async restart(): Promise<void> {
    // One that hangs is given up after two seconds.
    await this.client.stop(2_000).catch(() => undefined);
    this.started = undefined;
    await this.start();
  }

  async ask<Answer>(method: string, params: unknown, token?: CancellationToken): Promise<Answer> {
    await this.start();
    // A token that is not there would be taken for a parameter.
    return await this.client.sendRequest<Answer>(method, params, ...(token ? [token] : []));
  }

  /** Says something to a server that is there; one that is not is told nothing. */
  notify(method: string, params: unknown): void {
    if (this.client.isRunning()) void this.client.sendNotification(method, params).catch(() => undefined);
  }

  async execute(command: string, args: readonly unknown[]): Promise<void> {
    await this.ask('workspace/executeCommand', { command, arguments: args });
  }

  dispose(): Promise<void> {
    return this.client.dispose().catch(() => undefined);
  }
}

/** Something that a user began went wrong: it is said, not swallowed. */
export const tell = (error: unknown): void =>
  void window.showErrorMessage(error instanceof Error ? error.message : String(error));

/** Something was asked for that needs a text. */
export const sayNothingIsOpen = (): void =>
  void window.showInformationMessage(l10n.t('Open a file with a sequence first.'));
