/**
 * Where somebody is typing: in which item of which line, behind which tokens, and the word begun so far.
 *
 * Invariant: nothing here needs a line that can be read. Half a line is the usual case.
 */
import type { Position, Range } from 'vscode-languageserver';
import { type LinePlace, LONGEST_LINE, opens } from '../../../grammar/lines.js';
import { crankFences } from '../../../grammar/markdown.js';
import type { ItemRule } from '../../../grammar/parser.js';
import { wordOf } from '../../../grammar/tokens.js';
import type { Placed } from '../../../grammar/tree.js';
import type { ParsedDocument } from '../document.js';
import { spotAt, type Token, tokensOf } from '../spots.js';
import { positionIn } from '../text.js';

export interface Context {
  /** The line of the document, from 0, and what stands on it. */
  readonly line: number;
  readonly text: string;
  readonly character: number;
  readonly placed: Placed;
  /** In what kind of section the line stands, or opens. */
  readonly place: LinePlace;
  /** How the item is read; undefined where nothing but a section can begin. */
  readonly rule: ItemRule | undefined;
  /** Whether it is the first item of its line, which alone can open a section. */
  readonly isFirst: boolean;
  /** The tokens of the item that are finished: those left of the word that is being typed. */
  readonly begun: readonly Token[];
  /** What is being typed: a word, a number or a text. Missing behind a blank or a sign. */
  readonly typed: Token | undefined;
  /** The cursor is inside quotation marks. */
  readonly isInText: boolean;
  /** Where the item begins; where nothing is typed of it yet, the cursor. */
  readonly start: number;
}

const RULES: Readonly<Record<LinePlace, ItemRule | undefined>> = {
  preamble: undefined,
  use: undefined,
  machine: 'profileLine',
  sequence: 'step',
  bench: 'foundLine',
};

/** Undefined in a comment, outside the fences of a Markdown page, and on a line that is too long to be read. */
export function contextAt(document: ParsedDocument, position: Position): Context | undefined {
  const { line, character } = positionIn(document.lines, position);
  const spot = spotAt(document, line);
  if (!spot || (document.isMarkdown && !isInFence(document, line))) return undefined;
  const text = document.isMarkdown ? spot.syntax.text : document.lines[line];
  if (text.length > LONGEST_LINE) return undefined;
  const tokens = tokensOf(text);
  const last = tokens.findLast(({ from }) => from < character);
  if (last?.kind === 'comment') return undefined;
  const isInText = last?.kind === 'text' && (character < last.to || !isClosed(last.text));
  const isTyping = last && character <= last.to && (last.kind === 'word' || last.kind === 'number' || isInText);
  const typed = isTyping ? last : undefined;
  const left = tokens.filter((token) => token.from < character && token !== typed);
  const cut = left.findLastIndex(({ text }) => text === ';' || text === '{' || text === '}');
  const begun = left.slice(cut + 1);
  const isFirst = cut < 0;
  const place = opens(text) ?? spot.placed.section.kind;
  const isHeader = isFirst && begun.length > 0 && wordOf(begun[0].text)?.kinds.includes('section') === true;
  return {
    line,
    text,
    character,
    placed: spot.placed,
    place,
    rule: isHeader ? 'header' : RULES[place],
    isFirst,
    begun,
    typed,
    isInText,
    start: (begun[0] ?? typed)?.from ?? character,
  };
}

/** Whether a text in quotation marks has its second one. */
export const isClosed = (text: string): boolean => /^"(?:[^"\\]|\\.)*"$/.test(text);

function isInFence({ lines }: ParsedDocument, line: number): boolean {
  return crankFences(lines.join('\n')).some(({ from, to }) => from <= line && line < to);
}

/** From a column to the cursor, or to a column behind it. */
export const rangeFrom = ({ line, character }: Context, from: number, to = character): Range => ({
  start: { line, character: from },
  end: { line, character: to },
});

/** The tokens as the grammar is asked about them. */
export const wordsOfItem = ({ begun }: Context): readonly string[] => begun.map(({ text }) => text);

/** The tokens of the line right of the cursor, and of the word that it is in. */
export const following = ({ text, character }: Context): readonly Token[] =>
  tokensOf(text).filter(({ from }) => from >= character);
