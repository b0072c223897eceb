/** `cranknote plan --data`: sums over the rows of a table. */
import { isListRefused, type ListPlan, planList } from '../planning/lists.js';
import { sectionOfList } from '../planning/text.js';
import { planWording } from '../planning/wording/index.js';
import { readTable } from './data.js';
import { CannotRun } from './files.js';
import { findMachines, machineNamed, type UsableMachine, usableOf } from './machines.js';
import { explanation } from './output/plan.js';
import { listJson, listRefusalJson } from './output/plan-json.js';
import type { PlanOptions } from './plan.js';
import { printWhole, sequenceName } from './planned.js';
import { harmless, Progress, type Terminal } from './terminal.js';

const wording = planWording('en');
/** What is wrong with what was asked, on whatever machine. */
const NOT_ASKED: ReadonlySet<string> = new Set(['no-sums', 'not-a-sum', 'unknown-column']);
/** Limits of the list itself: no other machine would do. */
const OF_LIST: ReadonlySet<string> = new Set(['rows', 'sums', 'steps', 'turns', 'too-few-decimals', 'not-a-number']);

/** Returns the exit code: 0 planned, 1 refused, 2 can't run. */
export function planData(expression: string, file: string, options: PlanOptions, terminal: Terminal): number {
  const { on, decimals, method, round, register, format, explain, name } = options;
  const odd = [method && 'method', round && 'round', register && 'register'].find(Boolean);
  if (odd)
    throw new CannotRun(`--${odd} does not go with --data: sums over a list are exact, and stand where there is room.`);
  if (on === 'all') throw new CannotRun('--on all does not go with --data: name a machine.');
  const machines = findMachines(options.file, terminal);
  const machine = machineNamed(machines, on);
  const called = sequenceName(name, 'list', machines);
  const order = { expression, table: readTable(file), decimals };
  const planned = planList({ ...order, profile: machine.profile });
  if (!isListRefused(planned)) {
    const sequence = sectionOfList(planned, { name: called, machine: machine.name }, wording);
    if (format === 'json') terminal.out(listJson(expression, machine.name, planned, called, sequence, wording));
    else {
      const told = answers(planned);
      const comments = explain
        ? explanation(`${expression.replace(/\s+/g, ' ').trim()} on ${machine.name}`, told, planned.decisions, wording)
        : [];
      printWhole(comments, sequence, machine, machines, terminal);
      if (!explain) terminal.err(told.map((line) => `${harmless(line)}\n`).join(''));
    }
    return 0;
  }
  const { refused } = planned;
  if (NOT_ASKED.has(refused.is)) throw new CannotRun(wording.limitText(refused));
  const others = OF_LIST.has(refused.is) ? [] : othersThatCan(usableOf(machines), machine, order, terminal);
  if (format === 'json') terminal.out(listRefusalJson(expression, machine.name, refused, others, wording));
  else {
    const all = OF_LIST.has(refused.is) ? [] : [wording.othersText(others)];
    const lines = [`${machine.name} can't do this. ${wording.limitText(refused)}`, ...all];
    terminal.err(lines.map((line) => `${harmless(line)}\n`).join(''));
  }
  return 1;
}

/** Every sum, and what it costs to crank them. */
const answers = ({ sums, effort, written, passes }: ListPlan): string[] => [
  ...sums.map(({ name, value }) => `${name === 'n' ? 'n' : `sum(${name})`} = ${value}`),
  `${passes.length === 1 ? 'One pass' : `${passes.length} passes`} through the list; ${wording.effortText(effort, written)}.`,
];

function othersThatCan(
  machines: readonly UsableMachine[],
  machine: UsableMachine,
  order: Omit<Parameters<typeof planList>[0], 'profile'>,
  terminal: Terminal,
): string[] {
  const progress = new Progress(terminal);
  const can = machines.flatMap(({ name, profile }, i) => {
    progress.at(i, machines.length, 'machines');
    return name !== machine.name && !isListRefused(planList({ ...order, profile })) ? [name] : [];
  });
  progress.end();
  return can;
}
