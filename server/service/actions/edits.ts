/**
 * Small changes to the lines of a section, as edits of its document.
 *
 * Invariant: an edit touches nothing but what it is about. New lines take over the margin of the line beside them, with
 * the marks of a Markdown quotation, and end as the document's lines do; where a line holds other items too, it goes on
 * doing so.
 */
import type { TextEdit } from 'vscode-languageserver';
import { joinItems } from '../../../grammar/printer.js';
import type { OnLine, Placed, Section, Span } from '../../../grammar/tree.js';
import type { ParsedDocument } from '../document.js';
import { lastLineOf } from '../extent.js';
import { rangeOn } from '../spots.js';

export const INDENT = '  ';

/** A step or another item, and where it stands. */
export type At = OnLine<Span>;

export class Draft {
  constructor(
    readonly document: ParsedDocument,
    readonly placed: Placed,
  ) {}

  get section(): Section {
    return this.placed.section;
  }

  /** A line of the section as the parser sees it: blank outside the fences, and without the marks of a quotation. */
  text(line: number): string {
    return this.section.lines[line]?.text ?? '';
  }

  /** What stands before the first word of a line, as it is written. */
  margin(line: number): string {
    return this.written(line).slice(0, indentOf(this.text(line)));
  }

  private written(line: number): string {
    return this.document.lines[this.placed.line + line] ?? '';
  }

  /** Blank to the parser, but not in the document: prose between two fences, or a fence's own line. */
  isProse(line: number): boolean {
    return this.text(line).trim() === '' && /[^\s>]/.test(this.written(line));
  }

  hasProse(first: number, last: number): boolean {
    for (let line = first; line <= last; line++) if (this.isProse(line)) return true;
    return false;
  }

  replace({ line, syntax }: At, newText: string): TextEdit {
    return { range: rangeOn(this.placed.line + line, syntax), newText };
  }

  insert(line: number, column: number, newText: string): TextEdit {
    return this.replace({ line, syntax: { from: column, to: column } }, newText);
  }

  /** Steps before an item: on lines of their own, if it is the first on its line. */
  before(at: At, steps: readonly string[]): TextEdit {
    const { line, syntax } = at;
    if (!this.isFirst(at)) return this.insert(line, syntax.from, steps.map((step) => `${step}; `).join(''));
    const glue = this.document.eol + this.margin(line);
    return this.insert(line, syntax.from, steps.map((step) => step + glue).join(''));
  }

  /** Steps behind an item: on lines of their own, if it is alone on its line. */
  after(at: At, steps: readonly string[]): TextEdit {
    const { line, syntax } = at;
    if (!this.isFirst(at) || !this.isLast(at)) {
      return this.insert(line, syntax.to, steps.map((step) => `; ${step}`).join(''));
    }
    return this.linesAfter(line, steps, this.margin(line));
  }

  /** Steps in the place of an item. */
  instead(at: At, steps: readonly string[]): TextEdit {
    if (steps.length === 0) return this.remove(at);
    if (!this.isFirst(at) || !this.isLast(at)) return this.replace(at, joinItems(steps));
    return this.replace(at, steps.join(this.document.eol + this.margin(at.line)));
  }

  /** Steps in the place of all from one item to another on a later line. */
  insteadOfLines(first: At, last: At, steps: readonly string[]): TextEdit {
    const { document, placed } = this;
    const isAlone = this.isFirst(first) && this.isLast(last);
    const start = { line: placed.line + first.line, character: first.syntax.from };
    const end = { line: placed.line + last.line, character: last.syntax.to };
    const newText = isAlone ? steps.join(document.eol + this.margin(first.line)) : joinItems(steps);
    return { range: { start, end }, newText };
  }

  /** Whole lines below a line. */
  linesAfter(line: number, lines: readonly string[], margin: string): TextEdit {
    const glue = this.document.eol;
    const text = lines.map((one) => glue + (one === '' ? margin.trimEnd() : margin + one)).join('');
    return this.insert(line, this.written(line).length, text);
  }

  /** Whole lines above a line. */
  linesBefore(line: number, lines: readonly string[], margin: string): TextEdit {
    const text = lines.map((one) => (one === '' ? margin.trimEnd() : margin + one) + this.document.eol).join('');
    return this.insert(line, 0, text);
  }

  /** Takes an item out, or all between two columns: the whole line, if nothing else stands on it. */
  remove(at: At): TextEdit {
    const { line, syntax } = at;
    const text = this.text(line);
    if (this.isFirst(at) && this.isLast(at)) {
      const { comment } = this.section.lines[line];
      return comment
        ? this.replace({ line, syntax: { from: syntax.from, to: comment.from } }, '')
        : this.cut(line, line);
    }
    const behind = /^\s*;[^\S\n]*/.exec(text.slice(syntax.to))?.[0].length;
    if (behind !== undefined && !this.isLast(at)) {
      return this.replace({ line, syntax: { from: syntax.from, to: syntax.to + behind } }, '');
    }
    const ahead = /\s*;\s*$/.exec(text.slice(0, syntax.from))?.[0].length;
    if (ahead !== undefined) return this.replace({ line, syntax: { from: syntax.from - ahead, to: syntax.to } }, '');
    const blanks = /^\s*/.exec(text.slice(syntax.to))?.[0].length ?? 0;
    return this.replace({ line, syntax: { from: syntax.from, to: syntax.to + (this.isLast(at) ? 0 : blanks) } }, '');
  }

  /** Takes whole lines out, with their ends. */
  cut(first: number, last: number): TextEdit {
    const start = this.placed.line + first;
    const end = this.placed.line + last;
    const { lines } = this.document;
    if (end + 1 < lines.length) {
      return { range: { start: { line: start, character: 0 }, end: { line: end + 1, character: 0 } }, newText: '' };
    }
    const from = start > 0 ? { line: start - 1, character: lines[start - 1].length } : { line: 0, character: 0 };
    return { range: { start: from, end: { line: end, character: lines[end].length } }, newText: '' };
  }

  /** Whether nothing stands before an item on its line. */
  isFirst({ line, syntax }: At): boolean {
    return this.text(line).slice(0, syntax.from).trim() === '';
  }

  /** Whether nothing but a comment stands behind an item on its line. */
  isLast({ line, syntax }: At): boolean {
    const end = this.section.lines[line]?.comment?.from;
    return /^[\s;]*$/.test(this.text(line).slice(syntax.to, end));
  }

  /** Whole lines behind the section's last one, as far in as its header. */
  atEnd(lines: readonly string[]): TextEdit {
    return this.linesAfter(lastLineOf(this.section), lines, this.margin(0));
  }
}

export const indentOf = (text: string): number => Math.max(0, text.search(/\S/));

/** The columns of two items and all between them, on one line. */
export const across = (first: Span, last: Span): Span => ({ from: first.from, to: last.to });

/** Whether two edits touch the same text, or insert at the same place. */
export function overlaps(a: TextEdit, b: TextEdit): boolean {
  const isBefore = (x: TextEdit, y: TextEdit) => {
    const [end, start] = [x.range.end, y.range.start];
    return end.line < start.line || (end.line === start.line && end.character <= start.character);
  };
  const isSamePlace = a.range.start.line === b.range.start.line && a.range.start.character === b.range.start.character;
  return isSamePlace || !(isBefore(a, b) || isBefore(b, a));
}
