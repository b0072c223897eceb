/**
 * What the machine shows at a place in a sequence that is half written, and what it would show after one more step.
 *
 * Invariant: there is one run. The steps left of the place are run as they are, and the step that may come is put
 * behind them; nothing reckons in its place.
 */
import { LineReader } from '../../../grammar/lines.js';
import type {
  LineItem,
  NumberSyntax,
  Placed,
  Section,
  SequenceSection,
  Step,
  StepSyntax,
} from '../../../grammar/tree.js';
import {
  hasSignedWheels,
  numberIn,
  type Profile,
  pointOf,
  type Register,
  type State,
  WRAPS,
} from '../../machine/index.js';
import { Allowance, type CaseRun, checkSequence } from '../../sequence/check.js';
import { decimalText } from '../../sequence/readings.js';
import type { ParsedDocument, Reader } from '../document.js';

/** A place in a section: its line there, from 0, and a column. */
export interface At {
  readonly line: number;
  readonly character: number;
}

/** Longer sequences are not run again while somebody types. */
const MOST_ROWS = 5_000;
/** A run pauses after some 20,000 steps and turns. */
const MOST_PAUSES = 2;
const MOST_STEPS_ABOVE = 20_000;

/**
 * A run of what stands left of a place, in the case that is shown, with further steps behind it. Between braces it is
 * the first round. Undefined where there is no machine to run it on, or it would take long. It may have broken off.
 */
export function outlook(
  document: ParsedDocument,
  { section }: Placed<SequenceSection>,
  at: At,
  reader: Reader,
  further: readonly Step[] = [],
): CaseRun | undefined {
  const { library, file } = document;
  const machine = library.scope(file).machineOf(section);
  const profile = machine && library.machine(machine).profile;
  const name = section.header?.name.name;
  if (!profile || name === undefined || section.steps.length > MOST_STEPS_ABOVE) return undefined;
  const chosen = reader.chosenCase(document.uri, name) ?? reader.settings.readingsCase;
  const cases = section.cases.slice(chosen - 1, chosen);
  const steps = stepsBefore(section.steps, at, further);
  const cut: SequenceSection = { ...section, steps, goals: [], cases: chosen > 0 ? cases : [] };
  const checking = checkSequence(cut, machine, profile, {
    resolve: (name: string, from: Section) => library.scope(library.fileOf(from) ?? file).sequence(name),
    sequenceNames: () => [],
    known: [],
    allowance: new Allowance(),
  });
  for (let pauses = 0; pauses <= MOST_PAUSES; pauses++) {
    const { done, value } = checking.next();
    if (!done) continue;
    const run = value.runs.at(-1);
    return run && run.tape.length <= MOST_ROWS ? run : undefined;
  }
  return undefined;
}

const ONCE: NumberSyntax = { kind: 'number', text: '1', figures: '1', isValue: false, decimals: 0, from: 0, to: 0 };

/** The steps left of a place; of a `repeat` that is not closed there, one round so far. */
function stepsBefore(steps: readonly Step[], at: At, further: readonly Step[]): Step[] {
  const before = steps.filter(({ line, syntax }) => isBefore(line, syntax.from, at));
  const last = before.at(-1);
  const isInside = last?.body && !(last.close && isBefore(last.close.line, last.close.syntax.from, at));
  if (!last?.body || !isInside || last.syntax.kind !== 'repeat') return [...before, ...further];
  const body = stepsBefore(last.body, at, further);
  return [...before.slice(0, -1), { line: last.line, syntax: { ...last.syntax, count: ONCE }, body }];
}

const isBefore = (line: number, from: number, at: At): boolean =>
  line < at.line || (line === at.line && from < at.character);

/** A step as it would stand at a place; undefined where the text is no step that can be carried out by itself. */
export function stepFrom(text: string, at: At): Step | undefined {
  const { items, errors } = new LineReader().read(text, 'sequence');
  const [item] = items;
  if (items.length !== 1 || errors.length > 0 || NO_STEPS.has(item.kind)) return undefined;
  return { line: at.line, syntax: { ...(item as StepSyntax), from: at.character } };
}

const NO_STEPS: ReadonlySet<LineItem['kind']> = new Set(['goal', 'case', 'close', 'repeat']);

/** A reading as `expect` would meet it, without the minus of one that is a complement. */
export interface WrittenReading {
  readonly text: string;
  readonly isNegative: boolean;
}

/**
 * The ways to write what a register shows so that `expect` meets it, the likeliest first: a value where the decimal
 * marker was moved, else the figures; below zero what is missing.
 */
export function writtenReadings(state: State, profile: Profile, register: Register): WrittenReading[] {
  const units = numberIn(state, profile, register);
  const marker = pointOf(state, register);
  const written = (n: bigint): WrittenReading => ({
    text: decimalText(n < 0n ? -n : n, marker),
    isNegative: n < 0n,
  });
  if (units <= 0n || register === 'setting' || hasSignedWheels(profile, register)) return [written(units)];
  const complement = written(units - 10n ** BigInt(profile[register]));
  const isBelow = register === 'result' && state[WRAPS] < 0;
  const isLikely = isBelow || (profile[register] > 1 && units * 10n >= 9n * 10n ** BigInt(profile[register]));
  if (!isLikely) return [written(units)];
  return isBelow ? [complement, written(units)] : [written(units), complement];
}
