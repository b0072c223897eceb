/** Readings that are taken in the course of the work. */
import { newState, type Profile, pointOf, type Register, type State, textOf } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import type { Single } from './outline.js';
import type { Reading, StageReadings, Told } from './told.js';

/** What an `expect` or `ask` reads. */
export function readingsIn(syntax: Single['syntax'], state: State): Reading[] {
  if (syntax.kind === 'ask') {
    return syntax.items.map(({ register }) => ({ of: { is: 'register', register }, why: 'ask', states: [state] }));
  }
  if (syntax.kind !== 'expect') return [];
  return syntax.items.map((item) => ({
    of: item.kind === 'register' ? { is: 'register', register: item.register } : { is: item.kind },
    item,
    ...(item.label && { label: item.label.name }),
    why: 'expect',
    states: [state],
  }));
}

/** The same wheels looked at again tell nothing new, if they have no other name. */
export function isSame(known: Reading, reading: Reading, profile: Profile): boolean {
  if (known.of.is !== reading.of.is || (reading.label && reading.label !== known.label)) return false;
  if (known.of.is !== 'register' || reading.of.is !== 'register') return true;
  const { register } = known.of;
  return (
    register === reading.of.register &&
    known.states.every((state) =>
      reading.states.every((other) => wheelsAndMarker(state, register) === wheelsAndMarker(other, register)),
    )
  );
  function wheelsAndMarker(state: State, r: Register): string {
    return `${textOf(state, profile, r)} ${pointOf(state, r)}`;
  }
}

/** Adds what the machine shows where a stage ends and nothing is read by name. */
export function withStageReadings(told: readonly Told[], run: CaseRun, wanted: StageReadings): readonly Told[] {
  const { profile } = run.order;
  const last = told.findLast((one) => one.is === 'step' && one.to >= one.from);
  let seen = newState();
  return told.map((one) => {
    if (one.is !== 'step' || !one.ends) return one;
    const state = run.tape.stateAt(one.to);
    const registers = (['counter', 'result'] as const).filter(
      (register) => profile[register] > 0 && textOf(seen, profile, register) !== textOf(state, profile, register),
    );
    seen = state;
    const isTold = one.readings.length > 0 || one.ends === 'looked at';
    if (isTold || (wanted === 'but the last' && one === last)) return one;
    const readings = registers.map(
      (register): Reading => ({ of: { is: 'register', register }, why: 'stage', states: [state] }),
    );
    return { ...one, readings };
  });
}
