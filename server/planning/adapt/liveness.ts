/** Which readings still matter: a counter that nobody reads before it is cleared may show anything. */
import type { SequenceSection, StepSyntax } from '../../../grammar/tree.js';
import { AUTO_DIVIDE, has, POSITION, type Register, SUBTRACTING } from '../../machine/index.js';
import { allSteps } from '../../sequence/names.js';
import { clearsCounter, countSign, setsResult, touchesSetting, type Walk } from './walk.js';

/**
 * `read`: whatever is read, expected or asked for. `wanted`: only what a goal, an `ask` or a transfer needs; an `expect`
 * may then read something else, and that is told.
 */
export type Strictness = 'read' | 'wanted';

/** How the turns between two clearings of the counter are counted. */
export interface Stretch {
  /** +1 if adding turns count up, −1 if subtracting turns do; undefined if that changes on the way. */
  sense: 1 | -1 | undefined;
  /** How its first turn is counted, and in which row that is. */
  readonly first: 1 | -1;
  readonly firstRow: number;
}

export class Liveness {
  private readonly counters: boolean[];
  private readonly settings: boolean[];
  private readonly results: boolean[];
  private readonly stretches = new Map<number, Stretch>();

  constructor(walk: Walk, section: SequenceSection, strictness: Strictness) {
    const { rows } = walk;
    this.counters = new Array(rows + 1).fill(false);
    this.settings = new Array(rows + 1).fill(false);
    this.results = new Array(rows + 1).fill(false);
    const readsAll = !readsAnything(section);
    this.results[rows] = readsAll || section.goals.some(({ syntax }) => syntax.register === 'result');
    this.counters[rows] = section.goals.some(({ syntax }) => syntax.register === 'counter') || readsAll;
    for (let row = rows - 1; row >= 0; row--) {
      const step = walk.stepAt(row);
      const readsCounter =
        reads(step, 'counter', strictness) || (step.kind === 'transfer' && step.register === 'counter');
      this.counters[row] = readsCounter || (!clearsCounter(step) && this.counters[row + 1]);
      const usesResult =
        reads(step, 'result', 'read') ||
        step.kind === 'turn' ||
        (step.kind === 'transfer' && step.register === 'result');
      this.results[row] = usesResult || (!setsResult(step) && this.results[row + 1]);
      const usesSetting =
        reads(step, 'setting', 'read') ||
        step.kind === 'transfer' ||
        (step.kind === 'turn' && walk.stateBefore(row)[POSITION] !== 0);
      this.settings[row] = usesSetting || (!touchesSetting(step) && this.settings[row + 1]);
    }
    this.findStretches(walk);
  }

  /** Whether what the counter shows before a row matters. */
  counter(row: number): boolean {
    return this.counters[row];
  }

  /** Whether what the result shows before a row matters. */
  result(row: number): boolean {
    return this.results[row];
  }

  /** Whether what the levers show before a row matters. */
  setting(row: number): boolean {
    return this.settings[row];
  }

  /** The stretch in which a turn step lies; undefined where it is not counted. */
  stretch(row: number): Stretch | undefined {
    return this.stretches.get(row);
  }

  private findStretches(walk: Walk): void {
    let stretch: Stretch | undefined;
    for (let row = 0; row < walk.rows; row++) {
      const step = walk.stepAt(row);
      if (clearsCounter(step)) stretch = undefined;
      const before = walk.stateBefore(row);
      if (step.kind !== 'turn' || before[POSITION] === 0 || walk.profile.counter === 0) continue;
      const adds = has(before, AUTO_DIVIDE) ? false : isAdding(walk, row, step.back);
      const counts = countSign(walk.profile, before, walk.complementTurns.has(row) ? true : adds);
      const sense = (adds ? counts : -counts) as 1 | -1;
      if (!stretch) stretch = { sense, first: counts, firstRow: row };
      else if (stretch.sense !== sense) stretch.sense = undefined;
      this.stretches.set(row, stretch);
    }
  }
}

/** Whether a turn step adds, in effect: one that adds a complement subtracts. */
export function isAdding(walk: Walk, row: number, back: boolean): boolean {
  if (walk.complementTurns.has(row)) return false;
  return has(walk.stateBefore(row), SUBTRACTING) === back;
}

function reads(step: StepSyntax, register: Register, strictness: Strictness): boolean {
  if (step.kind !== 'ask' && (step.kind !== 'expect' || strictness === 'wanted')) return false;
  return step.items.some((item) => 'register' in item && item.register === register);
}

/** A sequence that reads nothing at all is taken to be about everything that it leaves behind. */
function readsAnything(section: SequenceSection): boolean {
  if (section.goals.length > 0) return true;
  return [...allSteps(section.steps)].some(
    ({ syntax }) => (syntax.kind === 'expect' || syntax.kind === 'ask') && syntax.items.some((i) => 'register' in i),
  );
}
