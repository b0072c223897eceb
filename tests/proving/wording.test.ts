/** Every fault is told in every language, in a sentence of its own. */
import { describe, expect, it } from 'vitest';
import { FAULT_KINDS, faultsOf, MECHANISMS } from '../../server/machine/index.js';
import { provingWording } from '../../server/proving/wording/index.js';
import { profileWith } from '../machine/bench.js';

const faults = faultsOf(
  profileWith({ subtract: 'lever', count: 'lever', autoClear: true, bell: true, transferCounter: true }),
);

describe.each(['en', 'de'])('in %s', (language) => {
  const wording = provingWording(language);
  it('faults differ in what is said of them', () => {
    const sentences = faults.map(wording.faultSentence);
    expect(new Set(sentences).size).toBe(faults.length);
    for (const sentence of sentences) expect(sentence).not.toMatch(/undefined|NaN|\.$/);
  });
  it('kinds and parts have their words', () => {
    for (const kind of FAULT_KINDS) expect(wording.kindMeaning[kind]).toMatch(/\S/);
    for (const part of MECHANISMS) expect(wording.part[part]).toMatch(/\S/);
  });
  it('readings are told', () => {
    const shown = (['bell', 'overflow', 'overdraw', 'parked'] as const).flatMap((what) =>
      [true, false].map((is) => wording.lookText({ what, shown: is })),
    );
    expect(new Set(shown).size).toBe(8);
    for (const text of shown) expect(text).toMatch(/\S/);
    expect(wording.lookText({ what: 'result', shown: 12n })).toMatch(/ 12$/);
    expect(wording.lookText({ what: 'carriage', shown: 0 })).not.toContain('0');
  });
});

it('another language is told in English', () => {
  expect(provingWording('fr-CH')).toBe(provingWording('en'));
});
