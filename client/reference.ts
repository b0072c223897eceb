/** The reference that comes with the extension: page by page, by the heading that an entry stands under. */
import {
  commands,
  type Disposable,
  l10n,
  languages,
  type QuickPickItem,
  type TextDocumentContentProvider,
  Uri,
  window,
  workspace,
} from 'vscode';
import { entriesOf, pageOf, WHOLE } from './entries.js';

const SCHEME = 'cranknote-reference';

/** Where the server's findings point; `{code}` is replaced by the code. */
export const PAGES = `${SCHEME}:/${pageOf('{code}')}`;

export class Reference implements TextDocumentContentProvider, Disposable {
  private readonly provider = workspace.registerTextDocumentContentProvider(SCHEME, this);
  private text: Promise<string> | undefined;

  constructor(private readonly extension: Uri) {}

  async provideTextDocumentContent({ path }: Uri): Promise<string> {
    const name = path.replace(/^\/|\.mkd$/g, '');
    const text = await this.read();
    return name === WHOLE ? text : (entriesOf(text).get(name) ?? text);
  }

  /** Shows the entry under a heading; without one, asks which, those of the findings at the cursor first. */
  async open(name?: string): Promise<void> {
    const entry = name ?? (await this.ask());
    if (entry === undefined) return;
    const uri = Uri.parse(PAGES.replace('{code}', entry));
    try {
      await commands.executeCommand('markdown.showPreview', uri);
    } catch {
      // An editor without a preview shows the text.
      await window.showTextDocument(uri);
    }
  }

  private async ask(): Promise<string | undefined> {
    const here = codesAtCursor();
    const names = [...entriesOf(await this.read()).keys()].sort();
    const items: (QuickPickItem & { readonly entry: string })[] = [
      ...here.map((entry) => ({ label: entry, description: l10n.t('found at the cursor'), entry })),
      { label: l10n.t('The whole reference'), entry: WHOLE },
      ...names.filter((entry) => !here.includes(entry)).map((entry) => ({ label: entry, entry })),
    ];
    const placeHolder = l10n.t('Step, line of a machine or finding');
    return (await window.showQuickPick(items, { placeHolder }))?.entry;
  }

  private read(): Promise<string> {
    this.text ??= Promise.resolve(workspace.fs.readFile(Uri.joinPath(this.extension, 'REFERENCE.md'))).then((bytes) =>
      new TextDecoder().decode(bytes),
    );
    return this.text;
  }

  dispose(): void {
    this.provider.dispose();
  }
}

function codesAtCursor(): string[] {
  const editor = window.activeTextEditor;
  if (!editor) return [];
  const codes = languages.getDiagnostics(editor.document.uri).flatMap(({ range, code }) => {
    const value = typeof code === 'object' ? code.value : code;
    return typeof value === 'string' && range.intersection(editor.selection) ? [value] : [];
  });
  return [...new Set(codes)];
}
