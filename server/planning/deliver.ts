/** The answer, brought to the register where it is wanted. */
import { hasSignedWheels } from '../machine/index.js';
import { type Amount, ONE } from './amount.js';
import { choose } from './choose.js';
import { crank } from './cranking.js';
import { type Operator, Stuck } from './operator.js';
import { addComplement } from './sums.js';

/**
 * Brings what stands in the answer's register, or another number, to the register that is wanted, with its sign; where
 * it stands there already, nothing is done.
 */
export function deliver(
  operator: Operator,
  wanted: 'counter' | 'result' | undefined,
  sign: 1 | -1,
  copy?: Amount,
): Operator {
  const from = operator.answer ?? 'result';
  const to = wanted ?? from;
  if (from === to && sign > 0 && copy === undefined) return operator;
  const value = copy ?? operator.reading(from);
  if (copy === undefined && from === 'result' && operator.isBelowZero)
    throw new Stuck({ is: 'below-zero', register: 'result' });
  if (value.units === 0n) return cleared(operator, to);
  const done = choose(operator, 'form', [
    { name: 'pass back', work: (at) => passedBack(at, from, to, sign, copy) },
    { name: 'write down', work: (at) => writtenDown(at, from, to, sign, value, copy !== undefined) },
  ]);
  done.answer = to;
  return done;
}

/** Nought need not be carried over: a cleared register shows it. */
function cleared(operator: Operator, to: 'counter' | 'result'): Operator {
  if (to === 'counter' && operator.profile.counter === 0) throw new Stuck({ is: 'no-counter' });
  const done = operator.another();
  if (done.units(to) !== 0n) done.clear(to);
  done.answer = to;
  return done;
}

/** The quotient goes to the levers and with one turn into the result. */
function passedBack(operator: Operator, from: string, to: string, sign: 1 | -1, copy: Amount | undefined): Operator {
  if (from !== 'counter' || to !== 'result' || sign < 0 || copy) throw new Stuck({ is: 'not-met' });
  const { counter } = operator.points;
  operator.expect('counter');
  operator.clear(...(['setting', 'result'] as const).filter((register) => operator.units(register) !== 0n));
  operator.transferCounter();
  operator.place(counter, 0);
  operator.shiftTo(1);
  operator.turn(1, true);
  return operator;
}

/** A single turn that subtracts from nothing counts down below zero on most machines. */
const isSubtractable = ({ profile }: Operator): boolean =>
  (profile.counter === 0 || profile.counterCarry === 'signed' || profile.count === 'first') &&
  profile.reach === undefined;

function writtenDown(
  operator: Operator,
  from: 'counter' | 'result',
  to: 'counter' | 'result',
  sign: 1 | -1,
  value: Amount,
  isCopy: boolean,
): Operator {
  if (to === 'counter' && operator.profile.counter === 0) throw new Stuck({ is: 'no-counter' });
  if (!isCopy) operator.expect(from);
  operator.writeDown(from, value);
  if (operator.isSubtracting || operator.isCountMinus) operator.atRest();
  operator.clearAll();
  if (to === 'result') {
    operator.place(value.decimals, 0);
    if (sign < 0 && !(operator.canSubtract && isSubtractable(operator))) return addComplement(operator, { value });
    operator.set({ value });
    operator.shiftTo(1);
    operator.turn(1, sign > 0, sign > 0 ? undefined : 'overdraw');
    return operator;
  }
  operator.place(0, value.decimals);
  operator.set({ value: ONE });
  // Wheels that show negative figures read the sum; others would show a complement that nobody asked for.
  if (sign < 0 && !hasSignedWheels(operator.profile, 'counter'))
    throw new Stuck({ is: 'below-zero', register: 'counter' });
  // What is set there to be counted goes below zero in the result as well.
  operator.mayOverdraw = sign < 0;
  const done = crank(operator, { value }, sign);
  done.mayOverdraw = false;
  return done;
}
