/** Readings of a run, written as what is expected. */
import type { TextEdit } from 'vscode-languageserver';
import type { Step } from '../../../grammar/tree.js';
import { type Profile, pointOf, type Register, type State, textOf, WRAPS } from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import { rowsOf, stateBefore, writtenAs } from '../../sequence/rows.js';
import { registersOf } from '../readings.js';
import { readingText } from './fixes-readings.js';
import { MOST_LINES, type Outcome } from './open-out.js';
import type { Scene } from './scene.js';
import { endOfStep, rowsOfStep } from './subject.js';

/** A register's reading with the decimals of its marker, as a step expects it. */
function item(register: Register, state: State, profile: Profile): string {
  const marker = pointOf(state, register);
  const like = marker > 0 ? `0.${'0'.repeat(marker)}` : '0';
  return `${register} ${readingText(register, like, false, state, profile)}`;
}

/** Counter and result at the end. */
export function expectAtEnd({ report, section, draft, words }: Scene): Outcome | undefined {
  const last = section.steps.at(-1);
  if (!last || !report?.profile || report.runs.length === 0) return undefined;
  if (report.runs.some(({ brokeOff }) => brokeOff)) return { disabled: words.disabled.brokeOff };
  const { profile } = report;
  const registers = registersOf(profile).filter((register) => register !== 'setting');
  const [items, ...others] = report.runs.map(({ state }) =>
    registers.map((one) => item(one, state, profile)).join(' '),
  );
  if (others.some((other) => other !== items)) return { disabled: words.disabled.cases };
  return { edits: [draft.after(endOfStep(last), [`expect ${items}`])] };
}

/** The readings that a step asks for. */
export function expectAsked({ report, step, draft, words }: Scene): Outcome | undefined {
  if (step?.syntax.kind !== 'ask' || !report?.profile) return undefined;
  const { profile } = report;
  const { items } = step.syntax;
  const registers = new Set(items.map(({ register }) => register));
  if (registers.has('counter') && profile.counter === 0) return { disabled: words.disabled.nothing };
  const readings = new Set<string>();
  for (const run of report.runs) {
    for (const row of rowsOfStep(run, step)) {
      const state = run.tape.stateAt(row);
      readings.add([...registers].map((register) => item(register, state, profile)).join(' '));
    }
  }
  const [reading] = readings;
  if (reading === undefined) return { disabled: words.disabled.nothing };
  if (readings.size > 1) return { disabled: words.disabled.cases };
  return { edits: [draft.after(step, [`expect ${reading}`])] };
}

/**
 * The registers that each step has changed, behind it; steps between braces are left as they are. Where somebody looks
 * already there is nothing to add, and the result is left out while it stands below zero or past its top: a reading
 * says that it is meant to stay so.
 */
export function expectAfterEach({ report, section, draft, words }: Scene): Outcome | undefined {
  if (!report?.profile || report.runs.length === 0 || section.steps.length === 0) return undefined;
  const { profile, runs } = report;
  const edits: TextEdit[] = [];
  for (const [i, step] of section.steps.entries()) {
    if (isRead(step) || isProse(step)) continue;
    if (isLookedAtNext(section.steps, i)) continue;
    const [items, ...others] = runs.map((run) => changedBy(run, step, profile));
    if (!items || others.some((other) => other !== items)) continue;
    edits.push(draft.after(endOfStep(step), [`expect ${items}`]));
    if (edits.length > MOST_LINES) return { disabled: words.disabled.tooMany(section.steps.length, MOST_LINES) };
  }
  return edits.length > 0 ? { edits } : { disabled: words.disabled.nothing };
}

function isLookedAtNext(steps: readonly Step[], at: number): boolean {
  let next = at + 1;
  while (next < steps.length && isProse(steps[next])) next++;
  return next < steps.length && isRead(steps[next]);
}

const isRead = ({ syntax }: Step): boolean => syntax.kind === 'expect' || syntax.kind === 'ask';
const isProse = ({ syntax }: Step): boolean => syntax.kind === 'note' || syntax.kind === 'caution';

function changedBy(run: CaseRun, step: Step, profile: Profile): string | undefined {
  const rows = rowsOf(run).of(writtenAs(step));
  if (!rows) return undefined;
  const before = stateBefore(run, rows.first);
  const after = run.tape.stateAt(rows.last);
  const changed = registersOf(profile).filter((register) => {
    if (register === 'setting' && step.syntax.kind === 'set') return false;
    if (register === 'result' && after[WRAPS] !== 0) return false;
    return textOf(before, profile, register) !== textOf(after, profile, register);
  });
  return changed.map((register) => item(register, after, profile)).join(' ');
}
