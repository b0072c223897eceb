/**
 * Runs of written turns and shifts for which there is a cheaper one with the same outcome.
 *
 * A run is a row of steps that stand right below one another in the sequence itself. A turn that goes wrong, or takes
 * the result past its ends, ends it: what somebody made good, or meant, is left in peace.
 */
import type { Gradual } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import { newState, type State } from '../machine/index.js';
import type { Run } from './run.js';
import { type Shorter, WrittenRun } from './written-run.js';

const RUNS_BETWEEN_PAUSES = 50;

/** The runs of a sequence that could be shorter with every one of its cases, case by case. */
export function* shorterRuns(runs: readonly Run[]): Gradual<readonly (readonly Shorter[])[]> {
  const found: Shorter[][] = [];
  for (const run of runs) found.push(yield* shorterIn(run));
  if (found.length < 2) return found;
  const [first, ...others] = found.map((ofCase) => new Map(ofCase.map((one) => [one.at, one])));
  const isSame = (a: Shorter, b: Shorter | undefined) =>
    b !== undefined && a.count === b.count && a.steps.join() === b.steps.join();
  return found.map((ofCase) =>
    ofCase.filter(({ at }) => {
      const one = first.get(at);
      return one !== undefined && others.every((other) => isSame(one, other.get(at)));
    }),
  );
}

function* shorterIn(run: Run): Gradual<Shorter[]> {
  const found: Shorter[] = [];
  const { order, tape, notices } = run;
  const { steps, errors } = order.section;
  const current = new WrittenRun(order.profile, tape, found);
  let row = 0;
  let lastLine = 0;
  for (let at = 0; at < steps.length && row < tape.length; at++) {
    const step = steps[at];
    if (step.body !== undefined || isNested(step)) {
      current.close();
      while (row < tape.length && tape.frameAt(row).depth > 0) row++;
      continue;
    }
    const own = row++;
    if (errors.length > 0 && errors.some(({ line }) => line >= lastLine && line <= step.line)) current.close();
    lastLine = step.line;
    if (!isCounted(step) || notices.isGrave(step)) {
      current.close();
      continue;
    }
    if (!current.isOpen) {
      if (current.examined >= RUNS_BETWEEN_PAUSES) {
        current.examined = 0;
        yield;
      }
      current.open(at, own === 0 ? NOTHING : tape.lookAt(own - 1));
    }
    current.goOn(step, own);
  }
  // Where a run broke off, nobody knows how the last steps would have ended.
  if (!run.brokeOff) current.close();
  return found;
}

const isNested = ({ syntax: { kind } }: Step): boolean =>
  kind === 'repeat' || kind === 'run' || kind === 'multiply' || kind === 'divide';

/** Turns, shifts and moves of the drive lever with the numbers written out. */
function isCounted({ syntax }: Step): boolean {
  switch (syntax.kind) {
    case 'turn':
      return syntax.until === undefined && syntax.count?.kind !== 'name';
    case 'shift':
      return syntax.way !== 'out' && syntax.count?.kind !== 'name';
    default:
      return syntax.kind === 'mode';
  }
}

const NOTHING: State = newState();
