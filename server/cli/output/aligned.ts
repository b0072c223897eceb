/** A table in aligned columns. */
import { widthOf } from '../terminal.js';

export interface Cell {
  readonly text: string;
  /** Words stand at the left of their column, numbers at the right. */
  readonly left?: boolean;
}

/** Lines of a table, two blanks between its columns; the cells of a row may be fewer than those of others. */
export function aligned(rows: readonly (readonly Cell[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    for (const [c, { text }] of row.entries()) widths[c] = Math.max(widths[c] ?? 0, widthOf(text));
  }
  return rows.map((row) =>
    row
      .map(({ text, left }, c) => {
        const blank = ' '.repeat(widths[c] - widthOf(text));
        return left ? text + blank : blank + text;
      })
      .join('  ')
      .trimEnd(),
  );
}
