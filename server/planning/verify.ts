/** A plan is run like any other sequence before it is given out. */
import { finish } from '../../grammar/gradual.js';
import { parse } from '../../grammar/sections.js';
import type { Profile } from '../machine/index.js';
import { checkAlone, type SequenceReport } from '../sequence/check.js';
import type { Effort } from '../sequence/effort.js';
import type { Values } from '../sequence/substitute.js';
import type { PlannedLine, PlanOrder } from './order.js';

export interface PlannedGoal {
  readonly register: 'counter' | 'result';
  readonly expression: string;
}
/** A plan as it is to be checked. */
export interface Draft {
  readonly lines: readonly PlannedLine[];
  readonly goal: PlannedGoal;
}
export interface Proved {
  readonly lines: readonly PlannedLine[];
  readonly effort: Effort;
}

/** Runs that can be shortened are few; each round mends at least one. */
const MOST_ROUNDS = 40;
/** More turns than that in one step are told as too many. */
const MANY_TURNS = 9;

/**
 * The plan with every run of turns made as short as it can be, if it meets its goal with every case's values and nothing
 * at all is found; else nothing.
 */
export function proved({ profile, values }: PlanOrder, { lines: written, goal }: Draft): Proved | undefined {
  const [defaults = NO_VALUES, ...cases] = values;
  const check = (lines: readonly PlannedLine[], one: Values) => checkedLines(profile, lines, [goal], one);
  let lines = written;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const report = check(lines, defaults);
    const [shorter] = shorterRuns(report, 1);
    if (!shorter) {
      const all = [report, ...cases.map((one) => check(lines, one))];
      const isClean = all.every((one) => one.findings.length === 0 && one.runs.length === 1);
      return isClean ? { lines, effort: report.runs[0].effort } : undefined;
    }
    const { line, count, steps } = shorter;
    lines = [...lines.slice(0, line), ...steps.map((step) => ({ step })), ...lines.slice(line + count)];
  }
  return undefined;
}

const NO_VALUES: Values = new Map();

/** Steps that could be fewer turns: from which line of a plan, how many, and by which others. */
export interface ShorterRun {
  readonly line: number;
  readonly count: number;
  readonly steps: readonly string[];
  readonly before: Effort;
  readonly after: Effort;
}

export const shorterRuns = (report: SequenceReport, goals: number): ShorterRun[] =>
  report.findings.flatMap(({ facts, at }) => {
    if (facts.code !== 'shorter-sequence') return [];
    const { count, steps, effort, shorter } = facts;
    // The header and the goals come before the first line.
    return [{ line: at.line - 1 - goals, count, steps: steps.flatMap(byHand), before: effort, after: shorter }];
  });

/** Ten turns, which may cost less where the carriage has no position for one more figure, are nine and one. */
function byHand(step: string): string[] {
  const [, turn, count] = /^(turn (?:back )?)(\d+)$/.exec(step) ?? [];
  const more = Number(count ?? 0) - MANY_TURNS;
  if (more <= 0) return [step];
  return [`${turn}${MANY_TURNS}`, ...byHand(more === 1 ? turn.trim() : `${turn}${more}`)];
}

/** Runs lines of a plan as a sequence by itself. */
export function checkedLines(
  profile: Profile,
  lines: readonly ({ readonly step: string } | { readonly remark: unknown })[],
  goals: readonly PlannedGoal[],
  values: Values = NO_VALUES,
): SequenceReport {
  const parameters = [...values].map(([name, { text }]) => `${name} = ${text}`).join(', ');
  const text = [
    `sequence plan${parameters === '' ? '' : ` (${parameters})`} on machine-at-hand`,
    ...goals.map(({ register, expression }) => `goal ${register} = ${expression}`),
    ...lines.map((line) => ('step' in line ? line.step : 'note ""')),
  ];
  const section = parse(text.join('\n')).sections.find(({ section: one }) => one.kind === 'sequence')?.section;
  if (section?.kind !== 'sequence' || section.errors.length > 0) throw new Error('a plan is no sequence');
  return finish(checkAlone(section, profile));
}
