/**
 * A run as it is written: its steps in their order, each with what the machine showed before and after, and those that
 * hold or stand for others with their rounds and single steps.
 *
 * Invariant: nothing is worked out here. What a step did is read off the tape.
 */
import type {
  DivideStep,
  MultiplyStep,
  RepeatStep,
  RunStep,
  SequenceSection,
  Step,
  StepSyntax,
} from '../../grammar/tree.js';
import type { CaseRun } from '../sequence/check.js';

export type NestedSyntax = RepeatStep | RunStep | MultiplyStep | DivideStep;

/** A step that the machine was given, and its row on the tape. */
export interface Single {
  readonly is: 'single';
  /** With numbers in place of parameters. */
  readonly syntax: Exclude<StepSyntax, NestedSyntax>;
  readonly row: number;
}

export interface Nested {
  readonly is: 'nested';
  readonly syntax: NestedSyntax;
  /** The other sequence, where one is run. */
  readonly other?: SequenceSection;
  /** Its steps, once for each round of a `repeat`. */
  readonly rounds: readonly (readonly Node[])[];
  /** Rows on the tape: the first one, and the one behind the last. */
  readonly from: number;
  readonly to: number;
}

export type Node = Single | Nested;

/** The steps of a run that went to its end without an error. */
export function outlineOf(run: CaseRun): readonly Node[] {
  return new Walk(run).nodes(run.order.section.steps);
}

/** Goes through the written steps and takes rows and frames off the tape as the run laid them down. */
class Walk {
  private row = 0;
  /** Frame 0 is the sequence itself. */
  private frame = 1;

  constructor(private readonly run: CaseRun) {}

  nodes(steps: readonly Step[]): Node[] {
    return steps.flatMap((step) => this.node(step) ?? []);
  }

  private node(step: Step): Node | undefined {
    switch (step.syntax.kind) {
      case 'repeat':
      case 'run':
      case 'multiply':
      case 'divide':
        return this.nested(step);
    }
    if (this.row >= this.run.tape.length) return undefined;
    const row = this.row++;
    return { is: 'single', syntax: this.run.tape.stepAt(row).syntax as Single['syntax'], row };
  }

  private nested(step: Step): Nested | undefined {
    const { frames } = this.run.tape;
    const opened = frames[this.frame];
    if (!opened?.step) return undefined;
    const from = this.row;
    const rounds: Node[][] = [];
    const syntax = opened.step.syntax as NestedSyntax;
    const base = { is: 'nested' as const, syntax, from };
    if (syntax.kind === 'repeat') {
      // A round that holds no step is not gone through again.
      while (frames[this.frame]?.step === opened.step && frames[this.frame].round === rounds.length + 1) {
        this.frame++;
        rounds.push(this.nodes(step.body ?? []));
      }
      return { ...base, rounds, to: this.row };
    }
    const id = this.frame++;
    if (syntax.kind === 'run') {
      const other = opened.section as SequenceSection;
      return { ...base, other, rounds: [this.nodes(other.steps)], to: this.row };
    }
    return { ...base, rounds: [this.openedRows(id)], to: this.row };
  }

  /** The single steps that a `multiply` or `divide` stands for: they are written nowhere. */
  private openedRows(id: number): Node[] {
    const { tape } = this.run;
    const nodes: Node[] = [];
    for (; this.row < tape.length && tape.frameAt(this.row).id === id; this.row++) {
      nodes.push({ is: 'single', syntax: tape.stepAt(this.row).syntax as Single['syntax'], row: this.row });
    }
    return nodes;
  }
}
