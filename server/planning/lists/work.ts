/**
 * One pass through the list at the machine: what a scheme says is set and cranked row by row, and nothing is cleared
 * on the way that is to be read at the end.
 */
import { type Amount, amount, ONE, tenTo } from '../amount.js';
import { attempt, isDone } from '../choose.js';
import { crank } from '../cranking.js';
import { type Figures, type Operator, Stuck } from '../operator.js';
import type { Asked } from './asked.js';
import type { ListLine, ListRemark, Standing } from './order.js';
import { type Part, type Scheme, together } from './schemes.js';

/** Rows between two readings of the totals so far. */
const ROWS_TO_A_READING = 10;

export interface Worked {
  readonly operator: Operator;
  readonly lines: readonly ListLine[];
}

/** Works through the list, in the `isLast` pass so that no lever is left engaged. Throws `Stuck` where a register or the machine does not take it. */
export function workThrough(operator: Operator, scheme: Scheme, asked: Asked, isLast: boolean): Worked {
  try {
    return new Pass(operator.another(), scheme, asked).work(isLast);
  } catch (error) {
    const help = error instanceof Stuck && helpFor(operator, scheme, asked);
    if (!help) throw error;
    try {
      return new Pass(operator.another(), scheme, asked, help).work(isLast);
    } catch (again) {
      throw again instanceof Stuck ? error : again;
    }
  }
}

/** What keeps a counter that is not read from going below zero where rows are taken away. */
type Help = 'counter-ahead' | 'count-minus';

function helpFor({ profile }: Operator, scheme: Scheme, asked: Asked): Help | undefined {
  const { counter, counterCarry, count } = profile;
  if (counter === 0 || scheme.counter.length > 0 || rowsOf(scheme, asked).every(({ sign }) => sign > 0))
    return undefined;
  if (count === 'lever') return 'count-minus';
  return counterCarry === 'carry' && count === 'follow' ? 'counter-ahead' : undefined;
}

/** Totals by the places in which they stand. */
export function standingsOf({ result, counter }: Scheme): Standing[] {
  const fields = { result, counter };
  return (['result', 'counter'] as const).flatMap((register) =>
    fields[register].map(({ sum, up, length, times, decimals }) => {
      return { register, from: up + 1, to: up + length, sum, times, decimals };
    }),
  );
}

interface Row {
  readonly row: number;
  readonly sign: 1 | -1;
}

/** Rows that move the machine: those that add, then those that take away. */
export function rowsOf({ set, by }: Scheme, { rows }: Asked): Row[] {
  const all: Row[] = [];
  for (let row = 0; row < rows; row++) {
    const product = together(set, row) * together(by, row);
    if (product !== 0n) all.push({ row, sign: product > 0n ? 1 : -1 });
  }
  return all.sort((a, b) => b.sign - a.sign || a.row - b.row);
}

/** A line that is put in before one of the operator's own, or in its stead. */
interface Change {
  readonly at: number;
  readonly line: ListLine;
  readonly isInstead?: true;
}

class Pass {
  private readonly changes: Change[] = [];
  private readonly from: number;
  private readonly isCounted: boolean;
  private readonly isSingle: boolean;

  constructor(
    private operator: Operator,
    private readonly scheme: Scheme,
    private readonly asked: Asked,
    private readonly help?: Help,
  ) {
    this.from = operator.lineCount;
    this.isCounted = scheme.counter.length > 0;
    this.isSingle = scheme.set.length === 1 && scheme.by.length === 1;
  }

  work(isLast: boolean): Worked {
    const { scheme, asked } = this;
    const { points, set } = scheme;
    this.operator.clearAll();
    if (this.help === 'counter-ahead') this.getAhead();
    this.operator.place(points.setting, points.counter);
    if (set.length === 2) this.operator.remark({ is: 'columns-apart', places: set[1].up - set[0].up });
    const rows = rowsOf(scheme, asked);
    const adding = rows.filter(({ sign }) => sign > 0);
    this.inBlocks(adding);
    if (adding.length < rows.length) this.takeAway(rows.slice(adding.length));
    if (isLast) this.operator.atRest();
    for (const standing of standingsOf(scheme)) this.remark({ is: 'standing', ...standing });
    this.read();
    return { operator: this.operator, lines: this.lines() };
  }

  private takeAway(rows: readonly Row[]): void {
    const { operator, isCounted, scheme } = this;
    const { count, counter } = operator.profile;
    this.remark({ is: 'rows-below-zero' });
    if (this.help === 'count-minus') operator.countLever(true);
    // A counter that takes its sense from the first turn is to take it anew.
    if (counter > 0 && !isCounted && count === 'first') operator.clear('counter');
    operator.mayOverdraw = scheme.result.some(({ total }) => total < 0n);
    this.inBlocks(rows);
    this.operator.mayOverdraw = false;
    this.operator.countLever(false);
  }

  private inBlocks(rows: readonly Row[]): void {
    const { set, by } = this.scheme;
    const columns = [...new Set([...set, ...by].flatMap(({ column }) => (column ? [column.name] : [])))];
    for (let from = 0; from < rows.length; from += ROWS_TO_A_READING) {
      const block = rows.slice(from, from + ROWS_TO_A_READING);
      if (from > 0) this.read();
      this.remark({ is: 'rows', rows: block.map(({ row }) => row + 1), columns });
      for (const row of block) this.oneRow(row);
    }
  }

  private oneRow({ row, sign }: Row): void {
    const { scheme } = this;
    if (this.isSingle) this.setOne(scheme.set[0], row);
    else this.setApart(row);
    const by: Amount = this.isSingle ? numberIn(scheme.by[0], row) : amount(magnitude(together(scheme.by, row)), 0);
    this.operator = this.turned({ value: by }, sign);
  }

  private setOne(part: Part, row: number): void {
    // The number 1 stays on the levers all through.
    if (!part.column && this.operator.units('setting') !== 0n) return;
    this.operator.set({ value: numberIn(part, row) });
  }

  private setApart(row: number): void {
    const { operator, scheme } = this;
    const parts = [...scheme.set]
      .reverse()
      .map(({ column, up }) => ({ up, figures: together([{ column, up: 0 }], row) }))
      .filter(({ figures }) => figures !== 0n)
      .map(({ up, figures }) => (up === 0 ? `${figures}` : `${figures} at ${up + 1}`));
    // On the levers it is one number; it is written so that its parts are seen.
    operator.setDigits(together(scheme.set, row), 1);
    this.changes.push({
      at: operator.lineCount - 1,
      line: { step: `set ${parts.join(' and ')}` },
      isInstead: true,
    });
  }

  /**
   * The crank, turned for one row. A counter that nobody reads is cleared first where it does not take the turns; one
   * without a carry always, for its wheels fill up and keep off the shorter ways.
   */
  private turned(by: Figures, sign: 1 | -1): Operator {
    const { operator, isCounted } = this;
    const mayClear = !isCounted && operator.units('counter') !== 0n;
    if (!mayClear || operator.profile.counterCarry === 'carry') {
      const straight = attempt(() => crank(operator, by, sign));
      if (!mayClear || isDone(straight)) return orStuck(straight);
    }
    operator.clear('counter');
    return crank(operator, by, sign);
  }

  /** A start for the counter in its highest place, brought in by a turn that is cleared from the result. */
  private getAhead(): void {
    const { operator } = this;
    const { carriage, counter } = operator.profile;
    this.remark({ is: 'counter-ahead' });
    operator.set({ value: ONE });
    operator.shiftTo(Math.min(carriage, counter));
    operator.turn(1, true);
    operator.clear('setting', 'result');
  }

  private read(): void {
    this.operator.expect(...(this.isCounted ? (['counter', 'result'] as const) : (['result'] as const)));
  }

  private remark(remark: ListRemark): void {
    this.changes.push({ at: this.operator.lineCount, line: { remark } });
  }

  private lines(): ListLine[] {
    const lines: ListLine[] = [];
    let next = 0;
    const own = this.operator.lines;
    for (let at = this.from; at <= own.length; at++) {
      let isReplaced = false;
      for (; this.changes[next]?.at === at; next++) {
        lines.push(this.changes[next].line);
        isReplaced ||= this.changes[next].isInstead === true;
      }
      if (!isReplaced && at < own.length) lines.push(own[at]);
    }
    return lines;
  }
}

/** A number of a single part, its sign aside: that is for the crank. */
function numberIn({ column }: Part, row: number): Amount {
  if (!column) return ONE;
  return amount(magnitude(column.units[row]), column.decimals);
}

const magnitude = (units: bigint): bigint => (units < 0n ? -units : units);

function orStuck(outcome: ReturnType<typeof attempt>): Operator {
  if (isDone(outcome)) return outcome;
  throw new Stuck(outcome);
}

/** What a register holds in units of its last place, when all rows are worked. */
export const shown = (fields: Scheme['result']): bigint =>
  fields.reduce((sum, { total, times, up }) => sum + total * BigInt(times) * tenTo(up), 0n);
