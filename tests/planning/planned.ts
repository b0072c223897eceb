/** Plans for the tests: from text to a plan, and from a plan to a file that is checked like any other. */
import { parse } from '../../grammar/sections.js';
import type { Expression } from '../../grammar/tree.js';
import type { Profile } from '../../server/machine/index.js';
import { isRefused, type Method, type Plan, type Planned, plan } from '../../server/planning/index.js';
import type { FileReport } from '../../server/sequence/file.js';
import { Library } from '../../server/sequence/library.js';
import type { Values } from '../../server/sequence/substitute.js';

/** A machine's lines under the name `stores`. */
export const machineText = (...lines: string[]): string =>
  ['machine stores', ...lines.map((line) => `  ${line}`), ''].join('\n');

export function profileOf(machine: string): Profile {
  const library = new Library();
  library.set('machine.crank', machine);
  const section = library.tree('machine.crank')?.sections.find(({ section: { kind } }) => kind === 'machine')?.section;
  const profile = section?.kind === 'machine' ? library.machine(section).profile : undefined;
  if (!profile) throw new Error(`no machine: ${machine}`);
  return profile;
}

export function expressionOf(text: string): Expression {
  const section = parse(`sequence trial\n  goal result = ${text}\n`).sections.at(-1)?.section;
  const goal = section?.kind === 'sequence' ? section.goals[0] : undefined;
  if (!goal) throw new Error(`no expression: ${text}`);
  return goal.syntax.expression;
}

export interface Wishes {
  readonly values?: readonly Values[];
  readonly decimals?: number;
  readonly method?: Method;
  readonly register?: 'counter' | 'result';
  readonly isRounded?: boolean;
}

export const planned = (machine: string, expression: string, wishes: Wishes = {}): Planned =>
  plan({ expression: expressionOf(expression), profile: profileOf(machine), values: [], ...wishes });

/** The plan; a refusal fails the test. */
export function planFor(machine: string, expression: string, wishes: Wishes = {}): Plan {
  const outcome = planned(machine, expression, wishes);
  if (isRefused(outcome)) throw new Error(`${expression} refused: ${JSON.stringify(outcome)}`);
  return outcome;
}

/** The steps alone, without remarks. */
export const stepsOf = ({ lines }: Plan): string[] => lines.flatMap((line) => ('step' in line ? [line.step] : []));

/** The plan as a sequence in a file of its own, run and checked. */
export function checked(machine: string, { lines, register, goal }: Plan): { text: string; report: FileReport } {
  const body = lines.map((line) => ('step' in line ? line.step : `note "${line.remark.is}"`));
  const text = [
    machine,
    `sequence trial on stores`,
    `  goal ${register} = ${goal}`,
    ...body.map((step) => `  ${step}`),
    '',
  ].join('\n');
  const library = new Library();
  library.set('plan.crank', text);
  return { text, report: library.check('plan.crank') };
}
