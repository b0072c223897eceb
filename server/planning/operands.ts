/** Numbers that are set or cranked: as they are written, or worked out first, read and written down. */
import { type Amount, amount, tenTo } from './amount.js';
import { attempt, isDone } from './choose.js';
import { type Form, opposite } from './forms.js';
import { type Operator, Stuck } from './operator.js';
import type { Limit } from './order.js';
import type { Operand, Terms } from './terms.js';

/** A form as a number to be set or cranked: as it is written, or worked out first, read and written down. */
export function operand(operator: Operator, form: Form, terms: Terms): Operand {
  if (form.is === 'number') return { operator, figures: form.figures, sign: 1 };
  const sign = form.value.s < 0n ? -1 : 1;
  const positive = sign < 0 ? opposite(form) : form;
  const known = operator.noted(positive.key);
  if (known) return { operator, figures: { value: known }, sign };
  const register = positive.is === 'root' || positive.is === 'quotient' ? 'counter' : 'result';
  const done = remembered(operator, positive, terms);
  const value = done.reading(register);
  done.expect(register);
  const limit = terms.kept;
  const kept = limit !== undefined && value.decimals > limit ? roundedTo(value, limit) : value;
  if (kept.units === 0n) throw new Stuck({ is: 'not-met' });
  if (terms.answers.length > 0) throw new Stuck({ is: 'parameters' });
  done.writeDown(register, kept, positive.key);
  return { operator: done, figures: { value: kept }, sign };
}

function roundedTo(value: Amount, decimals: number): Amount {
  const down = tenTo(value.decimals - decimals);
  return amount((value.units + down / 2n) / down, decimals);
}

type Works = Map<string, Operator | Limit>;
/** By standing: search, steps, decisions. */
const workDone = new WeakMap<object, WeakMap<object, WeakMap<object, Works>>>();

/** What is known to come of the work of those who stand where this one does. */
function worksFrom(operator: Operator): Works {
  const [search, steps, decisions] = operator.standing;
  const ofSearch = workDone.get(search) ?? new WeakMap<object, WeakMap<object, Works>>();
  const ofSteps = ofSearch.get(steps) ?? new WeakMap<object, Works>();
  const works: Works = ofSteps.get(decisions) ?? new Map();
  workDone.set(search, ofSearch.set(steps, ofSteps.set(decisions, works)));
  return works;
}

/** The same work from the same start need not be done twice: ways of doing what comes after it begin alike. */
function remembered(operator: Operator, form: Form, terms: Terms): Operator {
  const works = worksFrom(operator);
  const key = `${form.key} ${terms.kept} ${form.isInexact ? terms.rootDecimals : ''} ${terms.method} ${operator.mayOverdraw}`;
  const done = works.get(key) ?? attempt(() => workedOut(operator, form, terms));
  works.set(key, done);
  if (!isDone(done)) throw new Stuck(done);
  return done.another();
}

function workedOut(operator: Operator, form: Form, terms: Terms): Operator {
  const inner = { ...terms, roundsQuotient: false };
  if (form.is === 'root') return terms.skills.root(operator, form.of, inner, terms.rootDecimals);
  if (form.is !== 'quotient') return terms.skills.sum(operator, form, terms);
  const { over, under } = form.of;
  return terms.skills.quotient(operator, over, under, inner, terms.rootDecimals);
}
