/** Powers: shortest chains, back transfer, numbers written down. Everything planned is carried out on the machine. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Amount, amount, fractionOf, plainText } from '../../server/planning/amount.js';
import { choose } from '../../server/planning/choose.js';
import { proved } from '../../server/planning/lists/proof.js';
import { Operator, Stuck } from '../../server/planning/operator.js';
import type { Limit } from '../../server/planning/order.js';
import { powerWays, shortestChains } from '../../server/planning/powers.js';
import { type CarriedOut, carryOut, profileOf, stepsOf } from './carried-out.js';

const WIDE = ['setting 20', 'counter 20', 'result 20', 'carriage 20', 'transfer result'];

interface Raised extends CarriedOut {
  readonly operator: Operator;
}

/**
 * Plans a power and carries it out, with runs of turns made as short as every plan has them; what stands in the way, if
 * it can't be planned.
 */
function raise(machine: readonly string[], base: Amount, exponent: number, decimals?: number): Raised | Limit {
  const profile = profileOf(machine);
  const figures = { value: base };
  let operator: Operator;
  try {
    const ways = powerWays((at) => ({ operator: at, figures, sign: 1 }), exponent, decimals);
    operator = choose(new Operator(profile), 'power', ways);
    operator.atRest();
  } catch (error) {
    if (error instanceof Stuck) return error.limit;
    throw error;
  }
  const goals = [{ register: 'result' as const, expression: `${plainText(base)}^${exponent}` }];
  const { lines, effort } = operator;
  const sound = proved(profile, [{ lines, goals, standings: [], effort }], goals);
  if (!sound) throw new Error(`Not sound: ${stepsOf(lines).join('; ')}`);
  const carried = carryOut(machine, sound.passes[0].lines, goals);
  expect(carried.found, carried.text).toEqual([]);
  expect(carried.traced.goals[0].met).toBe('exact');
  expect(carried.traced.effort).toEqual(sound.effort);
  return { operator, ...carried };
}

function raised(machine: readonly string[], base: Amount, exponent: number, decimals?: number): Raised {
  const outcome = raise(machine, base, exponent, decimals);
  if ('is' in outcome) throw new Error(`Stuck: ${JSON.stringify(outcome)}`);
  return outcome;
}

const whole = (units: bigint): Amount => amount(units, 0);

describe('shortest chains', () => {
  // Lengths of shortest addition chains for 1, 2, 3 … 70, worked out here by going through all chains, also those that
  // do not take in the power before.
  const least = new Map<number, number>([[1, 0]]);
  for (let length = 1; least.size < 70; length++) {
    const walk = (chain: readonly number[]): void => {
      if (chain.length === length + 1) {
        const last = chain[length];
        if (!least.has(last)) least.set(last, length);
        return;
      }
      const next = new Set(chain.flatMap((a) => chain.map((b) => a + b)));
      const highest = chain[chain.length - 1];
      for (const sum of next) if (sum > highest && sum <= 70) walk([...chain, sum]);
    };
    walk([1]);
  }

  it('as short as any chain is, for every exponent', () => {
    for (let exponent = 1; exponent <= 70; exponent++) {
      for (const chain of shortestChains(exponent)) expect(chain.length - 1, `${chain}`).toBe(least.get(exponent));
    }
  });

  it('each sum takes in the one before, all are different, thirty at most', () => {
    for (let exponent = 1; exponent <= 70; exponent++) {
      const chains = shortestChains(exponent);
      expect(chains.length).toBeGreaterThan(0);
      expect(chains.length).toBeLessThanOrEqual(30);
      expect(new Set(chains.map(String)).size).toBe(chains.length);
      for (const chain of chains) {
        expect(chain[0]).toBe(1);
        expect(chain.at(-1)).toBe(exponent);
        for (let i = 1; i < chain.length; i++) expect(chain.slice(0, i)).toContain(chain[i] - chain[i - 1]);
      }
    }
  });

  it('the nineteenth power takes six products, the fifteenth five where squaring alone takes six', () => {
    expect(shortestChains(19)[0].length - 1).toBe(6);
    expect(shortestChains(15)[0].length - 1).toBe(5);
  });
});

describe('on a machine of 20 places', () => {
  // 29^19 is published as an example of a chain; it has 28 figures, and no machine here holds them.
  it.each(Array.from({ length: 12 }, (_, i) => i + 2))('29^%i', (exponent) => {
    const { traced } = raised(WIDE, whole(29n), exponent);
    expect(BigInt(traced.steps[traced.steps.length - 1].result)).toBe(29n ** BigInt(exponent));
  });

  it('29^19 is refused with the places that it takes', () => {
    expect(raise(WIDE, whole(29n), 19)).toEqual({ is: 'places', register: 'result', has: 20, needs: 28 });
  });

  it('2^19 by six products, the last five with what was passed back', () => {
    const figures = { value: whole(2n) };
    const ways = [...powerWays((at) => ({ operator: at, figures, sign: 1 }), 19)];
    const shortest = ways.filter(({ name }) => name === 'shortest chain');
    expect(shortest.length).toBeGreaterThan(1);
    for (const { work } of shortest) {
      const { lines, written } = work(new Operator(profileOf(WIDE)));
      expect(stepsOf(lines).filter((step) => step === 'transfer result').length).toBe(5);
      expect(lines[0]).toMatchObject({ remark: { is: 'power', base: '2', exponent: 19 } });
      expect(lines.filter((line) => 'remark' in line && line.remark.is === 'write-down').length).toBe(written);
      const { found, traced } = carryOut(WIDE, lines, [{ register: 'result', expression: '2^19' }]);
      expect(found.filter((told) => !told.includes('shorter-sequence'))).toEqual([]);
      expect(traced.goals[0].met).toBe('exact');
    }
  });

  it('the repeated product and the shortest chain are told side by side', () => {
    const { operator } = raised(WIDE, whole(29n), 12);
    const decision = operator.decisions.find(({ about }) => about === 'power');
    expect(decision?.alternatives.map(({ way }) => way)).toEqual(['repeated', 'shortest chain']);
    expect(decision?.alternatives.find(({ isChosen }) => isChosen)?.written).toBe(operator.written);
  });

  it('squares of what stands on the levers are cranked without writing anything down', () => {
    const { operator } = raised(WIDE, whole(12n), 8);
    expect(operator.written).toBe(0);
  });
});

describe('without back transfer', () => {
  const machine = ['setting 12', 'counter 12', 'result 18', 'carriage 10'];
  it('every power on the way is written down and set again', () => {
    const { operator } = raised(machine, whole(13n), 6);
    expect(operator.written).toBeGreaterThan(0);
    const notes = operator.lines.filter((line) => 'remark' in line && line.remark.is === 'write-down');
    expect(notes.length).toBe(operator.written);
    expect(stepsOf(operator.lines).some((step) => step.startsWith('transfer'))).toBe(false);
  });
});

describe('decimals', () => {
  it('as many as it takes', () => {
    const { operator } = raised(WIDE, amount(105n, 2), 4);
    expect(operator.points.result).toBe(8);
  });

  it('more where more are wanted', () => {
    const { operator } = raised(WIDE, amount(15n, 1), 3, 7);
    expect(operator.points.result).toBe(7);
    expect(plainText(operator.reading('result'))).toBe('3.375');
  });

  it('fewer than it takes are refused', () => {
    expect(raise(WIDE, amount(15n, 1), 3, 2)).toEqual({ is: 'not-met' });
  });
});

describe('registers in any state', () => {
  it('a base that is worked out first', () => {
    const machine = [...WIDE];
    const start = new Operator(profileOf(machine));
    const done = choose(
      start,
      'power',
      powerWays((at) => {
        at.clear('setting', 'counter', 'result');
        at.set({ value: whole(4n) });
        at.turn(3, true);
        at.expect('result');
        return { operator: at, figures: { value: at.reading('result') }, sign: 1 };
      }, 5),
    );
    const { found, traced } = carryOut(machine, done.lines, [{ register: 'result', expression: '(4*3)^5' }]);
    expect(found).toEqual([]);
    expect(traced.goals[0].met).toBe('exact');
  });

  it('an even power of a number below zero is one of its opposite', () => {
    const start = new Operator(profileOf(WIDE));
    const minus = (at: Operator) => ({ operator: at, figures: { value: whole(3n) }, sign: -1 as const });
    expect(choose(start, 'power', powerWays(minus, 4)).units('result')).toBe(81n);
    expect(() => choose(start, 'power', powerWays(minus, 3))).toThrow(Stuck);
  });
});

describe('any base on any machine', () => {
  it('whatever fits into twenty places is planned on a machine that has them', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 2n, max: 99_999n }), fc.integer({ min: 2, max: 66 }), (base, exponent) => {
        const fits = base ** BigInt(exponent) < 10n ** 20n;
        fc.pre(base % 10n !== 0n);
        const outcome = raise(WIDE, whole(base), exponent);
        expect('is' in outcome).toBe(!fits);
      }),
      { numRuns: 150 },
    );
    raised(WIDE, whole(2n), 66);
  });

  const machines = fc
    .record({
      setting: fc.integer({ min: 3, max: 20 }),
      more: fc.integer({ min: 0, max: 10 }),
      counter: fc.oneof(fc.constant(0), fc.integer({ min: 3, max: 20 })),
      carry: fc.constantFrom('carry', 'plain', 'signed'),
      carriage: fc.integer({ min: 2, max: 20 }),
      subtract: fc.constantFrom('reverse', 'lever', 'half-step', 'lift', 'none'),
      count: fc.constantFrom('follow', 'lever', 'first'),
      transfer: fc.constantFrom('', 'transfer result', 'transfer result at 1'),
      reach: fc.option(fc.integer({ min: 0, max: 8 }), { nil: undefined, freq: 3 }),
    })
    .map(({ setting, more, counter, carry, carriage, subtract, count, transfer, reach }) => {
      const result = Math.min(20, setting + more);
      return [
        `setting ${setting}`,
        ...(counter > 0 ? [`counter ${counter} ${carry}`] : []),
        `result ${result}${reach === undefined ? '' : ` reach ${Math.min(20, setting + reach)}`}`,
        `carriage ${Math.min(carriage, result)}`,
        `subtract ${subtract}`,
        `count ${count}`,
        ...(transfer ? [transfer] : []),
      ];
    });
  const bases = fc.oneof(
    fc.tuple(fc.bigInt({ min: 2n, max: 99n }), fc.integer({ min: 0, max: 2 })),
    fc.tuple(fc.bigInt({ min: 2n, max: 9_999_999n }), fc.integer({ min: 0, max: 7 })),
  );
  const decimals = fc.option(fc.integer({ min: 0, max: 12 }), { nil: undefined, freq: 5 });

  it('is right and nothing is found, or a limit is told', () => {
    let met = 0;
    fc.assert(
      fc.property(
        machines,
        bases,
        fc.integer({ min: 2, max: 24 }),
        decimals,
        (machine, [units, places], exponent, wanted) => {
          const base = amount(units, places);
          const outcome = raise(machine, base, exponent, wanted);
          if ('is' in outcome) return;
          met++;
          expect(outcome.found, outcome.text).toEqual([]);
          expect(outcome.traced.goals[0].met).toBe('exact');
          const power = fractionOf(amount(base.units ** BigInt(exponent), base.decimals * exponent));
          expect(fractionOf(outcome.operator.reading('result')).equals(power)).toBe(true);
          if (wanted !== undefined) expect(outcome.operator.points.result).toBe(wanted);
        },
      ),
      { numRuns: 400 },
    );
    expect(met).toBeGreaterThan(20);
  });
});
