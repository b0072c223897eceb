/** A run gone through once more, step by written step, with what the machine shows before and after each. */
import type { SequenceSection, Step, StepSyntax } from '../../../grammar/tree.js';
import {
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  LEVERS,
  newState,
  numberIn,
  OVERFLOWED,
  POSITION,
  type Profile,
  SENSE_ADD,
  SENSE_SUBTRACT,
  type State,
  SUBTRACTING,
  TURNS,
  WRAPS,
} from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import { clearedBy } from '../../sequence/hands.js';
import type { Frame } from '../../sequence/tape.js';

/** A written step as it was carried out once. `repeat` has no occurrence of its own, its steps have one a round. */
export interface Occurrence {
  readonly step: Step;
  readonly run: Walk;
  /** The rows of the tape that it took, `end` behind the last one. */
  readonly first: number;
  readonly end: number;
  readonly before: State;
  readonly after: State;
  /** Of a `run`: the steps of the other sequence. */
  readonly inside?: readonly Occurrence[];
}

/** What a register counts for, beyond what its wheels can show: below zero, and past the top. */
export interface Totals {
  readonly result: bigint;
  readonly counter: bigint;
}

/** Where a step stands in its section. */
export const keyOf = ({ line, syntax }: Step): string => `${line}:${syntax.from}`;

export class Walk {
  readonly occurrences: readonly Occurrence[];
  /** Rows at which a complement was added in place of subtracting: the turns, and where their levers were set. */
  readonly complementTurns = new Set<number>();
  readonly complementSets = new Map<number, bigint>();
  private readonly totals: Totals[] = [];
  /** Behind each row: the carriage is out of gear because automatic division took it there. */
  private readonly parkedByTurn: boolean[] = [];
  private row = 0;
  private frame = 1;

  constructor(
    readonly run: CaseRun,
    readonly profile: Profile,
    section: SequenceSection,
  ) {
    const occurrences: Occurrence[] = [];
    this.go(section.steps, occurrences, 0);
    this.occurrences = occurrences;
    this.findComplements();
    this.addUp();
  }

  stateBefore(row: number): State {
    return row === 0 ? newState() : this.run.tape.stateAt(row - 1);
  }

  stateAfter(row: number): State {
    return this.run.tape.stateAt(row);
  }

  stepAt(row: number): StepSyntax {
    return this.run.tape.stepAt(row).syntax;
  }

  get rows(): number {
    return this.run.tape.length;
  }

  /** Result and counter as whole numbers before a row. */
  totalsBefore(row: number): Totals {
    return row === 0 ? { result: 0n, counter: 0n } : this.totals[row - 1];
  }

  /** Before a row: the carriage is out of gear, and it was automatic division that took it there. */
  isParkedByTurn(row: number): boolean {
    return row > 0 && this.parkedByTurn[row - 1];
  }

  /** What happened in the last step before a row that is not itself a reading: bits of the levers. */
  happenedBefore(row: number): number {
    for (let earlier = row - 1; earlier >= 0; earlier--) {
      const { kind } = this.stepAt(earlier);
      if (kind !== 'expect' && kind !== 'ask' && kind !== 'note' && kind !== 'caution') {
        return this.stateAfter(earlier)[LEVERS];
      }
    }
    return 0;
  }

  private go(steps: readonly Step[], into: Occurrence[], parent: number): void {
    const { tape } = this.run;
    for (const step of steps) {
      const first = this.row;
      const inside: Occurrence[] = [];
      switch (step.syntax.kind) {
        case 'repeat':
          while (isOf(tape.frames[this.frame], step, parent)) this.go(step.body ?? [], into, this.frame++);
          continue;
        case 'run': {
          const frame = tape.frames[this.frame];
          if (isOf(frame, step, parent)) this.go((frame.section as SequenceSection).steps, inside, this.frame++);
          break;
        }
        case 'multiply':
        case 'divide':
          if (isOf(tape.frames[this.frame], step, parent)) {
            const id = this.frame++;
            while (this.row < tape.length && tape.frameAt(this.row).id === id) this.row++;
          }
          break;
        default:
          if (this.row >= tape.length) return;
          this.row++;
      }
      const end = this.row;
      const isRun = step.syntax.kind === 'run';
      const [before, after] = [this.stateBefore(first), this.stateBefore(end)];
      into.push({ step, run: this, first, end, before, after, ...(isRun && { inside }) });
    }
  }

  /**
   * Complements that were added so as to subtract: all turns with these levers pass the top of the result, and each is
   * followed by `expect overflow`.
   */
  private findComplements(): void {
    const { result } = this.profile;
    for (let row = 0; row < this.rows; row++) {
      if (this.stepAt(row).kind !== 'set') continue;
      const turns: number[] = [];
      let position = 0;
      let isOne = true;
      for (let next = row + 1; next < this.rows && !touchesSetting(this.stepAt(next)); next++) {
        if (this.stepAt(next).kind !== 'turn') continue;
        const after = this.stateAfter(next);
        const following = next + 1 < this.rows ? this.stepAt(next + 1) : undefined;
        const isExpected =
          following?.kind === 'expect' && following.items.some(({ kind }) => kind === 'overflow' || kind === 'bell');
        if (!has(after, OVERFLOWED) || !isExpected || after[TURNS] !== after[WRAPS] - this.stateBefore(next)[WRAPS])
          isOne = false;
        if (turns.length > 0 && after[POSITION] !== position) isOne = false;
        position = after[POSITION];
        turns.push(next);
      }
      if (!isOne || turns.length === 0 || position === 0) continue;
      const whole = 10n ** BigInt(Math.max(0, result - position + 1));
      const set = numberIn(this.stateAfter(row), this.profile, 'setting');
      if (set * 2n <= whole || set >= whole) continue;
      this.complementSets.set(row, whole - set);
      for (const turn of turns) this.complementTurns.add(turn);
    }
  }

  private addUp(): void {
    const { profile } = this;
    const whole = 10n ** BigInt(profile.result);
    let counter = 0n;
    let byComplement = 0;
    let before = newState();
    for (let row = 0; row < this.rows; row++) {
      const step = this.stepAt(row);
      const after = this.stateAfter(row);
      if (setsResult(step)) byComplement = 0;
      if (this.complementTurns.has(row)) byComplement += after[WRAPS] - before[WRAPS];
      if (step.kind === 'turn') counter += this.countedIn(row, step.back, before, after);
      else if (clearsCounter(step)) counter = 0n;
      const wraps = BigInt(after[WRAPS] - byComplement);
      const wasParked = before[POSITION] === 0 && this.isParkedByTurn(row);
      this.parkedByTurn.push(after[POSITION] === 0 && (step.kind === 'turn' || wasParked));
      this.totals.push({ result: numberIn(after, profile, 'result') + wraps * whole, counter });
      before = after;
    }
  }

  /** What a turn step counts, whether or not the wheels can show it. */
  private countedIn(row: number, back: boolean, before: State, after: State): bigint {
    const { profile } = this;
    if (profile.counter === 0 || before[POSITION] === 0) return 0n;
    if (!has(before, AUTO_DIVIDE)) {
      if (before[POSITION] > profile.counter) return 0n;
      const sign = countSign(profile, before, has(before, SUBTRACTING) === back);
      return BigInt(sign * this.stateAfter(row)[TURNS]) * 10n ** BigInt(before[POSITION] - 1);
    }
    const whole = 10n ** BigInt(profile.counter);
    const moved = numberIn(after, profile, 'counter') - numberIn(before, profile, 'counter');
    const within = ((moved % whole) + whole) % whole;
    const expected = countSign(profile, before, false);
    return expected > 0 || within === 0n ? within : within - whole;
  }
}

function isOf(frame: Frame | undefined, { line, syntax }: Step, parent: number): frame is Frame {
  return frame?.parent?.id === parent && frame.step?.line === line && frame.step.syntax.from === syntax.from;
}

/** +1 or −1: how a turn that adds, or subtracts, is counted in this state. */
export function countSign(profile: Profile, state: State, adds: boolean): 1 | -1 {
  const sign = adds ? 1 : -1;
  switch (profile.count) {
    case 'follow':
      return sign;
    case 'lever':
      return has(state, COUNT_MINUS) ? (-sign as 1 | -1) : sign;
    case 'first':
      if (!has(state, SENSE_ADD | SENSE_SUBTRACT)) return 1;
      return adds === has(state, SENSE_ADD) ? 1 : -1;
  }
}

export const clearsCounter = (step: StepSyntax): boolean =>
  (step.kind === 'clear' && clearedBy(step).includes('counter')) ||
  (step.kind === 'transfer' && step.register === 'counter');

export const setsResult = (step: StepSyntax): boolean =>
  (step.kind === 'clear' && clearedBy(step).includes('result')) ||
  step.kind === 'dial' ||
  (step.kind === 'transfer' && step.register === 'result');

export const touchesSetting = (step: StepSyntax): boolean =>
  step.kind === 'set' || step.kind === 'transfer' || (step.kind === 'clear' && clearedBy(step).includes('setting'));
