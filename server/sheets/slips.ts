/**
 * Common slips: the work is done again with one slip in it, on the mechanism itself, and what would then be read is told.
 *
 * A run is taken as the row of single steps that it came to, with numbers in place of parameters. A slip leaves one of
 * them out, puts one in or makes one otherwise, and the runner does the rest.
 *
 * Invariant: a slip is told only where an operator would not notice it on the way: the run goes to its end, and nothing
 * is refused that was done before.
 * Invariant: work is bounded, by candidates for a case and by steps and turns for a sheet.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { Section, SequenceSection, Step, StepSyntax } from '../../grammar/tree.js';
import { has, REFUSED, type Register, TURNS } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { readingOf } from '../sequence/hands.js';
import { type Run, run } from '../sequence/run.js';
import { candidatesOf } from './slip-candidates.js';

/** What goes wrong, and in which row of the run's tape. */
export type SlipReason = { readonly row: number } & (
  | {
      readonly is: 'not-cleared';
      readonly register: Register /** In several steps: which one has to be said. */;
      readonly isOneOfSeveral: boolean;
    }
  | { readonly is: 'shift-forgotten' }
  | { readonly is: 'carriage-off'; readonly way: 'right' | 'left' }
  | { readonly is: 'turns'; readonly more: boolean }
  | { readonly is: 'wrong-way'; readonly forwards: boolean }
  | { readonly is: 'drive-left'; readonly at: 'add' | 'subtract' }
  | { readonly is: 'count-left'; readonly at: 'plus' | 'minus' }
  | { readonly is: 'switch-left'; readonly what: 'auto-clear' | 'auto-divide'; readonly on: boolean }
  | { readonly is: 'places-off'; readonly register: 'setting' | 'result'; readonly way: 'right' | 'left' }
  | { readonly is: 'marker-off'; readonly register: Register; readonly more: boolean }
);

/** One register where it is asked for. */
export interface AskedReading {
  /** Which of the readings that are asked for, counted from 0 in the order of the run. */
  readonly index: number;
  readonly register: Register;
  readonly reading: string;
}

export interface WrongReading extends AskedReading {
  /** What it reads without the slip. */
  readonly right: string;
}

export interface Slip {
  /** Those that differ, at the most `MOST_DIFFERING` of them. */
  readonly readings: readonly WrongReading[];
  /** Slips that all lead to these readings, the most likely first. */
  readonly reasons: readonly SlipReason[];
}

/** Slips told of a case. */
export const MOST_SLIPS = 8;
/** Of slips alike, so many are told before others have had their turn. */
const MOST_ALIKE = 2;
/** Different readings told of a slip, and slips told of one reading. */
const MOST_DIFFERING = 3;
const MOST_REASONS = 3;
/** Rows of a run that is looked into at all, and slips tried of it. */
const MOST_ROWS = 2_000;
const MOST_TRIED = 200;

/** Steps and turns that may be spent on the slips of one case, and of all cases of a sheet. */
const MOST_FOR_A_CASE = 150_000;
const MOST_FOR_A_SHEET = 600_000;

/** How much work is spent on the slips of one case. */
class Patience {
  private left: number;

  constructor(cases: number) {
    this.left = Math.min(MOST_FOR_A_CASE, MOST_FOR_A_SHEET / cases);
  }

  /** Whether a run with so many rows may still be begun. */
  has(rows: number): boolean {
    return this.left > rows;
  }

  spendOn({ tape, effort }: Run): void {
    this.left -= tape.length + effort.turns;
  }
}

/** In which surroundings a run is looked into. */
export interface SlipOrder {
  /** The exercise before it; where there is none, the same is taken to have been done once before. */
  readonly before?: CaseRun | undefined;
  /** What is read at the end where no step asks for a reading. */
  readonly atEnd: readonly Register[];
  /** So many runs of a sheet are looked into: the work is shared out. */
  readonly cases: number;
}

/** Common slips in a run and what they lead to; undefined where they can't be tried, or not with bounded work. */
export function* slipsGradually(done: CaseRun, { before, atEnd, cases }: SlipOrder): Gradual<Slip[] | undefined> {
  if (done.brokeOff || done.tape.length > MOST_ROWS) return undefined;
  return yield* new Trials(done, before ?? done, atEnd, new Patience(cases)).slips();
}

/** A step of a run and the row on which it stands; an appended one has the row behind the last. */
export interface FlatStep {
  readonly step: Step;
  readonly row: number;
}

/** Every step by itself. A step for each row, even where rows come from one written step: each may be told apart. */
function flatten(done: CaseRun, atEnd: readonly Register[]): FlatStep[] {
  const { tape } = done;
  const flat: FlatStep[] = [];
  let asks = false;
  for (let row = 0; row < tape.length; row++) {
    const { line, syntax } = tape.stepAt(row);
    if (syntax.kind === 'ask') asks = true;
    flat.push({ row, step: { line, syntax: asPlain(syntax, done, row) } });
  }
  if (asks || atEnd.length === 0) return flat;
  const items = atEnd.map((register) => ({ register, from: 0, to: 0 }));
  return [...flat, { row: tape.length, step: { line: 0, syntax: { kind: 'ask', items, from: 0, to: 0 } } }];
}

/** `divide to K` stops automatic division before it stops by itself: by itself it is so many turns. */
function asPlain(syntax: StepSyntax, { tape }: CaseRun, row: number): StepSyntax {
  const isOpened = tape.frameAt(row).isOpened;
  if (syntax.kind !== 'turn' || syntax.until !== 'stop' || !isOpened) return syntax;
  const text = String(tape.lookAt(row)[TURNS]);
  const count = { kind: 'number', text, figures: text, isValue: false, decimals: 0, from: 0, to: 0 } as const;
  return { kind: 'turn', back: syntax.back, count, from: 0, to: 0 };
}

/** What is read in the `ask` steps from a row on. */
function readingsAsked({ tape, order }: Run, from: number): AskedReading[] {
  const { profile } = order;
  const readings: AskedReading[] = [];
  for (let row = from; row < tape.length; row++) {
    const { syntax } = tape.stepAt(row);
    if (syntax.kind !== 'ask') continue;
    for (const { register } of syntax.items) {
      if (profile[register] === 0) continue;
      readings.push({ index: readings.length, register, reading: readingOf(tape.lookAt(row), profile, register) });
    }
  }
  return readings;
}

class Trials {
  private readonly flat: readonly FlatStep[];
  private readonly right: readonly AskedReading[];
  private readonly steps: readonly Step[];
  /** Steps that the machine refused in the right run as well. */
  private readonly refused = new Set<Step>();
  private readonly prefix: readonly Step[];

  constructor(
    private readonly done: CaseRun,
    before: CaseRun,
    atEnd: readonly Register[],
    private readonly patience: Patience,
  ) {
    this.flat = flatten(done, atEnd);
    this.steps = this.flat.map(({ step }) => step);
    this.right = this.rightReadings(atEnd);
    for (const { row, step } of this.flat) {
      if (row < done.tape.length && has(done.tape.lookAt(row), REFUSED)) this.refused.add(step);
    }
    this.prefix = this.workBefore(before);
  }

  *slips(): Gradual<Slip[] | undefined> {
    // What can't be done again without a slip is not told with one.
    if (this.right.length === 0 || !this.patience.has(this.steps.length)) return undefined;
    if (!this.isRight(this.trial(this.steps, []))) return undefined;
    const canStandBehind = this.prefix.length > 0 && this.isRight(this.trial(this.steps, this.prefix));
    const found = new Map<string, Slip & { rank: number }>();
    let tried = 0;
    for (const { rank, reason, steps: changed } of candidatesOf(this.done, this.flat)) {
      const prefix = reason.is === 'not-cleared' && canStandBehind ? this.prefix : [];
      yield;
      if (++tried > MOST_TRIED || !this.patience.has(prefix.length + changed.length)) break;
      const readings = this.differing(this.trial(changed, prefix));
      if (readings.length === 0) continue;
      const key = readings.map(({ index, reading }) => `${index} ${reading}`).join('|');
      const known = found.get(key);
      if (!known) found.set(key, { rank, readings, reasons: [reason] });
      else if (known.reasons.length < MOST_REASONS) found.set(key, { ...known, reasons: [...known.reasons, reason] });
    }
    return choose([...found.values()]);
  }

  /** What the run itself gave; at its end for these registers, where no step asks. */
  private rightReadings(atEnd: readonly Register[]): AskedReading[] {
    const asked = readingsAsked(this.done, 0);
    if (asked.length > 0) return asked;
    const { order, state } = this.done;
    return atEnd.map((register, index) => ({ index, register, reading: readingOf(state, order.profile, register) }));
  }

  /** The exercise before, and then everything but the figures as at the start: what was left standing is in the registers. */
  private workBefore(before: CaseRun): readonly Step[] {
    if (before.brokeOff || before.tape.length > MOST_ROWS) return [];
    const { profile } = this.done.order;
    const work = flatten(before, []).filter(({ step }) => MOVES.has(step.syntax.kind));
    const span = { from: 0, to: 0 };
    const number = (text: string) =>
      ({ kind: 'number', text, figures: text, isValue: false, decimals: 0, ...span }) as const;
    const registers = (['setting', 'counter', 'result'] as const).filter((register) => profile[register] > 0);
    const home: StepSyntax[] = [
      { kind: 'mode', drive: 'add', ...span },
      { kind: 'count', sense: 'plus', ...span },
      { kind: 'auto-clear', on: false, ...span },
      { kind: 'auto-divide', on: false, ...span },
      { kind: 'shift', way: 'to', half: false, count: number('1'), ...span },
      { kind: 'points', items: registers.map((register) => ({ register, decimals: number('0'), ...span })), ...span },
    ];
    const steps = [...work.map(({ step }) => step), ...home.map((syntax): Step => ({ line: 0, syntax }))];
    // The machine may lack one of these levers: what it refuses before the work itself says nothing.
    for (const step of steps) this.refused.add(step);
    return steps;
  }

  /** What is read after such work, or undefined where it would have been noticed. */
  private trial(steps: readonly Step[], prefix: readonly Step[]): AskedReading[] | undefined {
    const { section, profile, case: runCase, resolve } = this.done.order;
    const changed: SequenceSection = { ...section, steps: [...prefix, ...steps] };
    const home = (from: Section): Section => (from === changed ? section : from);
    const order = {
      section: changed,
      profile,
      values: new Map(),
      case: runCase,
      resolve: (name: string, from: Section) => resolve(name, home(from)),
    };
    const tried = run(order);
    this.patience.spendOn(tried);
    if (tried.brokeOff || tried.tape.length !== changed.steps.length) return undefined;
    for (let row = prefix.length; row < tried.tape.length; row++) {
      if (has(tried.tape.lookAt(row), REFUSED) && !this.refused.has(tried.tape.stepAt(row))) return undefined;
    }
    return readingsAsked(tried, prefix.length);
  }

  private isRight(readings: readonly AskedReading[] | undefined): boolean {
    return readings?.length === this.right.length && this.differing(readings).length === 0;
  }

  private differing(readings: readonly AskedReading[] | undefined): WrongReading[] {
    if (readings?.length !== this.right.length) return [];
    return readings
      .map((wrong, i) => ({ ...wrong, right: this.right[i].reading }))
      .filter(({ reading, right }) => !isSameNumber(reading, right))
      .slice(0, MOST_DIFFERING);
  }
}

/** Noughts are the same with any number of decimals; other readings differ if they are written otherwise. */
const isSameNumber = (a: string, b: string): boolean => a === b || (!/[1-9]/.test(a) && !/[1-9]/.test(b));

/** Steps that move something; prose and readings do not. */
const MOVES: ReadonlySet<StepSyntax['kind']> = new Set<StepSyntax['kind']>([
  'set',
  'turn',
  'shift',
  'clear',
  'transfer',
  'dial',
  'mode',
  'count',
  'auto-clear',
  'auto-divide',
  'points',
]);

/** The most likely, but not many of one kind before others have had their turn; in the order of likelihood. */
function choose(slips: readonly (Slip & { rank: number })[]): Slip[] {
  const ofRank = new Map<number, number>();
  const first: (typeof slips)[number][] = [];
  const further: (typeof slips)[number][] = [];
  for (const slip of slips) {
    const alike = (ofRank.get(slip.rank) ?? 0) + 1;
    ofRank.set(slip.rank, alike);
    (alike <= MOST_ALIKE ? first : further).push(slip);
  }
  const chosen = new Set([...first, ...further].slice(0, MOST_SLIPS));
  return slips.filter((slip) => chosen.has(slip)).map(({ readings, reasons }) => ({ readings, reasons }));
}
