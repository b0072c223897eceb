/**
 * The machine once more, one wheel after the other: slow and plain. Nothing of the project's own machine is used here.
 * It may have one fault, given as it is written: `carry-lost result 5 add`.
 *
 * Wheels are lists of figures, the units first. Positions and places count from 1.
 */

export interface Plan {
  readonly setting: number;
  readonly counter: number;
  readonly carry: 'carry' | 'plain' | 'signed';
  readonly result: number;
  readonly reach: number | undefined;
  readonly carriage: number;
  readonly subtract: 'reverse' | 'lever' | 'half-step' | 'lift' | 'none';
  readonly count: 'follow' | 'lever' | 'first';
  readonly park: boolean;
  readonly bell: boolean;
  readonly dials: boolean;
  readonly autoClear: boolean;
  readonly autoDivide: boolean;
  readonly transferResult: 'none' | 'anywhere' | 'at 1';
  readonly transferCounter: boolean;
}

export type Deed =
  | { readonly do: 'set'; readonly digits: string; readonly at: number }
  | { readonly do: 'dial'; readonly digits: string; readonly at: number }
  | { readonly do: 'turn'; readonly back: boolean; readonly times: number }
  | { readonly do: 'until'; readonly back: boolean; readonly end: 'overdraw' | 'stop' }
  | { readonly do: 'shift'; readonly by: number }
  | { readonly do: 'shift to'; readonly position: number }
  | { readonly do: 'shift out' }
  | { readonly do: 'shift half'; readonly way: 1 | -1 }
  | { readonly do: 'clear'; readonly registers: readonly ('setting' | 'counter' | 'result')[] }
  | { readonly do: 'transfer'; readonly register: 'counter' | 'result' }
  | { readonly do: 'mode'; readonly subtracts: boolean }
  | { readonly do: 'count'; readonly minus: boolean }
  | { readonly do: 'auto-clear' | 'auto-divide'; readonly on: boolean }
  | { readonly do: 'multiply'; readonly digits: string }
  | { readonly do: 'divide'; readonly to: number };

/** What the machine shows after a step, as a trace has it. */
export interface Shown {
  readonly setting: string;
  readonly counter: string;
  readonly result: string;
  readonly position: number;
  readonly drive: 'add' | 'subtract';
  readonly count: 'plus' | 'minus';
  readonly autoClear: boolean;
  readonly autoDivide: boolean;
  readonly wraps: number;
  readonly bell: boolean;
  readonly turns: number;
}

const noughts = (places: number): number[] => Array(places).fill(0);

export class SlowMachine {
  readonly rows: Shown[] = [];
  /** What went wrong in turns, and in which deed, counted from 0. */
  readonly mishaps = new Set<string>();
  private setting: number[];
  private counter: number[];
  private result: number[];
  private position = 1;
  private subtracts = false;
  private minus = false;
  private clears = false;
  private divides = false;
  private sense = 0;
  private wraps = 0;
  private bell = false;
  private turns = 0;
  private overdrew = false;
  private isOver = false;
  private deed = 0;
  private stuck = false;
  /** Nobody came to the end of a step. */
  get neverEnded(): boolean {
    return this.isOver;
  }

  constructor(
    private readonly plan: Plan,
    private readonly fault = '',
  ) {
    this.setting = noughts(plan.setting);
    this.counter = noughts(plan.counter);
    this.result = noughts(plan.result);
  }

  run(deeds: readonly Deed[]): void {
    for (const [i, deed] of deeds.entries()) {
      this.deed = i;
      if (deed.do === 'multiply') this.multiply(deed.digits);
      else if (deed.do === 'divide') this.divide(deed.to);
      else this.step(deed);
    }
  }

  private step(deed: Deed, stopsBelow = 1): void {
    if (this.isOver) return;
    this.bell = false;
    this.turns = 0;
    this.perform(deed, stopsBelow);
    const figures = (wheels: number[]) => [...wheels].reverse().join('');
    this.rows.push({
      setting: figures(this.setting),
      counter: figures(this.counter),
      result: figures(this.result),
      position: this.position,
      drive: this.subtracts ? 'subtract' : 'add',
      count: this.minus ? 'minus' : 'plus',
      autoClear: this.clears,
      autoDivide: this.divides,
      wraps: this.wraps,
      bell: this.bell,
      turns: this.turns,
    });
  }

  private get hasLever(): boolean {
    return ['lever', 'half-step', 'lift'].includes(this.plan.subtract);
  }
  private get canPark(): boolean {
    return this.plan.park || this.plan.subtract === 'half-step';
  }

  private perform(deed: Deed, stopsBelow: number): void {
    const { plan } = this;
    switch (deed.do) {
      case 'set': {
        const wheels = this.placed(deed.digits, deed.at, plan.setting);
        if (wheels) this.setting = wheels;
        return;
      }
      case 'dial': {
        const wheels = plan.dials ? this.placed(deed.digits, deed.at, plan.result) : undefined;
        if (!wheels) return;
        this.result = wheels;
        this.wraps = 0;
        this.stuck = false;
        return;
      }
      case 'turn':
        if (deed.back && plan.subtract !== 'reverse') return;
        for (let i = 0; i < deed.times; i++) this.turn(deed.back);
        return;
      case 'until':
        if (deed.back && plan.subtract !== 'reverse') return;
        return this.turnUntil(deed.back, deed.end, stopsBelow);
      case 'shift':
        this.position = Math.min(plan.carriage, Math.max(this.canPark ? 0 : 1, this.position + deed.by));
        return;
      case 'shift to':
        if (deed.position >= 1 && deed.position <= plan.carriage) this.position = deed.position;
        return;
      case 'shift out':
        if (this.canPark) this.position = 0;
        return;
      case 'shift half':
        return this.half(deed.way);
      case 'clear':
        if (plan.counter === 0 && deed.registers.includes('counter') && deed.registers.length < 3) return;
        for (const register of deed.registers) this.clear(register);
        return;
      case 'transfer':
        return this.transfer(deed.register);
      case 'mode':
        if (this.hasLever) this.subtracts = deed.subtracts;
        return;
      case 'count':
        if (plan.count === 'lever') this.minus = deed.minus;
        return;
      case 'auto-clear':
        if (plan.autoClear) this.clears = deed.on;
        return;
      case 'auto-divide':
        if (plan.autoDivide) this.divides = deed.on;
    }
  }

  private placed(digits: string, at: number, places: number): number[] | undefined {
    if (at < 1 || at + digits.length - 1 > places) return undefined;
    const wheels = noughts(places);
    [...digits].reverse().forEach((digit, i) => {
      wheels[at - 1 + i] = Number(digit);
    });
    return wheels;
  }

  private clear(register: 'setting' | 'counter' | 'result'): void {
    this[register] = this[register].map((figure, i) =>
      figure !== 0 && this.fault === `clear-short ${register} ${i + 1}` ? 1 : 0,
    );
    if (register === 'result') {
      this.wraps = 0;
      this.stuck = false;
    }
    if (register === 'counter') this.sense = 0;
  }

  private clearLevers(): void {
    const [stays] = this.setting.flatMap((figure, i) =>
      this.fault === `auto-clear-dead ${i + 1}` ? [[i, figure]] : [],
    );
    this.clear('setting');
    if (stays) this.setting[stays[0]] = stays[1];
  }

  private transfer(register: 'counter' | 'result'): void {
    const { plan, position } = this;
    if (register === 'counter' ? !plan.transferCounter : plan.transferResult === 'none') return;
    if (register === 'result' && (position === 0 || (plan.transferResult === 'at 1' && position !== 1))) return;
    if (this.setting.some((figure) => figure !== 0)) return;
    const from = register === 'counter' ? this.counter : this.result.slice(position - 1);
    this.setting = this.setting.map((_, i) => (this.fault === `transfer-dead ${i + 1}` ? 0 : Math.abs(from[i] ?? 0)));
    this.clear(register);
  }

  private half(way: 1 | -1): void {
    if (this.plan.subtract !== 'half-step') return;
    if (this.position === 0) {
      if (way < 0) return;
      this.position = 1;
      this.subtracts = false;
    } else if (way > 0) {
      if (!this.subtracts) this.subtracts = true;
      else if (this.position < this.plan.carriage) {
        this.position++;
        this.subtracts = false;
      }
    } else if (this.subtracts) this.subtracts = false;
    else if (--this.position > 0) this.subtracts = true;
  }

  private turnUntil(back: boolean, end: 'overdraw' | 'stop', stopsBelow: number): void {
    if (end === 'stop' ? !this.divides : this.position === 0 || this.subtracts === back) return;
    this.overdrew = false;
    const isDone = () => (end === 'stop' ? this.position < stopsBelow : this.overdrew);
    while (!isDone() && this.turns < 1_000) this.turn(back);
    this.isOver = !isDone();
  }

  private turn(back: boolean): void {
    this.turns++;
    if (this.position === 0) return;
    const sign = this.subtracts === back ? 1 : -1;
    const overdrew = this.drive(sign);
    if (overdrew) this.overdrew = true;
    this.countTurn(sign);
    if (this.clears) this.clearLevers();
    if (!this.divides) return;
    if (sign > 0) {
      this.subtracts = true;
      this.position--;
    } else if (overdrew) this.subtracts = false;
  }

  /** Wheel after wheel from the units up; true if the register was overdrawn. */
  private drive(sign: 1 | -1): boolean {
    const { plan, position } = this;
    const wasStuck = this.stuck;
    const levers = this.setting.map((figure, i) => this.driven(figure, i + 1));
    this.lost(levers);
    let overdrew = this.ripple(sign, 1, (place) => levers[place - position] ?? 0, true);
    const stuckAt = this.stuckPlace;
    if (!wasStuck || stuckAt === undefined) return overdrew;
    const isWithin = plan.reach === undefined || (stuckAt >= position && stuckAt + 1 <= position + plan.reach - 1);
    if (isWithin)
      overdrew = this.ripple(sign, stuckAt + 1, (place) => (place === stuckAt + 1 ? 1 : 0), false) || overdrew;
    return overdrew;
  }

  /** The figure that a lever drives. */
  private driven(figure: number, place: number): number {
    if (this.fault === `lever-dead ${place}`) return 0;
    return this.fault === `lever-short ${place} ${figure}` ? figure - 1 : figure;
  }

  private get stuckPlace(): number | undefined {
    const place = /^carry-stuck result (\d+)$/.exec(this.fault)?.[1];
    return place === undefined ? undefined : Number(place);
  }

  private ripple(sign: 1 | -1, from: number, units: (place: number) => number, isOwn: boolean): boolean {
    const { plan, position } = this;
    const last = plan.reach === undefined ? plan.result : position + plan.reach - 1;
    const way = sign > 0 ? 'add' : 'subtract';
    let carry = 0;
    for (let place = from; place <= plan.result; place++) {
      if (carry !== 0 && place > last) {
        this.mishap('carry-short');
        return false;
      }
      if (this.fault === `carry-lost result ${place - 1} ${way}`) carry = 0;
      // A carry that came as far as this has been delivered.
      if (isOwn && carry !== 0 && this.stuckPlace === place - 1) this.stuck = true;
      const sum = this.result[place - 1] + sign * units(place) + carry;
      carry = sum > 9 ? 1 : sum < 0 ? -1 : 0;
      this.result[place - 1] = sum - 10 * carry;
    }
    this.wraps += carry;
    if (carry !== 0 && plan.bell && this.fault !== 'bell-dead') this.bell = true;
    return carry < 0;
  }

  private lost(levers: readonly number[]): void {
    const wheels = this.plan.result - this.position + 1;
    if (levers.slice(wheels).some((figure) => figure !== 0)) this.mishap('digits-off-end');
  }

  private mishap(code: string): void {
    this.mishaps.add(`${this.deed} ${code}`);
  }

  private countTurn(sign: 1 | -1): void {
    const { plan, counter, position } = this;
    if (this.sense === 0) this.sense = sign;
    const by =
      plan.count === 'follow'
        ? sign
        : plan.count === 'lever'
          ? this.minus && this.fault !== 'count-lever-dead'
            ? -sign
            : sign
          : sign * this.sense;
    if (position > plan.counter) {
      if (plan.counter > 0) this.mishap('turn-not-counted');
      return;
    }
    if (this.fault === `count-dead ${position}`) return;
    if (plan.carry === 'signed') {
      const next = counter[position - 1] + by;
      if (Math.abs(next) > 9) this.mishap('counter-overflow');
      counter[position - 1] = Math.abs(next) > 9 ? 0 : next;
      return;
    }
    for (let place = position; place <= plan.counter; place++) {
      const next = counter[place - 1] + by;
      counter[place - 1] = (next + 10) % 10;
      if (next >= 0 && next <= 9) return;
      if (plan.carry === 'plain') break;
      if (this.fault === `carry-lost counter ${place}`) return;
    }
    this.mishap(by > 0 ? 'counter-overflow' : 'counter-underflow');
  }

  private multiply(digits: string): void {
    const figures = [...digits.replace(/^0+(?=.)/, '')].reverse().map(Number);
    if (this.position === 0) return;
    if (figures.some((figure) => figure > 0) && this.position + figures.length - 1 > this.plan.carriage) return;
    let due = 0;
    for (const figure of figures) {
      if (figure > 0) {
        if (due > 0) this.step({ do: 'shift', by: due });
        this.step({ do: 'turn', back: false, times: figure });
        due = 0;
      }
      due++;
    }
  }

  private divide(to: number): void {
    const { plan, position } = this;
    if (to < 1 || to > plan.carriage || position === 0 || to > position) return;
    if (this.divides) return this.step({ do: 'until', back: false, end: 'stop' }, to);
    if (plan.subtract === 'none') return;
    const found = { subtracts: this.subtracts, minus: this.minus };
    const mode = (subtracts: boolean) => {
      if (this.hasLever && this.subtracts !== subtracts) this.step({ do: 'mode', subtracts });
    };
    if (plan.count === 'lever' && !found.minus) this.step({ do: 'count', minus: true });
    for (let at = position; at >= to; at--) {
      mode(true);
      this.step({ do: 'until', back: !this.hasLever, end: 'overdraw' });
      mode(false);
      this.step({ do: 'turn', back: false, times: 1 });
      if (at > to) this.step({ do: 'shift', by: -1 });
    }
    mode(found.subtracts);
    if (plan.count === 'lever' && !found.minus) this.step({ do: 'count', minus: false });
  }
}
