/** The arithmetic of goals. */
import type { IToken } from 'chevrotain';
import { LeftParen, Minus, Over, Plus, Power, RightParen, Times } from '../tokens.js';
import type { BinaryOperator, Expression } from '../tree.js';
import { BasicRules, W } from './basic.js';

export class ArithmeticRules extends BasicRules {
  protected expression = this.RULE('expression', (): Expression => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.CONSUME(Minus) }]);
      const right = this.SUBRULE2(this.product);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  protected product = this.RULE('product', (): Expression => {
    let left = this.SUBRULE(this.signedTerm);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(Over) }]);
      const right = this.SUBRULE2(this.signedTerm);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  /** A minus binds less than a power: −3^2 is −9. */
  protected signedTerm = this.RULE('signedTerm', (): Expression => {
    const minus = this.OPTION(() => this.CONSUME(Minus));
    const of = this.SUBRULE(this.power);
    return this.ACTION((): Expression => (minus ? { kind: 'negative', of, from: minus.startOffset, to: of.to } : of));
  });

  /** Powers go from right to left: 2^3^2 is 2^9. */
  protected power = this.RULE('power', (): Expression => {
    const left = this.SUBRULE(this.operand);
    let whole: Expression = left;
    this.OPTION(() => {
      const operator = this.CONSUME(Power);
      const right = this.SUBRULE(this.signedTerm);
      whole = this.ACTION(() => binary(left, operator, right));
    });
    return whole;
  });

  protected operand = this.RULE(
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
}

const binary = (left: Expression, operator: IToken, right: Expression): Expression => ({
  kind: 'binary',
  operator: operator.image as BinaryOperator,
  left,
  right,
  from: left.from,
  to: right.to,
});
