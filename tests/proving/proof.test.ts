/** Proving sequences: what they promise, tried on every fault of a machine by running the file as it is written. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { finish } from '../../grammar/gradual.js';
import {
  faultsOf,
  isWithinReach,
  keyOf,
  MECHANISMS,
  type MechanismPart,
  mechanismOf,
  Noticed,
  type Profile,
} from '../../server/machine/index.js';
import { type ProvingScript, provingScript } from '../../server/proving/proof/index.js';
import { proofLines } from '../../server/proving/proof/text.js';
import { provingWording } from '../../server/proving/wording/index.js';
import { partingOf } from '../../server/sequence/looks.js';
import { run } from '../../server/sequence/run.js';
import { checkText } from '../marked.js';
import { machineText, plans } from '../sequence/random.js';
import { LIBRARY, PROFILES } from './library.js';

const wording = provingWording('en');
interface Tried {
  readonly script: ProvingScript;
  readonly text: string;
  readonly codes: readonly string[];
  /** Faults that no reading shows, by running the written file on each. */
  readonly unseen: readonly string[];
}

function tried(machine: string, profile: Profile, parts: readonly MechanismPart[] = MECHANISMS): Tried {
  const script = finish(provingScript(profile, parts));
  const text = `${proofLines(script, 'proof', parts, wording).join('\n')}\n\n${machine}`;
  const { report, findings } = checkText(text);
  const sequence = report.sequences.find(({ section }) => section.header?.name.name === 'proof');
  const sound = sequence?.runs[0];
  if (!sound) throw new Error('The sequence is not run.');
  const unseen = faultsOf(profile)
    .filter((fault) => isWithinReach(fault, profile) && parts.includes(mechanismOf(fault)))
    .filter((fault) => partingOf(sound, run({ ...sound.order, fault })) === undefined);
  expect(sound.effort).toEqual(script.effort);
  const own = findings.filter(({ sequence: name }) => name === 'proof');
  return { script, text, codes: own.map(({ code }) => code), unseen: unseen.map(keyOf) };
}

describe.each(PROFILES.map((profile) => [profile.name, profile] as const))('on %s', (_, profile) => {
  const { script, text, codes, unseen } = tried(LIBRARY, profile);
  it('every fault within reach is caught', () => {
    expect(unseen).toEqual([]);
    expect(script.uncaught).toEqual([]);
  });
  it('a check remarks nothing, and the formatter changes nothing', () => {
    expect(codes).toEqual([]);
    const own = text.slice(0, text.indexOf('\n\n#') + 1);
    expect(format(own)).toBe(own);
  });
  it('the effort is no less than the bound, and no more than twice and a half of it', () => {
    expect(script.effort.cost).toBeGreaterThanOrEqual(script.least.cost);
    expect(script.effort.cost).toBeLessThanOrEqual(2.5 * script.least.cost);
  });
  it('cautions come first, and every reading has a label', () => {
    const lines = text.split('\n').map((line) => line.trim());
    expect(lines.slice(1, 4).every((line) => line.startsWith('caution'))).toBe(true);
    const readings = lines.slice(0, lines.indexOf('')).filter((line) => line.startsWith('expect'));
    const labels = readings.map((line) => /^expect \S+(?: -?\d+)? as (\S+)/.exec(line)?.[1]);
    expect(labels.length).toBeGreaterThan(3);
    expect(new Set(labels).size).toBe(readings.length);
  });
  it('one part by itself is proved by itself', () => {
    for (const part of MECHANISMS) {
      if (!faultsOf(profile).some((fault) => mechanismOf(fault) === part)) continue;
      const one = tried(LIBRARY, profile, [part]);
      expect([part, one.unseen, one.codes]).toEqual([part, [], []]);
    }
  });
});

it('a machine on which ten turns are less work than a way with the carriage has no step of more than nine', () => {
  const machine = `machine stores
  setting 1
  counter 3 carry
  result 3 dials reach 2
  carriage 2
  subtract reverse
  count follow
  auto-clear
`;
  const { library } = checkText(machine);
  const section = library.declarations('test.crank').machines.get('stores');
  const profile = section && library.machine(section).profile;
  if (!profile) throw new Error('The machine can not be built.');
  const { codes, unseen } = tried(machine, profile);
  expect([codes, unseen]).toEqual([[], []]);
});

/** What a check may remark, and only where a fault shows nowhere else. */
const BORNE: Readonly<Record<string, number>> = {
  'carry-short': Noticed.carryShort,
  'turn-not-counted': Noticed.notCounted,
  'counter-overflow': Noticed.counterOverflow,
  'counter-underflow': Noticed.counterUnderflow,
};

it('on random machines every fault is caught but those that take too many turns', () => {
  let remarked = 0;
  let left = 0;
  let faults = 0;
  fc.assert(
    fc.property(plans, (plan) => {
      const machine = machineText(plan);
      const { library } = checkText(machine);
      const section = library.declarations('test.crank').machines.get('stores');
      const profile = section && library.machine(section).profile;
      if (!profile) throw new Error('The machine can not be built.');
      const { script, codes, unseen } = tried(machine, profile);
      expect(unseen).toEqual(script.uncaught.map(keyOf));
      for (const code of codes) expect((BORNE[code] ?? 0) & script.remarked).not.toBe(0);
      if (codes.length > 0) remarked++;
      left += unseen.length;
      faults += script.caught.length;
    }),
    { numRuns: 15 },
  );
  // Machines that nobody would build: far more places than the carriage comes to.
  expect(remarked).toBeLessThan(13);
  expect(left).toBeLessThan(faults / 20);
});
