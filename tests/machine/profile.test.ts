/** What a profile may not say. */
import { describe, expect, test } from 'vitest';
import { contradictions, hasDriveLever, hasHalfSteps, leftmost, type Profile } from '../../server/machine/index.js';
import { profileWith } from './bench.js';

const named = (differences: Partial<Profile>): string[] =>
  contradictions(profileWith(differences)).map(({ is, line }) => `${is} on ${line}`);

describe('contradictions', () => {
  test.each<[string, Partial<Profile>]>([
    ['as it stands', {}],
    ['the widest', { setting: 20, counter: 20, result: 20, carriage: 20 }],
    ['the narrowest', { setting: 1, counter: 0, result: 1, carriage: 1 }],
    ['a reach as wide as the levers', { reach: 4 }],
    ['as many positions as result places', { carriage: 8 }],
    ['automatic division by lever', { subtract: 'lever', autoDivide: true }],
    ['automatic division by half steps', { subtract: 'half-step', autoDivide: true }],
    ['automatic division by lifting', { subtract: 'lift', autoDivide: true }],
  ])('none: %s', (_, differences) => expect(named(differences)).toEqual([]));

  test.each<[Partial<Profile>, string[]]>([
    [{ setting: 0 }, ['out-of-range on setting']],
    [{ setting: 21, result: 21 }, ['out-of-range on setting', 'out-of-range on result']],
    [{ counter: 21 }, ['out-of-range on counter']],
    [{ counter: -1 }, ['out-of-range on counter']],
    [{ carriage: 0 }, ['out-of-range on carriage']],
    [{ result: Number.NaN }, ['out-of-range on result']],
    [{ carriage: 2.5 }, ['out-of-range on carriage']],
    [{ reach: 3 }, ['reach-below-setting on result']],
    [{ result: 3, carriage: 3 }, ['result-below-setting on result']],
    [{ carriage: 9 }, ['carriage-past-result on carriage']],
    [{ autoDivide: true }, ['divide-needs-lever on auto-divide']],
    [{ subtract: 'none', autoDivide: true }, ['divide-needs-lever on auto-divide']],
    [
      { reach: 2, carriage: 9, autoDivide: true },
      ['reach-below-setting on result', 'carriage-past-result on carriage', 'divide-needs-lever on auto-divide'],
    ],
  ])('%o', (differences, found) => expect(named(differences)).toEqual(found));
});

test.each([
  ['reverse', false, false, 1],
  ['lever', true, false, 1],
  ['half-step', true, true, 0],
  ['lift', true, false, 1],
  ['none', false, false, 1],
] as const)('subtract %s', (subtract, lever, half, left) => {
  const profile = profileWith({ subtract });
  expect([hasDriveLever(profile), hasHalfSteps(profile), leftmost(profile)]).toEqual([lever, half, left]);
  expect(leftmost({ ...profile, park: true })).toBe(0);
});
