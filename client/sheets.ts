/** Sheets beside the text: which panels there are, what they follow, and what is remembered of them. */
import {
  type Disposable,
  type ExtensionContext,
  l10n,
  type TextDocument,
  type TextEditor,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { State } from 'vscode-languageclient';
import { holdsNotation, isOurs } from './documents.js';
import type { SheetChoices } from './protocol.js';
import type { Server } from './server.js';
import type { PanelState, SheetSubject } from './sheet-messages.js';
import { resourcesOf } from './sheet-page.js';
import { SheetPanel } from './sheet-panel.js';
import { choicesFrom, stateFrom } from './sheet-state.js';

const TYPE = 'cranknote.sheet';
/** Where the choices that somebody made last are kept, for this workspace. */
const REMEMBERED = 'cranknote.sheet.choices';
/** Milliseconds after the last change. */
const PAUSE = 300;

/**
 * At most one panel goes with the cursor, as a reader beside a writer does; those that are held stay with their sequence.
 */
export class Sheets implements Disposable {
  private readonly panels = new Set<SheetPanel>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly parts: Disposable[];

  constructor(
    private readonly server: Server,
    private readonly context: ExtensionContext,
    files: { onDidChange: Watch; onDidCreate: Watch; onDidDelete: Watch },
  ) {
    // Another file may be used by the one that is shown, so a change in any of them counts.
    const changed = (document: TextDocument) => {
      if (isOurs(document)) this.refreshSoon();
    };
    this.parts = [
      workspace.onDidChangeTextDocument(({ document }) => changed(document)),
      workspace.onDidOpenTextDocument(changed),
      workspace.onDidCloseTextDocument(changed),
      files.onDidChange(() => this.refreshSoon()),
      files.onDidCreate(() => this.refreshSoon()),
      files.onDidDelete(() => this.refreshSoon()),
      workspace.onDidRenameFiles(({ files: moved }) => {
        for (const { oldUri, newUri } of moved) {
          for (const panel of this.panels) panel.moved(oldUri, newUri);
        }
        this.refreshSoon();
      }),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => editor && this.follow(editor)),
      server.client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) this.refreshSoon();
      }),
      window.registerWebviewPanelSerializer(TYPE, {
        deserializeWebviewPanel: async (panel: WebviewPanel, kept: unknown) => {
          const state = stateFrom(kept);
          if (state) this.keep(panel, state);
          else panel.dispose();
        },
      }),
    ];
  }

  /** Opens the sheet of a sequence, as a lens names it; else of the one at the cursor. */
  open(uri?: unknown, sequence?: unknown): void {
    const subject = typeof uri === 'string' && typeof sequence === 'string' ? { uri, sequence } : subjectAtCursor();
    if (!subject) {
      window.showInformationMessage(l10n.t('Open a file with a sequence first.'));
      return;
    }
    const panels = [...this.panels];
    const held = panels.find((panel) => panel.holds(subject));
    const panel = held ?? panels.find(({ state }) => state.follows);
    if (panel) {
      if (!held) panel.show(subject);
      panel.reveal();
      return;
    }
    const where = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    const options = {
      enableScripts: true,
      enableFindWidget: true,
      localResourceRoots: resourcesOf(this.context.extensionUri),
    };
    const created = window.createWebviewPanel(TYPE, l10n.t('Sheet'), where, options);
    this.keep(created, { ...subject, follows: true, choices: this.remembered });
  }

  private keep(panel: WebviewPanel, state: PanelState): void {
    const kept = new SheetPanel(panel, state, this.server, this.context, {
      chosen: (choices) => void this.context.workspaceState.update(REMEMBERED, { ...this.remembered, ...choices }),
      follows: () => this.followedBy(kept),
      closed: () => this.panels.delete(kept),
    });
    if (state.follows) this.followedBy(kept);
    this.panels.add(kept);
  }

  private get remembered(): SheetChoices {
    return choicesFrom(this.context.workspaceState.get(REMEMBERED));
  }

  /** One goes with the cursor; whichever did so before is held. */
  private followedBy(panel: SheetPanel): void {
    for (const other of this.panels) if (other !== panel) other.hold();
    const { uri } = panel.state;
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
    if (editor) this.follow(editor);
  }

  private follow({ document, selection }: TextEditor): void {
    if (!holdsNotation(document)) return;
    for (const panel of this.panels) {
      if (panel.follow(document, selection.active.line)) this.refreshSoon();
    }
  }

  private refreshSoon(): void {
    if (this.panels.size === 0) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      for (const panel of this.panels) panel.refresh();
    }, PAUSE);
  }

  dispose(): void {
    clearTimeout(this.timer);
    for (const part of this.parts) part.dispose();
    // The panels themselves stay: the editor keeps them for the next start.
  }
}

type Watch = (listener: () => void) => Disposable;

function subjectAtCursor(): SheetSubject | undefined {
  const editor = window.activeTextEditor;
  if (!editor || !isOurs(editor.document)) return undefined;
  return { uri: editor.document.uri.toString(), line: editor.selection.active.line };
}
