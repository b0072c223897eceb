/** Checking as a task: what the command line says in a terminal, and in the Problems view. */
import {
  CustomExecution,
  type Disposable,
  EventEmitter,
  l10n,
  type Pseudoterminal,
  Task,
  type TaskDefinition,
  TaskGroup,
  type TaskProvider,
  TaskScope,
  tasks,
  type WorkspaceFolder,
  workspace,
} from 'vscode';

/** Runs the command line with some arguments in a folder, and says what it writes. Resolves to how it ended. */
export type RunProgram = (
  args: readonly string[],
  folder: string | undefined,
  write: (text: string) => void,
  cancelled: Promise<void>,
) => Promise<number>;

const TYPE = 'cranknote';

/** As a task is written in `tasks.json`. */
interface CheckDefinition extends TaskDefinition {
  readonly check: string;
  readonly level?: string;
}

export const registerTasks = (run: RunProgram): Disposable => tasks.registerTaskProvider(TYPE, new Checks(run));

/** Checks a workspace's folders, as the task of the same name does. */
export async function checkWorkspace(run: RunProgram): Promise<void> {
  for (const task of new Checks(run).folders()) await tasks.executeTask(task);
}

class Checks implements TaskProvider {
  constructor(private readonly run: RunProgram) {}

  provideTasks(): Task[] {
    const file = this.task({ type: TYPE, check: '${' + 'file}' }, TaskScope.Workspace, l10n.t('check this file'));
    return [...this.folders(), file];
  }

  folders(): Task[] {
    const folders = workspace.workspaceFolders ?? [];
    const onDisk = folders.filter(({ uri }) => uri.scheme === 'file' || uri.scheme === 'vscode-remote');
    return onDisk.map((folder) => this.task({ type: TYPE, check: '.' }, folder, l10n.t('check all files')));
  }

  resolveTask({ definition, scope, name }: Task): Task | undefined {
    const { check } = definition;
    if (typeof check !== 'string') return undefined;
    return this.task({ ...definition, check }, scope ?? TaskScope.Workspace, name, definition);
  }

  /** The editor wants a task that it has asked about back with the very definition that it gave. */
  private task(
    { check, level, type }: CheckDefinition,
    scope: WorkspaceFolder | TaskScope,
    name: string,
    definition: TaskDefinition = { type, check },
  ): Task {
    const folder = typeof scope === 'object' ? scope : workspace.workspaceFolders?.[0];
    const execution = new CustomExecution(async (resolved) => {
      const options = typeof level === 'string' ? ['--level', level] : [];
      return terminal((...rest) =>
        this.run(['check', ...options, '--', resolved.check ?? check], folder?.uri.fsPath, ...rest),
      );
    });
    const task = new Task(definition, scope as WorkspaceFolder, name, 'cranknote', execution, '$cranknote');
    task.group = TaskGroup.Test;
    task.presentationOptions = { clear: true };
    return task;
  }
}

/** A terminal that only shows what a program writes. */
function terminal(run: (write: (text: string) => void, cancelled: Promise<void>) => Promise<number>): Pseudoterminal {
  const written = new EventEmitter<string>();
  const closed = new EventEmitter<number>();
  let cancel = (): void => undefined;
  const cancelled = new Promise<void>((resolve) => {
    cancel = resolve;
  });
  const write = (text: string) => written.fire(text.replace(/\r?\n/g, '\r\n'));
  return {
    onDidWrite: written.event,
    onDidClose: closed.event,
    open: () =>
      void run(write, cancelled).then(
        (code) => closed.fire(code),
        (error: unknown) => {
          write(`${error instanceof Error ? error.message : String(error)}\n`);
          closed.fire(2);
        },
      ),
    close: () => cancel(),
  };
}
