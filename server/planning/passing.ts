/** The result, passed back to the levers to be cranked once more. */
import { tenTo } from './amount.js';
import { crank } from './cranking.js';
import { type Figures, type Operator, Stuck } from './operator.js';

/** Passes the result back to the levers and cranks a factor, which leaves `decimals` decimals or as many as it takes. */
export function crankOn(operator: Operator, by: Figures, decimals?: number): Operator {
  const start = operator.points.result;
  const result = operator.units('result');
  let at = 1;
  // Zeros at the end need no lever.
  while (operator.profile.transferResult === 'anywhere' && result % tenTo(at) === 0n && at < start + 1) at++;
  operator.expect('result');
  operator.transferResult(at);
  if (operator.units('counter') !== 0n) operator.clear('counter');
  const setting = start - (at - 1);
  const counter = decimals === undefined ? by.value.decimals : decimals - setting;
  if (counter < by.value.decimals) throw new Stuck({ is: 'not-met' });
  operator.place(setting, counter);
  return crank(operator, by, 1);
}
