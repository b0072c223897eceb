/** One client, from its first message to its last. */
import type { Connection } from 'vscode-languageserver';
import type { Client, Offered } from './capabilities.js';
import type { Runtime } from './runtime.js';
import { wordingFor } from './sequence/wording/index.js';
import type { DiagnosticOptions } from './service/diagnostics.js';
import type { Reader } from './service/document.js';
import { DEFAULT_SETTINGS, type Settings } from './service/settings.js';
import { wordsFor } from './service/wording/index.js';
import type { Workspace } from './service/workspace.js';

export class Session {
  settings: Settings = DEFAULT_SETTINGS;
  /** The client has asked to shut down: nothing is answered any more. */
  isOver = false;
  readonly diagnosticOptions: DiagnosticOptions;
  private readonly cases = new Map<string, number>();

  constructor(
    readonly connection: Connection,
    readonly workspace: Workspace,
    readonly client: Client,
    offered: Offered,
    runtime: Runtime,
    private readonly locale: string,
  ) {
    this.diagnosticOptions = {
      related: client.relatedInformation,
      tags: client.tags,
      links: client.codeLinks,
      pages: offered.pages ?? runtime.pages,
    };
  }

  /** Who reads what the features say. */
  get reader(): Reader {
    const { locale, settings } = this;
    const chosenCase = (uri: string, sequence: string) => this.cases.get(`${uri} ${sequence}`);
    return { locale, wording: wordingFor(locale), words: wordsFor(locale), settings, chosenCase };
  }

  chooseCase(uri: string, sequence: string, number: number): void {
    this.cases.set(`${uri} ${sequence}`, number);
  }
}
