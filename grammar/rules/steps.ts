/** Prose, goals, cases, steps that hold or stand for others; and the choice among all steps. */
import { Comma, Equals, LeftParen, Open, RightParen } from '../tokens.js';
import type { Argument, Assignment, CaseLine, GoalLine, LineItem, StepSyntax } from '../tree.js';
import { W } from './basic.js';
import { HandRules } from './hands.js';

export class StepRules extends HandRules {
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

  protected proseStep = this.RULE('proseStep', (): StepSyntax => {
    const first = this.OR([{ ALT: () => this.CONSUME(W.note) }, { ALT: () => this.CONSUME(W.caution) }]);
    const text = this.SUBRULE(this.text);
    return { kind: first.image as 'note' | 'caution', text, ...this.span(first) };
  });

  protected goalLine = this.RULE('goalLine', (): GoalLine => {
    const first = this.CONSUME(W.goal);
    const { register } = this.SUBRULE(this.register);
    this.CONSUME(Equals);
    const expression = this.SUBRULE(this.expression);
    return { kind: 'goal', register, expression, ...this.span(first) };
  });

  protected caseLine = this.RULE('caseLine', (): CaseLine => {
    const first = this.CONSUME(W.case);
    const assignments: Assignment[] = [];
    assignments.push(this.SUBRULE(this.assignment));
    this.MANY(() => {
      this.CONSUME(Comma);
      assignments.push(this.SUBRULE2(this.assignment));
    });
    return { kind: 'case', assignments, ...this.span(first) };
  });

  protected repeatStep = this.RULE('repeatStep', (): StepSyntax => {
    const first = this.CONSUME(W.repeat);
    const count = this.SUBRULE(this.argument);
    this.CONSUME(Open);
    return { kind: 'repeat', count, from: first.startOffset, to: count.to };
  });

  protected runStep = this.RULE('runStep', (): StepSyntax => {
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

  protected multiplyStep = this.RULE('multiplyStep', (): StepSyntax => {
    const first = this.CONSUME(W.multiply);
    this.CONSUME(W.by);
    const by = this.SUBRULE(this.argument);
    const short = this.OPTION(() => this.CONSUME(W.short)) !== undefined;
    return { kind: 'multiply', by, short, ...this.span(first) };
  });

  protected divideStep = this.RULE('divideStep', (): StepSyntax => {
    const first = this.CONSUME(W.divide);
    const downTo = this.OPTION(() => {
      this.CONSUME(W.to);
      return this.SUBRULE(this.argument);
    });
    const short = this.OPTION2(() => this.CONSUME(W.short)) !== undefined;
    return { kind: 'divide', ...(downTo && { downTo }), short, ...this.span(first) };
  });
}
