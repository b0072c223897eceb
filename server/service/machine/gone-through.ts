/** A run that somebody goes through in a panel: its moments, its written steps, and what was noticed when. */
import type { Gradual } from '../../../grammar/gradual.js';
import { TURNS, WRAPS } from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import { CODES, type Facts, type Place, type Severity } from '../../sequence/findings.js';
import type { GoalResult } from '../../sequence/goals.js';
import { stateBefore } from '../../sequence/rows.js';
import type { Run } from '../../sequence/run.js';
import { type Happening, type SteppedRun, stepThrough } from '../../stepping/stepped-run.js';
import { Timeline } from '../../stepping/timeline.js';
import { WrittenRows } from '../../stepping/written.js';

/** What was noticed in a row, or what a goal lacks at the end. */
export interface Noticed {
  readonly row: number;
  /** The turn of the row from which on it is so; 1 where it is no matter of turns. */
  readonly turn: number;
  readonly facts: Facts;
  readonly level: Severity;
  readonly at: Place;
  /** The goal that was missed. */
  readonly goal?: GoalResult;
}

export class GoneThrough {
  readonly timeline: Timeline;
  private readonly noticed = new Map<number, Noticed[]>();
  /** Goals that are missed show from here on, to the end. */
  private readonly lastAct: number;
  private readonly missed: readonly Noticed[];

  /** @param judged the same run with what was found in it, where it is that of a text and not of somebody's hand */
  constructor(
    readonly stepped: SteppedRun,
    readonly written: WrittenRows,
    judged?: CaseRun,
  ) {
    const { run } = stepped;
    this.timeline = new Timeline(run);
    for (const happening of stepped.happenings) this.note(happening);
    this.lastAct = lastActIn(run);
    this.missed = judged ? missedGoals(judged, this.lastAct) : [];
  }

  /** What is noticed in a row: nothing past the last. */
  inRow(row: number): readonly Noticed[] {
    const own = this.noticed.get(row) ?? [];
    return row === this.lastAct ? [...own, ...this.missed] : own;
  }

  /** What is wrong at a moment for what was done up to it: in the step itself, or at the end. */
  by(moment: number): Noticed[] {
    const { row, turns, isWhole } = this.timeline.done(moment);
    if (row < 0) return [];
    const own = (this.noticed.get(row) ?? []).filter(({ turn }) => isWhole || turn <= turns);
    return row > this.lastAct || (row === this.lastAct && isWhole) ? [...own, ...this.missed] : own;
  }

  /** What will be wrong with the next step, or with what is left of the present one. */
  after(moment: number): Noticed[] {
    const { turns, isWhole } = this.timeline.done(moment);
    const all = this.inRow(this.timeline.next(moment));
    return isWhole ? [...all] : all.filter(({ turn, goal }) => goal !== undefined || turn > turns);
  }

  private note({ row, facts, at }: Happening): void {
    const here = this.noticed.get(row) ?? [];
    if (here.some((other) => other.facts.code === facts.code)) return;
    const turn = this.turnOf(row, facts);
    this.noticed.set(row, [...here, { row, turn, facts, at, level: CODES[facts.code] }]);
  }

  private turnOf(row: number, facts: Facts): number {
    const { run } = this.stepped;
    if (row >= run.tape.length) return 1;
    const turns = run.tape.lookAt(row)[TURNS];
    if (facts.code === 'auto-clear-repeat') return 2;
    if (facts.code === 'never-overdraws' || facts.code === 'never-stops' || facts.code === 'too-long') return turns;
    const turn = 'turn' in facts ? facts.turn : 1;
    if (turn > 0) return Math.min(turn, Math.max(1, turns));
    // Of a step that stands for others the turn is not told: it is the first after which the result has gone round.
    const before = stateBefore(run, row)[WRAPS];
    for (let made = 1; made < turns; made++) {
      if (this.timeline.stateAt(this.timeline.before(row) + made)[WRAPS] !== before) return made;
    }
    return Math.max(1, turns);
  }
}

/** The last row in which the machine may move. */
function lastActIn({ tape }: SteppedRun['run']): number {
  for (let row = tape.length - 1; row > 0; row--) {
    const { kind } = tape.stepAt(row).syntax;
    if (kind !== 'note' && kind !== 'caution' && kind !== 'expect' && kind !== 'ask') return row;
  }
  return 0;
}

function missedGoals({ goals, findings, brokeOff }: CaseRun, row: number): Noticed[] {
  if (brokeOff) return [];
  return findings.flatMap(({ facts, at }): Noticed[] => {
    if (facts.code !== 'goal-missed') return [];
    const { why, register } = facts;
    const goal =
      why.is === 'differs'
        ? goals.find((one) => one.register === register && one.goal === why.goal && one.met === undefined)
        : undefined;
    return goal ? [{ row, turn: 1, facts, at, level: 'error', goal }] : [];
  });
}

/** Invariant: a run never changes, so that what was gathered of it holds until there is another one. */
const KNOWN = new WeakMap<Run, GoneThrough>();

/** A run made ready to be gone through; it is cranked again once, with pauses. */
export function* goneThrough(run: CaseRun): Gradual<GoneThrough> {
  return KNOWN.get(run) ?? (yield* gathered(yield* stepThrough(run.order), run));
}

/** The same of a run that somebody steps through, perhaps on a machine with a fault and with steps done by hand. */
export function* goneThroughInSession(stepped: SteppedRun): Gradual<GoneThrough> {
  return KNOWN.get(stepped.run) ?? (yield* gathered(stepped));
}

function* gathered(stepped: SteppedRun, judged?: CaseRun): Gradual<GoneThrough> {
  const made = new GoneThrough(stepped, yield* WrittenRows.in(stepped.run), judged);
  KNOWN.set(judged ?? stepped.run, made);
  return made;
}
