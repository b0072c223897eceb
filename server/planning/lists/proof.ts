/** A planned list is run like any other sequence before it is given out. */
import type { Profile } from '../../machine/index.js';
import type { Effort } from '../../sequence/effort.js';
import { checkedLines, type ShorterRun, shorterRuns } from '../verify.js';
import type { ListGoal, ListLine, ListPass } from './order.js';

export interface Proved {
  readonly passes: readonly ListPass[];
  readonly effort: Effort;
}

/** A run of turns that was made shorter may leave the next one a shorter way as well. */
const MOST_ROUNDS = 6;

/**
 * The passes with every run of turns made as short as it can be, if they meet their goals and nothing at all is found;
 * else nothing. All runs of a round are mended at once, for a list is long.
 */
export function proved(profile: Profile, passes: readonly ListPass[], goals: readonly ListGoal[]): Proved | undefined {
  let left = passes;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const lines = left.flatMap((pass) => pass.lines);
    const report = checkedLines(profile, lines, goals);
    const [run] = report.runs;
    if (!run) return undefined;
    if (report.findings.length === 0) return { passes: left, effort: run.effort };
    const shorter = shorterRuns(report, goals.length);
    if (shorter.length < report.findings.length) return undefined;
    // From the end up, so that lines before keep their places.
    shorter.sort((a, b) => b.line - a.line);
    for (const one of shorter) left = replaced(left, one);
  }
  return undefined;
}

/** The passes with some lines, counted through all of them from 0, replaced by others. */
function replaced(passes: readonly ListPass[], { line, count, steps, before, after }: ShorterRun): ListPass[] {
  let from = line;
  return passes.map((pass) => {
    const at = from;
    from -= pass.lines.length;
    if (at < 0 || at >= pass.lines.length) return pass;
    const lines: ListLine[] = [...pass.lines];
    lines.splice(at, count, ...steps.map((step) => ({ step })));
    return { ...pass, lines, effort: saved(pass.effort, before, after) };
  });
}

const saved = (whole: Effort, before: Effort, after: Effort): Effort => ({
  turns: whole.turns - before.turns + after.turns,
  shifts: whole.shifts - before.shifts + after.shifts,
  levers: whole.levers - before.levers + after.levers,
  cost: whole.cost - before.cost + after.cost,
});
