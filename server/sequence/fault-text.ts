/** Faults as they are written: `carry-lost result 5 add`. */
import { nearest } from '../../grammar/nearest.js';
import {
  FAULT_KINDS,
  type Fault,
  type FaultKind,
  faultsOf,
  isSameFault,
  type Profile,
  REGISTERS,
  type Register,
} from '../machine/index.js';
import { grouped } from './grouped.js';

/** How each kind is written; the words in capitals stand for what varies. */
export const FAULT_FORMS: Readonly<Record<FaultKind, string>> = {
  'lever-short': 'lever-short PLACE FIGURE',
  'lever-dead': 'lever-dead PLACE',
  'carry-lost': 'carry-lost result PLACE add|subtract, or carry-lost counter PLACE',
  'carry-stuck': 'carry-stuck result PLACE',
  'count-dead': 'count-dead PLACE',
  'count-lever-dead': 'count-lever-dead',
  'clear-short': 'clear-short REGISTER PLACE',
  'auto-clear-dead': 'auto-clear-dead PLACE',
  'transfer-dead': 'transfer-dead PLACE',
  'bell-dead': 'bell-dead',
};

export const faultText = (fault: Fault): string => {
  switch (fault.kind) {
    case 'lever-short':
      return `lever-short ${fault.place} ${fault.figure}`;
    case 'carry-lost':
      return `carry-lost ${fault.register} ${fault.place}${fault.register === 'result' ? ` ${fault.way}` : ''}`;
    case 'carry-stuck':
    case 'clear-short':
      return `${fault.kind} ${fault.register} ${fault.place}`;
    case 'count-lever-dead':
    case 'bell-dead':
      return fault.kind;
    default:
      return `${fault.kind} ${fault.place}`;
  }
};

/** Several faults, the words that the one before has as well left out: `lever-dead 1, 2, 3; bell-dead`. */
export function faultList(faults: readonly Fault[]): string {
  const kinds = grouped(faults.map(faultText), (text) => /^\S+(?: [a-z]+)?(?= |$)/.exec(text)?.[0] ?? text);
  return [...kinds].map(([head, texts]) => head + texts.map((text) => text.slice(head.length)).join(',')).join('; ');
}

/** What is wrong with a fault as somebody wrote it. */
export type FaultProblem =
  | { readonly is: 'unknown-kind'; readonly found: string; readonly nearest?: string }
  | { readonly is: 'form'; readonly form: string }
  /** The machine can't have it: a place that is not there, a device that it lacks. */
  | { readonly is: 'not-on-this-machine'; readonly fault: string; readonly nearest?: string };

export const isFaultProblem = (read: Fault | FaultProblem): read is FaultProblem => 'is' in read;

/** Reads a fault by itself; whether a machine can have it, `faultOn` says. */
export function parseFault(text: string): Fault | FaultProblem {
  const [kind = '', ...rest] = text.trim().toLowerCase().split(/\s+/);
  const known = FAULT_KINDS.find((one) => one === kind);
  if (!known) {
    const near = nearest(kind, FAULT_KINDS);
    return { is: 'unknown-kind', found: kind, ...(near && { nearest: near }) };
  }
  return partsOf(known, rest) ?? { is: 'form', form: FAULT_FORMS[known] };
}

/** The same for a machine, which must be able to have the fault; if not, the nearest one that it can have is named. */
export function faultOn(profile: Profile, text: string): Fault | FaultProblem {
  const read = parseFault(text);
  if (isFaultProblem(read)) return read;
  const faults = faultsOf(profile);
  if (faults.some((one) => isSameFault(one, read))) return read;
  const near = nearestFault(read, faults);
  return { is: 'not-on-this-machine', fault: faultText(read), ...(near && { nearest: faultText(near) }) };
}

/** The same fault in the place that is nearest, of the same register and figure if there is one. */
function nearestFault(wanted: Fault, faults: readonly Fault[]): Fault | undefined {
  const unlike = (one: Fault) => {
    const far = 'place' in one && 'place' in wanted ? Math.abs(one.place - wanted.place) : 0;
    const others = ['register', 'figure', 'way'] as const;
    const other = others.filter(
      (key) => (one as Partial<Record<string, unknown>>)[key] !== (wanted as Partial<Record<string, unknown>>)[key],
    );
    return 100 * other.length + far;
  };
  const ofKind = faults.filter(({ kind }) => kind === wanted.kind);
  return ofKind.reduce<Fault | undefined>((best, one) => (!best || unlike(one) < unlike(best) ? one : best), undefined);
}

function partsOf(kind: FaultKind, rest: readonly string[]): Fault | undefined {
  const isLong = (words: number) => rest.length === words;
  switch (kind) {
    case 'lever-short': {
      const [place, figure] = [numberIn(rest[0]), numberIn(rest[1])];
      if (!isLong(2) || !place || !figure || figure > 9) return undefined;
      return { kind, place, figure };
    }
    case 'carry-lost': {
      const [register, , way] = rest;
      const place = numberIn(rest[1]);
      if (!place) return undefined;
      if (register === 'counter') return isLong(2) ? { kind, register, place } : undefined;
      if (register !== 'result' || !isLong(3) || (way !== 'add' && way !== 'subtract')) return undefined;
      return { kind, register, place, way };
    }
    case 'carry-stuck':
    case 'clear-short': {
      const register = REGISTERS.find((one) => one === rest[0]);
      const place = numberIn(rest[1]);
      if (!register || !place || !isLong(2)) return undefined;
      return kind === 'clear-short' ? { kind, register, place } : stuck(register, place);
    }
    case 'count-lever-dead':
    case 'bell-dead':
      return isLong(0) ? { kind } : undefined;
    default: {
      const place = numberIn(rest[0]);
      return isLong(1) && place ? { kind, place } : undefined;
    }
  }
}

const stuck = (register: Register, place: number): Fault | undefined =>
  register === 'result' ? { kind: 'carry-stuck', register, place } : undefined;

/** A place or figure, 1 … 99; undefined for anything else. */
const numberIn = (word: string | undefined): number | undefined =>
  word !== undefined && /^[1-9]\d?$/.test(word) ? Number(word) : undefined;
