/** Steps that are worked out for a goal, kept as long as the sequence and its machine stay as they are. */
import type { GoalLine, OnLine, SequenceSection } from '../../grammar/tree.js';
import { MOST_PLACES, type Profile } from '../machine/index.js';
import { isRefused, type Plan, type Planned, plan } from '../planning/index.js';
import { bodyOf } from '../planning/text.js';
import { planWording } from '../planning/wording/index.js';
import { valuesOf } from '../sequence/check.js';
import { allSteps } from '../sequence/names.js';

export { isRefused };
export type Goal = OnLine<GoalLine>;

/** Invariant: a section never changes, so that what was planned for it holds until it is another one. */
const KNOWN = new WeakMap<SequenceSection, { readonly profile: Profile; readonly plans: Map<Goal, Planned> }>();

/** The goals for which steps can be worked out: what stands on the levers is set and not cranked. */
export const goalsOf = ({ goals }: SequenceSection): readonly Goal[] =>
  goals.filter(({ syntax }) => syntax.register !== 'setting');

/** Steps that meet a goal of a sequence with the defaults and in every case, or what stands in the way. */
export function planFor(section: SequenceSection, goal: Goal, profile: Profile): Planned {
  let known = KNOWN.get(section);
  if (known?.profile !== profile) {
    known = { profile, plans: new Map() };
    KNOWN.set(section, known);
  }
  let planned = known.plans.get(goal);
  if (!planned) {
    const { expression, register } = goal.syntax;
    if (register === 'setting') throw new Error('a goal of the levers');
    planned = plan({
      expression,
      profile,
      values: valuesOf(section),
      register,
      decimals: decimalsOf(section, register),
    });
    known.plans.set(goal, planned);
  }
  return planned;
}

/** The decimals that the sequence gives to a register at last; undefined where it leaves that open. */
function decimalsOf({ steps }: SequenceSection, register: 'counter' | 'result'): number | undefined {
  let decimals: number | undefined;
  for (const { syntax } of allSteps(steps)) {
    if (syntax.kind !== 'points') continue;
    for (const item of syntax.items) {
      if (item.register === register && item.decimals.kind === 'number') decimals = Number(item.decimals.figures);
    }
  }
  return decimals !== undefined && decimals <= MOST_PLACES ? decimals : undefined;
}

/** What stands in the way of planning, and what would do instead; undefined where nothing does. */
export function refusalOf(planned: Planned, locale: string): string | undefined {
  if (!isRefused(planned)) return undefined;
  const { limitText, wayOutText } = planWording(locale);
  const { refused, wayOut } = planned;
  return wayOut ? `${limitText(refused)} ${wayOutText(wayOut)}` : limitText(refused);
}

/** The steps as lines below a header at the margin, each as far in as the formatter puts it. */
export const linesOf = (planned: Plan, locale: string): string[] => bodyOf(planned, planWording(locale));
