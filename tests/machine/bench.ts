/** A machine on the bench: a profile made from a few differences, and a state that can be written and read as text. */
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  COUNTER,
  Crank,
  DEFAULT_EFFORT,
  fromText,
  has,
  newState,
  POSITION,
  type Profile,
  put,
  RANG,
  RESULT,
  SETTING,
  type State,
  SUBTRACTING,
  setDrive,
  textOf,
  WRAPS,
} from '../../server/machine/index.js';

/** Four levers, four counter places, eight result places; the crank turns both ways. */
export const profileWith = (differences: Partial<Profile> = {}): Profile => ({
  name: 'bench',
  setting: 4,
  counter: 4,
  counterCarry: 'carry',
  result: 8,
  dials: false,
  carriage: 4,
  subtract: 'reverse',
  count: 'follow',
  park: false,
  bell: false,
  autoClear: false,
  autoDivide: false,
  transferResult: 'none',
  transferCounter: false,
  effort: DEFAULT_EFFORT,
  phrases: {},
  ...differences,
});

export class Bench {
  readonly profile: Profile;
  readonly state: State = newState();
  private readonly crank: Crank;

  constructor(differences: Partial<Profile> = {}) {
    this.profile = profileWith(differences);
    this.crank = new Crank(this.profile);
  }

  set(setting: string, result?: string, counter?: string): this {
    fromText(this.state, SETTING, setting);
    if (result !== undefined) fromText(this.state, RESULT, result);
    if (counter !== undefined) fromText(this.state, COUNTER, counter);
    return this;
  }
  at(position: number): this {
    this.state[POSITION] = position;
    return this;
  }
  subtracting(on = true): this {
    setDrive(this.state, on);
    return this;
  }
  counting(sense: 'plus' | 'minus'): this {
    put(this.state, COUNT_MINUS, sense === 'minus');
    return this;
  }
  autoClear(): this {
    put(this.state, AUTO_CLEAR, true);
    return this;
  }
  autoDivide(): this {
    put(this.state, AUTO_DIVIDE, true);
    return this;
  }

  /** Turns and gathers what was noticed in any of the turns. */
  turn(times = 1, back = false): number {
    let noticed = 0;
    for (let i = 0; i < times; i++) noticed |= this.crank.turn(this.state, back);
    return noticed;
  }
  back(times = 1): number {
    return this.turn(times, true);
  }

  get setting(): string {
    return textOf(this.state, this.profile, 'setting');
  }
  get counter(): string {
    return textOf(this.state, this.profile, 'counter');
  }
  get result(): string {
    return textOf(this.state, this.profile, 'result');
  }
  get position(): number {
    return this.state[POSITION];
  }
  get wraps(): number {
    return this.state[WRAPS];
  }
  get rang(): boolean {
    return has(this.state, RANG);
  }
  get isSubtracting(): boolean {
    return has(this.state, SUBTRACTING);
  }
}
