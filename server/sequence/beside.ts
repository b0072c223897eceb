/** Two runs of one sequence side by side, row by row: those of the sound machine and of one with a fault. */
import type { Run } from './run.js';

/** Rows of the first and of the second run; one is missing where only the other machine carried out the step. */
export interface Pair {
  readonly sound?: number;
  readonly faulty?: number;
}

/**
 * Steps as written come in the same order in both. What a `multiply` or `divide` stands for may be more steps on one
 * machine than on the other, or none where it can't be done.
 */
export function pairs(sound: Run, faulty: Run): Pair[] {
  const found: Pair[] = [];
  let i = 0;
  let j = 0;
  while (i < sound.tape.length || j < faulty.tape.length) {
    const one = unitAt(sound, i);
    const other = unitAt(faulty, j);
    // Of two different ones, that of a step that stands for others is what the other machine has not.
    const isSame = one?.key === other?.key;
    const takesOne = one !== undefined && (isSame || other === undefined || one.isOpened);
    const takesOther = other !== undefined && (isSame || !takesOne);
    const rows = takesOne ? one.rows : 0;
    const otherRows = takesOther ? other.rows : 0;
    for (let k = 0; k < Math.max(rows, otherRows); k++) {
      found.push({ ...(k < rows && { sound: i + k }), ...(k < otherRows && { faulty: j + k }) });
    }
    i += rows;
    j += otherRows;
  }
  return found;
}

interface Unit {
  /** Where the step is written. */
  readonly key: string;
  readonly rows: number;
  readonly isOpened: boolean;
}

/** The step that begins in a row: by itself, or with all the steps that it stands for. */
function unitAt({ tape }: Run, row: number): Unit | undefined {
  if (row >= tape.length) return undefined;
  const frame = tape.frameAt(row);
  const { line, syntax } = (frame.isOpened && frame.step) || tape.stepAt(row);
  const key = `${frame.isOpened} ${line} ${syntax.from}`;
  if (!frame.isOpened) return { key, rows: 1, isOpened: false };
  let end = row + 1;
  while (end < tape.length && tape.frameAt(end) === frame) end++;
  return { key, rows: end - row, isOpened: true };
}
