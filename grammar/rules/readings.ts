/** Markers, and what somebody reads: `points`, `expect`, `ask`, `found`. */
import { Minus } from '../tokens.js';
import type { ExpectItem, FoundLine, PointItem, RegisterSpan, StepSyntax } from '../tree.js';
import { W } from './basic.js';
import { MachineRules } from './machine.js';

export class ReadingRules extends MachineRules {
  protected pointsStep = this.RULE('pointsStep', (): StepSyntax => {
    const first = this.CONSUME(W.points);
    const items: PointItem[] = [];
    this.AT_LEAST_ONE(() => {
      const register = this.SUBRULE(this.register);
      const decimals = this.SUBRULE(this.argument);
      this.ACTION(() => items.push({ ...register, decimals, to: decimals.to }));
    });
    return { kind: 'points', items, ...this.span(first) };
  });

  protected expectItem = this.RULE('expectItem', (): ExpectItem => {
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

  protected expectStep = this.RULE('expectStep', (): StepSyntax => {
    const first = this.CONSUME(W.expect);
    const items: ExpectItem[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.expectItem)));
    return { kind: 'expect', items, ...this.span(first) };
  });

  public foundLine = this.RULE('foundLine', (): FoundLine => {
    const first = this.CONSUME(W.found);
    const which = this.SUBRULE(this.argument);
    const items: ExpectItem[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.foundItem)));
    return { kind: 'found', which, items, ...this.span(first) };
  });

  /** As behind `expect`; what did not happen is recorded as well. */
  protected foundItem = this.RULE(
    'foundItem',
    (): ExpectItem =>
      this.OR<ExpectItem>([
        {
          ALT: () => {
            const first = this.CONSUME(W.no);
            const kind = this.oneOf(['bell', 'overflow', 'overdraw', 'parked']);
            return { kind, isAbsent: true, ...this.span(first) };
          },
        },
        { ALT: () => this.SUBRULE(this.expectItem) },
      ]),
  );

  protected askStep = this.RULE('askStep', (): StepSyntax => {
    const first = this.CONSUME(W.ask);
    const items: RegisterSpan[] = [];
    this.AT_LEAST_ONE(() => items.push(this.SUBRULE(this.register)));
    return { kind: 'ask', items, ...this.span(first) };
  });
}
