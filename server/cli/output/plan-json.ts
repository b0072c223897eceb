/** Plans for other programs. Format 1: a key is never given another meaning. */
import type { Compared } from '../../planning/compare.js';
import type { ListLimit, ListPlan } from '../../planning/lists.js';
import { type Decision, isRefused, type Plan, type Planned } from '../../planning/order.js';
import type { PlanWording } from '../../planning/wording/index.js';
import type { Effort } from '../../sequence/effort.js';
import { harmlessJson } from '../terminal.js';

/** A plan without its steps, as it stands in a comparison. */
interface PlanJson {
  readonly machine: string;
  readonly register: 'counter' | 'result';
  readonly reading: string;
  readonly decimals: number;
  readonly figures: number;
  readonly exact: boolean;
  readonly effort: Effort;
  readonly written: number;
}

interface RefusalJson {
  readonly machine: string;
  /** What stands in the way, by its name. */
  readonly refused: string;
  readonly message: string;
  readonly wayOut?: string;
}

/** One plan with its text, as it is printed otherwise, and what was decided. */
export const planJson = (
  expression: string,
  machine: string,
  plan: Plan,
  name: string,
  text: readonly string[],
  wording: PlanWording,
): string =>
  json({
    expression,
    ...planned(machine, plan),
    goal: plan.goal,
    name,
    text: `${text.join('\n')}\n`,
    decisions: plan.decisions.map((decision) => decided(decision, wording)),
  });

/** Why there is no plan, and which machines can. */
export const refusalJson = (
  expression: string,
  machine: string,
  refusal: Planned & { refused: unknown },
  others: readonly string[],
  wording: PlanWording,
): string => json({ expression, ...(outcome(machine, refusal, wording) as RefusalJson), others });

/** All machines, best first. */
export const comparisonJson = (expression: string, compared: readonly Compared[], wording: PlanWording): string =>
  json({ expression, machines: compared.map(({ machine, planned }) => outcome(machine.name, planned, wording)) });

/** Sums over a list, with every total. */
export const listJson = (
  expression: string,
  machine: string,
  { sums, goals, passes, effort, written, decisions }: ListPlan,
  name: string,
  text: readonly string[],
  wording: PlanWording,
): string =>
  json({
    expression,
    machine,
    sums,
    goals,
    passes: passes.map(({ goals: ofPass, standings, effort: cost }) => ({ goals: ofPass, standings, effort: cost })),
    effort,
    written,
    name,
    text: `${text.join('\n')}\n`,
    decisions: decisions.map((decision) => decided(decision, wording)),
  });

export const listRefusalJson = (
  expression: string,
  machine: string,
  refused: ListLimit,
  others: readonly string[],
  { limitText }: PlanWording,
): string => json({ expression, machine, refused: refused.is, message: limitText(refused), others });

function outcome(machine: string, outcome: Planned, { limitText, wayOutText }: PlanWording): PlanJson | RefusalJson {
  if (!isRefused(outcome)) return planned(machine, outcome);
  const { refused, wayOut } = outcome;
  const { is } = refused;
  return { machine, refused: is, message: limitText(refused), ...(wayOut && { wayOut: wayOutText(wayOut) }) };
}

function planned(machine: string, plan: Plan): PlanJson {
  const { register, reading, decimals, figures, isExact: exact, effort, written } = plan;
  return { machine, register, reading, decimals, figures, exact, effort, written };
}

const decided = ({ about, alternatives }: Decision, { limitText, wayText }: PlanWording) => ({
  about,
  alternatives: alternatives.map(({ way, cost, written, limit, isChosen }) => ({
    way,
    name: wayText(way),
    chosen: isChosen,
    ...(cost !== undefined && { cost }),
    ...(written !== undefined && { written }),
    ...(limit && { limit: limit.is, message: limitText(limit) }),
  })),
});

const json = (value: object): string => harmlessJson(`${JSON.stringify({ format: 1, ...value }, null, 2)}\n`);
