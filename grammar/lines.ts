/**
 * Reads one line: cuts it into items and parses each by itself.
 *
 * Invariant: parsing never fails. What can't be read becomes a located error and costs that item alone.
 * Invariant: a line's syntax depends on its text and on the kind of section it stands in, on nothing else, so that
 * equal lines share one object.
 */
import { type IToken, Lexer } from 'chevrotain';
import { nearest } from './nearest.js';
import { type ItemError, type ItemRule, parseItem } from './parser.js';
import { endOf } from './rules/basic.js';
import { Close, LeftParen, Name, Open, Power, RightParen, Semicolon, TOKENS, wordOf, wordsOf } from './tokens.js';
import type {
  CommentSyntax,
  HeaderSyntax,
  LineItem,
  LineSyntax,
  Section,
  SectionKind,
  Span,
  SyntaxProblem,
  TextError,
} from './tree.js';

/** A longer line is not read: no person wrote it. */
export const LONGEST_LINE = 4_000;
/** Parentheses inside one another in a goal. */
const DEEPEST_PARENTHESES = 40;
/** Powers in a goal: one may be the power of the next. */
const MOST_POWERS = 200;
/** Distinct lines that are remembered before the memory is started afresh. */
const REMEMBERED_LINES = 200_000;

/** Where a line stands: before any section, or in a section of a kind. */
export type LinePlace = Section['kind'];

const lexer = new Lexer(TOKENS, { positionTracking: 'onlyOffset' });

const RULES: Readonly<Record<'machine' | 'sequence' | 'bench', ItemRule>> = {
  machine: 'profileLine',
  sequence: 'step',
  bench: 'foundLine',
};

/** Remembers what it has read. One reader serves any number of files. */
export class LineReader {
  private readonly remembered = new Map<LinePlace, Map<string, LineSyntax>>();

  read(text: string, place: LinePlace): LineSyntax {
    let lines = this.remembered.get(place);
    if (!lines || lines.size > REMEMBERED_LINES) {
      lines = new Map();
      this.remembered.set(place, lines);
    }
    let line = lines.get(text);
    if (!line) {
      line = readLine(text, place);
      lines.set(text, line);
    }
    return line;
  }
}

const BLANK: readonly never[] = [];

/** Which section a line opens, if its first word opens one. */
export function opens(text: string): SectionKind | undefined {
  // Most lines are steps: one look at their first letter spares them the pattern.
  let at = 0;
  while (text.charCodeAt(at) === BLANK_CODE) at++;
  const code = text.charCodeAt(at);
  if (code > BLANK_CODE && code < 128 && !OPENING_LETTERS.has(code)) return undefined;
  const first = OPENER.exec(text)?.[1];
  return first as SectionKind | undefined;
}
const BLANK_CODE = 32;
const OPENING_LETTERS = new Set(wordsOf('section').map((word) => word.charCodeAt(0)));
const OPENER = new RegExp(`^[\\t\\v\\f\\p{Zs}\\ufeff]*(${wordsOf('section').join('|')})(?![\\p{L}\\p{M}\\p{N}-])`, 'u');

function readLine(text: string, place: LinePlace): LineSyntax {
  if (text.length > LONGEST_LINE) {
    const error: TextError = { problem: { is: 'line-too-long' }, from: 0, to: text.length };
    return { text, items: BLANK, errors: [error] };
  }
  const { tokens, groups } = lexer.tokenize(text);
  const comment = groups.comments?.[0];
  const reader = new ItemReader(text, place);
  reader.readAll(tokens);
  return {
    text,
    ...(reader.header && { header: reader.header }),
    items: reader.items,
    ...(comment && { comment: commentOf(comment) }),
    errors: reader.errors,
  };
}

const commentOf = (token: IToken): CommentSyntax => ({
  text: token.image.trimEnd(),
  from: token.startOffset,
  to: endOf(token),
});

class ItemReader {
  header: HeaderSyntax | undefined;
  readonly items: LineItem[] = [];
  readonly errors: TextError[] = [];
  private place: LinePlace;

  constructor(
    private readonly text: string,
    place: LinePlace,
  ) {
    this.place = place;
  }

  /** Cuts at `;`, behind `{` and around `}`. */
  readAll(tokens: IToken[]): void {
    let start = 0;
    const cut = (end: number) => {
      if (end > start) this.readItem(tokens.slice(start, end), start === 0);
      start = end;
    };
    for (let i = 0; i < tokens.length; i++) {
      const type = tokens[i].tokenType;
      if (type === Semicolon) {
        cut(i);
        start = i + 1;
      } else if (type === Open) {
        cut(i + 1);
      } else if (type === Close) {
        cut(i);
        this.items.push({ kind: 'close', ...spanOf(tokens[i], tokens[i]) });
        start = i + 1;
      }
    }
    cut(tokens.length);
  }

  private readItem(tokens: IToken[], isFirst: boolean): void {
    const first = tokens[0];
    const word = first.image;
    const opensSection = isFirst && wordOf(word)?.kinds.includes('section');
    if (opensSection) this.place = word as SectionKind;
    const rule: ItemRule | undefined = opensSection ? 'header' : RULES[this.place as keyof typeof RULES];
    const problem = this.firstWordProblem(word, rule) ?? (tooDeep(tokens) ? ({ is: 'too-deep' } as const) : undefined);
    if (problem || !rule) {
      this.errors.push({ problem: problem ?? { is: 'no-section', found: word }, ...spanOf(first, first) });
    } else {
      const node = parseItem(rule, tokens);
      if ('kind' in node) {
        if (rule === 'header') this.header = node as HeaderSyntax;
        else this.items.push(node as LineItem);
        return;
      }
      this.errors.push(errorOf(node, tokens, this.text));
    }
    // Its steps are kept and run once, so that the closing brace still has its partner.
    const isOpener = this.place === 'sequence' && tokens.at(-1)?.tokenType === Open;
    if (isOpener) this.items.push(unreadableRepeat(tokens));
  }

  /** An item whose first word can't begin one here needs no parser to say so. */
  private firstWordProblem(word: string, rule: ItemRule | undefined): SyntaxProblem | undefined {
    if (rule === 'header') return undefined;
    const kinds = wordOf(word)?.kinds ?? [];
    const stray = strayProblem(word);
    if (stray) return stray;
    if (kinds.includes('section')) return { is: 'not-a-section', found: word };
    if (!rule) {
      const near = nearest(word, wordsOf('section'));
      return near ? { is: 'not-a-section', found: word, nearest: near } : { is: 'no-section', found: word };
    }
    const wanted = rule === 'profileLine' ? 'machine' : 'step';
    const isFound = word === 'found';
    const isRecord = rule === 'foundLine';
    if (kinds.includes(wanted) && isFound === isRecord) return undefined;
    if (isFound) return { is: 'wrong-section', found: word, belongs: 'bench' };
    if (kinds.includes('step')) return { is: 'wrong-section', found: word, belongs: 'sequence' };
    if (kinds.includes('machine')) return { is: 'wrong-section', found: word, belongs: 'machine' };
    const near = nearest(word, isRecord ? ['found'] : wordsOf(wanted));
    return { is: wanted === 'machine' ? 'not-a-line' : 'not-a-step', found: word, ...(near && { nearest: near }) };
  }
}

/** A point or a quotation mark that no number and no text has taken. */
const strayProblem = (image: string): SyntaxProblem | undefined =>
  image === '.' ? { is: 'number-point' } : image === '"' ? { is: 'unclosed-text' } : undefined;

function errorOf(error: ItemError, tokens: IToken[], text: string): TextError {
  const first = tokens[0];
  const last = tokens[tokens.length - 1];
  const at = error.at ?? last;
  const span = error.at ? spanOf(at, at) : { from: endOf(last) - 1, to: endOf(last) };
  const found = error.at?.image ?? '';
  const known = found === '"' ? textProblem(text.slice(at.startOffset)) : strayProblem(found);
  if (known) return { problem: known, ...(found === '"' ? spanOf(at, last) : span) };
  if (error.expected === Name.name && wordOf(found)) return { problem: { is: 'keyword-as-name', found }, ...span };
  const forms = Object.values(wordOf(first.image)?.forms ?? {}).flat();
  return { problem: { is: 'form', word: first.image, found, forms }, ...span };
}

/** Whether a text would end, if only its escapes were such as there are. */
const textProblem = (rest: string): SyntaxProblem => ({
  is: /^"(?:[^"\\]|\\.)*"/.test(rest) ? 'text-escape' : 'unclosed-text',
});

function tooDeep(tokens: readonly IToken[]): boolean {
  let depth = 0;
  let deepest = 0;
  let powers = 0;
  for (const { tokenType } of tokens) {
    if (tokenType === LeftParen) deepest = Math.max(deepest, ++depth);
    else if (tokenType === RightParen) depth--;
    else if (tokenType === Power) powers++;
  }
  return deepest > DEEPEST_PARENTHESES || powers > MOST_POWERS;
}

const spanOf = (first: IToken, last: IToken): Span => ({ from: first.startOffset, to: endOf(last) });

function unreadableRepeat(tokens: IToken[]): LineItem {
  const span = spanOf(tokens[0], tokens[tokens.length - 1]);
  const once = { kind: 'number', text: '1', figures: '1', isValue: false, decimals: 0 } as const;
  return { kind: 'repeat', count: { ...once, from: span.to, to: span.to }, ...span };
}
