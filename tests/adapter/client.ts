/** A client of the debug protocol that steps with the real program, as another editor would. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import { DebugClient } from '@vscode/debugadapter-testsupport';
import type { DebugProtocol } from '@vscode/debugprotocol';
import { afterEach } from 'vitest';
import { folderOf, PROGRAM } from '../cli/program.js';

type Stopped = DebugProtocol.StoppedEvent['body'];
type Variable = DebugProtocol.Variable;

/** What a client asks for at a line, from 1. */
export type Mark = DebugProtocol.SourceBreakpoint;

const running: Stepper[] = [];
afterEach(async () => {
  for (const stepper of running.splice(0)) await stepper.close();
});

/** Starts the program in a folder with these files. */
export async function startStepping(files: Readonly<Record<string, string>>): Promise<Stepper> {
  const folder = folderOf(files);
  const client = new ProgramClient(folder);
  const stepper = new Stepper(client, folder);
  running.push(stepper);
  return stepper;
}

/** The library's own client starts a program without arguments: this one has some. */
class ProgramClient extends DebugClient {
  private readonly child;

  constructor(folder: string) {
    super('', '', 'cranknote');
    this.defaultTimeout = 40_000;
    const args = [PROGRAM, 'step', '--stdio'];
    this.child = spawn(process.execPath, args, { cwd: folder, stdio: ['pipe', 'pipe', 'inherit'] });
    this.connect(this.child.stdout, this.child.stdin);
  }

  async end(): Promise<void> {
    if (this.child.exitCode !== null || !this.child.kill()) return;
    await once(this.child, 'exit');
  }
}

export class Stepper {
  /** Everything that was written, in its order. */
  readonly output: string[] = [];
  /** Every event but output, in its order. */
  readonly events: DebugProtocol.Event[] = [];

  constructor(
    readonly client: ProgramClient,
    readonly folder: string,
  ) {
    client.on('output', ({ body }: DebugProtocol.OutputEvent) => this.output.push(body.output.trimEnd()));
    for (const event of ['stopped', 'terminated', 'breakpoint', 'invalidated']) {
      client.on(event, (one: DebugProtocol.Event) => this.events.push(one));
    }
  }

  path(name: string): string {
    return path.join(this.folder, name);
  }

  /** Begins a session, with marks by file and chosen levels, and waits until it first stops. */
  async launch(
    args: object,
    marks: Readonly<Record<string, readonly Mark[]>> = {},
    levels: readonly string[] = [],
    initialize: Partial<DebugProtocol.InitializeRequestArguments> = {},
  ): Promise<Stopped> {
    const { client } = this;
    const initialized = client.waitForEvent('initialized');
    await client.initializeRequest({
      adapterID: 'cranknote',
      pathFormat: 'path',
      linesStartAt1: true,
      columnsStartAt1: true,
      ...initialize,
    });
    await client.launchRequest({ program: this.path('a.crank'), ...args } as DebugProtocol.LaunchRequestArguments);
    await initialized;
    for (const [name, breakpoints] of Object.entries(marks)) await this.mark(name, breakpoints);
    await client.setExceptionBreakpointsRequest({ filters: [...levels] });
    return this.until(() => client.configurationDoneRequest());
  }

  async mark(name: string, breakpoints: readonly Mark[]): Promise<DebugProtocol.Breakpoint[]> {
    const source = { path: this.path(name) };
    return (await this.client.setBreakpointsRequest({ source, breakpoints: [...breakpoints] })).body.breakpoints;
  }

  /** Goes, and waits until it stops again. */
  async until(go: () => Promise<unknown>): Promise<Stopped> {
    const stopped = this.client.waitForEvent('stopped');
    await go();
    return ((await stopped) as DebugProtocol.StoppedEvent).body;
  }

  next = () => this.until(() => this.client.nextRequest({ threadId: 1 }));
  into = () => this.until(() => this.client.stepInRequest({ threadId: 1 }));
  out = () => this.until(() => this.client.stepOutRequest({ threadId: 1 }));
  back = () => this.until(() => this.client.stepBackRequest({ threadId: 1 }));
  reverse = () => this.until(() => this.client.reverseContinueRequest({ threadId: 1 }));
  goOn = () => this.until(() => this.client.continueRequest({ threadId: 1 }));

  /** Goes to the end of the session, and waits until it has ended. */
  async toTheEnd(go: () => Promise<unknown>): Promise<void> {
    const ended = this.client.waitForEvent('terminated');
    await go();
    await ended;
  }

  async stack(): Promise<DebugProtocol.StackFrame[]> {
    return (await this.client.stackTraceRequest({ threadId: 1 })).body.stackFrames;
  }

  /** Where it stands: the line, and the name of the innermost frame. */
  async at(): Promise<string> {
    const [{ name, line }] = await this.stack();
    return `${line}: ${name}`;
  }

  async scope(name: string, frame = 0): Promise<Variable[]> {
    const stack = await this.stack();
    const { scopes } = (await this.client.scopesRequest({ frameId: stack[frame].id })).body;
    const scope = scopes.find((one) => one.name === name);
    return scope ? this.inside(scope.variablesReference) : [];
  }

  async inside(variablesReference: number): Promise<Variable[]> {
    return (await this.client.variablesRequest({ variablesReference })).body.variables;
  }

  /** All that is shown, as `name: value`, wheels left out. */
  async shown(): Promise<string[]> {
    const [{ id }] = await this.stack();
    const { scopes } = (await this.client.scopesRequest({ frameId: id })).body;
    const all: string[] = [];
    for (const { variablesReference } of scopes) {
      for (const { name, value } of await this.inside(variablesReference)) all.push(`${name}: ${value}`);
    }
    return all;
  }

  async evaluate(expression: string, context = 'watch', frame = 0): Promise<string> {
    const frameId = (await this.stack())[frame].id;
    return (await this.client.evaluateRequest({ expression, context, frameId })).body.result;
  }

  /** Puts a variable of a scope to a value, and says what it is then. */
  async put(scope: string, name: string, value: string): Promise<string> {
    const [{ id }] = await this.stack();
    const { scopes } = (await this.client.scopesRequest({ frameId: id })).body;
    const { variablesReference } = scopes.find((one) => one.name === scope) as DebugProtocol.Scope;
    return (await this.client.setVariableRequest({ variablesReference, name, value })).body.value;
  }

  close(): Promise<void> {
    return this.client.end();
  }
}

/** What a request is refused with. */
export const refusal = (request: Promise<unknown>): Promise<string> =>
  request.then(
    () => 'not refused',
    (error: unknown) => (error instanceof Error ? error.message : String(error)),
  );
