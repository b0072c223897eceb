/** The extension, in whatever host it runs: what differs between a process and a web worker is handed in. */
import { commands, type Disposable, type ExtensionContext, workspace } from 'vscode';
import {
  type BaseLanguageClient,
  type LanguageClientOptions,
  type Location,
  type Position,
  RequestType,
  RequestType0,
} from 'vscode-languageclient';
import { chooseCase, chooseReadings } from './cases.js';
import { bringsNotation, documentMeant, holdsNotation, SELECTOR } from './documents.js';
import { openExamples } from './examples.js';
import { FILES, find, read } from './files.js';
import { lookNow, tellOfLooks } from './look.js';
import { Machines } from './machines.js';
import { Preview } from './preview.js';
import {
  FIND,
  type FindResult,
  type InitializationOptions,
  READ,
  type ReadParams,
  type ReadResult,
  type TraceQuery,
} from './protocol.js';
import { PAGES, Reference } from './reference.js';
import { Server, sayNothingIsOpen, tell } from './server.js';
import { Sheets } from './sheets.js';
import { beginSequence } from './starter.js';
import { Status } from './status.js';
import { Stepping } from './stepping.js';
import { checkWorkspace, type RunProgram, registerTasks } from './tasks.js';
import { Tests } from './tests.js';
import { Traces } from './trace.js';

/** What a host gives. */
export interface Host {
  readonly createClient: (options: LanguageClientOptions) => BaseLanguageClient;
  /** Runs the command line; left out where no program can be started. */
  readonly run?: RunProgram;
}

let server: Server | undefined;

/** What other extensions see: the editor's Markdown asks for it. */
export type Exports = Pick<Preview, 'extendMarkdownIt'>;

export function activateOn({ createClient, run }: Host, context: ExtensionContext): Exports {
  const watcher = workspace.createFileSystemWatcher(FILES);
  const options = (): InitializationOptions => ({ files: true, pages: PAGES, look: lookNow(), preview: true });
  const client = createClient({
    documentSelector: SELECTOR,
    synchronize: { fileEvents: watcher },
    initializationOptions: options,
    diagnosticPullOptions: { onChange: true, onFocus: true },
    middleware: {
      handleWorkDoneProgress: (token, params, next) => {
        status.working(token, params.kind);
        next(token, params);
      },
    },
  });
  client.onRequest(new RequestType<ReadParams, ReadResult, void>(READ), ({ uri }) => read(uri));
  client.onRequest(new RequestType0<FindResult, void>(FIND), () => find());

  const started = new Server(client);
  const status = new Status(client);
  const traces = new Traces(started);
  const sheets = new Sheets(started, context, watcher);
  const explorer = new Tests(started, watcher);
  const machines = new Machines(started, context, watcher);
  const reference = new Reference(context.extensionUri);
  const preview = new Preview(started);
  const stepping = new Stepping(started);
  server = started;
  context.subscriptions.push(
    watcher,
    status,
    traces,
    sheets,
    explorer,
    machines,
    reference,
    preview,
    stepping,
    stepping.onDidMove(({ session, state }) => machines.stepped(session, state === 'ended')),
    tellOfLooks(started),
    startWhenNeeded(started),
  );

  const command = (name: string, run: (...args: never[]) => unknown): void => {
    const carryOut = async (...args: unknown[]) => {
      try {
        await run(...(args as never[]));
      } catch (error) {
        tell(error);
      }
    };
    context.subscriptions.push(commands.registerCommand(`cranknote.${name}`, carryOut));
  };
  command('restartServer', () => started.restart());
  command('chooseCase', async (...args: unknown[]) => {
    const chosen = await chooseCase(started, ...args);
    if (chosen) machines.caseChosen(...chosen);
  });
  command('chooseReadings', () => chooseReadings());
  command('openReference', (name: unknown) => reference.open(typeof name === 'string' ? name : undefined));
  command('openSettingsList', () => reference.open('settings'));
  command('openFindingsList', () => reference.open('findings'));
  command('newSequence', () => beginSequence(started));
  command('openExamples', () => openExamples(context));
  command('openFirstSteps', () =>
    commands.executeCommand('workbench.action.openWalkthrough', `${context.extension.id}#firstSteps`),
  );
  command('showTrace', async (...args: unknown[]) => {
    const query = traceQuery(args);
    if (query) await traces.show(query);
    else sayNothingIsOpen();
  });
  command('openSheet', (...args: unknown[]) => sheets.open(...args));
  command('openMachine', (...args: unknown[]) => machines.open(...args));
  command('stepThrough', (...args: unknown[]) => stepping.start(...args));
  command('stepWithFault', () => stepping.startWithFault());
  command('showReferences', async (uri: string, position: Position, locations: Location[]) => {
    const convert = client.protocol2CodeConverter;
    const found = locations.map((location) => convert.asLocation(location));
    const args = [convert.asUri(uri), convert.asPosition(position), found] as const;
    await commands.executeCommand('editor.action.showReferences', ...args);
  });
  if (run) {
    command('checkWorkspace', () => checkWorkspace(run));
    context.subscriptions.push(registerTasks(run));
    commands.executeCommand('setContext', 'cranknote.canCheckWorkspace', true);
  }
  return { extendMarkdownIt: preview.extendMarkdownIt };
}

export const deactivate = (): Promise<void> | undefined => server?.dispose();

/** A lens says what to trace; from the palette or a menu it is the file in front. */
function traceQuery([uri, sequence, inCase]: readonly unknown[]): TraceQuery | undefined {
  if (typeof uri === 'string' && typeof sequence === 'string')
    return { uri, sequence, ...(typeof inCase === 'number' ? { case: inCase } : {}) };
  const meant = documentMeant();
  return meant && { uri: meant.document.uri.toString() };
}

/** Most Markdown holds no block of the notation: no server is started for it. */
function startWhenNeeded(started: Server): Disposable {
  const parts: Disposable[] = [];
  const start = (): void => {
    for (const part of parts.splice(0)) part.dispose();
    started.startUnasked();
  };
  parts.push(
    workspace.onDidOpenTextDocument((document) => {
      if (holdsNotation(document)) start();
    }),
    workspace.onDidChangeTextDocument((event) => {
      if (bringsNotation(event)) start();
    }),
  );
  if (workspace.textDocuments.some(holdsNotation)) start();
  return { dispose: () => parts.forEach((part) => void part.dispose()) };
}
