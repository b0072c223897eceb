/** The crank, the carriage, levers, wheels and buttons. */

import type { RegisterName } from '../tokens.js';
import type { Argument, Part, StepSyntax } from '../tree.js';
import { W } from './basic.js';
import { ReadingRules } from './readings.js';

export class HandRules extends ReadingRules {
  protected setStep = this.RULE('setStep', (): StepSyntax => {
    const first = this.CONSUME(W.set);
    const parts: Part[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: W.and, DEF: () => parts.push(this.SUBRULE(this.part)) });
    return { kind: 'set', parts, ...this.span(first) };
  });

  protected turnStep = this.RULE('turnStep', (): StepSyntax => {
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

  protected shiftStep = this.RULE('shiftStep', (): StepSyntax => {
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

  protected clearStep = this.RULE('clearStep', (): StepSyntax => {
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

  protected transferStep = this.RULE('transferStep', (): StepSyntax => {
    const first = this.CONSUME(W.transfer);
    const register = this.oneOf(['result', 'counter']);
    return { kind: 'transfer', register, ...this.span(first) };
  });

  protected dialStep = this.RULE('dialStep', (): StepSyntax => {
    const first = this.CONSUME(W.dial);
    this.CONSUME(W.result);
    const part = this.SUBRULE(this.part);
    return { kind: 'dial', part, ...this.span(first) };
  });

  protected modeStep = this.RULE('modeStep', (): StepSyntax => {
    const first = this.CONSUME(W.mode);
    const drive = this.oneOf(['add', 'subtract']);
    return { kind: 'mode', drive, ...this.span(first) };
  });

  protected countStep = this.RULE('countStep', (): StepSyntax => {
    const first = this.CONSUME(W.count);
    const sense = this.oneOf(['plus', 'minus']);
    return { kind: 'count', sense, ...this.span(first) };
  });

  protected switchStep = this.RULE('switchStep', (): StepSyntax => {
    const first = this.OR([
      { ALT: () => this.CONSUME(W['auto-clear']) },
      { ALT: () => this.CONSUME(W['auto-divide']) },
    ]);
    const place = this.oneOf(['on', 'off']);
    return { kind: first.image as 'auto-clear' | 'auto-divide', on: place === 'on', ...this.span(first) };
  });
}
