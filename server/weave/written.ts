/**
 * A page with its insets filled.
 *
 * Invariant: everything outside the insets that are written stays as it is, to the letter: other lines, ends of lines of
 * every kind, a mark of the byte order, a last line without an end.
 */
import { closingMark } from '../../grammar/insets.js';
import { splitLines } from '../../grammar/sections.js';
import type { Content } from './content.js';
import type { WovenInset } from './page.js';
import { readOf, sealOf } from './seal.js';

/** Lines `from` to `to`, without `to` itself, become others. Lines are counted from 0. */
export interface InsetEdit {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** The lines that fill an inset: all behind its opening comment, up to its closing one. */
export function insetEdit({ inset }: Pick<WovenInset, 'inset'>, content: Content): InsetEdit {
  const { line, margin, content: there } = inset;
  const seal = sealOf(readOf(content.lines));
  const lines = ['', ...content.lines, '', closingMark(seal)];
  return {
    from: line + 1,
    to: there ? there.line + 1 : line + 1,
    lines: lines.map((one) => (one === '' ? margin.trimEnd() : margin + one)),
  };
}

/** The page after these edits, from its top, of which none touches another. */
export function pageWith(text: string, edits: readonly InsetEdit[]): string {
  const lines = splitLines(text);
  const ends = text.match(/\r\n|\n|\r/g) ?? [];
  const usual = ends[0] ?? '\n';
  const parts: string[] = [];
  let next = 0;
  const keep = (to: number) => {
    for (; next < to; next++) parts.push(lines[next] + (ends[next] ?? ''));
  };
  for (const { from, to, lines: written } of edits) {
    keep(from);
    // The line above was the last one, and may have no end.
    if (ends[from - 1] === undefined) parts.push(usual);
    const last = ends[to - 1];
    parts.push(written.join(ends[from - 1] ?? usual) + (last ?? ''));
    next = to;
  }
  keep(lines.length);
  return parts.join('');
}
