/** Marks the line of a step in the text, where somebody has gone to it in a panel and the cursor stands elsewhere. */
import { type Disposable, OverviewRulerLane, Range, TextEditorRevealType, ThemeColor, Uri, window } from 'vscode';
import type { Place } from './protocol.js';

export class StepMark implements Disposable {
  private readonly type = window.createTextEditorDecorationType({
    isWholeLine: true,
    backgroundColor: new ThemeColor('editor.rangeHighlightBackground'),
    borderColor: new ThemeColor('editor.rangeHighlightBorder'),
    borderWidth: '1px',
    borderStyle: 'dashed none',
    overviewRulerColor: new ThemeColor('editorOverviewRuler.rangeHighlightForeground'),
    overviewRulerLane: OverviewRulerLane.Full,
  });
  private isPut = false;

  put({ uri, range: { start, end } }: Place): void {
    const marked = Uri.parse(uri, true).toString();
    const range = new Range(start.line, start.character, end.line, end.character);
    this.isPut = true;
    for (const editor of window.visibleTextEditors) {
      const isHere = editor.document.uri.toString() === marked;
      editor.setDecorations(this.type, isHere ? [range] : []);
      if (isHere) editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
    }
  }

  clear(): void {
    if (!this.isPut) return;
    this.isPut = false;
    for (const editor of window.visibleTextEditors) editor.setDecorations(this.type, []);
  }

  dispose(): void {
    this.type.dispose();
  }
}
