/** A number with more figures than there are levers, set in two parts: each is cranked with the same multiplier. */
import { type Amount, amount, figuresOf, ONE, plainText, tenTo } from './amount.js';
import { attempt, isBetter, isDone } from './choose.js';
import { type Figures, type Operator, Stuck } from './operator.js';
import type { Limit } from './order.js';
import { accumulate, type SimpleTerm } from './sums.js';

/** Adds terms as they are, or, where a number is too long for the levers, in two parts of it if that is less work. */
export function accumulateWhole(operator: Operator, terms: readonly SimpleTerm[], decimals: number): Operator {
  const whole = attempt(() => accumulate(operator.another(), terms, decimals));
  const levers = operator.profile.setting;
  const parted = terms.map((term) => inParts(term, levers));
  const isOfUse = isDone(whole) || whole.is === 'places';
  if (!isOfUse || parted.every((parts) => parts === undefined)) return orStuck(whole);
  const done = attempt(() => {
    const at = operator.another();
    for (const parts of parted) {
      if (parts) at.remark({ is: 'in-parts', number: plainText(parts.number), parts: parts.values.map(plainText) });
    }
    return accumulate(
      at,
      terms.flatMap((term, i) => parted[i]?.terms ?? [term]),
      decimals,
      true,
    );
  });
  // A number that is too long to be set may also be cranked, which mostly takes more turns.
  return isDone(done) && (!isDone(whole) || isBetter(done, whole)) ? done : orStuck(whole);
}

function orStuck(outcome: Operator | Limit): Operator {
  if (isDone(outcome)) return outcome;
  throw new Stuck(outcome);
}

interface Parts {
  readonly number: Amount;
  readonly values: readonly [Amount, Amount];
  readonly terms: readonly SimpleTerm[];
}

/** The longer factor in two parts that the levers have room for; undefined where it has room, or is too long for two. */
function inParts({ sign, factors: [first, second = { value: ONE }] }: SimpleTerm, levers: number): Parts | undefined {
  const isFirst = figuresOf(first.value.units) >= figuresOf(second.value.units);
  const [long, by] = isFirst ? [first, second] : [second, first];
  const { units, decimals } = long.value;
  const figures = figuresOf(units);
  if (long.name !== undefined || by.name !== undefined || figures <= levers || figures > 2 * levers) return undefined;
  // At the point, where both sides of it have room: that is how one reads the number.
  const isPointed = decimals > 0 && decimals <= levers && figures - decimals > 0 && figures - decimals <= levers;
  const below = tenTo(isPointed ? decimals : Math.floor(figures / 2));
  const [upper, lower] = [units - (units % below), units % below];
  if (lower === 0n) return undefined;
  return {
    number: long.value,
    values: [amount(upper, decimals), amount(lower, decimals)],
    terms: [upper, lower].map((part) => ({ sign, factors: withoutNoughts(amount(part, decimals), by) })),
  };
}

/** Noughts at the end of a whole number go to the multiplier, where they take no levers. */
function withoutNoughts(value: Amount, by: Figures): readonly [Figures, Figures] {
  const noughts = /0*$/.exec(value.units.toString())?.[0].length ?? 0;
  const { units, decimals } = by.value;
  return [
    { value: { units: value.units / tenTo(noughts), decimals: value.decimals } },
    { value: amount(units * tenTo(noughts), decimals) },
  ];
}
