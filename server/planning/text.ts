/** A plan as lines of the notation. */
import { formatLines } from '../../grammar/formatter.js';
import { Parser } from '../../grammar/sections.js';
import type { Values } from '../sequence/substitute.js';
import type { ListLine, ListPlan } from './lists/order.js';
import type { Plan } from './order.js';
import type { PlanWording } from './wording/index.js';

/** How the sequence is headed. */
export interface Heading {
  readonly name: string;
  readonly title?: string;
  readonly machine?: string;
  /** Parameters with their defaults; steps may name them. */
  readonly parameters?: Values;
}

/** The whole sequence as the formatter leaves it: header, goal, a blank line, the steps with remarks as notes. */
export function sectionOf(plan: Plan, heading: Heading, wording: PlanWording): string[] {
  const goal = `goal ${plan.register} = ${plan.goal}`;
  return formatted([headerOf(heading), goal, '', ...plan.lines.map((line) => lineText(line, wording))]);
}

/** The same for sums over a list: all passes in one sequence, with the goals of the last. */
export function sectionOfList(plan: ListPlan, heading: Heading, wording: PlanWording): string[] {
  const goals = plan.goals.map(({ register, expression }) => `goal ${register} = ${expression}`);
  return formatted([headerOf(heading), ...goals, '', ...plan.lines.map((line) => lineText(line, wording))]);
}

/** The steps alone, indented as the formatter leaves them: what goes below a header and its goal. */
export function bodyOf(plan: Plan, wording: PlanWording): string[] {
  return formatted(['sequence body', ...plan.lines.map((line) => lineText(line, wording))]).slice(1);
}

function headerOf({ name, title, machine, parameters }: Heading): string {
  const defaults = [...(parameters ?? [])].map(([parameter, { text }]) => `${parameter} = ${text}`);
  return [
    `sequence ${name}`,
    ...(title === undefined ? [] : [quoted(title)]),
    ...(defaults.length > 0 ? [`(${defaults.join(', ')})`] : []),
    ...(machine === undefined ? [] : [`on ${machine}`]),
  ].join(' ');
}

const lineText = (line: ListLine, { remarkText }: PlanWording): string =>
  'step' in line ? line.step : `note ${quoted(remarkText(line.remark))}`;

/** A text as the notation writes it: on one line, with its quotation marks escaped. */
const quoted = (text: string): string => `"${text.replace(/\s+/g, ' ').replace(/["\\]/g, '\\$&')}"`;

const formatted = (lines: readonly string[]): string[] => formatLines(new Parser().parseLines(lines));
