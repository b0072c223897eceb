/**
 * The grammar of one item: a section's header, a line of a machine, a step, a record of what was found.
 *
 * Chevrotain reads a single item at a time and makes its node on the way (rules/). It does not recover from errors:
 * lines.ts cuts a line into items first, so that what can't be read costs no more than itself.
 */
import type { IToken } from 'chevrotain';
import { StepRules } from './rules/steps.js';

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
