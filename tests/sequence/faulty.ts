/** A text's last sequence on its machine, sound and with a fault, as it shows after every step. */
import { faultOn, isFaultProblem } from '../../server/sequence/fault-text.js';
import { lookingsIn, looksAt, partingOf } from '../../server/sequence/looks.js';
import { type Run, type RunOrder, run } from '../../server/sequence/run.js';
import { stateText } from '../../server/sequence/trace.js';
import { checkText } from '../marked.js';

export interface Trial {
  readonly sound: Run;
  readonly faulty: Run;
}

/** How a sequence of a text is run, counted as in a list: −1 is the last one. */
export function orderOf(text: string, which = -1): RunOrder {
  const order = checkText(text).report.sequences.at(which)?.runs[0]?.order;
  if (!order) throw new Error('There is no sequence that could be run.');
  return order;
}

export function withFault(text: string, fault: string): Trial {
  const order = orderOf(text);
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
  lookingsIn(run).map((looking) =>
    looksAt(looking.step, looking, run.order.profile)
      .map(({ shown }) => String(shown))
      .join(' '),
  );

export const isCaught = ({ sound, faulty }: Trial): boolean => partingOf(sound, faulty) !== undefined;
