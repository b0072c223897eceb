/** `cranknote plan`: from an expression to the steps that work it out on a machine. */
import { printExpression } from '../../grammar/printer.js';
import type { Expression } from '../../grammar/tree.js';
import { type ComparedOrder, compare } from '../planning/compare.js';
import { isRefused, type Method, type Plan, type Refusal } from '../planning/order.js';
import { plan as planFor } from '../planning/plan.js';
import { sectionOf } from '../planning/text.js';
import { planWording } from '../planning/wording/index.js';
import { expressionOf } from './expression.js';
import { CannotRun } from './files.js';
import { findMachines, type Machines, machineNamed, type UsableMachine, usableOf } from './machines.js';
import { answerLine, comparisonText, explanation } from './output/plan.js';
import { comparisonJson, planJson, refusalJson } from './output/plan-json.js';
import { planData } from './plan-data.js';
import { printWhole, sequenceName } from './planned.js';
import { harmless, Progress, paragraph, type Terminal } from './terminal.js';

export const PLAN_FORMATS = ['text', 'json'] as const;
/** In place of a machine's name: all that there are, compared. */
const ALL = 'all';

export interface PlanOptions {
  readonly on?: string;
  readonly file?: string;
  readonly decimals?: number;
  readonly method?: Method;
  readonly round?: boolean;
  readonly register?: 'counter' | 'result';
  readonly explain?: boolean;
  readonly name?: string;
  /** A table of numbers; then sums over its rows are planned. */
  readonly data?: string;
  readonly format: (typeof PLAN_FORMATS)[number];
}

const wording = planWording('en');
/** Limits of what was asked: no other machine would do. */
const OF_EXPRESSION: ReadonlySet<string> = new Set(['no-value', 'nothing-for-method']);

/** Returns the exit code: 0 planned, 1 refused (with `all`: by every machine), 2 can't run. */
export function plan(text: string, options: PlanOptions, terminal: Terminal): number {
  if (options.data !== undefined) return planData(text, options.data, options, terminal);
  const expression = expressionOf(text);
  if ('message' in expression) {
    terminal.err(`${[expression.message, ...expression.marked.map((line) => `    ${line}`)].join('\n')}\n`);
    return 2;
  }
  const machines = findMachines(options.file, terminal);
  const order = { expression, values: [], ...wishes(options) };
  if (options.on === ALL) return planAll(order, machines, options, terminal);
  const machine = machineNamed(machines, options.on);
  const name = sequenceName(options.name, kindOf(expression), machines);
  const planned = planFor({ ...order, profile: machine.profile });
  if (isRefused(planned)) return refuse(planned, order, machine, machines, options, terminal);
  tell(planned, name, order, machine, machines, options, terminal);
  return 0;
}

const wishes = ({ register, decimals, method, round }: PlanOptions): Omit<ComparedOrder, 'expression' | 'values'> => ({
  register,
  decimals,
  method,
  isRounded: round,
});

/** Prints the sequence; what is said about it goes into comments or beside it. */
function tell(
  planned: Plan,
  name: string,
  order: ComparedOrder,
  machine: UsableMachine,
  machines: Machines,
  options: PlanOptions,
  terminal: Terminal,
): void {
  const sequence = sectionOf(planned, { name, machine: machine.name }, wording);
  const asked = printExpression(order.expression);
  if (options.format === 'json') return terminal.out(planJson(asked, machine.name, planned, name, sequence, wording));
  const answer = answerLine(planned, order, wording);
  const comments = options.explain
    ? explanation(`${asked} on ${machine.name}`, [answer], planned.decisions, wording)
    : [];
  printWhole(comments, sequence, machine, machines, terminal);
  if (!options.explain) terminal.err(`${answer}\n`);
}

const KINDS = { '+': 'sum', '-': 'difference', '*': 'product', '/': 'quotient', '^': 'power' } as const;

function kindOf(expression: Expression): string {
  switch (expression.kind) {
    case 'binary':
      return KINDS[expression.operator];
    case 'sqrt':
      return 'root';
    case 'group':
    case 'negative':
      return kindOf(expression.of);
    default:
      return 'number';
  }
}

/** Says what stands in the way, and what would do. */
function refuse(
  refusal: Refusal,
  order: ComparedOrder,
  machine: UsableMachine,
  machines: Machines,
  { format, method }: PlanOptions,
  terminal: Terminal,
): number {
  const { refused, wayOut } = refusal;
  const hasValue = !OF_EXPRESSION.has(refused.is);
  const others = hasValue ? othersThatCan(order, machine, machines, terminal) : [];
  if (format === 'json') {
    terminal.out(refusalJson(printExpression(order.expression), machine.name, refusal, others, wording));
    return 1;
  }
  const option = wayOut?.is === 'fewer-decimals' ? ` (--decimals ${wayOut.decimals})` : '';
  const lines = [
    `${hasValue ? `${machine.name} can't do this. ` : ''}${wording.limitText(refused)}`,
    ...(wayOut ? [`${wording.wayOutText(wayOut)}${option}`] : []),
    ...(method !== undefined && /method$/.test(refused.is) ? ['Without --method the best way is chosen.'] : []),
    ...(hasValue && machines.known.length > 1 ? [wording.othersText(others)] : []),
  ];
  terminal.err(lines.map((line) => `${harmless(line)}\n`).join(''));
  return 1;
}

/** The other machines that can, best first. */
function othersThatCan(order: ComparedOrder, machine: UsableMachine, machines: Machines, terminal: Terminal): string[] {
  const others = usableOf(machines).filter(({ name }) => name !== machine.name);
  const compared = compareWatched(order, others, terminal);
  return compared.flatMap(({ machine: other, planned }) => (isRefused(planned) ? [] : [other.name]));
}

function compareWatched(order: ComparedOrder, machines: readonly UsableMachine[], terminal: Terminal) {
  const progress = new Progress(terminal);
  const profiles = machines.map(({ profile }) => profile);
  const compared = compare(order, profiles, (done, all) => progress.at(done, all, 'machines'));
  progress.end();
  return compared;
}

/** All machines in a table. */
function planAll(
  order: ComparedOrder,
  machines: Machines,
  { format, explain, name }: PlanOptions,
  terminal: Terminal,
): number {
  if (explain || name !== undefined) {
    throw new CannotRun(
      `With --on all nothing is written out: --${explain ? 'explain' : 'name'} goes with a single machine.`,
    );
  }
  const compared = compareWatched(order, usableOf(machines), terminal);
  if (compared.length === 0) throw new CannotRun('There is no machine that could be compared.');
  const asked = printExpression(order.expression);
  const first = compared[0].planned;
  if (format === 'json') terminal.out(comparisonJson(asked, compared, wording));
  else if (isRefused(first) && OF_EXPRESSION.has(first.refused.is))
    terminal.err(`${wording.limitText(first.refused)}\n`);
  else
    terminal.out(
      `${paragraph(harmless(asked), '  ', terminal)}\n\n${comparisonText(compared, order, wording, terminal)}`,
    );
  return isRefused(first) ? 1 : 0;
}
