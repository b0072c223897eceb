/** Division: the dividend in the result, the divisor on the levers, the quotient in the counter. */
import type { Profile } from '../machine/index.js';
import { type Amount, amount, figuresOf, fractionOf, plainText, tenTo, times, unitsAt } from './amount.js';
import { attempt, choose, isDone, type Way } from './choose.js';
import { crank } from './cranking.js';
import { type Form, numberForm, opposite } from './forms.js';
import { operand } from './operands.js';
import { type Figures, type Operator, Stuck } from './operator.js';
import type { Method } from './order.js';
import { intoResult } from './products.js';
import type { Terms } from './terms.js';

/** Turns in one position before somebody should have shifted. */
const MOST_TURNS = 9;

/** Whether turns that subtract can be made to count up, the counter freshly cleared. */
export const countsQuotientsUp = ({ count, counter }: Profile): boolean => counter > 0 && count !== 'follow';

/**
 * Brings `over` divided by `under`, both positive, into the counter, cut off at so many decimals. The remainder is left
 * in the result, unless the quotient had to be built up.
 */
export function quotientIntoCounter(
  operator: Operator,
  over: Form,
  under: Form,
  terms: Terms,
  decimals: number,
): Operator {
  if (operator.profile.counter === 0) throw new Stuck({ is: 'no-counter' });
  if (over.value.s < 0n) return quotientIntoCounter(operator, opposite(over), opposite(under), terms, decimals);
  const quotient = over.value.div(under.value).mul(tenTo(decimals).toString()).floor().n;
  operator.room('counter', Math.max(decimals, figuresOf(quotient)));
  if (over.value.n === 0n && terms.answers.length === 0) return nought(operator, decimals);
  const moved = pointsMoved(operator, over, under);
  if (moved) return quotientIntoCounter(moved.operator, moved.over, moved.under, terms, decimals);
  const divisor = operand(operator, under, terms);
  if (divisor.sign < 0) throw new Stuck({ is: 'not-met' });
  const number = over.is === 'number' ? over.figures : undefined;
  if (!divides(operator.profile, terms.method)) {
    if (isDividing(terms.method)) throw new Stuck({ is: 'method', method: terms.method });
    return buildUp(divisor.operator, over, divisor.figures, terms, decimals);
  }
  const widest = Math.max(0, operator.profile.setting - figuresOf(divisor.figures.value.units));
  const ways = [...entries(operator.profile, over, number, divisor.figures, terms, decimals, widest)].map(
    ({ name, work }): Way => {
      return { name, work: (at) => divide(work(at), divisor.figures, decimals, terms) };
    },
  );
  return choose(divisor.operator, 'dividend', ways);
}

/** Nothing is divided, or less than one unit of the quotient: cleared registers show it. */
function nought(operator: Operator, decimals: number): Operator {
  const done = operator.another();
  done.clearAll();
  done.place(0, decimals);
  done.expect('counter', 'result');
  return done;
}

/** A divisor with more decimals than there are levers: both points are moved, which leaves the quotient as it is. */
function pointsMoved(operator: Operator, over: Form, under: Form) {
  if (over.is !== 'number' || under.is !== 'number') return undefined;
  const divisor = under.figures;
  const places = divisor.value.decimals;
  if (places <= operator.profile.setting - 1 || divisor.name !== undefined || over.figures.name !== undefined)
    return undefined;
  const by = { units: tenTo(places), decimals: 0 };
  const scaled = { over: times(over.figures.value, by), under: times(divisor.value, by) };
  const done = operator.another();
  done.remark({ is: 'points-moved', places, over: plainText(scaled.over), under: plainText(scaled.under) });
  return { operator: done, over: numberForm({ value: scaled.over }), under: numberForm({ value: scaled.under }) };
}

/**
 * Whether the machine divides by subtracting: it must count turns that subtract upwards, and an overdraw must get
 * through to the top of the result. Else the quotient is built up.
 */
function divides(profile: Profile, method: Method | undefined): boolean {
  if (method === 'building-up') return false;
  const isReachFull = profile.reach === undefined || profile.reach >= profile.result;
  return profile.subtract !== 'none' && countsQuotientsUp(profile) && isReachFull;
}

/** A way of dividing that was asked for by name. */
const isDividing = (method: Method | undefined): method is Method =>
  method === 'automatic' || method === 'restoring' || method === 'non-restoring';

/** Ways to get the dividend into the result, at `decimals` more than the divisor has on the levers. */
function* entries(
  profile: Profile,
  over: Form,
  number: Figures | undefined,
  divisor: Figures,
  terms: Terms,
  decimals: number,
  widest: number,
): Generator<Way> {
  // Half a unit of the quotient has one decimal more.
  const least = divisor.value.decimals + (terms.roundsQuotient ? 1 : 0);
  if (!number) {
    yield {
      name: 'product',
      work: (operator) => {
        // The further the divisor stands to the left, the more room a product has to be made in.
        const most = least + Math.min(widest, 8);
        for (let setting = least; ; setting++) {
          const outcome = attempt(() => intoResult(operator.another(), over, terms, setting + decimals));
          if (isDone(outcome)) {
            outcome.expect('result');
            outcome.clear('counter');
            outcome.place(setting, decimals);
            return outcome;
          }
          if (setting >= most) throw new Stuck(outcome);
        }
      },
    };
    return;
  }
  if (profile.dials) {
    yield {
      name: 'dial',
      work: (at) => {
        at.clearAll();
        at.place(Math.max(least, number.value.decimals - decimals), decimals);
        at.dial(number);
        return at;
      },
    };
  }
  yield {
    name: 'set and turn',
    work: (at) => {
      at.clearAll();
      at.place(Math.max(least, number.value.decimals), decimals);
      at.set(number);
      at.remark({ is: 'dividend' });
      at.shiftTo(decimals + 1);
      at.turn(1, true);
      at.clear('counter');
      return at;
    },
  };
  // A dividend with more decimals than the levers have room for is turned in further to the right.
  yield {
    name: 'set and turn',
    work: (at) => {
      at.clearAll();
      at.place(least, decimals);
      const units = unitsIn(number.value, least + decimals);
      if (number.name !== undefined) throw new Stuck({ is: 'parameters' });
      let lower = 0;
      while (lower < decimals && units % tenTo(lower + 1) === 0n) lower++;
      at.setDigits(units / tenTo(lower), 1);
      at.remark({ is: 'dividend' });
      at.shiftTo(lower + 1);
      at.turn(1, true);
      at.clear('counter');
      return at;
    },
  };
}

function unitsIn(value: Amount, decimals: number): bigint {
  if (value.decimals > decimals) throw new Stuck({ is: 'not-met' });
  return unitsAt(value, decimals);
}

/** Divides what the result holds; the counter's marker stands. */
export function divide(operator: Operator, divisor: Figures, decimals: number, terms: Terms): Operator {
  const dividend = operator.units('result');
  const byUnits = unitsAt(divisor.value, operator.points.setting);
  const quotient = dividend / byUnits;
  if (terms.roundsQuotient) addHalfUnit(operator, byUnits);
  // A plan for several cases begins where the largest quotient does; the others are overdrawn at once up there.
  const start = Math.max(
    ...[quotient, ...terms.answers.map((one) => one.mul(tenTo(decimals).toString()).floor().n)].map(figuresOf),
  );
  operator.room('counter', start);
  operator.room('carriage', start);
  operator.remark({ is: 'divide' });
  operator.set(divisor);
  operator.shiftTo(start);
  const done = choose(operator, 'division', dividingWays(operator.profile, terms));
  if (done.points.counter !== decimals) throw new Stuck({ is: 'not-met' });
  done.expect('counter', 'result');
  return done;
}

/** Half of what one unit of the quotient's last decimal stands for, added to the dividend. */
function addHalfUnit(operator: Operator, divisor: bigint): void {
  operator.remark({ is: 'half-unit' });
  operator.shiftTo(1);
  operator.setDigits(divisor / 2n, 1);
  operator.turn(1, true);
  operator.clear('counter');
}

function* dividingWays(profile: Profile, { method, answers }: Terms): Generator<Way> {
  const isWanted = (one: Method) => method === one || !isDividing(method);
  // What the machine does by itself is left to it.
  if (profile.autoDivide && isWanted('automatic')) yield { name: 'automatic', work: automatic, isPreferred: true };
  if (isWanted('restoring')) yield { name: 'restoring', work: restoring };
  // Without restoring, the turns that add are told by their number, which is another in each case.
  if (isWanted('non-restoring') && answers.length === 0) yield { name: 'non-restoring', work: nonRestoring };
}

const isCountLever = ({ profile }: Operator): boolean => profile.count === 'lever';

function automatic(operator: Operator): Operator {
  if (isCountLever(operator)) operator.countLever(true);
  operator.drive(true);
  operator.autoDivide(true);
  operator.turnUntilStop();
  operator.autoDivide(false);
  operator.shiftTo(1);
  operator.atRest();
  return operator;
}

function restoring(operator: Operator): Operator {
  if (isCountLever(operator)) operator.countLever(true);
  for (let position = operator.position; position >= 1; position--) {
    operator.shiftTo(position);
    operator.turnUntilOverdraw();
    operator.turn(1, true, 'restores');
  }
  operator.atRest();
  return operator;
}

function nonRestoring(operator: Operator): Operator {
  if (isCountLever(operator)) operator.countLever(true);
  let isBelow = false;
  for (let position = operator.position; position >= 1; position--) {
    operator.shiftTo(position);
    if (isBelow) {
      operator.turn(turnsToRestore(operator, position), true, 'restores');
      isBelow = false;
      continue;
    }
    operator.turnUntilOverdraw();
    // Ten turns are left to no one: the overdraw is made good where it is, as in the last place.
    isBelow = position > 1 && turnsToRestore(operator, position - 1) <= MOST_TURNS;
    if (!isBelow) operator.turn(1, true, 'restores');
  }
  operator.atRest();
  return operator;
}

/** Turns that add in a position until an overdraw is made good. */
function turnsToRestore(operator: Operator, position: number): number {
  const missing = tenTo(operator.profile.result) - operator.units('result');
  const step = operator.units('setting') * tenTo(position - 1);
  return Number((missing + step - 1n) / step);
}

/**
 * The result climbs from zero towards the dividend, which stands on paper: turns that add count the quotient up on any
 * machine. What is still missing is the remainder.
 */
function buildUp(operator: Operator, over: Form, divisor: Figures, terms: Terms, decimals: number): Operator {
  if (terms.answers.length > 0) throw new Stuck({ is: 'parameters' });
  const dividend = operand(operator, over, terms);
  if (dividend.sign < 0) throw new Stuck({ is: 'not-met' });
  const at = dividend.operator;
  const { value } = dividend.figures;
  const exact = fractionOf(value).div(fractionOf(divisor.value)).mul(tenTo(decimals).toString());
  const half = terms.roundsQuotient;
  const units = half ? exact.add('1/2').floor().n : exact.floor().n;
  if (units === 0n) return nought(at, decimals);
  at.clearAll();
  at.place(divisor.value.decimals, decimals);
  const start = figuresOf(units);
  at.room('counter', start);
  at.room('carriage', start);
  at.remark({ is: 'building-up', dividend: plainText(value) });
  at.set(divisor);
  const done = crank(at, { value: amount(units, decimals) }, 1, true);
  done.expect('counter', 'result');
  return done;
}
