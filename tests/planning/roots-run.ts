/** Roots planned for a machine, and their steps run like any other sequence. */

import type Fraction from 'fraction.js';
import { formOf } from '../../server/planning/forms.js';
import { Operator, Stuck } from '../../server/planning/operator.js';
import type { Limit, Method, Remark } from '../../server/planning/order.js';
import { extractRoot } from '../../server/planning/roots.js';
import { SKILLS } from '../../server/planning/skills.js';
import { proved } from '../../server/planning/verify.js';
import { Library } from '../../server/sequence/library.js';
import { type TracedStep, traceOf } from '../../server/sequence/trace.js';
import { expressionOf, profileOf } from './planned.js';

export interface Asked {
  /** Lines of the machine. */
  readonly machine: readonly string[];
  /** What the root is taken of. */
  readonly of: string;
  readonly decimals: number;
  readonly method?: Method;
  /** The values in all cases, where the plan is to serve more than one. */
  readonly answers?: readonly Fraction[];
  /** What somebody has done at the machine before. */
  readonly after?: (operator: Operator) => void;
}

export interface Taken {
  readonly lines: readonly string[];
  readonly remarks: readonly Remark[];
  readonly steps: readonly TracedStep[];
  /** What stands in the registers at the end, as whole numbers. */
  readonly counter: bigint;
  readonly result: bigint;
  readonly points: TracedStep['points'];
  readonly goal: string | undefined;
  /** Codes of everything that was found, with the line it stands in. */
  readonly findings: readonly string[];
  readonly operator: Operator;
}

/**
 * The root's steps run through the check, or the limit that stands in the way. Told to, turns are made as short as they
 * can be first, as a plan's are.
 */
export function takeRoot(asked: Asked, shortened = false): Taken | Limit {
  const { machine, of, decimals, method, after, answers = [] } = asked;
  const profile = profileOf([...headOf(machine), ''].join('\n'));
  const { over, under } = formOf(expressionOf(of), []);
  const terms = { skills: SKILLS, kept: undefined, rootDecimals: decimals, method, roundsQuotient: false, answers };
  let operator: Operator;
  try {
    const start = new Operator(profile);
    after?.(start);
    operator = extractRoot(start, { over, under }, terms, decimals);
  } catch (error) {
    if (error instanceof Stuck) return error.limit;
    throw error;
  }
  const goal = `sqrt(${of})`;
  const order = { expression: expressionOf(goal), profile, values: [] };
  const draft = { lines: operator.lines, goal: { register: 'counter', expression: goal } } as const;
  const planned = (shortened ? proved(order, draft)?.lines : undefined) ?? operator.lines;
  const lines = planned.map((line) => ('step' in line ? line.step : `note "${line.remark.is}"`));
  const text = [...headOf(machine), 'sequence root on desk', `goal counter = ${goal}`, ...lines, ''].join('\n');
  const library = new Library();
  library.set('root.crank', text);
  const { sequences, findings } = traceOf(library, library.check('root.crank'));
  const [{ steps, goals }] = sequences;
  const last = steps[steps.length - 1];
  const written = text.split('\n');
  return {
    lines,
    remarks: operator.lines.flatMap((line) => ('remark' in line ? [line.remark] : [])),
    steps,
    counter: signedSum(last.counter),
    result: BigInt(last.result),
    points: last.points,
    goal: goals[0]?.met,
    findings: findings.map(({ code, line, message }) => `${code} at “${written[line - 1]}”: ${message}`),
    operator,
  };
}

/** The root's steps, which must be there and without a finding. */
export function rootTaken(asked: Asked, shortened = false): Taken {
  const taken = takeRoot(asked, shortened);
  if ('is' in taken) throw new Error(`not to be done: ${JSON.stringify(taken)}`);
  if (taken.findings.length > 0) throw new Error(`${taken.findings.join('\n')}\n\n${taken.lines.join('\n')}`);
  return taken;
}

const headOf = (machine: readonly string[]) => ['machine desk', ...machine.map((line) => `  ${line}`)];

/** The sum of figure times place; a figure may have its own sign. */
const signedSum = (register: string): bigint =>
  (register.match(/-?\d/g) ?? []).reduce((sum, figure) => sum * 10n + BigInt(figure), 0n);
