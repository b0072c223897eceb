/**
 * The grammar of one item: a section's header, a line of a machine, a step, a record of what was found.
 *
 * Chevrotain reads a single item at a time and makes its node on the way. It does not recover from errors: lines.ts
 * cuts a line into items first, so that what can't be read costs no more than itself.
 */
import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import {
  Comma,
  Equals,
  LeftParen,
  Minus,
  Name,
  NumberToken,
  Open,
  Over,
  Plus,
  Power,
  type RegisterName,
  RightParen,
  Text,
  Times,
  TOKENS,
  WORDS,
  Words,
} from './tokens.js';
import type {
  Argument,
  Assignment,
  BenchHeader,
  BinaryOperator,
  CaseLine,
  ExpectItem,
  Expression,
  FoundLine,
  GoalLine,
  HeaderSyntax,
  LineItem,
  MachineHeader,
  NameSyntax,
  NumberSyntax,
  Part,
  PointItem,
  ProfileSyntax,
  RegisterSpan,
  SequenceHeader,
  Span,
  StepSyntax,
  TextSyntax,
  UseHeader,
} from './tree.js';

/** Just behind a token. Lines are short, so that only the offset of a token's first character is tracked. */
export const endOf = (token: IToken): number => token.startOffset + token.image.length;

const W = new Proxy(Words, {
  get: (words, word: string) => words[word] ?? fail(word),
}) as Readonly<Record<string, TokenType>>;
function fail(word: string): never {
  throw new Error(`“${word}” is missing from the table of words`);
}

/** Rules that read an item from its first token to its last. */
export type ItemRule = 'header' | 'profileLine' | 'step' | 'foundLine';

class ItemParser extends EmbeddedActionsParser {
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
    this.performSelfAnalysis();
  }

  /** From the given token to the one consumed last. */
  private span(first: IToken): Span {
    return { from: first.startOffset, to: endOf(this.LA(0)) };
  }

  // --- names, numbers, text -------------------------------------------------------------------------------------

  private number = this.RULE('number', (): NumberSyntax => {
    const token = this.CONSUME(NumberToken);
    return this.ACTION(() => numberOf(token));
  });

  private name = this.RULE('name', (): NameSyntax => {
    const token = this.CONSUME(Name);
    return this.ACTION(() => ({
      kind: 'name',
      name: token.image.normalize('NFC'),
      from: token.startOffset,
      to: endOf(token),
    }));
  });

  private text = this.RULE('text', (): TextSyntax => {
    const token = this.CONSUME(Text);
    return this.ACTION(() => ({
      kind: 'text',
      raw: token.image,
      value: token.image.slice(1, -1).replace(/\\(["\\])/g, '$1'),
      from: token.startOffset,
      to: endOf(token),
    }));
  });

  private argument = this.RULE(
    'argument',
    (): Argument =>
      this.OR<Argument>([{ ALT: () => this.SUBRULE(this.number) }, { ALT: () => this.SUBRULE(this.name) }]),
  );

  private register = this.RULE('register', (): RegisterSpan => {
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

  private assignment = this.RULE('assignment', (): Assignment => {
    const name = this.SUBRULE(this.name);
    this.CONSUME(Equals);
    const value = this.SUBRULE(this.number);
    return this.ACTION(() => ({ name, value, from: name.from, to: value.to }));
  });

  private part = this.RULE('part', (): Part => {
    const figures = this.SUBRULE(this.argument);
    let at: Argument | undefined;
    this.OPTION(() => {
      this.CONSUME(W.at);
      at = this.SUBRULE2(this.argument);
    });
    return at ? { figures, at } : { figures };
  });

  // --- sections -------------------------------------------------------------------------------------------------

  public header = this.RULE(
    'header',
    (): HeaderSyntax =>
      this.OR<HeaderSyntax>([
        { ALT: () => this.SUBRULE(this.useHeader) },
        { ALT: () => this.SUBRULE(this.machineHeader) },
        { ALT: () => this.SUBRULE(this.sequenceHeader) },
        { ALT: () => this.SUBRULE(this.benchHeader) },
      ]),
  );

  private useHeader = this.RULE('useHeader', (): UseHeader => {
    const first = this.CONSUME(W.use);
    const path = this.SUBRULE(this.text);
    return { kind: 'use', path, ...this.span(first) };
  });

  private machineHeader = this.RULE('machineHeader', (): MachineHeader => {
    const first = this.CONSUME(W.machine);
    const name = this.SUBRULE(this.name);
    const title = this.OPTION(() => this.SUBRULE(this.text));
    const like = this.OPTION2(() => {
      this.CONSUME(W.like);
      return this.SUBRULE2(this.name);
    });
    return { kind: 'machine', name, ...(title && { title }), ...(like && { like }), ...this.span(first) };
  });

  private sequenceHeader = this.RULE('sequenceHeader', (): SequenceHeader => {
    const first = this.CONSUME(W.sequence);
    const name = this.SUBRULE(this.name);
    const title = this.OPTION(() => this.SUBRULE(this.text));
    const parameters: Assignment[] = [];
    this.OPTION2(() => {
      this.CONSUME(LeftParen);
      parameters.push(this.SUBRULE(this.assignment));
      this.MANY(() => {
        this.CONSUME(Comma);
        parameters.push(this.SUBRULE2(this.assignment));
      });
      this.CONSUME(RightParen);
    });
    const on = this.OPTION3(() => {
      this.CONSUME(W.on);
      return this.SUBRULE2(this.name);
    });
    return { kind: 'sequence', name, parameters, ...(title && { title }), ...(on && { on }), ...this.span(first) };
  });

  private benchHeader = this.RULE('benchHeader', (): BenchHeader => {
    const first = this.CONSUME(W.bench);
    const title = this.SUBRULE(this.text);
    this.CONSUME(W.of);
    const of = this.SUBRULE(this.name);
    this.CONSUME(W.on);
    const on = this.SUBRULE2(this.name);
    return { kind: 'bench', title, of, on, ...this.span(first) };
  });

  // --- a machine ------------------------------------------------------------------------------------------------

  public profileLine = this.RULE(
    'profileLine',
    (): ProfileSyntax =>
      this.OR<ProfileSyntax>([
        { ALT: () => this.SUBRULE(this.settingLine) },
        { ALT: () => this.SUBRULE(this.counterLine) },
        { ALT: () => this.SUBRULE(this.resultLine) },
        { ALT: () => this.SUBRULE(this.subtractLine) },
        { ALT: () => this.SUBRULE(this.countLine) },
        { ALT: () => this.SUBRULE(this.plainLine) },
        { ALT: () => this.SUBRULE(this.transferLine) },
        { ALT: () => this.SUBRULE(this.effortLine) },
        { ALT: () => this.SUBRULE(this.phraseLine) },
        { ALT: () => this.SUBRULE(this.noLine) },
      ]),
  );

  private settingLine = this.RULE('settingLine', (): ProfileSyntax => {
    const first = this.OR([{ ALT: () => this.CONSUME(W.setting) }, { ALT: () => this.CONSUME(W.carriage) }]);
    const places = this.SUBRULE(this.number);
    return { kind: first.image as 'setting', places, ...this.span(first) };
  });

  private counterLine = this.RULE('counterLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.counter);
    const places = this.SUBRULE(this.number);
    const carry = this.OPTION(() => this.oneOf(['carry', 'plain', 'signed'] as const));
    return { kind: 'counter', places, ...(carry && { carry }), ...this.span(first) };
  });

  private resultLine = this.RULE('resultLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.result);
    const places = this.SUBRULE(this.number);
    const dials = this.OPTION(() => this.CONSUME(W.dials)) !== undefined;
    const reach = this.OPTION2(() => {
      this.CONSUME(W.reach);
      return this.SUBRULE2(this.number);
    });
    return { kind: 'result', places, dials, ...(reach && { reach }), ...this.span(first) };
  });

  private subtractLine = this.RULE('subtractLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.subtract);
    const way = this.oneOf(['reverse', 'lever', 'half-step', 'lift', 'none']);
    return { kind: 'subtract', way, ...this.span(first) };
  });

  private countLine = this.RULE('countLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.count);
    const way = this.oneOf(['follow', 'lever', 'first']);
    return { kind: 'count', way, ...this.span(first) };
  });

  private plainLine = this.RULE('plainLine', (): ProfileSyntax => {
    const first = this.OR([
      {
        ALT: () => {
          const park = this.CONSUME(W.park);
          this.CONSUME(W.left);
          return park;
        },
      },
      { ALT: () => this.CONSUME(W.bell) },
      { ALT: () => this.CONSUME(W['auto-clear']) },
      { ALT: () => this.CONSUME(W['auto-divide']) },
    ]);
    return { kind: first.image as 'park' | 'bell' | 'auto-clear' | 'auto-divide', ...this.span(first) };
  });

  private transferLine = this.RULE('transferLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.transfer);
    let register: 'result' | 'counter' = 'counter';
    let at: NumberSyntax | undefined;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(W.result);
          register = 'result';
          this.OPTION(() => {
            this.CONSUME(W.at);
            at = this.SUBRULE(this.number);
          });
        },
      },
      { ALT: () => this.CONSUME(W.counter) },
    ]);
    return { kind: 'transfer', register, ...(at && { at }), ...this.span(first) };
  });

  private effortLine = this.RULE('effortLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.effort);
    this.CONSUME(W.turn);
    const turn = this.SUBRULE1(this.number);
    this.CONSUME(W.shift);
    const shift = this.SUBRULE2(this.number);
    this.CONSUME(W.lever);
    const lever = this.SUBRULE3(this.number);
    return { kind: 'effort', turn, shift, lever, ...this.span(first) };
  });

  private phraseLine = this.RULE('phraseLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.phrase);
    const step = this.SUBRULE(this.words);
    const text = this.SUBRULE(this.text);
    return { kind: 'phrase', step, text, ...this.span(first) };
  });

  private noLine = this.RULE('noLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.no);
    const drops = this.SUBRULE(this.words);
    return { kind: 'no', drops, ...this.span(first) };
  });

  private words = this.RULE('words', (): string => {
    const words: string[] = [];
    this.AT_LEAST_ONE(() => words.push(this.oneOf(WORDS.map((w) => w.word))));
    return words.join(' ');
  });

  // --- a sequence -----------------------------------------------------------------------------------------------

  public step = this.RULE(
    'step',
    (): LineItem =>
      this.OR<LineItem>([
        { ALT: () => this.SUBRULE(this.turnStep) },
        { ALT: () => this.SUBRULE(this.setStep) },
        { ALT: () => this.SUBRULE(this.shiftStep) },
        { ALT: () => this.SUBRULE(this.expectStep) },
        { ALT: () => this.SUBRULE(this.clearStep) },
        { ALT: () => this.SUBRULE(this.transferStep) },
        { ALT: () => this.SUBRULE(this.dialStep) },
        { ALT: () => this.SUBRULE(this.modeStep) },
        { ALT: () => this.SUBRULE(this.countStep) },
        { ALT: () => this.SUBRULE(this.switchStep) },
        { ALT: () => this.SUBRULE(this.pointsStep) },
        { ALT: () => this.SUBRULE(this.askStep) },
        { ALT: () => this.SUBRULE(this.proseStep) },
        { ALT: () => this.SUBRULE(this.goalLine) },
        { ALT: () => this.SUBRULE(this.caseLine) },
        { ALT: () => this.SUBRULE(this.repeatStep) },
        { ALT: () => this.SUBRULE(this.runStep) },
        { ALT: () => this.SUBRULE(this.multiplyStep) },
        { ALT: () => this.SUBRULE(this.divideStep) },
      ]),
  );

  private setStep = this.RULE('setStep', (): StepSyntax => {
    const first = this.CONSUME(W.set);
    const parts: Part[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: W.and, DEF: () => parts.push(this.SUBRULE(this.part)) });
    return { kind: 'set', parts, ...this.span(first) };
  });

  private turnStep = this.RULE('turnStep', (): StepSyntax => {
    const first = this.CONSUME(W.turn);
    const back = this.OPTION(() => this.CONSUME(W.back)) !== undefined;
    let until: 'overdraw' | 'stop' | undefined;
    let count: Argument | undefined;
    this.OPTION2(() =>
      this.OR([
        {
          ALT: () => {
            this.CONSUME(W.until);
            until = this.oneOf(['overdraw', 'stop'] as const);
          },
        },
        {
          ALT: () => {
            count = this.SUBRULE(this.argument);
          },
        },
      ]),
    );
    return { kind: 'turn', back, ...(until && { until }), ...(count && { count }), ...this.span(first) };
  });

  private shiftStep = this.RULE('shiftStep', (): StepSyntax => {
    const first = this.CONSUME(W.shift);
    let way: 'right' | 'left' | 'to' | 'out' = 'out';
    let half = false;
    let count: Argument | undefined;
    this.OR([
      {
        ALT: () => {
          way = this.oneOf(['right', 'left']);
          this.OPTION(() =>
            this.OR3([
              {
                ALT: () => {
                  this.CONSUME(W.half);
                  half = true;
                },
              },
              {
                ALT: () => {
                  count = this.SUBRULE(this.argument);
                },
              },
            ]),
          );
        },
      },
      {
        ALT: () => {
          this.CONSUME(W.to);
          way = 'to';
          count = this.SUBRULE2(this.argument);
        },
      },
      { ALT: () => this.CONSUME(W.out) },
    ]);
    return { kind: 'shift', way, half, ...(count && { count }), ...this.span(first) };
  });

  private clearStep = this.RULE('clearStep', (): StepSyntax => {
    const first = this.CONSUME(W.clear);
    const registers: RegisterName[] = [];
    let all = false;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(W.all);
          all = true;
        },
      },
      { ALT: () => this.AT_LEAST_ONE(() => registers.push(this.SUBRULE(this.register).register)) },
    ]);
    return { kind: 'clear', registers, all, ...this.span(first) };
  });

  private transferStep = this.RULE('transferStep', (): StepSyntax => {
    const first = this.CONSUME(W.transfer);
    const register = this.oneOf(['result', 'counter']);
    return { kind: 'transfer', register, ...this.span(first) };
  });

  private dialStep = this.RULE('dialStep', (): StepSyntax => {
    const first = this.CONSUME(W.dial);
    this.CONSUME(W.result);
    const part = this.SUBRULE(this.part);
    return { kind: 'dial', part, ...this.span(first) };
  });

  private modeStep = this.RULE('modeStep', (): StepSyntax => {
    const first = this.CONSUME(W.mode);
    const drive = this.oneOf(['add', 'subtract']);
    return { kind: 'mode', drive, ...this.span(first) };
  });

  private countStep = this.RULE('countStep', (): StepSyntax => {
    const first = this.CONSUME(W.count);
    const sense = this.oneOf(['plus', 'minus']);
    return { kind: 'count', sense, ...this.span(first) };
  });

  private switchStep = this.RULE('switchStep', (): StepSyntax => {
    const first = this.OR([
      { ALT: () => this.CONSUME(W['auto-clear']) },
      { ALT: () => this.CONSUME(W['auto-divide']) },
    ]);
    const place = this.oneOf(['on', 'off']);
    return { kind: first.image as 'auto-clear' | 'auto-divide', on: place === 'on', ...this.span(first) };
  });

  private pointsStep = this.RULE('pointsStep', (): StepSyntax => {
    const first = this.CONSUME(W.points);
    const items: PointItem[] = [];
    this.AT_LEAST_ONE(() => {
      const register = this.SUBRULE(this.register);
      const decimals = this.SUBRULE(this.argument);
      this.ACTION(() => items.push({ ...register, decimals, to: decimals.to }));
    });
    return { kind: 'points', items, ...this.span(first) };
  });

  private expectItem = this.RULE('expectItem', (): ExpectItem => {
    const first = this.LA(1);
    let item: ExpectItem = { kind: 'bell', from: 0, to: 0 };
    this.OR([
      {
        ALT: () => {
          const { register } = this.SUBRULE(this.register);
          const negative = this.OPTION(() => this.CONSUME(Minus)) !== undefined;
          const figures = this.SUBRULE(this.argument);
          item = { kind: 'register', register, negative, figures, from: 0, to: 0 };
        },
      },
      {
        ALT: () => {
          this.CONSUME(W.carriage);
          item = { kind: 'carriage', position: this.SUBRULE2(this.argument), from: 0, to: 0 };
        },
      },
      {
        ALT: () => {
          item = { kind: this.oneOf(['bell', 'overflow', 'overdraw', 'parked']), from: 0, to: 0 };
        },
      },
    ]);
    const label = this.OPTION2(() => {
      this.CONSUME(W.as);
      return this.SUBRULE(this.name);
    });
    return { ...item, ...(label && { label }), ...this.span(first) };
  });

  private expectStep = this.RULE('expectStep', (): StepSyntax => {
    const first = this.CONSUME(W.expect);
    const items: ExpectItem[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.expectItem)));
    return { kind: 'expect', items, ...this.span(first) };
  });

  public foundLine = this.RULE('foundLine', (): FoundLine => {
    const first = this.CONSUME(W.found);
    const which = this.SUBRULE(this.argument);
    const items: ExpectItem[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.expectItem)));
    return { kind: 'found', which, items, ...this.span(first) };
  });

  private askStep = this.RULE('askStep', (): StepSyntax => {
    const first = this.CONSUME(W.ask);
    const items: RegisterSpan[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.register)));
    return { kind: 'ask', items, ...this.span(first) };
  });

  private proseStep = this.RULE('proseStep', (): StepSyntax => {
    const first = this.OR([{ ALT: () => this.CONSUME(W.note) }, { ALT: () => this.CONSUME(W.caution) }]);
    const text = this.SUBRULE(this.text);
    return { kind: first.image as 'note' | 'caution', text, ...this.span(first) };
  });

  private goalLine = this.RULE('goalLine', (): GoalLine => {
    const first = this.CONSUME(W.goal);
    const { register } = this.SUBRULE(this.register);
    this.CONSUME(Equals);
    const expression = this.SUBRULE(this.expression);
    return { kind: 'goal', register, expression, ...this.span(first) };
  });

  private caseLine = this.RULE('caseLine', (): CaseLine => {
    const first = this.CONSUME(W.case);
    const assignments: Assignment[] = [];
    assignments.push(this.SUBRULE(this.assignment));
    this.MANY(() => {
      this.CONSUME(Comma);
      assignments.push(this.SUBRULE2(this.assignment));
    });
    return { kind: 'case', assignments, ...this.span(first) };
  });

  private repeatStep = this.RULE('repeatStep', (): StepSyntax => {
    const first = this.CONSUME(W.repeat);
    const count = this.SUBRULE(this.argument);
    this.CONSUME(Open);
    return { kind: 'repeat', count, from: first.startOffset, to: count.to };
  });

  private runStep = this.RULE('runStep', (): StepSyntax => {
    const first = this.CONSUME(W.run);
    const name = this.SUBRULE(this.name);
    const args: Argument[] = [];
    this.OPTION(() => {
      this.CONSUME(LeftParen);
      this.MANY_SEP({ SEP: Comma, DEF: () => args.push(this.SUBRULE(this.argument)) });
      this.CONSUME(RightParen);
    });
    return { kind: 'run', name, args, ...this.span(first) };
  });

  private multiplyStep = this.RULE('multiplyStep', (): StepSyntax => {
    const first = this.CONSUME(W.multiply);
    this.CONSUME(W.by);
    const by = this.SUBRULE(this.argument);
    const short = this.OPTION(() => this.CONSUME(W.short)) !== undefined;
    return { kind: 'multiply', by, short, ...this.span(first) };
  });

  private divideStep = this.RULE('divideStep', (): StepSyntax => {
    const first = this.CONSUME(W.divide);
    const downTo = this.OPTION(() => {
      this.CONSUME(W.to);
      return this.SUBRULE(this.argument);
    });
    const short = this.OPTION2(() => this.CONSUME(W.short)) !== undefined;
    return { kind: 'divide', ...(downTo && { downTo }), short, ...this.span(first) };
  });

  // --- arithmetic -----------------------------------------------------------------------------------------------

  private expression = this.RULE('expression', (): Expression => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.CONSUME(Minus) }]);
      const right = this.SUBRULE2(this.product);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  private product = this.RULE('product', (): Expression => {
    let left = this.SUBRULE(this.signedTerm);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(Over) }]);
      const right = this.SUBRULE2(this.signedTerm);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  /** A minus binds less than a power: −3^2 is −9. */
  private signedTerm = this.RULE('signedTerm', (): Expression => {
    const minus = this.OPTION(() => this.CONSUME(Minus));
    const of = this.SUBRULE(this.power);
    return this.ACTION((): Expression => (minus ? { kind: 'negative', of, from: minus.startOffset, to: of.to } : of));
  });

  /** Powers go from right to left: 2^3^2 is 2^9. */
  private power = this.RULE('power', (): Expression => {
    const left = this.SUBRULE(this.operand);
    let whole: Expression = left;
    this.OPTION(() => {
      const operator = this.CONSUME(Power);
      const right = this.SUBRULE(this.signedTerm);
      whole = this.ACTION(() => binary(left, operator, right));
    });
    return whole;
  });

  private operand = this.RULE(
    'operand',
    (): Expression =>
      this.OR<Expression>([
        { ALT: () => this.SUBRULE(this.number) },
        { ALT: () => this.SUBRULE(this.name) },
        {
          ALT: () => {
            const first = this.CONSUME(W.sqrt);
            this.CONSUME(LeftParen);
            const of = this.SUBRULE(this.expression);
            this.CONSUME(RightParen);
            return { kind: 'sqrt', of, ...this.span(first) };
          },
        },
        {
          ALT: () => {
            const first = this.CONSUME2(LeftParen);
            const of = this.SUBRULE2(this.expression);
            this.CONSUME2(RightParen);
            return { kind: 'group', of, ...this.span(first) };
          },
        },
      ]),
  );

  /** Consumes one of these words and returns it. A rule may call this once; its alternatives take the index 9. */
  private oneOf<T extends string>(words: readonly T[]): T {
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

const binary = (left: Expression, operator: IToken, right: Expression): Expression => ({
  kind: 'binary',
  operator: operator.image as BinaryOperator,
  left,
  right,
  from: left.from,
  to: right.to,
});

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
