/** Sheets beside the text, and what is remembered of them. */
import { type ExtensionContext, l10n, type WebviewPanel } from 'vscode';
import type { Subject } from './panel-target.js';
import { type FileEvents, type Keeper, Panels } from './panels.js';
import type { SheetChoices } from './protocol.js';
import type { Server } from './server.js';
import type { PanelState } from './sheet-messages.js';
import { SheetPanel } from './sheet-panel.js';
import { choicesFrom, stateFrom } from './sheet-state.js';

/** Where the choices that somebody made last are kept, for this workspace. */
const REMEMBERED = 'cranknote.sheet.choices';

export class Sheets extends Panels<PanelState, SheetPanel> {
  protected readonly title = l10n.t('Sheet');

  constructor(server: Server, context: ExtensionContext, files: FileEvents) {
    super('cranknote.sheet', 300, server, context, files);
  }

  protected stateFrom(kept: unknown): PanelState | undefined {
    return stateFrom(kept);
  }

  protected begin(subject: Subject): PanelState {
    return { ...subject, follows: true, choices: this.remembered };
  }

  protected create(panel: WebviewPanel, state: PanelState, keeper: Keeper): SheetPanel {
    return new SheetPanel(panel, state, this.server, this.context, {
      ...keeper,
      chosen: (choices) => void this.context.workspaceState.update(REMEMBERED, { ...this.remembered, ...choices }),
    });
  }

  private get remembered(): SheetChoices {
    return choicesFrom(this.context.workspaceState.get(REMEMBERED));
  }
}
