/** Nobody cranks it for less: products and sums of two, against a search through every row of turns and shifts. */
import { describe, expect, it } from 'vitest';
import { isRefused } from '../../server/planning/index.js';
import { cheapest, type Product, type Small } from './cheapest-search.js';
import { machineText, planned, stepsOf } from './planned.js';

const EFFORTS = [
  { turn: 1, shift: 1, lever: 2 },
  { turn: 1, shift: 3, lever: 1 },
  { turn: 2, shift: 1, lever: 1 },
  { turn: 1, shift: 2, lever: 4 },
];
const DRIVES = ['reverse', 'lever', 'lift', 'half-step', 'none'] as const;
const COUNTERS = [
  { counterKind: 'carry', count: 'follow', counter: 4 },
  { counterKind: 'plain', count: 'follow', counter: 4 },
  { counterKind: 'signed', count: 'follow', counter: 4 },
  { counterKind: 'carry', count: 'first', counter: 4 },
  { counterKind: 'carry', count: 'follow', counter: 0 },
] as const;

const textOf = ({ setting, counter, counterKind, result, carriage, subtract, count, effort }: Small): string =>
  machineText(
    `setting ${setting}`,
    ...(counter > 0 ? [`counter ${counter} ${counterKind}`, `count ${count}`] : []),
    `result ${result}`,
    `carriage ${carriage}`,
    `subtract ${subtract}`,
    `effort turn ${effort.turn} shift ${effort.shift} lever ${effort.lever}`,
  );

const expressionText = (products: readonly Product[]): string =>
  products.map(({ sign, a, b }, i) => `${i === 0 ? '' : sign > 0 ? ' + ' : ' - '}${a} * ${b}`).join('');

/** What the plan costs too much, told with its steps; nothing where it costs the least that there is. */
function excess(machine: Small, products: readonly Product[]): string[] {
  const expression = expressionText(products);
  const plan = planned(textOf(machine), expression);
  const told = `${machine.subtract} ${machine.counterKind} ${machine.count} ${JSON.stringify(machine.effort)}: ${expression}`;
  if (isRefused(plan)) return [`${told}: ${JSON.stringify(plan.refused)}`];
  // What is written down and set once more is another row of turns than those that are searched.
  if (plan.written > 0) return [];
  const least = cheapest(machine, products, plan.effort.cost);
  return least === plan.effort.cost ? [] : [`${told}: ${plan.effort.cost}, not ${least}: ${stepsOf(plan).join('; ')}`];
}

const product = (a: number, b: number, sign: 1 | -1 = 1): Product => ({ sign, a, b });
const base = { setting: 4, result: 8, carriage: 4 };

describe('a product', () => {
  const products = [
    product(7, 9),
    product(98, 47),
    product(19, 52),
    product(96, 47),
    product(101, 989),
    product(190, 25),
  ];
  for (const subtract of DRIVES) {
    it(`costs no more than it must: subtract ${subtract}`, () => {
      const machines = COUNTERS.flatMap((counter) =>
        EFFORTS.map((effort) => ({ ...base, subtract, effort, ...counter })),
      );
      expect(machines.flatMap((machine) => products.flatMap((one) => excess(machine, [one])))).toEqual([]);
    });
  }
});

describe('two products, added up or taken away', () => {
  const sums = [
    [product(25, 47), product(3, 89)],
    [product(9, 101), product(96, 98)],
    [product(52, 18), product(96, 7, -1)],
    [product(18, 19), product(18, 52)],
  ];
  const small = { ...base, carriage: 3, result: 7 };
  for (const subtract of DRIVES.filter((one) => one !== 'lift' && one !== 'none')) {
    it(`cost no more than they must: subtract ${subtract}`, () => {
      const machines = [COUNTERS[0], COUNTERS[1], COUNTERS[4]].map((counter, i) => {
        return { ...small, subtract, effort: EFFORTS[(i + subtract.length) % EFFORTS.length], ...counter };
      });
      expect(machines.flatMap((machine) => sums.flatMap((one) => excess(machine, one)))).toEqual([]);
    });
  }
});
