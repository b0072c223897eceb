/** `expect` and `ask`: somebody looks at the machine. */
import type { AskStep, ExpectItem, ExpectStep } from '../../grammar/tree.js';
import { compare } from './expects.js';
import type { Differs } from './findings.js';
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
    // A step is told once, with the first of its readings that differs.
    const [differs] = step.items.flatMap((item) => differenceOf(runner, item) ?? []);
    if (differs) runner.report({ code: 'reading-differs', differs });
  }
  // What is read now stands as it is: it can no longer be made good.
  if (registers.includes('result')) runner.wraps.close();
}

/** Only the very next step excuses an overflow or an overdraw. */
function excuse(runner: Runner, kind: 'overflow' | 'overdraw' | 'bell'): void {
  if (kind !== 'bell' || runner.profile.bell) runner.wraps.expected(kind, runner.beforeRow);
}

function differenceOf(runner: Runner, item: ExpectItem): Differs | undefined {
  if (item.kind === 'bell' && !runner.profile.bell) {
    refuseDevice(runner, 'bell');
    return undefined;
  }
  if (item.kind === 'register' && !numberOf(runner, item.figures)) return undefined;
  if (item.kind === 'carriage' && !numberOf(runner, item.position)) return undefined;
  return compare(item, runner.state, runner.happened, runner.profile);
}
