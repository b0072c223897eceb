/** Names, numbers and texts: what the other rules are made of. */
import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import { Equals, Name, NumberToken, type RegisterName, Text, TOKENS, Words } from '../tokens.js';
import type { Argument, Assignment, NameSyntax, NumberSyntax, Part, RegisterSpan, Span, TextSyntax } from '../tree.js';

/** Just behind a token. Lines are short, so that only the offset of a token's first character is tracked. */
export const endOf = (token: IToken): number => token.startOffset + token.image.length;

/** The token of a word; a word that the table does not have is a mistake of the grammar's own. */
export const W = new Proxy(Words, {
  get: (words, word: string) => words[word] ?? fail(word),
}) as Readonly<Record<string, TokenType>>;
function fail(word: string): never {
  throw new Error(`“${word}” is missing from the table of words`);
}

export class BasicRules extends EmbeddedActionsParser {
  constructor() {
    super(TOKENS, {
      recoveryEnabled: false,
      maxLookahead: 2,
      errorMessageProvider: {
        // Only what was expected is kept of an error: the words come from the messages, in the reader's language.
        buildMismatchTokenMessage: ({ expected }) => expected.name,
        buildNotAllInputParsedMessage: () => '',
        buildNoViableAltMessage: () => '',
        buildEarlyExitMessage: () => '',
      },
    });
  }

  /** From the given token to the one consumed last. */
  protected span(first: IToken): Span {
    return { from: first.startOffset, to: endOf(this.LA(0)) };
  }

  protected number = this.RULE('number', (): NumberSyntax => {
    const token = this.CONSUME(NumberToken);
    return this.ACTION(() => numberOf(token));
  });

  protected name = this.RULE('name', (): NameSyntax => {
    const token = this.CONSUME(Name);
    return this.ACTION(() => ({
      kind: 'name',
      name: token.image.normalize('NFC'),
      from: token.startOffset,
      to: endOf(token),
    }));
  });

  protected text = this.RULE('text', (): TextSyntax => {
    const token = this.CONSUME(Text);
    return this.ACTION(() => ({
      kind: 'text',
      raw: token.image,
      value: token.image.slice(1, -1).replace(/\\(["\\])/g, '$1'),
      from: token.startOffset,
      to: endOf(token),
    }));
  });

  protected argument = this.RULE(
    'argument',
    (): Argument =>
      this.OR<Argument>([{ ALT: () => this.SUBRULE(this.number) }, { ALT: () => this.SUBRULE(this.name) }]),
  );

  protected register = this.RULE('register', (): RegisterSpan => {
    const token = this.OR([
      { ALT: () => this.CONSUME(W.setting) },
      { ALT: () => this.CONSUME(W.counter) },
      { ALT: () => this.CONSUME(W.result) },
    ]);
    return this.ACTION(() => ({
      register: token.image as RegisterName,
      from: token.startOffset,
      to: endOf(token),
    }));
  });

  protected assignment = this.RULE('assignment', (): Assignment => {
    const name = this.SUBRULE(this.name);
    this.CONSUME(Equals);
    const value = this.SUBRULE(this.number);
    return this.ACTION(() => ({ name, value, from: name.from, to: value.to }));
  });

  protected part = this.RULE('part', (): Part => {
    const figures = this.SUBRULE(this.argument);
    let at: Argument | undefined;
    this.OPTION(() => {
      this.CONSUME(W.at);
      at = this.SUBRULE2(this.argument);
    });
    return at ? { figures, at } : { figures };
  });

  /** Consumes one of these words and returns it. A rule may call this once; its alternatives take the index 9. */
  protected oneOf<T extends string>(words: readonly T[]): T {
    return this.or(
      9,
      words.map((word) => ({ ALT: () => this.CONSUME(W[word]) })),
    ).image as T;
  }
}

function numberOf(token: IToken): NumberSyntax {
  const text = token.image;
  const plain = text.replace(/[_']/g, '');
  const point = plain.indexOf('.');
  return {
    kind: 'number',
    text,
    figures: point < 0 ? plain : plain.slice(0, point) + plain.slice(point + 1),
    isValue: point >= 0,
    decimals: point < 0 ? 0 : plain.length - point - 1,
    from: token.startOffset,
    to: endOf(token),
  };
}
