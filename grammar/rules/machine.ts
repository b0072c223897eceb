/** The lines of a machine. */
import { WORDS } from '../tokens.js';
import type { NumberSyntax, ProfileSyntax } from '../tree.js';
import { W } from './basic.js';
import { HeaderRules } from './headers.js';

export class MachineRules extends HeaderRules {
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

  protected settingLine = this.RULE('settingLine', (): ProfileSyntax => {
    const first = this.OR([{ ALT: () => this.CONSUME(W.setting) }, { ALT: () => this.CONSUME(W.carriage) }]);
    const places = this.SUBRULE(this.number);
    return { kind: first.image as 'setting', places, ...this.span(first) };
  });

  protected counterLine = this.RULE('counterLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.counter);
    const places = this.SUBRULE(this.number);
    const carry = this.OPTION(() => this.oneOf(['carry', 'plain', 'signed'] as const));
    return { kind: 'counter', places, ...(carry && { carry }), ...this.span(first) };
  });

  protected resultLine = this.RULE('resultLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.result);
    const places = this.SUBRULE(this.number);
    const dials = this.OPTION(() => this.CONSUME(W.dials)) !== undefined;
    const reach = this.OPTION2(() => {
      this.CONSUME(W.reach);
      return this.SUBRULE2(this.number);
    });
    return { kind: 'result', places, dials, ...(reach && { reach }), ...this.span(first) };
  });

  protected subtractLine = this.RULE('subtractLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.subtract);
    const way = this.oneOf(['reverse', 'lever', 'half-step', 'lift', 'none']);
    return { kind: 'subtract', way, ...this.span(first) };
  });

  protected countLine = this.RULE('countLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.count);
    const way = this.oneOf(['follow', 'lever', 'first']);
    return { kind: 'count', way, ...this.span(first) };
  });

  protected plainLine = this.RULE('plainLine', (): ProfileSyntax => {
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

  protected transferLine = this.RULE('transferLine', (): ProfileSyntax => {
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

  protected effortLine = this.RULE('effortLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.effort);
    this.CONSUME(W.turn);
    const turn = this.SUBRULE1(this.number);
    this.CONSUME(W.shift);
    const shift = this.SUBRULE2(this.number);
    this.CONSUME(W.lever);
    const lever = this.SUBRULE3(this.number);
    return { kind: 'effort', turn, shift, lever, ...this.span(first) };
  });

  protected phraseLine = this.RULE('phraseLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.phrase);
    const step = this.SUBRULE(this.words);
    const text = this.SUBRULE(this.text);
    return { kind: 'phrase', step, text, ...this.span(first) };
  });

  protected noLine = this.RULE('noLine', (): ProfileSyntax => {
    const first = this.CONSUME(W.no);
    const drops = this.SUBRULE(this.words);
    return { kind: 'no', drops, ...this.span(first) };
  });

  protected words = this.RULE('words', (): string => {
    const words: string[] = [];
    this.AT_LEAST_ONE(() => words.push(this.oneOf(WORDS.map((w) => w.word))));
    return words.join(' ');
  });
}
