/**
 * Steps in which a fault shows, whatever the machine did before: more of them than may be needed, in the order in which
 * they are carried out. Which of them are needed from where a machine stands is found by leaving some out (additions.ts).
 */
import { type Fault, hasDriveLever, type Profile } from '../machine/index.js';
import { adding, subtracting, turns } from './turn-steps.js';

/** Lines of the notation. */
export type Recipe = readonly string[];

/** The most turns that one step may count. */
const MOST_TURNS = 999;

/** Ways in which a fault may be made to show, the plainest first; none where no few steps come to it. */
export function recipesFor(fault: Fault, profile: Profile): Recipe[] {
  const hand = new Hand(profile);
  return hand.recipes(fault).filter((recipe) => recipe.length > 0);
}

class Hand {
  constructor(private readonly profile: Profile) {}

  recipes(fault: Fault): Recipe[] {
    const { profile } = this;
    switch (fault.kind) {
      case 'lever-short':
        return [
          this.ready(1, this.all(fault.figure), 'turn'),
          this.ready(1, `set ${fault.figure}${at(fault.place)}`, 'turn'),
        ];
      case 'lever-dead':
        return [this.ready(1, this.all(1), 'turn'), this.ready(1, `set 1${at(fault.place)}`, 'turn')];
      case 'carry-lost':
        if (fault.register === 'counter') return this.counterCarries(fault.place);
        return fault.way === 'add' ? this.carries(fault.place, 0) : this.borrows(fault.place);
      case 'carry-stuck':
        return this.carries(fault.place, 1);
      case 'count-dead':
        return [this.ready(fault.place, 'turn')];
      case 'count-lever-dead':
        return [[...this.reset(), 'shift to 1', 'turn 2', 'count minus', 'turn']];
      case 'clear-short':
        return this.clearings(fault.register, fault.place);
      case 'auto-clear-dead':
        return [this.ready(1, 'auto-clear on', this.all(5), 'turn')];
      case 'transfer-dead':
        return this.transfers(fault.place);
      case 'bell-dead':
        return [...this.carries(profile.result, 0), ...this.overdraws()];
    }
  }

  /** All levers at one figure: what shows one of them shows them all. */
  private all(figure: number): string {
    return `set ${String(figure).repeat(this.profile.setting)}`;
  }

  /** The machine as at the start, but for its registers. */
  private reset(): string[] {
    const { profile } = this;
    return [
      ...(profile.autoDivide ? ['auto-divide off'] : []),
      ...(profile.autoClear ? ['auto-clear off'] : []),
      ...(profile.count === 'lever' ? ['count plus'] : []),
      ...(hasDriveLever(profile) ? ['mode add'] : []),
    ];
  }

  private ready(position: number, ...steps: string[]): string[] {
    const { carriage, counter } = this.profile;
    if (position > carriage) return [];
    const registers = ['setting', ...(counter > 0 ? ['counter'] : []), 'result'];
    const cleared = registers.map((register) => `clear ${register}`);
    return [...this.reset(), `shift to ${position}`, ...cleared, ...steps];
  }

  /** Where the carriage brings a lever to a result place whose carry is delivered from there. */
  private positionFor(place: number): number | undefined {
    const { carriage, setting } = this.profile;
    const position = Math.min(place, carriage);
    return this.isDelivered(place, position) && place - position < setting ? position : undefined;
  }

  /** A carry out of the register's last place is an overflow: nothing has to take it. */
  private isDelivered(place: number, position: number): boolean {
    const { reach, result } = this.profile;
    return place === result || reach === undefined || place <= position + reach - 2;
  }

  /** A carry out of a result place by turns that add, and so many turns behind it. */
  private carries(place: number, more: number): Recipe[] {
    const { profile } = this;
    const recipes: Recipe[] = [];
    const position = this.positionFor(place);
    if (place <= profile.setting && this.isDelivered(place, 1)) {
      recipes.push(this.ready(1, this.all(5), `turn ${2 + more}`));
    }
    if (profile.dials && profile.reach === undefined) {
      recipes.push(this.ready(1, `dial result ${'9'.repeat(profile.result)}`, 'set 1', turns(1 + more)));
    }
    if (position !== undefined) {
      const lever = at(place - position + 1);
      recipes.push(this.ready(position, `set 5${lever}`, `turn ${2 + more}`));
      if (profile.dials)
        recipes.push(this.ready(position, `dial result 9${at(place)}`, `set 1${lever}`, turns(1 + more)));
    }
    const last = Math.min(place, profile.carriage);
    if (profile.dials) {
      recipes.push(
        this.ready(last, `dial result ${'9'.repeat(place - last + 1)}${at(last)}`, 'set 1', turns(1 + more)),
      );
    }
    if (profile.subtract !== 'none') {
      // From nothing one less is nine in every place, and one more carries through them all.
      // The turn before keeps the counter from passing its ends.
      recipes.push(this.ready(last, 'turn', 'set 1', ...subtracting(this.profile), ...adding(this.profile, 1 + more)));
    }
    const needed = Math.ceil(10 ** (place - last + 1) / (10 ** profile.setting - 1));
    if (needed + more <= MOST_TURNS) {
      recipes.push(this.ready(last, `set ${'9'.repeat(profile.setting)}`, turns(needed + more)));
    }
    return recipes;
  }

  /** A borrow out of a result place: from one more in the place above, or from nothing. */
  private borrows(place: number): Recipe[] {
    const position = this.positionFor(place);
    const recipes: Recipe[] = [];
    if (position !== undefined && place - position + 2 <= this.profile.setting) {
      const lever = place - position + 1;
      const one = [`set 1${at(lever + 1)}`, 'turn', `set 1${at(lever)}`, ...subtracting(this.profile)];
      recipes.push(this.ready(position, ...one));
    }
    if (this.profile.reach === undefined) recipes.unshift(this.ready(1, 'set 1', ...subtracting(this.profile)));
    const last = Math.min(place, this.profile.carriage);
    if (this.profile.dials && place < this.profile.result) {
      recipes.push(this.ready(last, `dial result 1${at(place + 1)}`, 'set 1', ...subtracting(this.profile)));
    }
    recipes.push(this.ready(last, 'turn', 'set 1', ...subtracting(this.profile)));
    // What has been carried over is borrowed back.
    return [...recipes, ...this.carries(place, 0).map((carry) => [...carry, 'set 1', ...subtracting(this.profile)])];
  }

  private overdraws(): Recipe[] {
    const { subtract, reach, carriage, result } = this.profile;
    if (subtract === 'none') return [];
    const position = reach === undefined ? 1 : Math.max(1, Math.min(carriage, result - reach + 1));
    return [this.ready(position, 'set 1', ...subtracting(this.profile))];
  }

  private counterCarries(place: number): Recipe[] {
    const { carriage } = this.profile;
    const last = Math.min(place, carriage);
    const needed = 10 ** (place - last + 1);
    return [...(needed <= MOST_TURNS ? [this.ready(last, turns(needed))] : []), ...this.countsDown(last)];
  }

  /** From nothing down: nine in every place of the counter. */
  private countsDown(position: number): Recipe[] {
    const { subtract, count } = this.profile;
    if (count === 'lever') return [this.ready(position, 'count minus', 'turn')];
    if (subtract === 'none') return [];
    // A counter that takes its sense from the first turn goes down with the next one the other way.
    return [
      this.ready(
        position,
        ...(count === 'first' ? ['turn', ...subtracting(this.profile, 2)] : subtracting(this.profile)),
      ),
    ];
  }

  private clearings(register: 'setting' | 'counter' | 'result', place: number): Recipe[] {
    if (register === 'setting') return [[this.all(5), 'clear setting']];
    const then = `clear ${register}`;
    if (register === 'counter') {
      const { carriage, counterCarry } = this.profile;
      if (place <= carriage) return [[...this.ready(place, 'turn 2'), then]];
      if (counterCarry !== 'carry') return [];
      return this.counterCarries(place - 1).map((recipe) => [...recipe, then]);
    }
    const { dials, carriage, setting, result } = this.profile;
    const position = Math.min(place, carriage);
    return [
      ...(dials ? [[`dial result ${'5'.repeat(result)}`, then]] : []),
      ...(place <= setting ? [[...this.ready(1, this.all(5), 'turn'), then]] : []),
      ...(place - position < setting
        ? [[...this.ready(position, `set 5${at(place - position + 1)}`, 'turn'), then]]
        : []),
      ...(place > 1 ? this.carries(place - 1, 0).map((recipe) => [...recipe, then]) : []),
      ...this.overdraws().map((recipe) => [...recipe, then]),
    ];
  }

  private transfers(place: number): Recipe[] {
    const { transferResult, transferCounter, dials, counter, carriage, setting } = this.profile;
    const recipes: Recipe[] = [];
    if (transferResult !== 'none') {
      const then = ['clear setting', 'transfer result'];
      if (dials) recipes.push(['shift to 1', `dial result ${'5'.repeat(setting)}`, ...then]);
      recipes.push([...this.ready(1, this.all(5), 'turn'), ...then]);
    }
    if (transferCounter && place <= Math.min(counter, carriage)) {
      recipes.push([...this.ready(place, 'turn'), 'clear setting', 'transfer counter']);
    }
    return recipes;
  }
}

const at = (place: number): string => (place === 1 ? '' : ` at ${place}`);
