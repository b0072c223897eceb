/**
 * Insets: places of a Markdown page, between two comments, that are filled from a sequence.
 *
 *     <!-- crank: readings of bay-area case 2 in de -->
 *     …
 *     <!-- crank: end 1k2j3h4 -->
 *
 * Invariant: an inset reaches from its opening comment to the next closing one in the same list item or quotation, and
 * no further. Whoever fills it asks the seal whether what stands there is not an author's.
 */
import { nearest } from './nearest.js';
import type { Span } from './tree.js';

/** What can be put into a page, in the order of the reference. */
export const INSET_KINDS = ['readings', 'steps', 'figure', 'cases', 'cautions'] as const;
export type InsetKind = (typeof INSET_KINDS)[number];
/** Figures among `steps`, as sheets have them. */
export const INSET_FIGURES = ['none', 'stages', 'all'] as const;
export type InsetFigures = (typeof INSET_FIGURES)[number];
/** What may stand behind the kind, each with a value. */
export const INSET_WORDS = ['of', 'case', 'in', 'figures'] as const;

/** Insets of one page that are looked at. */
export const MOST_INSETS = 500;

/** What an opening comment asks for. */
export interface InsetOrder {
  readonly kind: InsetKind;
  /** The sequence; without it the last one that begins above. */
  readonly of?: string;
  /** The columns of its name in the line of the opening comment. */
  readonly ofAt?: Span;
  /** 0 means the defaults. */
  readonly case: number;
  /** A language tag as it is written; English where none is. */
  readonly language: string;
  readonly figures: InsetFigures;
}

/** Why an inset can't be filled, as far as the page by itself tells. */
export type InsetProblem =
  | { readonly is: 'no-kind' | 'not-alone' | 'in-html' | 'text-below' | 'stray-end' | 'nested' }
  | { readonly is: 'unknown-kind' | 'unknown-word' | 'bad-figures'; readonly word: string; readonly nearest?: string }
  | { readonly is: 'no-value' | 'twice' | 'bad-case'; readonly word: string }
  | { readonly is: 'too-many'; readonly limit: number };

/** What stands between the comments, and the closing one. */
export interface InsetContent {
  /** The line of the closing comment, from 0. */
  readonly line: number;
  /** The seal in it; empty where it has none. */
  readonly seal: string;
  /** The lines between, as they are written. */
  readonly lines: readonly string[];
}

export interface Inset {
  /** The line of the opening comment, from 0, and its columns. */
  readonly line: number;
  readonly at: Span;
  /** What stands before each of its lines: marks of quotations, and blanks. */
  readonly margin: string;
  /** What is to stand there, or why that can't be told. */
  readonly asks: InsetOrder | InsetProblem;
  /** Missing where there is only the opening comment. */
  readonly content?: InsetContent;
  /** The first line that is not blank below an inset without content. */
  readonly below?: string;
}

export const isInsetProblem = (asks: Inset['asks']): asks is InsetProblem => 'is' in asks;

/** A comment for an inset, as it lies in the blocks of its page. */
export interface Mark {
  readonly line: number;
  /** A number for the list item or quotation around it. */
  readonly within: number;
  /** Something else begins the piece of HTML in which it stands. */
  readonly isInHtml: boolean;
}

const MARK = /<!--[ \t]*crank:/;
/** The comment by itself, behind the margin. */
const ALONE = /^<!--[ \t]*crank:(?<words>(?:(?!--)[^>])*)-->[ \t]*$/;

/** What may stand before it: marks of quotations and lists. */
const LEAD = /^\ufeff?(?:[ \t>]|[-+*](?=[ \t])|\d{1,9}[.)](?=[ \t]))*$/;

/** Whether a line, or anything in a page, may be a comment for an inset. */
export const hasMark = (text: string): boolean => MARK.test(text);

/** A comment that opens an inset. */
export const openingMark = (words: string): string => `<!-- crank: ${words} -->`;
/** The comment that closes an inset; the seal is that of its content. */
export const closingMark = (seal?: string): string => openingMark(seal === undefined ? 'end' : `end ${seal}`);

interface Read {
  readonly mark: Mark;
  readonly at: Span;
  readonly margin: string;
  /** Undefined where the comment is not alone on its line. */
  readonly words: readonly Word[] | undefined;
}

interface Word extends Span {
  readonly text: string;
}

/** Puts the comments of a page together to insets, from its top. */
export function insetsOf(lines: readonly string[], marks: readonly Mark[]): Inset[] {
  const insets: Inset[] = [];
  const open = new Map<number, Read[]>();
  for (const mark of marks) {
    const read = readMark(mark, lines[mark.line]);
    const [first, seal = '', more] = (read.words ?? []).map(({ text }) => text);
    const flawed = (problem: InsetProblem) => insets.push({ ...placeOf(read), asks: problem });
    const opened = open.get(mark.within) ?? [];
    open.set(mark.within, opened);
    if (mark.isInHtml) flawed({ is: 'in-html' });
    else if (!read.words) flawed({ is: 'not-alone' });
    else if (first !== 'end') opened.push(read);
    else {
      const opening = opened.pop();
      if (more !== undefined) flawed({ is: 'unknown-word', word: more });
      else if (!opening) flawed({ is: 'stray-end' });
      else
        insets.push(closed(opening, { line: mark.line, seal, lines: lines.slice(opening.mark.line + 1, mark.line) }));
    }
  }
  for (const read of [...open.values()].flat()) insets.push(unclosed(read, lines));
  insets.sort((a, b) => a.line - b.line);
  if (insets.length > MOST_INSETS) {
    const { line, at, margin } = insets[MOST_INSETS];
    insets.splice(MOST_INSETS, insets.length, { line, at, margin, asks: { is: 'too-many', limit: MOST_INSETS } });
  }
  return insets;
}

const placeOf = ({ mark, at, margin }: Read): Omit<Inset, 'asks'> => ({ line: mark.line, at, margin });

/** What stands between two comments must be no inset. */
function closed(read: Read, content: InsetContent): Inset {
  const asks: Inset['asks'] = content.lines.some(hasMark) ? { is: 'nested' } : orderOf(read.words ?? []);
  return { ...placeOf(read), asks, content };
}

/** Only the opening comment is there. It may have been closed once, so that what follows must stand apart. */
function unclosed(read: Read, lines: readonly string[]): Inset {
  const next = textOf(lines[read.mark.line + 1] ?? '');
  const place = placeOf(read);
  if (next !== '' && !hasMark(next)) return { ...place, asks: { is: 'text-below' } };
  const below = lines.slice(read.mark.line + 1, read.mark.line + 1 + LINES_BELOW).find((line) => textOf(line) !== '');
  return { ...place, asks: orderOf(read.words ?? []), ...(below !== undefined && { below: textOf(below) }) };
}

/** What comes further down stands apart, whatever it is. */
const LINES_BELOW = 20;

const textOf = (line: string): string => line.replace(/^[ \t>]*/, '').trimEnd();

function readMark(mark: Mark, line: string): Read {
  const from = Math.max(0, line.search(MARK));
  const isAlone = LEAD.test(line.slice(0, from)) && ALONE.test(line.slice(from));
  return {
    mark,
    at: { from, to: line.trimEnd().length },
    // The bullet of a list stands before its first line alone.
    margin: line
      .slice(0, from)
      .replace(/^\ufeff/, '')
      .replace(/[^>\t]/g, ' '),
    words: isAlone ? wordsIn(line, line.indexOf(':', from) + 1) : undefined,
  };
}

/** The words from a column to the end of the comment. */
const wordsIn = (line: string, from: number): Word[] =>
  [...line.slice(from, line.lastIndexOf('-->')).matchAll(/[^ \t]+/g)].map(({ 0: text, index }) => ({
    text,
    from: from + index,
    to: from + index + text.length,
  }));

const isOneOf = <T extends string>(list: readonly T[], word: string): word is T =>
  (list as readonly string[]).includes(word);

/** What an opening comment asks for: its kind, and then words with a value each, in any order. */
function orderOf(words: readonly Word[]): InsetOrder | InsetProblem {
  const kind = words.at(0)?.text;
  const unknown = (is: 'unknown-kind' | 'unknown-word' | 'bad-figures', word: string, known: readonly string[]) => {
    const near = nearest(word, known);
    return { is, word, ...(near !== undefined && { nearest: near }) };
  };
  if (kind === undefined) return { is: 'no-kind' };
  if (!isOneOf(INSET_KINDS, kind)) return unknown('unknown-kind', kind, INSET_KINDS);
  const values = new Map<(typeof INSET_WORDS)[number], Word>();
  for (let i = 1; i < words.length; i += 2) {
    const { text: word } = words[i];
    const value = words.at(i + 1);
    if (!isOneOf(INSET_WORDS, word)) return unknown('unknown-word', word, INSET_WORDS);
    if (value === undefined) return { is: 'no-value', word };
    if (values.has(word)) return { is: 'twice', word };
    values.set(word, value);
  }
  const of = values.get('of');
  const number = values.get('case')?.text ?? '0';
  const figures = values.get('figures')?.text ?? 'none';
  if (!/^\d{1,6}$/.test(number)) return { is: 'bad-case', word: number };
  if (!isOneOf(INSET_FIGURES, figures)) return unknown('bad-figures', figures, INSET_FIGURES);
  return {
    kind,
    ...(of && { of: of.text, ofAt: { from: of.from, to: of.to } }),
    case: Number(number),
    language: values.get('in')?.text ?? 'en',
    figures,
  };
}
