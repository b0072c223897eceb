/** How long it takes to find out what a script proves: 300 steps on a machine of 10 × 8 × 13. */
import { finish } from '../../grammar/gradual.js';
import { faultsOf } from '../../server/machine/index.js';
import { coverageOf } from '../../server/proving/coverage.js';
import { Library } from '../../server/sequence/library.js';
import { run } from '../../server/sequence/run.js';
import { pair, type Ratio } from './pairs.js';
import { numbers } from './texts.js';

const STEPS = 300;

function scriptText(): string {
  const next = numbers(7);
  const lines = ['clear all'];
  const figures = () => Array.from({ length: 10 }, () => next(10)).join('');
  while (lines.length < STEPS) {
    lines.push(`set ${figures()}`, `turn ${1 + next(4)}`, `shift to ${1 + next(8)}`, 'turn back');
    if (next(4) === 0) lines.push('expect result 0');
    if (next(6) === 0) lines.push('expect counter 0');
    if (next(6) === 0) lines.push('clear result counter');
  }
  const machine = ['setting 10', 'counter 8', 'result 13 dials', 'bell', 'auto-clear', 'transfer result'];
  return `machine wide\n  ${machine.join('\n  ')}\nsequence proof on wide\n${lines.slice(0, STEPS).join('\n')}\n`;
}

export async function proving(): Promise<Ratio> {
  const library = new Library();
  library.set('bench.crank', scriptText());
  const order = library.check('bench.crank').sequences[0].runs[0]?.order;
  if (!order) throw new Error('the script of the benchmark is not run');
  const sound = run(order);
  const { total } = finish(coverageOf([sound]));
  const faults = faultsOf(order.profile).length;
  return pair(
    `coverage of ${sound.tape.length} steps, ${faults} faults (${total.caught} caught) : one run of the sound machine`,
    () => finish(coverageOf([sound])),
    () => run(order),
  );
}
