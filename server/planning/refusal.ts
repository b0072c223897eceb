/** What is told where no plan can be made. */
import { type Amount, amount, figuresOf, plainText, tenTo } from './amount.js';
import { hasNames } from './answers.js';
import { attempt, isDone } from './choose.js';
import { endsByItself, type Form, type Quotient } from './forms.js';
import { Operator } from './operator.js';
import type { Limit, PlanOrder, Refusal, WayOut } from './order.js';
import { worked } from './working.js';

/** Says what would do instead, where that is known: fewer decimals, or a number in two parts. */
export function refusal(order: PlanOrder, quotient: Quotient, refused: Limit): Refusal {
  const { decimals } = order;
  const start = new Operator(order.profile);
  // What is right for all values of parameters is only seen when it is run.
  if (decimals !== undefined && decimals > 0 && !endsByItself(quotient) && !hasNames(order.values)) {
    for (let fewer = decimals - 1; fewer >= 0; fewer--) {
      const outcome = attempt(() => worked(order, start, quotient, fewer));
      if (isDone(outcome)) return { refused, wayOut: { is: 'fewer-decimals', decimals: fewer } };
    }
  }
  const wayOut =
    refused.is === 'places' && refused.register === 'setting' ? split(quotient, order.profile.setting) : undefined;
  return { refused, ...(wayOut && { wayOut }) };
}

/** The first number that is too long for the levers, in two parts. */
function split({ over, under }: Quotient, levers: number): WayOut | undefined {
  const numbers = [...numbersIn(over), ...(under ? numbersIn(under) : [])];
  const long = numbers.find(({ units }) => figuresOf(units) > levers);
  if (!long) return undefined;
  const fits = ({ units, decimals }: Amount) => units > 0n && Math.max(figuresOf(units), decimals) <= levers;
  const low = tenTo(Math.ceil(figuresOf(long.units) / 2));
  const parts = [long.units - (long.units % low), long.units % low].map((units) => amount(units, long.decimals));
  return parts.every(fits) ? { is: 'split', number: plainText(long), parts: parts.map(plainText) } : undefined;
}

function numbersIn(form: Form): Amount[] {
  switch (form.is) {
    case 'number':
      return [form.figures.value];
    case 'sum':
      return form.terms.flatMap(({ form: of }) => numbersIn(of));
    case 'product':
      return form.factors.flatMap(numbersIn);
    case 'power':
      return numbersIn(form.base);
    case 'root':
    case 'quotient':
      return [...numbersIn(form.of.over), ...(form.of.under ? numbersIn(form.of.under) : [])];
  }
}
