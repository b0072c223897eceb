/**
 * The steps of an exercise as they are written, numbered, with the parameters' names in them; and how often and where
 * on the tape each was carried out.
 *
 * Invariant: written steps are gone through, not those of a run: there is nothing in them that was only read.
 */
import type {
  Argument,
  NameSyntax,
  NumberSyntax,
  RepeatStep,
  RunStep,
  Section,
  SequenceSection,
  StepSyntax,
  Step as WrittenStep,
} from '../../grammar/tree.js';
import type { CaseRun } from '../sequence/check.js';
import { wholeOf } from '../sequence/readings.js';
import { substitute, type Values } from '../sequence/substitute.js';
import { StepNumbers } from './numbering.js';

/** Steps that are printed; a sequence that runs others may come to many more. */
export const MOST_STEPS = 500;
const DEEPEST = 32;
const MOST_ROUNDS = 999;

/** A step with the exercise's own parameters, and no others, left in it. */
export interface ExerciseStep {
  /** `3`, or for its parts `3a`; nothing for prose and readings that are compared, which nobody does by hand. */
  readonly number: string;
  readonly syntax: StepSyntax;
  readonly section: Section;
  readonly line: number;
  readonly from: number;
  /** Of a `repeat`. */
  readonly parts?: readonly ExerciseStep[];
}

/** Rows of the tape that a step came to, in one of its rounds. */
export interface Done {
  readonly step: ExerciseStep;
  readonly from: number;
  /** Behind the last one. */
  readonly to: number;
  /** Of the `repeat` in which it lies, from 1; 0 outside of any. */
  readonly round: number;
}

/** The steps of a sequence and of those that it runs. */
export function exerciseSteps({ order }: CaseRun): readonly ExerciseStep[] {
  return new Writer(order.resolve).steps(order.section, order.section.steps, new Map(), new StepNumbers('', 0), [
    order.section,
  ]);
}

type Arguments = ReadonlyMap<string, Argument>;

/** Puts numbers, or names of the exercise's own parameters, in place of those of a sequence that it runs. */
export const withArguments = (syntax: StepSyntax, known: Arguments): StepSyntax =>
  // Whatever a name stands for is put in its place as it is; that it is a number is not made use of.
  substitute(syntax, known as ReadonlyMap<string, NumberSyntax | NameSyntax> as Values);

class Writer {
  private written = 0;

  constructor(private readonly resolve: CaseRun['order']['resolve']) {}

  steps(
    section: Section,
    steps: readonly WrittenStep[],
    known: Arguments,
    numbers: StepNumbers,
    running: readonly SequenceSection[],
  ): ExerciseStep[] {
    return steps.flatMap((written) => {
      if (this.written >= MOST_STEPS) return [];
      const syntax = withArguments(written.syntax, known);
      if (syntax.kind === 'run') return this.other(section, syntax, numbers, running);
      this.written++;
      const place = { section, line: written.line, from: written.syntax.from };
      if (syntax.kind === 'note' || syntax.kind === 'caution' || syntax.kind === 'expect') {
        return [{ number: '', syntax, ...place }];
      }
      const number = numbers.next();
      if (syntax.kind !== 'repeat') return [{ number, syntax, ...place }];
      const parts = this.steps(section, written.body ?? [], known, numbers.below(number), running);
      return [{ number, syntax, ...place, parts }];
    });
  }

  /** Another sequence stands here with its steps. */
  private other(
    section: Section,
    { name, args }: RunStep,
    numbers: StepNumbers,
    running: readonly SequenceSection[],
  ): ExerciseStep[] {
    const other = this.resolve(name.name, section);
    if (!other || running.includes(other) || running.length >= DEEPEST) return [];
    const known = new Map<string, Argument>();
    for (const [i, parameter] of (other.header?.parameters ?? []).entries()) {
      known.set(parameter.name.name, args[i] ?? parameter.value);
    }
    return this.steps(other, other.steps, known, numbers, [...running, other]);
  }
}

/** What was carried out of these steps, in the order of the run. Prose and compared readings are left aside. */
export function doneIn(steps: readonly ExerciseStep[], run: CaseRun): readonly Done[] {
  return new Reader(run).done(steps);
}

class Reader {
  private row = 0;
  private readonly found: Done[] = [];

  constructor(private readonly run: CaseRun) {}

  done(steps: readonly ExerciseStep[]): readonly Done[] {
    this.all(steps, 0);
    return this.found;
  }

  private all(steps: readonly ExerciseStep[], round: number): void {
    for (const step of steps) {
      if (this.row >= this.run.tape.length) return;
      if (step.parts) this.repeat(step, step.parts);
      else this.single(step, round);
    }
  }

  private repeat({ syntax }: ExerciseStep, parts: readonly ExerciseStep[]): void {
    const rounds = countIn((syntax as RepeatStep).count, this.run.order.values) ?? 0;
    for (let round = 1; round <= Math.min(rounds, MOST_ROUNDS); round++) {
      const { row } = this;
      this.all(parts, round);
      if (this.row === row) return;
    }
  }

  private single(step: ExerciseStep, round: number): void {
    const { tape } = this.run;
    const from = this.row;
    const isOpened = step.syntax.kind === 'multiply' || step.syntax.kind === 'divide';
    const { id } = tape.frameAt(from);
    while (this.row < tape.length && this.isOf(step, isOpened) && tape.frameAt(this.row).id === id) {
      this.row++;
      if (!isOpened) break;
    }
    if (this.row > from && step.number !== '') this.found.push({ step, from, to: this.row, round });
  }

  /** Whether the present row comes from a step. One that was not carried out has none. */
  private isOf({ section, line, from }: ExerciseStep, isOpened: boolean): boolean {
    const { tape } = this.run;
    const frame = tape.frameAt(this.row);
    if (frame.section !== section || frame.isOpened !== isOpened) return false;
    const step = isOpened ? frame.step : tape.stepAt(this.row);
    return step?.line === line && step.syntax.from === from;
  }
}

/** How often, where that is known; once where nothing is written. */
export function countIn(argument: Argument | undefined, values: Values): number | undefined {
  if (argument === undefined) return 1;
  const number = argument.kind === 'number' ? argument : values.get(argument.name);
  return number && wholeOf(number);
}
