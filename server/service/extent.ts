/** How far a section reaches: without what lies between it and the next one. */
import type { Range } from 'vscode-languageserver';
import type { LineSyntax, Placed, Section } from '../../grammar/tree.js';

/** Nothing but a comment, or nothing. */
export const isComment = ({ header, items, comment, errors }: LineSyntax): boolean =>
  comment !== undefined && header === undefined && items.length === 0 && errors.length === 0;

export const isBlank = ({ text }: LineSyntax): boolean => text.trim() === '';

/**
 * The last line of a section that is its own, counted from its first line. Blank lines at its end and comments at the
 * margin are left out: those speak of what comes next.
 */
export function lastLineOf({ lines }: Section): number {
  for (let line = lines.length - 1; line > 0; line--) {
    const syntax = lines[line];
    const isAtMargin = isComment(syntax) && syntax.comment?.from === 0;
    if (!isAtMargin && !isBlank(syntax)) return line;
  }
  return 0;
}

/** The range of a section, from the start of its first line to the end of its last. */
export function rangeOfSection({ section, line }: Placed): Range {
  const last = lastLineOf(section);
  return {
    start: { line, character: 0 },
    end: { line: line + last, character: section.lines[last].text.trimEnd().length },
  };
}
