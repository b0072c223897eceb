/** The line that opens a section. */
import { Comma, LeftParen, RightParen } from '../tokens.js';
import type { Assignment, BenchHeader, HeaderSyntax, MachineHeader, SequenceHeader, UseHeader } from '../tree.js';
import { ArithmeticRules } from './arithmetic.js';
import { W } from './basic.js';

export class HeaderRules extends ArithmeticRules {
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

  protected useHeader = this.RULE('useHeader', (): UseHeader => {
    const first = this.CONSUME(W.use);
    const path = this.SUBRULE(this.text);
    return { kind: 'use', path, ...this.span(first) };
  });

  protected machineHeader = this.RULE('machineHeader', (): MachineHeader => {
    const first = this.CONSUME(W.machine);
    const name = this.SUBRULE(this.name);
    const title = this.OPTION(() => this.SUBRULE(this.text));
    const like = this.OPTION2(() => {
      this.CONSUME(W.like);
      return this.SUBRULE2(this.name);
    });
    return { kind: 'machine', name, ...(title && { title }), ...(like && { like }), ...this.span(first) };
  });

  protected sequenceHeader = this.RULE('sequenceHeader', (): SequenceHeader => {
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

  protected benchHeader = this.RULE('benchHeader', (): BenchHeader => {
    const first = this.CONSUME(W.bench);
    const title = this.SUBRULE(this.text);
    this.CONSUME(W.of);
    const of = this.SUBRULE(this.name);
    this.CONSUME(W.on);
    const on = this.SUBRULE2(this.name);
    return { kind: 'bench', title, of, on, ...this.span(first) };
  });
}
