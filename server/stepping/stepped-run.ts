/**
 * A run that somebody goes through step by step: the one run of a sequence, and with it what was noticed in which row and
 * what the operator had done by then.
 *
 * Invariant: without anything done by hand its rows are those of the run that findings, readings and sheets are made of.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { NumberSyntax, Step, StepSyntax, TurnStep } from '../../grammar/tree.js';
import { TURNS } from '../machine/index.js';
import { type Effort, effortOf } from '../sequence/effort.js';
import { type Facts, type Place, placeOn, type Related } from '../sequence/findings.js';
import { numberSyntax } from '../sequence/made.js';
import { wholeOf } from '../sequence/readings.js';
import { type Run, Runner, type RunOrder } from '../sequence/run.js';

/** Something that was noticed in a row. What turns out only later stands at the row in which it began. */
export interface Happening {
  /** From 0; as many as there are rows for what shows at the end of the sequence. */
  readonly row: number;
  readonly facts: Facts;
  /** Where the step is written: within another sequence's steps, in that one. */
  readonly at: Place;
  readonly related: readonly Related[];
}

/** A step that stands in no text: somebody stopped, and did it by hand. */
export interface ByHand {
  /** The row that it takes on the tape, from 0. */
  readonly row: number;
  /** How many turns of the step at which it was stopped were made before it; the rest of them follow. */
  readonly afterTurns: number;
  readonly step: StepSyntax;
}

export interface SteppedRun {
  readonly run: Run;
  /** In the order of their rows. */
  readonly happenings: readonly Happening[];
  /** Steps done by hand that the run came to, in the order of their rows. */
  readonly byHand: readonly ByHand[];
  /** What the operator had done after a row, from the start of the sequence; nothing after row −1. */
  effortAfter(row: number): Effort;
}

/** Runs a sequence for stepping, with pauses. */
export function* stepThrough(order: RunOrder, byHand: readonly ByHand[] = []): Gradual<SteppedRun> {
  const runner = new SteppingRunner(order, byHand);
  const run = yield* runner.run();
  return {
    run,
    happenings: runner.happenings.sort((a, b) => a.row - b.row),
    byHand: byHand.slice(0, runner.handled),
    effortAfter: (row) => runner.effortAfter(row),
  };
}

class SteppingRunner extends Runner {
  readonly happenings: Happening[] = [];
  /** How many of the steps done by hand the run has come to. */
  handled = 0;
  /** Turns, shifts and levers after each row. */
  private readonly efforts: number[] = [];

  constructor(
    order: RunOrder,
    private readonly byHand: readonly ByHand[],
  ) {
    super(order);
  }

  effortAfter(row: number): Effort {
    const [turns = 0, shifts = 0, levers = 0] = row < 0 ? [] : this.efforts.slice(3 * row, 3 * row + 3);
    return effortOf(this.profile, { turns, shifts, levers });
  }

  protected override step(written: Step): Gradual<void> | undefined {
    for (let next = this.next(0); next; next = this.next(0)) this.doByHand(next, written);
    const split = this.next(1);
    const parts = split && split.afterTurns > 0 ? this.parted(written, split.afterTurns) : undefined;
    if (!split || !parts) return super.step(written);
    super.step(parts.first);
    this.doByHand(split, written);
    return this.step(parts.rest);
  }

  /** The next thing to be done by hand, if its row is so many rows from here. */
  private next(ahead: 0 | 1): ByHand | undefined {
    const next = this.byHand[this.handled];
    if (next?.row !== this.row + ahead) return undefined;
    return next.afterTurns > 0 === (ahead === 1) ? next : undefined;
  }

  private doByHand({ step }: ByHand, { line }: Step): void {
    this.handled++;
    super.step({ line, syntax: step });
  }

  /** A step of some turns, as those made so far and those that are left. */
  private parted(written: Step, made: number): { readonly first: Step; readonly rest: Step } | undefined {
    const { syntax } = written;
    if (syntax.kind !== 'turn') return undefined;
    const { until, ...turn } = syntax;
    const first: TurnStep = { ...turn, count: numberAt(made, syntax) };
    if (until) return { first: { ...written, syntax: first }, rest: written };
    const { count } = syntax;
    const number = count?.kind === 'name' ? this.values.get(count.name) : count;
    const all = number ? (wholeOf(number) ?? 0) : 1;
    if (all <= made) return undefined;
    const rest: TurnStep = { ...syntax, count: numberAt(all - made, syntax) };
    return { first: { ...written, syntax: first }, rest: { ...written, syntax: rest } };
  }

  protected override keep(step: Step): void {
    super.keep(step);
    this.efforts.push(this.turns + this.state[TURNS], this.shifts, this.leversMoved);
  }

  override report(facts: Facts, related: readonly Related[] = []): void {
    this.happenings.push({ row: this.row, facts, at: this.place(), related });
    super.report(facts, related);
  }

  override reportLater(): (facts: Facts) => void {
    const { row } = this;
    const at = this.place();
    const report = super.reportLater();
    return (facts) => {
      this.happenings.push({ row, facts, at, related: [] });
      report(facts);
    };
  }

  private place(): Place {
    const { step, within } = this.site();
    const { line, syntax } = within?.step ?? step;
    return placeOn(this.section, line, syntax);
  }
}

/** A number that stands in no text, with a step's place. */
const numberAt = (value: number, { from, to }: StepSyntax): NumberSyntax => ({ ...numberSyntax(value), from, to });
