/** The text of a document that an editor has open, and how edits change it. */
import type { Position, Range } from 'vscode-languageserver';
import { TextDocument, type TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';
import { type LineEdit, splitLines } from '../../grammar/sections.js';
import { isMarkdown, LONGEST_FILE } from '../sequence/library.js';

type LineEnd = '\n' | '\r\n' | '\r';

/**
 * Brings a position into a text, wherever a client says it is: past the end of a line is its end, past the last line the
 * end of the text. What is no position at all is the beginning.
 */
export function positionIn(lines: readonly string[], position: Position): Position {
  const whole = (n: unknown) => (typeof n === 'number' && n > 0 ? Math.floor(n) : 0);
  if (!(position?.line >= 0)) return { line: 0, character: 0 };
  const last = lines.length - 1;
  const line = whole(position?.line);
  if (line > last) return { line: last, character: lines[last].length };
  return { line, character: Math.min(whole(position?.character), lines[line].length) };
}

/** The same for a range, its ends in the order of the text. */
export function rangeIn(lines: readonly string[], range: Range): Range {
  const [a, b] = [positionIn(lines, range?.start), positionIn(lines, range?.end)];
  const isForward = a.line < b.line || (a.line === b.line && a.character <= b.character);
  return isForward ? { start: a, end: b } : { start: b, end: a };
}

/** The one kind of line end that a text has; the first, and that they are mixed, if there are several. */
function endsOf(text: string): { readonly eol?: LineEnd; readonly areMixed: boolean } {
  const eol = /\r\n|\n|\r/.exec(text)?.[0] as LineEnd | undefined;
  if (!eol) return { areMixed: false };
  // A lone carriage return may become half of another line end with any edit.
  const other = { '\n': /\r/, '\r\n': /\r(?!\n)|(?<!\r)\n/, '\r': /\r/ }[eol];
  return { eol, areMixed: other.test(text) };
}

/**
 * Ordinary text is kept as its lines, so that an edit costs what it touches. What has line ends of several kinds, is a
 * Markdown page, or is too long to be read at all is kept as one text.
 */
export class OpenText {
  private kept: string[] | undefined;
  private whole: string;
  private end: LineEnd | undefined;

  constructor(
    private readonly uri: string,
    text: string,
  ) {
    const { eol, areMixed } = endsOf(text);
    this.end = eol;
    const isPlain = text.length <= LONGEST_FILE && !isMarkdown(uri) && !areMixed;
    this.whole = isPlain ? '' : text;
    if (isPlain) this.kept = splitLines(text);
  }

  /** The line end that new lines are to have. */
  get eol(): LineEnd {
    return this.end ?? '\n';
  }

  /** The lines of a text that is kept as lines; of any other a fresh copy. */
  get lines(): string[] {
    if (this.kept) return this.kept;
    return this.isTooLong ? [''] : splitLines(this.whole);
  }

  /** The whole text. */
  get text(): string {
    return this.kept ? this.kept.join(this.eol) : this.whole;
  }

  get isTooLong(): boolean {
    return !this.kept && this.whole.length > LONGEST_FILE;
  }

  /** Takes an edit in. Returns what became of the lines, where they are kept as such and still are. */
  change(change: TextDocumentContentChangeEvent): LineEdit | undefined {
    const { eol, areMixed } = endsOf(change.text);
    const fits = !areMixed && (!eol || !this.end || eol === this.end);
    if (!('range' in change) || !this.kept || !fits) {
      this.changeWhole(change);
      return undefined;
    }
    this.end ??= eol;
    const { kept } = this;
    const { start, end } = rangeIn(kept, change.range);
    const written = kept[start.line].slice(0, start.character) + change.text + kept[end.line].slice(end.character);
    const edit = { from: start.line, to: end.line + 1, lines: splitLines(written) };
    if (edit.lines.length === edit.to - edit.from && edit.lines.length < 1_000) {
      for (const [i, line] of edit.lines.entries()) kept[edit.from + i] = line;
    } else {
      // Never spread: a pasted text may have more lines than a call takes arguments.
      this.kept = kept.slice(0, edit.from).concat(edit.lines, kept.slice(edit.to));
    }
    return edit;
  }

  private changeWhole(change: TextDocumentContentChangeEvent): void {
    const before = TextDocument.create(this.uri, 'crank', 0, this.text);
    const next = new OpenText(this.uri, TextDocument.update(before, [change], 1).getText());
    this.kept = next.kept;
    this.whole = next.whole;
    this.end = next.end;
  }
}
