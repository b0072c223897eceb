/** What a machine shows, as short text: registers read at their markers, and what a step has changed. */
import type { GoalLine, Section } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasDriveLever,
  numberIn,
  POSITION,
  type Profile,
  pointOf,
  REGISTERS,
  type Register,
  type State,
  SUBTRACTING,
  textOf,
  WRAPS,
} from '../machine/index.js';
import type { CaseRun, SequenceReport } from '../sequence/check.js';
import type { FileReport } from '../sequence/file.js';
import { type GoalResult, judgeGoal } from '../sequence/goals.js';
import { decimalText, wheelsText } from '../sequence/readings.js';
import type { AnalysedDocument, Reader } from './document.js';
import type { Words } from './wording/index.js';

const bySection = new WeakMap<FileReport, ReadonlyMap<Section, SequenceReport>>();

/** What was found of a sequence of the document; undefined for another section. */
export function sequenceReport({ report }: AnalysedDocument, section: Section): SequenceReport | undefined {
  let reports = bySection.get(report);
  if (!reports) {
    reports = new Map(report.sequences.map((sequence) => [sequence.section, sequence]));
    bySection.set(report, reports);
  }
  return reports.get(section);
}

/** The run whose readings are shown: that of the chosen case, or the defaults where there is no such case. */
export function shownRun(
  { runs, section }: SequenceReport,
  { uri }: AnalysedDocument,
  { chosenCase, settings }: Reader,
): CaseRun | undefined {
  const chosen = chosenCase(uri, section.header?.name.name ?? '') ?? settings.readingsCase;
  return runs.find(({ order }) => order.case === chosen) ?? runs[0];
}

/** How a run met a goal; undefined where it broke off, or the goal has no value. */
export function goalResult(run: CaseRun, goal: GoalLine): GoalResult | undefined {
  const { section, values, profile } = run.order;
  if (run.brokeOff || (goal.register === 'counter' && profile.counter === 0)) return undefined;
  if (run.goals.length === section.goals.length) {
    return run.goals[section.goals.findIndex(({ syntax }) => syntax === goal)];
  }
  const result = judgeGoal(goal, values, run.state, profile);
  return typeof result === 'string' ? undefined : result;
}

/** The registers that a machine has. */
export const registersOf = (profile: Profile): readonly Register[] =>
  profile.counter > 0 ? REGISTERS : REGISTERS.filter((register) => register !== 'counter');

/** Parts thousands by a narrow blank at which no line is broken. */
const THOUSANDS = '\u202f';
export const MINUS = '−';

/** A decimal number as text, its whole figures grouped in threes. */
export function grouped(number: string): string {
  const [, sign, whole, rest] = /^([-−]?)(\d*)(.*)$/su.exec(number) ?? ['', '', '', number];
  return (sign && MINUS) + whole.replace(/\B(?=(?:\d{3})+$)/g, THOUSANDS) + rest;
}

/** Nines at the left from which on they are shown as a few of them with an ellipsis. */
const MANY_NINES = 6;
/** Nines at the left by which a counter is taken to show a complement. */
const COMPLEMENT_NINES = 3;

/** A register read at its marker. A complement shows its nines and what it stands for, marked figures their sum. */
export function readingText(state: State, profile: Profile, register: Register): string {
  const marker = pointOf(state, register);
  const text = textOf(state, profile, register);
  const number = numberIn(state, profile, register);
  const read = grouped(decimalText(number, marker));
  if (text.includes('-')) return `${wheelsText(text)} = ${read}`;
  const below = belowZero(state, profile, register, number);
  return below === undefined ? read : `${ninesText(text, marker)} (${grouped(decimalText(below, marker))})`;
}

/** The negative number that a register shows as a complement, in units of its last decimal. */
function belowZero(state: State, profile: Profile, register: Register, number: bigint): bigint | undefined {
  const places = profile[register];
  if (register === 'result') {
    return state[WRAPS] < 0 ? number + BigInt(state[WRAPS]) * 10n ** BigInt(places) : undefined;
  }
  if (register !== 'counter' || profile.counterCarry !== 'carry') return undefined;
  const nines = /^9*/.exec(textOf(state, profile, register))?.[0].length ?? 0;
  return nines >= COMPLEMENT_NINES && nines * 2 >= places ? number - 10n ** BigInt(places) : undefined;
}

function ninesText(text: string, marker: number): string {
  const nines = /^9*/.exec(text)?.[0].length ?? 0;
  const kept = Math.max(text.length - nines, marker + 1);
  const isShort = text.length - kept >= MANY_NINES;
  const figures = isShort ? text.slice(-kept) : text;
  const read = marker > 0 ? `${figures.slice(0, -marker)}.${figures.slice(-marker)}` : figures;
  return isShort ? `9999…${read}` : grouped(read);
}

export const positionText = (position: number, words: Words): string =>
  position === 0 ? words.readings.outOfGear : words.readings.position(position);

/** A register with its name. */
export const namedReading = (state: State, profile: Profile, register: Register, words: Words): string =>
  `${words.readings.registers[register]} ${readingText(state, profile, register)}`;

/** What has become another, each as a short text; `always` are registers that are told in any case. */
export function changes(
  before: State,
  after: State,
  profile: Profile,
  words: Words,
  always: readonly Register[] = [],
): string[] {
  const moved = registersOf(profile).filter(
    (register) =>
      always.includes(register) ||
      pointOf(before, register) !== pointOf(after, register) ||
      textOf(before, profile, register) !== textOf(after, profile, register),
  );
  const parts = moved.map((register) => namedReading(after, profile, register, words));
  if (before[POSITION] !== after[POSITION]) parts.push(positionText(after[POSITION], words));
  const levers = leversOf(profile, words).filter(({ bit }) => has(before, bit) !== has(after, bit));
  return [...parts, ...levers.map(({ bit, on, off }) => (has(after, bit) ? on : off))];
}

/** Every register, the position, and the levers that do not stand as at the start. */
export function everything(state: State, profile: Profile, words: Words): string[] {
  return [
    ...registersOf(profile).map((register) => namedReading(state, profile, register, words)),
    positionText(state[POSITION], words),
    ...leversOf(profile, words).flatMap(({ bit, on }) => (has(state, bit) ? [on] : [])),
  ];
}

interface Lever {
  readonly bit: number;
  readonly on: string;
  readonly off: string;
}

/** The levers and buttons that a machine has, and what their places are called. */
export function leversOf(profile: Profile, { readings }: Words): readonly Lever[] {
  const drive = profile.subtract === 'lift' ? readings.crank : readings.drive;
  return [
    ...(hasDriveLever(profile) ? [{ bit: SUBTRACTING, ...drive }] : []),
    ...(profile.count === 'lever' ? [{ bit: COUNT_MINUS, ...readings.count }] : []),
    ...(profile.autoClear ? [{ bit: AUTO_CLEAR, ...readings.autoClear }] : []),
    ...(profile.autoDivide ? [{ bit: AUTO_DIVIDE, ...readings.autoDivide }] : []),
  ];
}
