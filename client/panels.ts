/** Panels beside the text: which there are, and what they follow. */
import {
  type Disposable,
  type ExtensionContext,
  type TextDocument,
  type TextEditor,
  type Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { State } from 'vscode-languageclient';
import { documentMeant, holdsNotation, isOurs } from './documents.js';
import { resourcesOf } from './panel-page.js';
import type { Following, Subject } from './panel-target.js';
import { type Server, sayNothingIsOpen } from './server.js';

/** A panel that shows something of one sequence. */
export interface Panel<Kept extends Following> {
  readonly state: Kept;
  readonly isVisible: boolean;
  /** It stays with this very sequence. */
  holds(subject: Subject): boolean;
  show(subject: Subject): void;
  reveal(): void;
  /** The cursor stands elsewhere; says whether something else may have to be shown soon. */
  follow(editor: TextEditor): boolean;
  moved(from: Uri, to: Uri): void;
  hold(): void;
  /** What it shows may be another thing: asks where it is seen, and else as soon as it is. */
  refresh(): void;
}

/** Who has to know what happens in a panel. */
export interface Keeper {
  /** It is to go with the cursor from now on. */
  follows(): void;
  closed(): void;
}

export interface FileEvents {
  readonly onDidChange: Watch;
  readonly onDidCreate: Watch;
  readonly onDidDelete: Watch;
}
type Watch = (listener: () => void) => Disposable;

/**
 * At most one panel goes with the cursor, as a reader beside a writer does; those that are held stay with their sequence.
 */
export abstract class Panels<Kept extends Following, Shown extends Panel<Kept>> implements Disposable {
  protected readonly panels = new Set<Shown>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly parts: Disposable[];

  /** @param pause milliseconds after the last change of a text until it is shown */
  constructor(
    private readonly type: string,
    private readonly pause: number,
    protected readonly server: Server,
    protected readonly context: ExtensionContext,
    files: FileEvents,
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
      window.registerWebviewPanelSerializer(type, {
        deserializeWebviewPanel: async (panel: WebviewPanel, kept: unknown) => {
          const state = this.stateFrom(kept);
          if (state) this.keep(panel, state);
          else panel.dispose();
        },
      }),
    ];
  }

  /** What is kept of a panel over a restart of the window. */
  protected abstract stateFrom(kept: unknown): Kept | undefined;
  /** How a panel begins that somebody opens. */
  protected abstract begin(subject: Subject): Kept;
  protected abstract create(panel: WebviewPanel, state: Kept, keeper: Keeper): Shown;
  /** What a panel is called before anything is known of what it shows. */
  protected abstract readonly title: string;

  /** Opens the panel of a sequence, as a lens names it; else of the one at the cursor. */
  open(uri?: unknown, sequence?: unknown): void {
    const subject = typeof uri === 'string' && typeof sequence === 'string' ? { uri, sequence } : subjectAtCursor();
    if (!subject) {
      sayNothingIsOpen();
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
    this.keep(window.createWebviewPanel(this.type, this.title, where, options), this.begin(subject));
  }

  private keep(panel: WebviewPanel, state: Kept): void {
    const kept = this.create(panel, state, {
      follows: () => this.followedBy(kept),
      closed: () => this.panels.delete(kept),
    });
    if (state.follows) this.followedBy(kept);
    this.panels.add(kept);
  }

  /** One goes with the cursor; whichever did so before is held. */
  private followedBy(panel: Shown): void {
    for (const other of this.panels) if (other !== panel) other.hold();
    const { uri } = panel.state;
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
    if (editor) this.follow(editor);
  }

  private follow(editor: TextEditor): void {
    if (this.panels.size === 0 || !holdsNotation(editor.document)) return;
    for (const panel of this.panels) {
      if (panel.state.follows && panel.follow(editor)) this.refreshSoon();
    }
  }

  protected refreshSoon(): void {
    // Those that nobody sees need no timer: they ask when they are seen.
    for (const panel of this.panels) if (!panel.isVisible) panel.refresh();
    clearTimeout(this.timer);
    if (![...this.panels].some(({ isVisible }) => isVisible)) return;
    this.timer = setTimeout(() => {
      for (const panel of this.panels) panel.refresh();
    }, this.pause);
  }

  dispose(): void {
    clearTimeout(this.timer);
    for (const part of this.parts) part.dispose();
    // The panels themselves stay: the editor keeps them for the next start.
  }
}

function subjectAtCursor(): Subject | undefined {
  const meant = documentMeant();
  if (!meant) return undefined;
  const { document, at } = meant;
  return { uri: document.uri.toString(), line: at?.line ?? 0, ...(at && { character: at.character }) };
}
