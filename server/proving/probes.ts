/** Short rows of steps, each by itself from cleared registers, that show one fault or another. */
import { type Fault, keyOf, type Profile } from '../machine/index.js';
import type { Look, Looked } from '../sequence/looks.js';
import { Hand, stepsIn } from './hand.js';
import { subtracting } from './turn-steps.js';

export interface Probe {
  readonly steps: readonly string[];
  /** What is to be read at the end. */
  readonly looks: readonly Looked[];
}

/** What was worked out for a machine. */
interface Memory {
  probes?: readonly Probe[];
  readonly shown: Map<string, Look['shown'] | undefined>;
}

const remembered = new WeakMap<Profile, Memory>();

function memoryOf(profile: Profile): Memory {
  const memory: Memory = remembered.get(profile) ?? { shown: new Map() };
  remembered.set(profile, memory);
  return memory;
}

/** Those that a machine can do, the plainest first. */
export function probesOn(profile: Profile): readonly Probe[] {
  const memory = memoryOf(profile);
  memory.probes ??= [...makeProbes(profile)];
  return memory.probes;
}

/** What a machine with a fault shows after such steps. */
export function shownByProbe(profile: Profile, probe: Probe, fault: Fault, what: Looked): Look['shown'] | undefined {
  const { shown } = memoryOf(profile);
  const key = `${keyOf(fault)}: ${probe.steps.join('; ')}`;
  for (const one of shown.has(`${key} ${what}`) ? [] : [handAfter(profile, probe, fault)]) {
    for (const look of probe.looks) shown.set(`${key} ${look}`, one.shows(look));
  }
  return shown.get(`${key} ${what}`);
}

function handAfter(profile: Profile, { steps }: Probe, fault: Fault): Hand {
  const hand = new Hand(profile, fault);
  for (const text of steps) for (const step of stepsIn(text)) hand.do(step);
  return hand;
}

function* makeProbes(profile: Profile): Generator<Probe> {
  const { setting, counter, result, carriage } = profile;
  const registers: Looked[] = counter > 0 ? ['result', 'counter'] : ['result'];
  const events: Looked[] = profile.bell ? ['bell'] : [];
  for (let position = 1; position <= carriage; position++) {
    const shift = position > 1 ? [`shift to ${position}`] : [];
    const all = Math.min(setting, result - position + 1);
    const begin = ['clear all', ...shift];
    for (let figure = 9; figure >= 1; figure--) {
      yield { steps: [...begin, `set ${String(figure).repeat(all)}`, 'turn'], looks: registers };
    }
    const nines = [...begin, `set ${'9'.repeat(all)}`, 'turn'];
    yield { steps: [...nines, 'set 1', 'turn'], looks: [...registers, ...events] };
    yield { steps: [...nines, 'set 1', 'turn', 'turn'], looks: registers };
    yield { steps: [...nines, 'clear result'], looks: ['result'] };
    if (counter > 0) yield { steps: [...begin, 'set 1', 'turn 9', 'turn'], looks: ['counter'] };
    if (counter > 0) yield { steps: [...nines, 'clear counter'], looks: ['counter'] };
    const back = subtracting(profile);
    if (back.length === 0) continue;
    yield { steps: [...begin, 'set 1', ...back], looks: [...registers, ...events] };
    yield { steps: [...begin, 'set 1', ...back, 'clear result'], looks: ['result'] };
    yield { steps: [...begin, 'set 1', ...back, ...(back.length > 1 ? ['mode add'] : []), 'turn'], looks: registers };
    yield { steps: [...begin, 'set 1', ...back, 'clear counter'], looks: ['counter'] };
    yield { steps: [...nines, 'set 1', 'turn', ...back], looks: registers };
  }
  const nines = `set ${'9'.repeat(setting)}`;
  yield { steps: ['clear all', nines, 'clear setting'], looks: ['setting'] };
  if (profile.autoClear) yield { steps: ['clear all', 'auto-clear on', nines, 'turn'], looks: ['setting'] };
  if (profile.count === 'lever' && counter > 0) {
    yield { steps: ['clear all', 'count minus', 'set 1', 'turn'], looks: ['counter'] };
  }
  if (profile.transferResult !== 'none') {
    yield { steps: ['clear all', nines, 'turn', 'clear setting', 'transfer result'], looks: ['setting', 'result'] };
  }
  if (profile.transferCounter) {
    const places = Math.min(setting, counter, carriage);
    const turns = Array.from({ length: places }, (_, i) => (i === 0 ? ['turn'] : ['shift right', 'turn'])).flat();
    const steps = ['clear all', 'set 1', ...turns, 'clear setting', 'transfer counter'];
    yield { steps, looks: ['setting', 'counter'] };
  }
  if (profile.dials) {
    const full = `dial result ${'9'.repeat(result)}`;
    yield { steps: ['clear all', full, 'clear result'], looks: ['result'] };
    yield { steps: ['clear all', full, 'set 1', 'turn'], looks: ['result', ...events] };
  }
}
