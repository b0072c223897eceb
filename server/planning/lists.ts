/** Sums over the rows of a table, worked in as few passes through the list as the machine lets one do. */
import type { Profile } from '../machine/index.js';
import type { Effort } from '../sequence/effort.js';
import { amount, plainText } from './amount.js';
import { nearer } from './choose.js';
import { type Asked, ListStuck, readAsked, type Sum } from './lists/asked.js';
import { goalsOf } from './lists/goals.js';
import type { ListLimit, ListOrder, ListPass, PlannedList } from './lists/order.js';
import { proved } from './lists/proof.js';
import { type Part, type Scheme, Schemes } from './lists/schemes.js';
import { standingsOf, workThrough } from './lists/work.js';
import { Operator, Stuck } from './operator.js';
import type { Alternative, Decision, Limit } from './order.js';

export * from './lists/order.js';

/** Steps and turns that a sequence may have. */
const MOST_STEPS = 100_000;
const MOST_TURNS = 1_000_000;
/** Ways through the list that may fail at the machine before it is given up. */
const MOST_TRIES = 100;

/**
 * Plans sums of columns, squares and products of two columns, such as `sum(x), sum(x^2), sum(x*y)`. The counter, and
 * places of the result that one total leaves free, hold further totals where there is room. The lines, run on the
 * machine, meet the goals without a finding; what can't be done is refused with what stands in the way.
 */
export function planList({ expression, table, profile, decimals }: ListOrder): PlannedList {
  try {
    const asked = readAsked(expression, table);
    for (const sum of asked.sums) checkDecimals(sum, decimals);
    const schemes = new Schemes(asked, profile, decimals);
    return carriedThrough(asked, schemes, profile);
  } catch (error) {
    if (error instanceof ListStuck || error instanceof Stuck) return { refused: error.limit };
    throw error;
  }
}

function checkDecimals({ of }: Sum, decimals: number | undefined): void {
  const needs = of.reduce((sum, column) => sum + column.decimals, 0);
  if (decimals !== undefined && decimals < needs) throw new ListStuck({ is: 'too-few-decimals', has: decimals, needs });
}

/** Tries the fewest passes at the machine; what it does not take there is left out and the rest is tried again. */
function carriedThrough(asked: Asked, schemes: Schemes, profile: Profile): PlannedList {
  const left = new Set(schemes.found);
  const failed: Failed[] = [];
  for (;;) {
    const chosen = fewestPasses([...left], asked.sums.length);
    if (!chosen || failed.length > MOST_TRIES) throw new ListStuck(nearestLimit(asked, schemes, failed));
    const done = carryOut(asked, chosen, new Operator(profile));
    if (!('scheme' in done)) return asPlan(asked, chosen, done, failed, profile);
    left.delete(done.scheme);
    failed.push(done);
  }
}

interface Choice {
  readonly schemes: readonly Scheme[];
  readonly cost: number;
  readonly totals: number;
}

/** The schemes that give all sums together: fewest passes, then fewest totals to be read, then least effort. */
function fewestPasses(schemes: readonly Scheme[], sums: number): readonly Scheme[] | undefined {
  const all = 2 ** sums - 1;
  const best: (Choice | undefined)[] = Array.from({ length: all + 1 });
  best[0] = { schemes: [], cost: 0, totals: 0 };
  for (let covered = 0; covered < all; covered++) {
    const so = best[covered];
    if (!so) continue;
    for (const scheme of schemes) {
      const next = covered | scheme.covers;
      if (next === covered) continue;
      const choice = {
        schemes: [...so.schemes, scheme],
        cost: so.cost + scheme.cost,
        // A counter that adds up by itself is no more to set.
        totals: so.totals + 2 * scheme.result.length + scheme.counter.length,
      };
      const known = best[next];
      if (!known || isFewer(choice, known)) best[next] = choice;
    }
  }
  return best[all]?.schemes;
}

const isFewer = (a: Choice, b: Choice): boolean =>
  (a.schemes.length - b.schemes.length || a.totals - b.totals || a.cost - b.cost) < 0;

interface Carried {
  readonly passes: readonly ListPass[];
}
interface Failed {
  readonly scheme: Scheme;
  readonly limit: Limit;
}

function carryOut(asked: Asked, schemes: readonly Scheme[], start: Operator): Carried | Failed {
  let operator = start;
  const passes: ListPass[] = [];
  for (const [i, scheme] of schemes.entries()) {
    const isLast = i === schemes.length - 1;
    try {
      const before = operator.effort;
      const worked = workThrough(operator, scheme, asked, isLast);
      operator = worked.operator;
      const lines = [...worked.lines];
      if (schemes.length > 1) lines.unshift({ remark: { is: 'pass', pass: i + 1, of: schemes.length } });
      if (!isLast) lines.push({ remark: { is: 'read-off', sums: totalsOf(asked, scheme) } });
      const effort = less(operator.effort, before);
      passes.push({ lines, goals: goalsOf(scheme, asked), standings: standingsOf(scheme), effort });
    } catch (error) {
      if (!(error instanceof Stuck)) throw error;
      return { scheme, limit: error.limit };
    }
  }
  return { passes };
}

function less(a: Effort, b: Effort): Effort {
  return { turns: a.turns - b.turns, shifts: a.shifts - b.shifts, levers: a.levers - b.levers, cost: a.cost - b.cost };
}

function asPlan(
  asked: Asked,
  schemes: readonly Scheme[],
  { passes }: Carried,
  failed: readonly Failed[],
  profile: Profile,
): PlannedList {
  const written = passes.flatMap(({ lines }) => lines);
  const { goals } = passes[passes.length - 1];
  // A remark is a line that the run goes through as well.
  if (written.length > MOST_STEPS) throw new ListStuck({ is: 'steps', has: written.length, most: MOST_STEPS });
  const turns = passes.reduce((sum, { effort }) => sum + effort.turns, 0);
  if (turns > MOST_TURNS) throw new ListStuck({ is: 'turns', has: turns, most: MOST_TURNS });
  const sound = proved(profile, passes, goals);
  if (!sound) throw new ListStuck({ is: 'not-met' });
  const alternatives = [
    ...schemes.map((one, i): Alternative => ({ way: wayOf(one), cost: sound.passes[i].effort.cost, isChosen: true })),
    ...failed.map(({ scheme, limit }): Alternative => ({ way: wayOf(scheme), limit, isChosen: false })),
  ];
  const why = failed.length === 0 && schemes.length === 1 ? 'effort' : 'only';
  const decision: Decision = { about: 'list', alternatives, why };
  return {
    lines: sound.passes.flatMap(({ lines }) => lines),
    goals,
    sums: withCount(asked),
    passes: sound.passes,
    effort: sound.effort,
    written: schemes.slice(0, -1).reduce((sum, scheme) => sum + totalsOf(asked, scheme).length, 0),
    decisions: [decision],
  };
}

/** All sums, and the number of rows where no column has its name. */
function withCount({ sums, columns, rows }: Asked): { name: string; value: string }[] {
  const all = sums.map(({ name, of }) => ({ name, value: totalOf(of) }));
  return columns.some(({ name }) => name === 'n') ? all : [...all, { name: 'n', value: `${rows}` }];
}

function totalOf([first, second]: Sum['of']): string {
  const units = first.units.reduce((sum, unit, row) => sum + unit * (second ? second.units[row] : 1n), 0n);
  return plainText(amount(units, first.decimals + (second?.decimals ?? 0)));
}

/** The sums that come out of a pass. */
function totalsOf({ sums }: Asked, { covers }: Scheme): { name: string; value: string }[] {
  return sums.flatMap(({ name, of }, i) => ((covers >> i) & 1 ? [{ name, value: totalOf(of) }] : []));
}

const wayOf = ({ set, by }: Scheme): string => {
  const isOneTurn = by.length === 1 && !by[0].column;
  return isOneTurn ? `set ${partsText(set)}, turn` : `set ${partsText(set)}, crank ${partsText(by)}`;
};

const partsText = (parts: readonly Part[]): string =>
  [...parts]
    .reverse()
    .map(({ column, up }) => (up === 0 ? (column?.name ?? '1') : `${column?.name ?? '1'} at ${up + 1}`))
    .join(' and ');

/** Of the sum that no scheme gives, what stands least in the way. */
function nearestLimit({ sums }: Asked, { found, missed }: Schemes, failed: readonly Failed[]): ListLimit {
  const out = new Set(failed.map(({ scheme }) => scheme));
  const alive = found.filter((scheme) => !out.has(scheme)).reduce((covered, { covers }) => covered | covers, 0);
  const limits = [...missed, ...failed.map(({ scheme: { covers }, limit }) => ({ covers, limit }))];
  for (let i = 0; i < sums.length; i++) {
    if ((alive >> i) & 1) continue;
    const inTheWay = limits.filter(({ covers }) => (covers >> i) & 1).map(({ limit }) => limit);
    const [first, ...others] = inTheWay;
    if (first) return others.reduce(nearer, first);
  }
  return { is: 'not-met' };
}
