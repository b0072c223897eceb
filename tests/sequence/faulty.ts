/** A text's last sequence on its machine, sound and with a fault, as it shows after every step. */
import { faultOn, isFaultProblem } from '../../server/sequence/fault-text.js';
import { lookingsIn, partingOf } from '../../server/sequence/looks.js';
import { type Run, run } from '../../server/sequence/run.js';
import { stateText } from '../../server/sequence/trace.js';
import { checkText } from '../marked.js';

export interface Trial {
  readonly sound: Run;
  readonly faulty: Run;
}

export function withFault(text: string, fault: string): Trial {
  const order = checkText(text).report.sequences.at(-1)?.runs[0]?.order;
  if (!order) throw new Error('There is no sequence that could be run.');
  const read = faultOn(order.profile, fault);
  if (isFaultProblem(read)) throw new Error(`${fault}: ${JSON.stringify(read)}`);
  return { sound: run(order), faulty: run({ ...order, fault: read }) };
}

export const shownRows = ({ tape, order }: Run) =>
  Array.from({ length: tape.length }, (_, row) => {
    const { points: _points, ...shown } = stateText(tape.stateAt(row), order.profile);
    return shown;
  });

/** What was read in each `expect` and `ask`, one text a step: `12 true`. */
export const readIn = (run: Run): string[] =>
  lookingsIn(run).map(({ looks }) => looks.map(({ shown }) => String(shown)).join(' '));

export const isCaught = ({ sound, faulty }: Trial): boolean => partingOf(sound, faulty) !== undefined;
