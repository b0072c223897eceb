/** Short views of a tree, for tests. */
import { type LinePlace, LineReader } from '../../grammar/lines.js';
import { Parser, splitLines } from '../../grammar/sections.js';
import type { CrankFile, LineSyntax, Section, SyntaxProblem } from '../../grammar/tree.js';

/** An error with its line in the file and the text that it stands under. */
export interface Found {
  readonly line: number;
  readonly under: string;
  readonly problem: SyntaxProblem;
}

/** All errors of a text, by line. */
export function errorsIn(text: string): Found[] {
  const lines = splitLines(text);
  const found: Found[] = [];
  for (const { section, line: start } of new Parser().parse(text).sections) {
    for (const { line, syntax } of section.errors) {
      const under = lines[start + line].slice(syntax.from, syntax.to);
      found.push({ line: start + line, under, problem: syntax.problem });
    }
  }
  return found.sort((a, b) => a.line - b.line);
}

/** One line, read in a section of a kind. */
export const readLine = (text: string, place: LinePlace = 'sequence'): LineSyntax => new LineReader().read(text, place);

/** Everything but the positions: what must be the same after formatting. */
export const withoutPositions = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(withoutPositions);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== 'from' && key !== 'to')
      .map(([key, inner]) => [key, withoutPositions(inner)]),
  );
};

/** A section's items, comments and nesting, without the lines' own text and positions. */
export function contents({ lines, ...section }: Section): unknown {
  return withoutPositions({
    ...section,
    lines: lines.map(({ header, items, comment, errors }) => ({ header, items, comment: comment?.text, errors })),
  });
}

/** A whole file's contents, section by section. */
export const contentsOf = (file: CrankFile): unknown[] =>
  file.sections.map(({ section, line }) => ({ line, ...(contents(section) as object) }));
