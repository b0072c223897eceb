/** Random machines and sequences, as plans and as the notation writes them. */
import fc from 'fast-check';
import type { Deed, Plan } from './slow-model.js';

const often = (bit: number) => fc.integer({ min: 0, max: 9 }).map((n) => n < bit);

/** Machines that contradict themselves nowhere; one in five is as wide as they come. */
export const plans: fc.Arbitrary<Plan> = fc
  .record({
    setting: fc.integer({ min: 1, max: 6 }),
    more: fc.integer({ min: 0, max: 6 }),
    isWide: often(2),
    counter: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 8 })),
    carry: fc.constantFrom('carry', 'plain', 'signed'),
    reach: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined, freq: 2 }),
    carriage: fc.integer({ min: 1, max: 7 }),
    subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
    count: fc.constantFrom('follow', 'lever', 'first'),
    park: fc.boolean(),
    bell: fc.boolean(),
    dials: often(7),
    autoClear: often(3),
    autoDivide: often(6),
    transferResult: fc.constantFrom('none', 'anywhere', 'at 1'),
    transferCounter: fc.boolean(),
  } as const)
  .map(({ more, isWide, ...plan }) => {
    const setting = isWide ? plan.setting + 12 : plan.setting;
    const result = Math.min(20, setting + more);
    const counter = isWide && plan.counter > 0 ? plan.counter + 12 : plan.counter;
    return {
      ...plan,
      setting,
      counter,
      result,
      reach: plan.reach === undefined ? undefined : Math.min(20, setting + plan.reach),
      carriage: Math.min(result, plan.carriage),
      autoDivide: plan.autoDivide && plan.subtract !== 'reverse' && plan.subtract !== 'none',
    };
  });

const digits = (most: number) =>
  fc
    .array(fc.constantFrom('0', '0', '1', '4', '5', '8', '9', '9'), { minLength: 1, maxLength: most })
    .map((list) => list.join(''));

/** Deeds that a machine can mostly do, and now and then one that it cannot. */
export function deedsOn(plan: Plan): fc.Arbitrary<Deed> {
  const positions = fc.integer({ min: 0, max: plan.carriage + 1 });
  const at = fc.oneof(fc.constant(1), fc.integer({ min: 0, max: plan.setting }));
  const back = plan.subtract === 'reverse' ? fc.boolean() : often(1);
  const weighted: [number, fc.Arbitrary<Deed>][] = [
    [6, fc.record({ do: fc.constant('set' as const), digits: digits(plan.setting), at })],
    [plan.dials ? 3 : 1, fc.record({ do: fc.constant('dial' as const), digits: digits(plan.result), at })],
    [10, fc.record({ do: fc.constant('turn' as const), back, times: fc.integer({ min: 0, max: 12 }) })],
    [2, fc.record({ do: fc.constant('until' as const), back, end: fc.constant('overdraw' as const) })],
    [
      plan.autoDivide ? 4 : 1,
      fc.record({ do: fc.constant('until' as const), back: fc.constant(false), end: fc.constant('stop' as const) }),
    ],
    [5, fc.record({ do: fc.constant('shift' as const), by: fc.integer({ min: -3, max: 3 }) })],
    [3, fc.record({ do: fc.constant('shift to' as const), position: positions })],
    [1, fc.record({ do: fc.constant('shift out' as const) })],
    [
      plan.subtract === 'half-step' ? 6 : 1,
      fc.record({ do: fc.constant('shift half' as const), way: fc.constantFrom(1 as const, -1 as const) }),
    ],
    [
      2,
      fc.record({
        do: fc.constant('clear' as const),
        registers: fc.constantFrom(
          ['setting'] as const,
          ['counter'] as const,
          ['result'] as const,
          ['counter', 'result'] as const,
          ['setting', 'counter', 'result'] as const,
        ),
      }),
    ],
    [2, fc.record({ do: fc.constant('transfer' as const), register: fc.constantFrom('counter', 'result') })],
    [4, fc.record({ do: fc.constant('mode' as const), subtracts: fc.boolean() })],
    [plan.count === 'lever' ? 3 : 1, fc.record({ do: fc.constant('count' as const), minus: fc.boolean() })],
    [plan.autoClear ? 2 : 1, fc.record({ do: fc.constant('auto-clear' as const), on: fc.boolean() })],
    [plan.autoDivide ? 4 : 1, fc.record({ do: fc.constant('auto-divide' as const), on: fc.boolean() })],
    [3, fc.record({ do: fc.constant('multiply' as const), digits: digits(plan.carriage) })],
    [2, fc.record({ do: fc.constant('divide' as const), to: fc.integer({ min: 1, max: plan.carriage }) })],
  ];
  return fc.oneof(...weighted.map(([weight, arbitrary]) => ({ weight, arbitrary })));
}

/** A machine and a sequence on it. */
export const trials = (most = 14): fc.Arbitrary<readonly [Plan, readonly Deed[]]> =>
  plans.chain((plan) => fc.tuple(fc.constant(plan), fc.array(deedsOn(plan), { minLength: 1, maxLength: most })));

export function machineText(plan: Plan, name = 'stores'): string {
  const { reach } = plan;
  const lines = [
    `machine ${name}`,
    `setting ${plan.setting}`,
    plan.counter > 0 && `counter ${plan.counter} ${plan.carry}`,
    `result ${plan.result}${plan.dials ? ' dials' : ''}${reach === undefined ? '' : ` reach ${reach}`}`,
    `carriage ${plan.carriage}`,
    `subtract ${plan.subtract}`,
    `count ${plan.count}`,
    plan.park && 'park left',
    plan.bell && 'bell',
    plan.autoClear && 'auto-clear',
    plan.autoDivide && 'auto-divide',
    plan.transferResult !== 'none' && `transfer result${plan.transferResult === 'at 1' ? ' at 1' : ''}`,
    plan.transferCounter && 'transfer counter',
  ];
  return `${lines.filter(Boolean).join('\n  ')}\n`;
}

export function deedText(deed: Deed): string {
  const back = 'back' in deed && deed.back ? ' back' : '';
  switch (deed.do) {
    case 'set':
      return `set ${deed.digits}${deed.at === 1 ? '' : ` at ${deed.at}`}`;
    case 'dial':
      return `dial result ${deed.digits}${deed.at === 1 ? '' : ` at ${deed.at}`}`;
    case 'turn':
      return `turn${back}${deed.times === 1 ? '' : ` ${deed.times}`}`;
    case 'until':
      return `turn${back} until ${deed.end}`;
    case 'shift':
      return `shift ${deed.by < 0 ? 'left' : 'right'} ${Math.abs(deed.by)}`;
    case 'shift to':
      return `shift to ${deed.position}`;
    case 'shift half':
      return `shift ${deed.way < 0 ? 'left' : 'right'} half`;
    case 'clear':
      return `clear ${deed.registers.length === 3 ? 'all' : deed.registers.join(' ')}`;
    case 'transfer':
      return `transfer ${deed.register}`;
    case 'mode':
      return `mode ${deed.subtracts ? 'subtract' : 'add'}`;
    case 'count':
      return `count ${deed.minus ? 'minus' : 'plus'}`;
    case 'auto-clear':
    case 'auto-divide':
      return `${deed.do} ${deed.on ? 'on' : 'off'}`;
    case 'multiply':
      return `multiply by ${deed.digits}`;
    case 'divide':
      return `divide to ${deed.to}`;
    case 'shift out':
      return deed.do;
  }
}

/** The file of a trial; its deeds stand one a line behind the line `sequence`. */
export const trialText = (plan: Plan, deeds: readonly Deed[]): string =>
  `${machineText(plan)}sequence trial on stores\n${deeds.map((deed) => `  ${deedText(deed)}\n`).join('')}`;
