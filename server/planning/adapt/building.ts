/**
 * Subtraction that builds up: where a counter can't count subtracting turns up, the same figures are turned forwards from
 * zero, and the result shows how much has been taken off.
 *
 * Invariant: within a stretch the new result and the old one make up what the old one was at its start.
 */
import type { StepSyntax, TurnStep } from '../../../grammar/tree.js';
import { AUTO_DIVIDE, has, POSITION, type Profile, SETTING, TURNS } from '../../machine/index.js';
import { isAdding, type Liveness } from './liveness.js';
import { countSign, type Occurrence, setsResult, type Walk } from './walk.js';

/** Rows of turns that are made the other way round, from the first to the last. */
export interface Stretch {
  readonly first: number;
  last: number;
  /** The old result before the first turn. */
  readonly from: bigint;
  /** Figures are found by going on until the result is below zero, as in a division. */
  divides: boolean;
}

export class Building {
  private readonly stretches: Stretch[] = [];
  /** Turns that go on until the result is below zero, and the ones that make that good. */
  private readonly untils = new Map<number, number>();
  private readonly restoring = new Set<number>();

  constructor(
    private readonly walk: Walk,
    to: Profile,
    liveness: Liveness,
  ) {
    const divided = new Set<number>();
    for (const o of walk.occurrences) if (o.step.syntax.kind === 'divide') addRows(divided, o);
    let open: Stretch | undefined;
    for (let row = 0; row < walk.rows; row++) {
      const step = walk.stepAt(row);
      const before = walk.stateBefore(row);
      if (setsResult(step)) open = undefined;
      if (step.kind !== 'turn' || before[POSITION] === 0) continue;
      const isByItself = divided.has(row) || has(before, AUTO_DIVIDE) || walk.complementTurns.has(row);
      const adds = isAdding(walk, row, step.back);
      const counts = countSign(walk.profile, before, adds);
      const isOpposite = counts !== (adds ? 1 : -1) && walk.profile.counter > 0 && liveness.counter(row + 1);
      if (isByItself || !isOpposite) open = undefined;
      else if (open) open.last = row;
      else if (!adds && to.count !== 'lever') {
        open = { first: row, last: row, from: walk.totalsBefore(row).result, divides: false };
        this.stretches.push(open);
      }
      if (!open || step.until !== 'overdraw') continue;
      open.divides = true;
      this.findRestoring(row);
    }
  }

  /** One turn right behind, the other way, makes an overdraw good. */
  private findRestoring(row: number): void {
    const { walk } = this;
    for (let next = row + 1; next < walk.rows && isOfTheLevers(walk.stepAt(next)); next++) {
      const step = walk.stepAt(next);
      if (step.kind !== 'turn') continue;
      const isOne = walk.stateAfter(next)[TURNS] === 1 && isAdding(walk, next, step.back);
      if (!isOne || walk.stateBefore(next)[SETTING] !== walk.stateBefore(row)[SETTING]) return;
      this.untils.set(row, next);
      this.restoring.add(next);
      return;
    }
  }

  /** The stretch that a turn lies in. */
  at(row: number): Stretch | undefined {
    return this.stretches.find(({ first, last }) => first <= row && row <= last);
  }

  /** The stretch that was begun before a row and has not ended there. */
  openBefore(row: number): Stretch | undefined {
    return this.stretches.find(({ first, last }) => first < row && row <= last);
  }

  /** Whether an overdraw of the old run has still to be made good before a row. */
  isPendingBefore(row: number): boolean {
    return [...this.untils].some(([until, restored]) => until < row && row <= restored);
  }

  /** How many turns a step comes to when nothing is overdrawn and made good. */
  turns(row: number, step: TurnStep): number | undefined {
    if (this.restoring.has(row)) return 0;
    if (step.until !== 'overdraw') return undefined;
    return this.walk.stateAfter(row)[TURNS] - (this.untils.has(row) ? 1 : 0);
  }
}

function addRows(rows: Set<number>, { first, end }: Occurrence): void {
  for (let row = first; row < end; row++) rows.add(row);
}

/** Between an overdraw and the turn that makes it good, nothing but levers moves. */
const isOfTheLevers = ({ kind }: StepSyntax): boolean =>
  kind === 'mode' || kind === 'count' || kind === 'note' || kind === 'caution' || kind === 'turn';
