/** Whatever is wrong with a machine of the library, the readings of its own proving sequence lead back to it. */
import { describe, expect, it } from 'vitest';
import { keyOf } from '../../server/machine/index.js';
import { LIBRARY, PROFILES } from './library.js';
import { ownProof, sessionOn, stepsToTheEnd } from './sessions.js';

describe.each(PROFILES.map((profile) => [profile.name, profile] as const))('on %s', (_, profile) => {
  const proof = ownProof(LIBRARY, profile);
  const found = proof.suspects.map((suspect) => {
    const session = sessionOn(proof, suspect);
    return { suspect, session, ...stepsToTheEnd(proof, session, suspect.fault) };
  });
  it('the sound machine passes, and every fault would have shown', () => {
    const passed = sessionOn(proof, {
      fault: { kind: 'bell-dead' },
      expectings: proof.bench.expectings,
      brokeOff: false,
    });
    expect(passed.diagnosis).toMatchObject({ verdict: 'pass', explaining: [] });
  });
  it('the readings of every fault lead to a list that holds it', () => {
    for (const { suspect, session } of found) {
      expect(session.diagnosis.verdict).toBe('explained');
      expect(session.diagnosis.explaining.map(({ fault }) => keyOf(fault))).toContain(keyOf(suspect.fault));
    }
  });
  it('a few further steps leave it alone, or with what nothing tells from it', () => {
    const lengths = found.map(({ session }) => session.diagnosis.explaining.length);
    const steps = found.map((one) => one.steps);
    const groups = found.map(({ left }) => left.length);
    // Some nine at the most share a reading: the nine figures of a lever, or as many levers at one figure.
    expect(Math.max(...lengths)).toBeLessThanOrEqual(10);
    expect(Math.max(...steps)).toBeLessThanOrEqual(4);
    expect(Math.max(...groups)).toBeLessThanOrEqual(2);
  });
});
