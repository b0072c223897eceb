/**
 * What can be wrong with a machine: one fault, present from the first step to the last.
 *
 * To add a kind: its shape here, its places in `faultsOf`, its mechanism in `MECHANISM`; what it changes in faulty.ts,
 * where it can act at all in fault-reach.ts, its words in sequence/fault-text.ts.
 */
import type { Profile } from './profile.js';
import { REGISTERS, type Register } from './state.js';

export type Fault =
  /** The lever standing at the figure (1…9) drives one less. */
  | { readonly kind: 'lever-short'; readonly place: number; readonly figure: number }
  /** The lever drives nothing. */
  | { readonly kind: 'lever-dead'; readonly place: number }
  /** A carry due out of the place is not delivered; of the result, in turns of that direction alone. */
  | {
      readonly kind: 'carry-lost';
      readonly register: 'result';
      readonly place: number;
      readonly way: 'add' | 'subtract';
    }
  | { readonly kind: 'carry-lost'; readonly register: 'counter'; readonly place: number }
  /** A carry out of the place, once delivered, is delivered in every later turn until the result is cleared, dialled or transferred. */
  | { readonly kind: 'carry-stuck'; readonly register: 'result'; readonly place: number }
  /** The counter's place does not take its count. */
  | { readonly kind: 'count-dead'; readonly place: number }
  /** The count lever at minus counts as at plus. */
  | { readonly kind: 'count-lever-dead' }
  /** Clearing leaves the wheel or lever at 1 if it stood at anything else than 0. */
  | { readonly kind: 'clear-short'; readonly register: Register; readonly place: number }
  /** Auto-clear leaves the lever as it stands. */
  | { readonly kind: 'auto-clear-dead'; readonly place: number }
  /** In a back transfer the lever stays at 0. */
  | { readonly kind: 'transfer-dead'; readonly place: number }
  /** The bell does not ring. */
  | { readonly kind: 'bell-dead' };

export type FaultKind = Fault['kind'];

/** The parts of a machine by which faults are grouped, in the order in which they are told. */
export const MECHANISMS = ['levers', 'tens-carry', 'counter', 'clearing', 'transfer', 'bell'] as const;
export type MechanismPart = (typeof MECHANISMS)[number];

const MECHANISM: Readonly<Record<FaultKind, MechanismPart>> = {
  'lever-short': 'levers',
  'lever-dead': 'levers',
  'carry-lost': 'tens-carry',
  'carry-stuck': 'tens-carry',
  'count-dead': 'counter',
  'count-lever-dead': 'counter',
  'clear-short': 'clearing',
  'auto-clear-dead': 'clearing',
  'transfer-dead': 'transfer',
  'bell-dead': 'bell',
};

export const FAULT_KINDS = Object.keys(MECHANISM) as readonly FaultKind[];

/** Where a fault belongs; a carry that the counter loses is the counter's. */
export const mechanismOf = (fault: Fault): MechanismPart =>
  fault.kind === 'carry-lost' && fault.register === 'counter' ? 'counter' : MECHANISM[fault.kind];

/** Every fault that a machine can have, in a fixed order; those out of reach among them (`isWithinReach`). */
export function faultsOf(profile: Profile): Fault[] {
  const { setting, counter, result } = profile;
  const faults: Fault[] = [];
  for (const place of upTo(setting)) {
    for (const figure of upTo(9)) faults.push({ kind: 'lever-short', place, figure });
    faults.push({ kind: 'lever-dead', place });
  }
  for (const place of upTo(result - 1)) {
    faults.push({ kind: 'carry-lost', register: 'result', place, way: 'add' });
    if (profile.subtract !== 'none') faults.push({ kind: 'carry-lost', register: 'result', place, way: 'subtract' });
    faults.push({ kind: 'carry-stuck', register: 'result', place });
  }
  for (const place of profile.counterCarry === 'carry' ? upTo(counter - 1) : []) {
    faults.push({ kind: 'carry-lost', register: 'counter', place });
  }
  for (const place of upTo(counter)) faults.push({ kind: 'count-dead', place });
  if (profile.count === 'lever') faults.push({ kind: 'count-lever-dead' });
  for (const register of REGISTERS) {
    for (const place of upTo(profile[register])) faults.push({ kind: 'clear-short', register, place });
  }
  for (const place of profile.autoClear ? upTo(setting) : []) faults.push({ kind: 'auto-clear-dead', place });
  const transfers = profile.transferResult !== 'none' || profile.transferCounter;
  for (const place of transfers ? upTo(setting) : []) faults.push({ kind: 'transfer-dead', place });
  if (profile.bell) faults.push({ kind: 'bell-dead' });
  return faults;
}

const upTo = (last: number): number[] => Array.from({ length: Math.max(0, last) }, (_, i) => i + 1);

/** Whether two are the same fault. */
export const isSameFault = (a: Fault, b: Fault): boolean => keyOf(a) === keyOf(b);

/** A fault as one word, for maps and comparing; not for people. */
export const keyOf = (fault: Fault): string => Object.values(fault).join(' ');
