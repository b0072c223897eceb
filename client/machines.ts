/** The machine beside the text. */
import { type ExtensionContext, l10n, type WebviewPanel } from 'vscode';
import type { MachineState } from './machine-messages.js';
import { MachinePanel } from './machine-panel.js';
import { machineStateFrom } from './machine-target.js';
import type { Subject } from './panel-target.js';
import { type FileEvents, type Keeper, Panels } from './panels.js';
import { CHOOSE_CASE } from './protocol.js';
import { type Server, tell } from './server.js';

export class Machines extends Panels<MachineState, MachinePanel> {
  protected readonly title = l10n.t('Machine');
  /** The session of the debugger that stood still last, until it is over. */
  private session: string | undefined;

  constructor(server: Server, context: ExtensionContext, files: FileEvents) {
    super('cranknote.machine', 120, server, context, files);
  }

  protected stateFrom(kept: unknown): MachineState | undefined {
    return machineStateFrom(kept);
  }

  protected begin(subject: Subject): MachineState {
    return { ...subject, follows: true };
  }

  protected create(panel: WebviewPanel, state: MachineState, keeper: Keeper): MachinePanel {
    const created = new MachinePanel(panel, state, this.server, this.context, {
      ...keeper,
      chosen: (...args) => void this.server.execute(CHOOSE_CASE, args).catch(tell),
    });
    if (this.session !== undefined) created.stepped(this.session, false);
    return created;
  }

  /** A session of the debugger stands still somewhere, or is over. */
  stepped(session: string, isOver: boolean): void {
    if (!isOver) this.session = session;
    else if (this.session === session) this.session = undefined;
    for (const panel of this.panels) panel.stepped(session, isOver);
  }

  /** The readings of a case are shown beside the text: its machine is shown as well. */
  caseChosen(uri: string, sequence: string, number: number): void {
    for (const panel of this.panels) panel.caseChosen(uri, sequence, number);
  }
}
