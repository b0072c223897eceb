/**
 * Sequences written as text and cranked on a machine: what its registers show at the end, read from the trace.
 *
 * Whatever the run finds that is an error or a warning, and was not foreseen, fails the test.
 */
import type { Code } from '../../server/sequence/findings.js';
import { Library } from '../../server/sequence/library.js';
import { type TracedSequence, type TracedStep, traceOf } from '../../server/sequence/trace.js';

export type RegisterName = 'setting' | 'counter' | 'result';

export interface Cranked {
  readonly steps: readonly TracedStep[];
  readonly last: TracedStep;
  /** The figures at the end, as whole numbers, markers left aside. */
  readonly setting: bigint;
  readonly counter: bigint;
  readonly result: bigint;
  readonly effort: TracedSequence['effort'];
  readonly goals: TracedSequence['goals'];
  readonly codes: readonly Code[];
  /** A register's figures at the end with the point at its marker. */
  reading(register: RegisterName): string;
}

/** Machines of 20 places, so that the figures of the published examples go in. */
const WIDE = ['setting 20', 'counter 20', 'result 20 dials', 'carriage 20', 'bell'];
export const MACHINES = {
  /** The crank turns both ways; back transfer from both registers. */
  wide: [...WIDE, 'transfer result', 'transfer counter'],
  /** The counter takes its sense from the first turn, so that divisions count up. */
  divider: [...WIDE, 'count first'],
} as const;

/** Runs steps on a machine given by its lines. `foreseen` are errors and warnings that belong to the example. */
export function crank(
  machine: readonly string[],
  steps: string | readonly string[],
  foreseen: readonly Code[] = [],
): Cranked {
  const [traced, codes] = traceText(fileText(machine, typeof steps === 'string' ? [steps] : steps), foreseen);
  const { steps: rows, effort, goals } = traced[0];
  const last = rows[rows.length - 1];
  return {
    steps: rows,
    last,
    setting: BigInt(last.setting),
    counter: last.counter === '' ? 0n : signedSum(last.counter),
    result: BigInt(last.result),
    effort,
    goals,
    codes,
    reading: (register) => withPoint(last[register], last.points[register]),
  };
}

/** Runs the same steps for every number given, `m` standing for it: one run each. */
export function crankCases(
  machine: readonly string[],
  numbers: readonly string[],
  steps: readonly string[],
): readonly TracedSequence[] {
  const [first, ...others] = numbers;
  const cases = others.map((n) => `  case m = ${n}`);
  const text = fileText(machine, [...cases, ...steps], ` (m = ${first})`);
  return traceText(text, [])[0];
}

function fileText(machine: readonly string[], steps: readonly string[], parameters = ''): string {
  return ['machine desk', ...machine, `sequence shown${parameters} on desk`, ...steps, ''].join('\n');
}

function traceText(text: string, foreseen: readonly Code[]): [readonly TracedSequence[], readonly Code[]] {
  const library = new Library();
  library.set('shown.crank', text);
  const { sequences, findings } = traceOf(library, library.check('shown.crank'));
  const grave = findings.filter(
    ({ severity, code }) => (severity === 'error' || severity === 'warning') && !foreseen.includes(code),
  );
  if (grave.length > 0) {
    const lines = text.split('\n');
    const told = grave.slice(0, 5).map((f) => `${f.line} “${lines[f.line - 1].trim()}”: ${f.code}: ${f.message}`);
    throw new Error(`Not foreseen:\n${told.join('\n')}`);
  }
  if (sequences.length === 0) throw new Error(`The sequence was not run:\n${text}`);
  return [sequences, findings.map(({ code }) => code)];
}

/** The sum of figure times place; a figure may have its own sign. */
export function signedSum(register: string): bigint {
  return (register.match(/-?\d/g) ?? []).reduce((sum, figure) => sum * 10n + BigInt(figure), 0n);
}

/** `0042140` with 2 decimals is `421.40`. */
export function withPoint(figures: string, decimals: number): string {
  const whole = figures.slice(0, figures.length - decimals).replace(/^0+(?=\d)/, '') || '0';
  return decimals === 0 ? whole : `${whole}.${figures.slice(figures.length - decimals)}`;
}
