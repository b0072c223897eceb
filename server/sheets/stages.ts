/**
 * Where a stage of the work ends: a sum is finished, and something else begins.
 *
 * A stage is ended by a reading that somebody takes, by whatever does away with what was turned (clearing, back transfer,
 * dialling), by a new setting after a product or a quotient, and by the end. Numbers that are merely added one after the
 * other are one stage: a column of slips has one total.
 */
import type { StepSyntax } from '../../grammar/tree.js';
import { TURNS } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';

/** Whether a stage is over by itself, or because somebody looks at the machine. */
export type StageEnd = 'over' | 'looked at';

/** Rows of the tape after which a stage has ended, each the last in which something was done. */
export function stageEnds({ tape }: CaseRun): ReadonlyMap<number, StageEnd> {
  const ends = new Map<number, StageEnd>();
  let last = -1;
  let stage = new Stage();
  const end = (why: StageEnd) => {
    if (last >= 0 && !ends.has(last)) ends.set(last, why);
    stage = new Stage();
  };
  for (let row = 0; row < tape.length; row++) {
    const { syntax } = tape.stepAt(row);
    if (isProse(syntax)) continue;
    if (isLook(syntax)) {
      end('looked at');
      continue;
    }
    if (stage.isEndedBy(syntax)) end('over');
    stage.take(syntax, tape.lookAt(row)[TURNS]);
    last = row;
  }
  end('over');
  return ends;
}

/** `note` and `caution` do nothing. */
export const isProse = ({ kind }: StepSyntax): boolean => kind === 'note' || kind === 'caution';
/** Somebody looks at the machine. */
export const isLook = ({ kind }: StepSyntax): boolean => kind === 'expect' || kind === 'ask';

class Stage {
  private turns = 0;
  /** Turns with the levers as they were set last. */
  private onSetting = 0;

  isEndedBy({ kind }: StepSyntax): boolean {
    if (kind === 'set') return this.onSetting > 1;
    return this.turns > 0 && (kind === 'clear' || kind === 'transfer' || kind === 'dial');
  }

  take({ kind }: StepSyntax, turns: number): void {
    if (kind === 'set') this.onSetting = 0;
    this.turns += turns;
    this.onSetting += turns;
  }
}
