/** Steps that hold others (`repeat`, `run`) or stand for others (`multiply`, `divide`). They keep no row of their own. */
import type { Gradual } from '../../grammar/gradual.js';
import type {
  DivideStep,
  MultiplyStep,
  NumberSyntax,
  RepeatStep,
  RunStep,
  SequenceSection,
  Step,
} from '../../grammar/tree.js';
import { AUTO_DIVIDE, has, POSITION } from '../machine/index.js';
import { countsAsComplement, type DivisionStart, type Opened, openDivide, openMultiply } from './expand.js';
import { countOf, numberOf } from './hands.js';
import { turnUntil } from './made.js';
import type { Runner } from './run.js';
import { CounterBalance, divideShort } from './short.js';
import type { Values } from './substitute.js';

const MOST_ROUNDS = 999;

type NestedStep = RepeatStep | RunStep | MultiplyStep | DivideStep;

export function carryOutNested(runner: Runner, step: Step<NestedStep>): Gradual<void> {
  const { syntax } = step;
  switch (syntax.kind) {
    case 'repeat':
      return repeat(runner, step, syntax);
    case 'run':
      return runOther(runner, step, syntax);
    case 'multiply':
      return multiply(runner, step, syntax);
    case 'divide':
      return divide(runner, step, syntax);
  }
}

function* repeat(runner: Runner, step: Step, { count }: RepeatStep): Gradual<void> {
  const rounds = countOf(runner, count, 1, MOST_ROUNDS);
  if (rounds === undefined) return;
  for (let round = 1; round <= rounds && !runner.brokeOff; round++) {
    const { row } = runner;
    if (!(yield* runner.inside(step, step.body ?? [], runner.section, runner.values, round))) return;
    // A round without a step will have none the next time either.
    if (runner.row === row) {
      runner.leaveRounds();
      return;
    }
  }
}

function* runOther(runner: Runner, step: Step, { name, args }: RunStep): Gradual<void> {
  const other = runner.sequence(name.name);
  if (!other) return;
  if (runner.isRunning(other)) return runner.report({ code: 'sequence-cycle', by: 'run', name: name.name });
  const takes = other.header?.parameters.length ?? 0;
  if (args.length > takes) {
    const why = { is: 'too-many', name: name.name, takes, given: args.length } as const;
    return runner.report({ code: 'wrong-arguments', why });
  }
  const values = argumentValues(other, args);
  if (values) yield* runner.insideOther(step, other, values);
}

/** The parameters' values, the defaults where nothing is given; undefined if one given is a name without a value. */
export function argumentValues(other: SequenceSection, args: RunStep['args']): Values | undefined {
  const values = new Map<string, NumberSyntax>();
  for (const [i, parameter] of (other.header?.parameters ?? []).entries()) {
    const value = args[i] ?? parameter.value;
    if (value.kind === 'name') return undefined;
    values.set(parameter.name.name, value);
  }
  return values;
}

function* multiply(runner: Runner, step: Step, { by, short }: MultiplyStep): Gradual<void> {
  const { profile } = runner;
  const number = numberOf(runner, by);
  if (!number) return;
  const opened = openMultiply(step, number, short, runner);
  if (short && profile.counterCarry === 'carry') runner.counterBalance = new CounterBalance(runner.turns);
  yield* carryOutOpened(runner, step, opened);
  const passed = runner.counterBalance?.passed(profile.counter);
  runner.counterBalance = undefined;
  if (passed) runner.report(passed);
}

/** With automatic division on, the machine does it; else by hand. */
function* divide(runner: Runner, step: Step, { downTo, short }: DivideStep): Gradual<void> {
  const { state, profile } = runner;
  const to = countOf(runner, downTo, 1, profile.carriage);
  if (to === undefined) return;
  const position = state[POSITION];
  if (position === 0) return runner.report({ code: 'carriage-parked', times: 0 });
  if (to > position) return runner.report({ code: 'wrong-arguments', why: { is: 'divide-to', position, to } });
  if (profile.subtract === 'none') {
    return runner.report({ code: 'not-on-this-machine', device: 'subtract', machine: profile.name });
  }
  if (countsAsComplement(state, profile)) runner.report({ code: 'quotient-as-complement' });
  runner.stopsBelow = to;
  yield* carryOutOpened(runner, step, { steps: divisionSteps(runner, step, { position, to }, short) });
  runner.stopsBelow = 1;
}

function divisionSteps(runner: Runner, step: Step, start: DivisionStart, short: boolean): Iterable<Step> {
  if (has(runner.state, AUTO_DIVIDE)) return [turnUntil(step, false, 'stop')];
  return short ? divideShort(runner, step, start) : openDivide(step, start, runner);
}

function* carryOutOpened(runner: Runner, step: Step, opened: Opened): Gradual<void> {
  if ('refused' in opened) runner.report(opened.refused);
  else yield* runner.inside(step, opened.steps, runner.section, runner.values);
}
