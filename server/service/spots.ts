/** What stands where: from a position in a document to lines, items and sections, and back to ranges. */
import type { Range } from 'vscode-languageserver';
import { sectionOn } from '../../grammar/sections.js';
import type { HeaderSyntax, LineItem, LineSyntax, Placed, Section, Span } from '../../grammar/tree.js';
import type { Place } from '../sequence/findings.js';
import type { ParsedDocument } from './document.js';

/** A line of a document with the section that it belongs to. */
export interface Spot {
  readonly placed: Placed;
  /** Counted from the section's first line. */
  readonly line: number;
  readonly syntax: LineSyntax;
}

/** The section on whose lines a line of the document lies; undefined past the end. */
export function sectionAt(document: ParsedDocument, line: number): Placed | undefined {
  const { sections } = document.tree;
  const placed = sections[sectionOn(sections, line)];
  return placed && line >= placed.line && line - placed.line < placed.section.lines.length ? placed : undefined;
}

export function spotAt(document: ParsedDocument, line: number): Spot | undefined {
  const placed = sectionAt(document, line);
  if (!placed) return undefined;
  const own = line - placed.line;
  return { placed, line: own, syntax: placed.section.lines[own] };
}

/** The header or item of a line that a column lies in or right behind. */
export function itemAt({ syntax }: Spot, character: number): HeaderSyntax | LineItem | undefined {
  const all = [...(syntax.header ? [syntax.header] : []), ...syntax.items];
  return all.find((item) => item.from <= character && character < item.to) ?? all.find((item) => item.to === character);
}

/**
 * The items of a section from a column of one of its lines upwards, each with its line. Where the column lies before the
 * first item of that line, it counts as in it.
 */
export function* itemsAbove(
  { lines }: Section,
  line: number,
  character = Number.POSITIVE_INFINITY,
): Generator<{ readonly line: number; readonly item: LineItem }> {
  for (let own = Math.min(line, lines.length - 1); own >= 0; own--) {
    const { items } = lines[own];
    const limit = own === line ? Math.max(character, items[0]?.from ?? 0) : Number.POSITIVE_INFINITY;
    for (const item of items.toReversed()) if (item.from <= limit) yield { line: own, item };
  }
}

/** A word, name, number or sign of a line, with its columns. */
export interface Token extends Span {
  readonly text: string;
  readonly kind: 'word' | 'number' | 'text' | 'comment' | 'sign';
}

const TOKEN = /(#.*)|("(?:[^"\\]|\\.)*"?)|(\p{L}[\p{L}\p{M}\p{N}-]*)|(\d+(?:[_']\d+)*(?:\.\d+(?:[_']\d+)*)?)|([^\s])/gu;

/** The tokens of a line, roughly as the lexer cuts them: for what has to work in lines that can't be read. */
export function tokensOf(text: string): Token[] {
  return Array.from(text.slice(0, 4_000).matchAll(TOKEN), (match) => {
    const kind = match[1] ? 'comment' : match[2] ? 'text' : match[3] ? 'word' : match[4] ? 'number' : 'sign';
    return { text: match[0], kind, from: match.index, to: match.index + match[0].length };
  });
}

/** The token that a column lies in, or right behind. */
export function tokenAt(text: string, character: number): Token | undefined {
  const tokens = tokensOf(text);
  return (
    tokens.find(({ from, to }) => from <= character && character < to) ?? tokens.find(({ to }) => to === character)
  );
}

/** The range of a span on a line of a document. */
export const rangeOn = (line: number, { from, to }: Span): Range => ({
  start: { line, character: from },
  end: { line, character: to },
});

/** Where a place lies: the client's name of its file, and the range. */
export function locationOf(document: ParsedDocument, place: Place): { uri: string; range: Range } {
  const { library } = document;
  const file = library.fileOf(place.section) ?? document.file;
  return {
    uri: file === document.file ? document.uri : document.uriOf(file),
    range: rangeOn(library.lineOf(place.section) + place.line, place),
  };
}

/** The same for a span on a line of a section, counted from the section's first line. */
export const locationOn = (document: ParsedDocument, section: Section, line: number, { from, to }: Span) =>
  locationOf(document, { section, line, from, to });
