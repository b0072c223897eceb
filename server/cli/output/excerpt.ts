/** The line of a file in which something was found, with a caret under it. */
import { splitLines } from '../../../grammar/sections.js';
import type { ReportedFinding } from '../../sequence/report.js';
import { harmless, type Terminal, widthOf } from '../terminal.js';

/** Columns of a line that are shown around a finding. */
const SHOWN = 100;
const BEFORE = 30;

/** Looks up lines of files that were read. */
export class Source {
  private readonly lines = new Map<string, string[]>();

  constructor(private readonly files: ReadonlyMap<string, string>) {}

  line(file: string, line: number): string {
    let lines = this.lines.get(file);
    if (!lines) {
      lines = splitLines((this.files.get(file) ?? '').replace(/^\ufeff/, ''));
      this.lines.set(file, lines);
    }
    return lines[line - 1] ?? '';
  }
}

/** Two lines: the text, and marks under what was found. */
export function excerpt(source: Source, finding: ReportedFinding, { colors }: Pick<Terminal, 'colors'>): string {
  const text = source.line(finding.file, finding.line);
  const [shown, marks] = markedLine(text, finding.column - 1, finding.endColumn - 1, colors.bold);
  const number = String(finding.line);
  const margin = ' '.repeat(number.length);
  return `    ${colors.dim(`${number} │`)} ${shown}\n    ${colors.dim(`${margin} │`)} ${marks}\n`;
}

/** A line, cut where it is long, and the line of marks that goes under it; columns count from 0, `to` is behind the last. */
export function markedLine(
  text: string,
  from: number,
  to: number,
  strong: (marks: string) => string = (marks) => marks,
): readonly [string, string] {
  const start = from > SHOWN - BEFORE ? from - BEFORE : 0;
  const end = Math.min(text.length, start + SHOWN);
  const last = Math.max(from + 1, Math.min(to, end));
  const lead = start > 0 ? '…' : '';
  const shown = lead + harmless(text.slice(start, end)) + (end < text.length ? '…' : '');
  const blank = ' '.repeat(widthOf(lead + harmless(text.slice(start, from))));
  return [shown, blank + strong('^'.repeat(Math.max(1, widthOf(harmless(text.slice(from, last))))))];
}
