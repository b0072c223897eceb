/** Random machines as people have them, and sequences with goals that are cranked on them. */
import fc from 'fast-check';

/** A machine as the notation writes it, and what a template has to know of it. */
export interface Built {
  readonly setting: number;
  readonly counter: number;
  readonly carry: 'carry' | 'plain' | 'signed';
  readonly result: number;
  readonly dials: boolean;
  readonly reach: number | undefined;
  readonly carriage: number;
  readonly subtract: 'reverse' | 'lever' | 'half-step' | 'lift' | 'none';
  readonly count: 'follow' | 'lever' | 'first';
  readonly park: boolean;
  readonly bell: boolean;
  readonly autoClear: boolean;
  readonly autoDivide: boolean;
  readonly transfer: 'none' | 'anywhere' | 'at 1';
  readonly transferCounter: boolean;
}

const often = (tenths: number) => fc.integer({ min: 0, max: 9 }).map((n) => n < tenths);

export const machines: fc.Arbitrary<Built> = fc
  .record({
    setting: fc.integer({ min: 5, max: 12 }),
    more: fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: fc.integer({ min: 2, max: 8 }) }),
    counter: fc.oneof(
      { weight: 1, arbitrary: fc.constant(0) },
      { weight: 7, arbitrary: fc.integer({ min: 4, max: 10 }) },
    ),
    carry: fc.constantFrom('carry' as const, 'carry' as const, 'plain' as const, 'signed' as const),
    dials: fc.boolean(),
    isShort: often(1),
    subtract: fc.constantFrom('reverse', 'reverse', 'lever', 'half-step', 'lift', 'none'),
    count: fc.constantFrom('follow', 'lever', 'first'),
    park: fc.boolean(),
    bell: fc.boolean(),
    autoClear: fc.boolean(),
    autoDivide: fc.boolean(),
    transfer: fc.constantFrom('none', 'anywhere', 'at 1'),
    transferCounter: fc.boolean(),
  } as const)
  .map(({ more, isShort, ...built }) => {
    const result = Math.min(20, built.setting + more);
    return {
      ...built,
      result,
      reach: isShort ? Math.min(result, built.setting + 2) : undefined,
      carriage: built.counter > 0 ? Math.min(built.counter, result) : result - built.setting + 1,
      autoDivide: built.autoDivide && built.subtract !== 'reverse' && built.subtract !== 'none',
    };
  });

export function machineText(name: string, built: Built): string {
  const { counter, carry, reach, transfer } = built;
  const lines = [
    `machine ${name}`,
    `setting ${built.setting}`,
    counter > 0 && `counter ${counter}${carry === 'carry' ? '' : ` ${carry}`}`,
    `result ${built.result}${built.dials ? ' dials' : ''}${reach === undefined ? '' : ` reach ${reach}`}`,
    `carriage ${built.carriage}`,
    `subtract ${built.subtract}`,
    `count ${built.count}`,
    built.park && 'park left',
    built.bell && 'bell',
    built.autoClear && 'auto-clear',
    built.autoDivide && 'auto-divide',
    transfer !== 'none' && `transfer result${transfer === 'at 1' ? ' at 1' : ''}`,
    built.transferCounter && 'transfer counter',
  ];
  return `${lines.filter(Boolean).join('\n  ')}\n`;
}

/** Numbers that templates are filled with. */
export interface Numbers {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

export const numbers: fc.Arbitrary<Numbers> = fc.record({
  a: fc.integer({ min: 11, max: 999 }),
  b: fc.integer({ min: 2, max: 99 }),
  c: fc.integer({ min: 2, max: 60 }),
  d: fc.integer({ min: 11, max: 400 }),
});

export interface Template {
  readonly name: string;
  /** The body of a sequence that this machine can do, or undefined if it can't do anything of the kind. */
  readonly body: (machine: Built, numbers: Numbers) => readonly string[] | undefined;
  /** Its parameters with their defaults. */
  readonly parameters?: (numbers: Numbers) => string;
  /** Sequences that it runs, below it. */
  readonly others?: (machine: Built) => readonly string[];
}

/** Turns that subtract, as this machine makes them. */
function subtracting({ subtract }: Built, ...turns: string[]): string[] | undefined {
  if (subtract === 'none') return undefined;
  if (subtract === 'reverse') return turns.map((turn) => turn.replace('turn', 'turn back'));
  if (subtract === 'half-step') return ['shift right half', ...turns, 'shift left half'];
  return ['mode subtract', ...turns, 'mode add'];
}

const counterIs = ({ counter }: Built, n: number): string => (counter > 0 ? `counter ${n} ` : '');
const counterGoal = ({ counter }: Built, expression: string): string[] =>
  counter > 0 ? [`goal counter = ${expression}`] : [];
const enter = (machine: Built, n: number): string[] =>
  machine.dials
    ? [`dial result ${n}`]
    : [`set ${n}`, 'turn', machine.counter > 0 ? 'clear setting counter' : 'clear setting'];
const countsQuotient = ({ count, subtract, counter }: Built): boolean =>
  counter > 0 && subtract !== 'none' && (count === 'lever' || count === 'first');

export const TEMPLATES: readonly Template[] = [
  {
    name: 'product',
    body: (m, { a, b }) => [
      `goal result = ${a} * ${b}`,
      ...counterGoal(m, `${b}`),
      'clear all',
      `set ${a}`,
      `multiply by ${b}`,
      `expect ${counterIs(m, b)}result ${a * b}`,
      'shift to 1',
    ],
  },
  {
    name: 'product with decimals',
    body: (m, { a, b }) => [
      `goal result = ${a}.5 * ${b}.0`,
      'clear all',
      `points setting 1 ${m.counter > 0 ? 'counter 1 result 2' : 'result 1'}`,
      `set ${a}.5`,
      m.counter > 0 ? `multiply by ${b}.0` : `multiply by ${b}`,
      `expect result ${a * b + b / 2}${b % 2 === 0 ? '.0' : ''}`,
      'shift to 1',
    ],
  },
  {
    name: 'sum of products',
    body: (m, { a, b, c, d }) => [
      `goal result = ${a} * ${b} + ${d} * ${c}`,
      'clear all',
      `set ${a}`,
      `multiply by ${b}`,
      `expect ${counterIs(m, b)}result ${a * b}`,
      'shift to 1',
      ...(m.counter > 0 ? ['clear counter'] : []),
      `set ${d}`,
      `multiply by ${c}`,
      `expect ${counterIs(m, c)}result ${a * b + d * c}`,
      'shift to 1',
    ],
  },
  {
    name: 'quotient by hand',
    body: (m, { a, b, c }) => {
      if (!countsQuotient(m) || m.carriage < 2) return undefined;
      return [
        `goal counter = ${b}`,
        `goal result = ${c % 10}`,
        'clear all',
        ...enter(m, a * b + (c % 10)),
        `set ${a}`,
        'shift to 2',
        'divide',
        `expect counter ${b} result ${c % 10}`,
      ];
    },
  },
  {
    name: 'short quotient',
    body: (m, { a, b, c }) => {
      if (!countsQuotient(m) || m.carriage < 3) return undefined;
      return [
        `goal counter = ${b}`,
        `goal result = ${c % 10}`,
        'clear all',
        ...enter(m, a * b + (c % 10)),
        `set ${a}`,
        'shift to 3',
        'divide short',
        `expect counter ${b} result ${c % 10}`,
      ];
    },
  },
  {
    name: 'quotient by itself',
    body: (m, { a, b }) => {
      if (!m.autoDivide || !countsQuotient(m) || m.carriage < 2) return undefined;
      return [
        `goal counter = ${b}`,
        'goal result = 0',
        'clear all',
        ...enter(m, a * b),
        `set ${a}`,
        'shift to 2',
        'mode subtract',
        ...(m.count === 'lever' ? ['count minus'] : []),
        'auto-divide on',
        'turn until stop',
        'expect parked',
        'auto-divide off',
        ...(m.count === 'lever' ? ['count plus'] : []),
        'mode add',
        'shift right',
        `expect counter ${b} result 0`,
      ];
    },
  },
  {
    name: 'transfer chain',
    body: (m, { a, b, c }) => {
      if (m.transfer === 'none') return undefined;
      return [
        `goal result = ${a} * ${b} * ${c}`,
        'clear all',
        `set ${a}`,
        `multiply by ${b}`,
        'shift to 1',
        'clear setting',
        ...(m.counter > 0 ? ['clear counter'] : []),
        'transfer result',
        `expect setting ${a * b}`,
        `multiply by ${c}`,
        `expect ${counterIs(m, c)}result ${a * b * c}`,
        'shift to 1',
      ];
    },
  },
  {
    name: 'subtraction',
    body: (m, { a, d }) => {
      const back = subtracting(m, 'turn 2');
      if (!back) return undefined;
      const sum = a + 2 * d;
      return [
        `goal result = ${sum} - 2 * ${d}`,
        'clear all',
        `set ${sum}`,
        'turn',
        `expect result ${sum}`,
        `set ${d}`,
        ...back,
        `expect result ${a}`,
      ];
    },
  },
  {
    name: 'below zero',
    body: (m, { a, b }) => {
      const back = subtracting(m, 'turn');
      if (!back || m.reach !== undefined) return undefined;
      const [turn] = back.filter((line) => line.startsWith('turn'));
      const at = back.indexOf(turn);
      return [
        `goal result = ${a} - ${a + b}`,
        'clear all',
        `set ${a}`,
        'turn',
        `set ${a + b}`,
        ...back.slice(0, at + 1),
        `expect overdraw${m.bell ? ' bell' : ''}`,
        ...back.slice(at + 1),
        `expect result ${10n ** BigInt(m.result) - BigInt(b)}`,
        `expect result -${b}`,
      ];
    },
  },
  {
    name: 'complement',
    body: (m, { a, d }) => {
      if (m.setting < m.result) return undefined;
      return [
        `goal result = ${a + d} - ${d}`,
        'clear all',
        `set ${a + d}`,
        'turn',
        `set ${10n ** BigInt(m.result) - BigInt(d)}`,
        'turn',
        'expect overflow',
        `expect result ${a}`,
      ];
    },
  },
  {
    name: 'short cut',
    body: (m, { a, b }) => {
      const back = subtracting(m, 'turn 2');
      if (!back || m.carriage < 3) return undefined;
      const n = (b % 8) + 1;
      return [
        `goal result = ${a} * ${100 * n - 2}`,
        'clear all',
        `set ${a}`,
        'shift right 2',
        `turn ${n}`,
        'shift left 2',
        ...back,
        `expect result ${a * (100 * n - 2)}`,
      ];
    },
  },
  {
    name: 'short multiplication',
    body: (m, { a, b }) => [
      `goal result = ${a} * ${b + 100}`,
      ...counterGoal(m, `${b + 100}`),
      'clear all',
      `set ${a}`,
      `multiply by ${b + 100} short`,
      `expect ${counterIs(m, b + 100)}result ${a * (b + 100)}`,
      'shift to 1',
    ],
  },
  {
    name: 'rounds',
    body: (m, { a, b, c }) => [
      `goal result = ${(c % 9) + 1} * (${a} + ${b})`,
      'clear all',
      `repeat ${(c % 9) + 1} {`,
      ...(m.autoClear ? ['auto-clear on'] : []),
      `set ${a}`,
      'turn',
      `set ${b}`,
      'turn',
      ...(m.autoClear ? ['auto-clear off'] : []),
      '}',
    ],
  },
  {
    name: 'rounds of a parameter',
    parameters: ({ a, c }) => `x = ${a}, rounds = ${(c % 5) + 1}`,
    body: (m, { d, c }) => {
      const back = subtracting(m, 'turn');
      if (!back) return undefined;
      return [
        `case x = ${d}, rounds = ${(c % 3) + 2}`,
        'goal result = rounds * 2 * x',
        'clear all',
        'repeat rounds {',
        'set x',
        'turn 3',
        ...back,
        '}',
        'ask result',
      ];
    },
  },
  {
    name: 'parts with parameters',
    parameters: ({ a }) => `x = ${a}`,
    body: (_, { b, c, d }) => [
      `case x = ${d}`,
      `goal result = ${(c % 4) + 2} * x + 3 * ${b}`,
      'clear all',
      `run part (x, ${(c % 4) + 2})`,
      `run part (${b}, 3)`,
      'shift right',
      'shift to 1',
      'ask result',
    ],
    others: () => ['sequence part (y = 5, times = 1) on old', 'set y', 'repeat times {', 'turn', '}'],
  },
  {
    name: 'rounds of parts',
    body: (m, { a, b, c }) => {
      const back = subtracting(m, 'turn');
      if (!back) return undefined;
      const n = (c % 4) + 1;
      return [
        `goal result = ${n} * ${a} + ${b}`,
        'clear all',
        `set ${n * a + a + b}`,
        'turn',
        `set ${a}`,
        ...back,
        `repeat ${n} {`,
        'run nothing',
        'note "One more has been looked at."',
        '}',
        `expect result ${n * a + b}`,
      ];
    },
    others: () => ['sequence nothing on old', 'caution "Look, and do not touch."', 'shift right', 'shift left'],
  },
  {
    name: 'cases',
    parameters: ({ a, b }) => `x = ${a}, y = ${b}`,
    body: (_, { a, b, c, d }) => [
      `case x = ${d}, y = ${c}`,
      'goal result = x * y',
      'clear all',
      'set x',
      'multiply by y',
      'ask result',
      'shift to 1',
      `note "${a} ${b}"`,
    ],
  },
];

export interface Trial {
  readonly from: Built;
  readonly to: Built;
  /** The name of the template. */
  readonly template: string;
  readonly text: string;
  /** The sequences that it runs; they stand below it in the text. */
  readonly others: string;
}

/** A sequence on the machine `old`, from a template, with a machine that can do it. */
export const trialsOf = ({ name, body, parameters, others }: Template): fc.Arbitrary<Trial> =>
  fc
    .tuple(machines, machines, numbers)
    .filter(([from, , filled]) => body(from, filled) !== undefined)
    .map(([from, to, filled]) => {
      const lines = body(from, filled) ?? [];
      const given = parameters ? `(${parameters(filled)}) ` : '';
      const below = others ? `\n${others(from).join('\n')}\n` : '';
      const own = [`sequence trial ${given}on old`, ...lines.map((line) => `  ${line}`), ''].join('\n');
      return { from, to, template: name, text: own + below, others: below };
    });

/** From any of the templates. */
export const trials: fc.Arbitrary<Trial> = fc.oneof(...TEMPLATES.map(trialsOf));
