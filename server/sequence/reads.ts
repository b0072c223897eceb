/** `expect` and `ask`: somebody looks at the machine. */
import type { AskStep, ExpectItem, ExpectStep } from '../../grammar/tree.js';
import { compare } from './expects.js';
import { numberOf, refuseDevice } from './hands.js';
import type { Runner } from './run.js';

export function readStep(runner: Runner, step: ExpectStep | AskStep): void {
  const registers = step.items.flatMap((item) => ('register' in item ? [item.register] : []));
  if (runner.profile.counter === 0 && registers.includes('counter')) return refuseDevice(runner, 'counter');
  for (const register of registers) runner.usesRegister(register);
  if (step.kind === 'expect') {
    for (const { kind } of step.items) {
      if (kind === 'overflow' || kind === 'overdraw' || kind === 'bell') excuse(runner, kind);
    }
    for (const item of step.items) check(runner, item);
  }
  // What is read now stands as it is: it can no longer be made good.
  if (registers.includes('result')) runner.wraps.close();
}

/** Only the very next step excuses an overflow or an overdraw. */
function excuse(runner: Runner, kind: 'overflow' | 'overdraw' | 'bell'): void {
  if (kind !== 'bell' || runner.profile.bell) runner.wraps.expected(kind, runner.beforeRow);
}

function check(runner: Runner, item: ExpectItem): void {
  if (item.kind === 'bell' && !runner.profile.bell) return refuseDevice(runner, 'bell');
  if (item.kind === 'register' && !numberOf(runner, item.figures)) return;
  if (item.kind === 'carriage' && !numberOf(runner, item.position)) return;
  const differs = compare(item, runner.state, runner.happened, runner.profile);
  if (differs) runner.report({ code: 'reading-differs', differs });
}
