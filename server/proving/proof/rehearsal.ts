/**
 * Cranking a script that is still being written, on the sound machine and on one machine for every fault that nobody has
 * noticed yet.
 *
 * Invariant: what is said to be caught was seen: the faulty machine showed something else at a reading that was taken.
 */
import {
  type Fault,
  figureAt,
  has,
  hasDriveLever,
  Noticed,
  OVERFLOWED,
  POSITION,
  type Profile,
  SETTING,
  SUBTRACTING,
  showsZero,
} from '../../machine/index.js';
import { costOf } from '../../sequence/effort.js';
import type { Looked } from '../../sequence/looks.js';
import { Hand, type Mark, stepsIn } from '../hand.js';
import { inNines } from '../turn-steps.js';

/** A line of the script: a step, or a look at the machine. */
export type Line = { readonly step: string } | { readonly looks: readonly Looked[] };

/** What a check of the script would remark in a turn. */
export const REMARKED =
  Noticed.parked |
  Noticed.digitsOffEnd |
  Noticed.carryShort |
  Noticed.notCounted |
  Noticed.counterOverflow |
  Noticed.counterUnderflow |
  Noticed.divideInAddMode |
  Noticed.idle;

/** What has to be put up with where a fault can't be caught without. */
export const BEARABLE = Noticed.carryShort | Noticed.notCounted | Noticed.counterOverflow | Noticed.counterUnderflow;

/** Some steps and looks, to be tried and perhaps kept. */
export type Act = (at: Rehearsal) => void;

export interface Outcome {
  readonly caught: readonly Fault[];
  readonly cost: number;
  /** What would be remarked, as bits of `Noticed`; −1 where a step could not be done at all. */
  readonly remarked: number;
  readonly turns: number;
  /** The result went past its ends. */
  readonly wraps: boolean;
}

export class Rehearsal {
  readonly sound: Hand;
  /** Faults that nobody has noticed yet. */
  private open: Hand[];
  lines: Line[] = [];
  private wraps = 0;

  constructor(
    readonly profile: Profile,
    faults: readonly Fault[],
  ) {
    this.sound = new Hand(profile);
    this.open = faults.map((fault) => new Hand(profile, fault));
  }

  get uncaught(): Fault[] {
    return this.open.flatMap(({ fault }) => fault ?? []);
  }

  get position(): number {
    return this.sound.state[POSITION];
  }

  get cost(): number {
    const { turns, shifts, leversMoved: levers } = this.sound;
    return costOf(this.profile, { turns, shifts, levers });
  }

  /** A step, on all machines. An overflow or overdraw is read at once, as a check wants it. */
  do(step: string): void {
    this.lines.push({ step });
    const end = this.sound.doLine(step);
    for (const one of stepsIn(step)) for (const hand of this.open) hand.do(one);
    if (end === 'unseen') {
      this.sound.report({ code: 'result-overflow', turn: 1, times: 1, places: this.profile.result });
    }
    if (end === undefined || !step.startsWith('turn')) return;
    this.wraps++;
    const event: Looked = has(this.sound.state, OVERFLOWED) ? 'overflow' : 'overdraw';
    this.look(event, ...(this.profile.bell ? (['bell'] as const) : []), 'result', 'counter');
  }

  /** Somebody looks: the faults that show there are caught. */
  look(...wanted: readonly Looked[]): void {
    const looks = wanted.filter((what) => what !== 'counter' || this.profile.counter > 0);
    const shown = looks.map((what) => this.sound.shows(what));
    this.lines.push({ looks });
    this.open = this.open.filter((hand) => looks.every((what, i) => hand.shows(what) === shown[i]));
  }

  /** What an act would come to; everything is as before afterwards. */
  attempt(act: Act): Outcome {
    const { open, sound, lines, cost, wraps } = this;
    const marks = open.map((hand) => hand.mark());
    const mark: Mark = sound.mark();
    const { turns } = sound;
    sound.noticed = 0;
    this.lines = [];
    act(this);
    const left = new Set(this.open);
    const outcome: Outcome = {
      caught: open.flatMap((hand) => (left.has(hand) || !hand.fault ? [] : [hand.fault])),
      cost: this.cost - cost,
      remarked: sound.reported.length > mark.reported ? -1 : sound.noticed & REMARKED,
      turns: sound.turns - turns,
      wraps: this.wraps > wraps,
    };
    this.open = open;
    this.lines = lines;
    for (const [i, hand] of open.entries()) hand.back(marks[i]);
    sound.back(mark);
    return outcome;
  }

  // --- what the hands do, as far as it is needed ----------------------------------------------------------------

  moveTo(position: number): void {
    if (position !== this.position) this.do(`shift to ${position}`);
  }

  /** Figures with their units over a lever, as long as they do not stand there already. */
  set(figures: string, lever = 1): void {
    const { state, profile } = this.sound;
    const wanted = figures + '0'.repeat(lever - 1);
    const places = Array.from({ length: profile.setting }, (_, i) => Number(wanted[wanted.length - 1 - i] ?? 0));
    if (places.every((figure, i) => figureAt(state, SETTING, i + 1) === figure)) return;
    this.do(`set ${figures}${lever === 1 ? '' : ` at ${lever}`}`);
  }

  add(): void {
    if (has(this.sound.state, SUBTRACTING)) this.do('mode add');
    this.do('turn');
  }

  subtract(): void {
    if (!hasDriveLever(this.profile)) return this.do('turn back');
    if (!has(this.sound.state, SUBTRACTING)) this.do('mode subtract');
    this.do('turn');
  }

  /** Many turns that add, without one that is told as too many. */
  addTimes(times: number, between = ''): void {
    if (has(this.sound.state, SUBTRACTING)) this.do('mode add');
    const { nines, rest } = inNines(times);
    const round = `turn 9${between}`;
    if (nines === 1) for (const step of round.split('; ')) this.do(step);
    else if (nines > 1) this.do(`repeat ${nines} { ${round} }`);
    for (const step of rest) this.do(step);
  }

  clear(register: 'setting' | 'counter' | 'result'): void {
    if (register === 'counter' && this.profile.counter === 0) return;
    if (!showsZero(this.sound.state, register)) this.do(`clear ${register}`);
  }

  /** Drive, and whatever was switched, stand as at the start. */
  rest(): void {
    if (has(this.sound.state, SUBTRACTING)) this.do('mode add');
  }
}
