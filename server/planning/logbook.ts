/** What is written down of somebody's work at the machine: steps, remarks, numbers, decisions, effort. */
import { type Amount, plainText } from './amount.js';
import { History } from './history.js';
import type { Decision, PlannedLine, Remark } from './order.js';

const NO_NOTES: ReadonlyMap<string, Amount> = new Map();

/** A logbook is taken over from another one as it stands, and goes on by itself. */
export class Logbook {
  turns = 0;
  shifts = 0;
  levers = 0;
  /** Numbers written down so far, to be set again. */
  written = 0;
  /** Ways that have been tried since the first one began, by all who took it over. */
  readonly search: { tried: number };
  protected steps: History<PlannedLine> = History.EMPTY;
  private decided: History<Decision> = History.EMPTY;
  /** What the numbers stand for. */
  private notes: ReadonlyMap<string, Amount> = NO_NOTES;

  constructor(from?: Logbook) {
    this.search = from?.search ?? { tried: 0 };
    if (!from) return;
    this.steps = from.steps;
    this.decided = from.decided;
    this.notes = from.notes;
    this.turns = from.turns;
    this.shifts = from.shifts;
    this.levers = from.levers;
    this.written = from.written;
  }

  /**
   * By what one knows who stands at the same point of the same search: what is done from here has been done the same way
   * by whoever took over from this one, or from the same one, and has written nothing since.
   */
  get standing(): readonly [search: object, steps: object, decisions: object] {
    return [this.search, this.steps, this.decided];
  }

  /** What has been written down of the work so far. */
  get lines(): PlannedLine[] {
    return this.steps.toArray();
  }

  /** Anything has been done at all. */
  get hasSteps(): boolean {
    return this.steps.length > 0;
  }

  get lineCount(): number {
    return this.steps.length;
  }

  get decisions(): Decision[] {
    return this.decided.toArray();
  }

  /** Forgets what was decided since another one stood here. */
  decidedAs(other: Logbook): void {
    this.decided = other.decided;
  }

  /** The number that was written down for what has this key. */
  noted(key: string): Amount | undefined {
    return this.notes.get(key);
  }

  /** A number is read off and written down, to be set again; `key` says what it stands for, if it may be asked for. */
  writeDown(register: 'counter' | 'result', value: Amount, key?: string): void {
    this.remark({ is: 'write-down', register, reading: plainText(value) });
    if (key !== undefined) this.notes = new Map(this.notes).set(key, value);
    this.written++;
  }

  protected log(line: PlannedLine): void {
    this.steps = this.steps.with(line);
  }

  remark(remark: Remark): void {
    this.log({ remark });
  }

  decide(decision: Decision): void {
    this.decided = this.decided.with(decision);
  }
}
