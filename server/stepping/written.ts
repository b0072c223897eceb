/** Which rows of a run belong to the steps as they are written, each time that such a step was carried out. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import { type Written, writtenAs, writtenKey } from '../sequence/rows.js';
import type { Run } from '../sequence/run.js';
import type { Frame } from '../sequence/tape.js';

/** One carrying out of a written step: of one that holds or stands for others, from its first row to its last. */
export interface CarriedOut {
  readonly first: number;
  last: number;
  /** The frame in which the step is written: in each round of a `repeat` another one. */
  readonly frame: Frame;
}

const ROWS_BETWEEN_PAUSES = 4_000;

export class WrittenRows {
  private readonly found = new Map<number, CarriedOut[]>();

  private constructor(private readonly run: Run) {}

  /** Those of a run, gathered with pauses. */
  static *in(run: Run): Gradual<WrittenRows> {
    const rows = new WrittenRows(run);
    for (let row = 0; row < run.tape.length; row++) {
      for (const { step, frame } of rows.around(row)) rows.add(step, frame, row);
      if (row % ROWS_BETWEEN_PAUSES === 0) yield;
    }
    return rows;
  }

  /** Each time that a step of the sequence itself was carried out, in order. */
  of(step: Written): readonly CarriedOut[] {
    return this.found.get(writtenKey(step)) ?? [];
  }

  /** The step of the sequence itself that a row belongs to: the innermost one that is written there. */
  ownStep(row: number): Step {
    return this.around(row)[0]?.step ?? this.run.tape.stepAt(row);
  }

  /** Whether two rows, one after the other, are of one and the same time that a step of the sequence was carried out. */
  isOneTime(row: number, next: number): boolean {
    const [one] = this.around(row);
    const [other] = this.around(next);
    // A step that neither holds nor stands for others has one row.
    return one !== undefined && one.frame === other?.frame && one.step === other.step && this.isNested(row);
  }

  private isNested(row: number): boolean {
    return this.run.tape.frameAt(row) !== this.around(row)[0]?.frame;
  }

  /** The step that a row belongs to where that is written, be it in another sequence, and the frame around it. */
  writtenStep(row: number): { readonly step: Step; readonly frame: Frame } {
    const { tape } = this.run;
    let step: Step = tape.stepAt(row);
    let frame = tape.frameAt(row);
    while (frame.isOpened && frame.parent && frame.step) {
      step = frame.step;
      frame = frame.parent;
    }
    return { step, frame };
  }

  /** The steps of the sequence itself around a row, from the innermost out. */
  private around(row: number): { readonly step: Step; readonly frame: Frame }[] {
    const { tape, order } = this.run;
    const steps: { readonly step: Step; readonly frame: Frame }[] = [];
    let step: Step | undefined = tape.stepAt(row);
    let frame: Frame | undefined = tape.frameAt(row);
    while (frame && step) {
      if (frame.section === order.section && !frame.isOpened) steps.push({ step, frame });
      ({ step, parent: frame } = frame as { readonly step?: Step; readonly parent?: Frame });
    }
    return steps;
  }

  private add(step: Step, frame: Frame, row: number): void {
    const key = writtenKey(writtenAs(step));
    const all = this.found.get(key);
    const last = all?.at(-1);
    // The rounds of a `repeat` are one carrying out of it.
    if (last?.frame === frame) last.last = row;
    else if (all) all.push({ first: row, last: row, frame });
    else this.found.set(key, [{ first: row, last: row, frame }]);
  }
}

/** The frames around a row, from the outermost in, the sequence itself left out. */
export function framesAround({ tape }: Run, row: number): Frame[] {
  const frames: Frame[] = [];
  for (let frame: Frame | undefined = tape.frameAt(row); frame?.parent; frame = frame.parent) frames.unshift(frame);
  return frames;
}
