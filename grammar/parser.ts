/**
 * The grammar of one item: a section's header, a line of a machine, a step, a record of what was found.
 *
 * Chevrotain reads a single item at a time and makes its node on the way (rules/). It does not recover from errors:
 * lines.ts cuts a line into items first, so that what can't be read costs no more than itself.
 */
import type { IToken, TokenType } from 'chevrotain';
import { StepRules } from './rules/steps.js';
import { Name, NumberToken, Text, TOKENS } from './tokens.js';

/** Rules that read an item from its first token to its last. */
export type ItemRule = 'header' | 'profileLine' | 'step' | 'foundLine';

/** Each file of rules adds to the one before: Chevrotain wants all rules in one object. */
class ItemParser extends StepRules {
  constructor() {
    super();
    this.performSelfAnalysis();
  }
}

const parser = new ItemParser();

export interface ItemError {
  /** The token that doesn't fit, or undefined where the item ends too early. */
  readonly at?: IToken;
  /** The token type that alone would have fitted, where there is just one. */
  readonly expected: string;
}

/** Reads one item; the tokens must be of one line. */
export function parseItem<R extends ItemRule>(rule: R, tokens: IToken[]): ReturnType<ItemParser[R]> | ItemError {
  parser.input = tokens;
  const node = parser[rule]() as ReturnType<ItemParser[R]>;
  const error = parser.errors[0];
  if (!error) return node;
  const last = tokens.at(-1) as IToken;
  const at =
    Number.isNaN(error.token.startOffset) || error.token.startOffset > last.startOffset ? undefined : error.token;
  return at ? { at, expected: error.message } : { expected: error.message };
}

/** A token that may come next, and which rules have led to it. */
export interface NextToken {
  /** A word or a sign as it is written; `Name`, `Number` or `Text` for what is not written the same each time. */
  readonly token: string;
  /** The rules inside one another, from that of the item, and of each the number with which the one above calls it. */
  readonly rules: readonly string[];
  readonly calls: readonly number[];
}

/** An item that was begun may have so many tokens: what could come next is asked for at every stroke of a key. */
const MOST_BEGUN = 300;

/** What may come next in an item of which these tokens are written; nothing where they don't fit. */
export function nextTokens(rule: ItemRule, begun: readonly string[]): NextToken[] {
  if (begun.length > MOST_BEGUN) return [];
  const paths = parser.computeContentAssist(rule, begun.map(tokenFor));
  return paths.map(({ nextTokenType, ruleStack, occurrenceStack }) => ({
    token: typeof nextTokenType.PATTERN === 'string' ? nextTokenType.PATTERN : nextTokenType.name,
    rules: ruleStack,
    calls: occurrenceStack,
  }));
}

const fixed: ReadonlyMap<string, TokenType> = new Map(
  TOKENS.flatMap((type) => (typeof type.PATTERN === 'string' ? [[type.PATTERN, type]] : [])),
);

function tokenFor(image: string): IToken {
  const type = fixed.get(image) ?? (/^\d/.test(image) ? NumberToken : image.startsWith('"') ? Text : Name);
  return { image, startOffset: 0, tokenType: type, tokenTypeIdx: type.tokenTypeIdx ?? 0 };
}
