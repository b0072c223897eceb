/** Fixes for turns of the crank. */
import { print } from '../../../grammar/printer.js';
import type { LineItem, TurnStep } from '../../../grammar/tree.js';
import { COUNT_MINUS, has, hasDriveLever, POSITION, SUBTRACTING, TURNS } from '../../machine/index.js';
import { across } from './edits.js';
import { insteadOf, putAfter, putAround, putBefore } from './fixes-hands.js';
import { type AroundStep, type Fix, neighboursOf, type StepSubject, stepAt } from './subject.js';

/** `turn`, with a number if it is not one. */
const turns = (count: number, back = false): string => `turn${back ? ' back' : ''}${count === 1 ? '' : ` ${count}`}`;
const turnOf = ({ step }: AroundStep): TurnStep | undefined => (step.syntax.kind === 'turn' ? step.syntax : undefined);

/** Where the crank turns one way, the drive lever does what `back` was to do. */
export function oneWayFixes(subject: StepSubject<'one-way-crank'>): Fix[] {
  const { before, facts } = subject;
  const turn = turnOf(subject);
  if (!turn || !before || !facts.subtracts) return [];
  const subtracts = has(before, SUBTRACTING);
  const forth = print({ ...turn, back: false });
  return [
    insteadOf(subject, [`mode ${subtracts ? 'add' : 'subtract'}`, forth, `mode ${subtracts ? 'subtract' : 'add'}`]),
  ];
}

/** An overdraw is made good by as many turns the other way as were too many; or it is meant, and said so. */
export function overdrawFixes(subject: StepSubject<'result-overdraw'>): Fix[] {
  const { facts, run, rows, before, profile, section, step, draft, words } = subject;
  const turn = turnOf(subject);
  const meant = putAfter(subject, ['expect overdraw'], false);
  if (!turn || !before || rows.length === 0 || facts.turn === 0) return [meant];
  const tooMany = run.tape.stateAt(rows[0])[TURNS] - facts.turn + 1;
  const isPreferred = turn.until === 'overdraw';
  if (!hasDriveLever(profile)) return [putAfter(subject, [turns(tooMany, !turn.back)], isPreferred), meant];
  const { among, at } = neighboursOf(section, step);
  const next = among[at + 1];
  if (next?.syntax.kind === 'mode' && next.syntax.drive === 'add') {
    const edits = [draft.after(next, [turns(tooMany)])];
    return [{ title: words.putAfter(`mode add; ${turns(tooMany)}`), edits, isPreferred }, meant];
  }
  return [putAfter(subject, ['mode add', turns(tooMany), 'mode subtract'], isPreferred), meant];
}

/** It is meant: the next step says so. */
export const meantFix = (subject: AroundStep, what: 'overflow' | 'overdraw'): Fix[] => [
  putAfter(subject, [`expect ${what}`], false),
];

/** Ten turns in one position are one in the next; or the counter begins afresh. */
export function counterOverflowFixes(subject: StepSubject<'counter-overflow'>): Fix[] {
  const shifted = shiftFixes(subject);
  return [...shifted, putBefore(subject, ['clear counter'], shifted.length === 0)];
}

export function counterUnderflowFixes(subject: StepSubject<'counter-underflow'>): Fix[] {
  const { profile, before } = subject;
  if (profile.count === 'first') return [putBefore(subject, ['clear counter'], false)];
  if (profile.count !== 'lever' || !before || has(before, COUNT_MINUS)) return [];
  return [putAround(subject, 'count minus', 'count plus')];
}

/** Automatic division begins with the drive at subtract: before its button, if that stands here. */
export function addModeFixes(subject: StepSubject<'divide-in-add-mode'>): Fix[] {
  const { run, rows, section } = subject;
  for (let row = rows[0] - 1; row >= 0; row--) {
    const { line, syntax } = run.tape.stepAt(row);
    if (syntax.kind !== 'auto-divide' || !syntax.on) continue;
    const { section: home } = run.tape.frameAt(row);
    const button = home === section ? stepAt(section, { line, from: syntax.from }) : undefined;
    return [putBefore(button ? { ...subject, step: button } : subject, ['mode subtract'])];
  }
  return [putBefore(subject, ['mode subtract'])];
}

export function neverOverdrawsFixes(subject: StepSubject<'never-overdraws'>): Fix[] {
  const { facts, profile } = subject;
  const turn = turnOf(subject);
  if (facts.why !== 'adds' || !turn) return [];
  if (hasDriveLever(profile)) return [putBefore(subject, ['mode subtract'])];
  if (profile.subtract !== 'reverse') return [];
  return [insteadOf(subject, [print({ ...turn, back: !turn.back })])];
}

export function neverStopsFixes(subject: StepSubject<'never-stops'>): Fix[] {
  const { facts, profile, before } = subject;
  if (facts.why !== 'off' || !profile.autoDivide) return [];
  const isReady = before !== undefined && has(before, SUBTRACTING);
  return [putBefore(subject, isReady ? ['auto-divide on'] : ['mode subtract', 'auto-divide on'])];
}

/** The count lever, or a counter that takes its sense afresh, shows the quotient itself. */
export function quotientFixes(subject: StepSubject<'quotient-as-complement'>): Fix[] {
  const { profile } = subject;
  if (profile.count === 'lever') return [putAround(subject, 'count minus', 'count plus')];
  return profile.count === 'first' ? [putBefore(subject, ['clear counter'], false)] : [];
}

/** A step in which every turn adds nothing. */
export function idleFixes(subject: StepSubject<'idle-turn'>): Fix[] {
  const { facts, run, rows, step, draft, words } = subject;
  const made = rows.reduce((sum, row) => sum + run.tape.stateAt(row)[TURNS], 0);
  if (made !== facts.times || step.body) return [];
  return [{ title: words.leaveOut(print(step.syntax)), edits: [draft.remove(step)], isPreferred: true }];
}

/** The figures of the number, each in its own position, and the carriage back to where it stood. */
export function shiftFixes(subject: AroundStep): Fix[] {
  const { run, rows, profile, section, step } = subject;
  const turn = turnOf(subject);
  if (turn?.count?.kind !== 'number' || turn.count.isValue) return [];
  const figures = turn.count.figures.replace(/^0+/, '');
  const positions = rows.map((row) => run.tape.stateAt(row)[POSITION]);
  if (figures.length < 2 || positions.some((p) => p === 0 || p + figures.length - 1 > profile.carriage)) return [];
  const steps: string[] = [];
  let due = 0;
  for (const figure of Array.from(figures).reverse()) {
    if (figure !== '0') {
      if (due > 0) steps.push(due === 1 ? 'shift right' : `shift right ${due}`);
      steps.push(turns(Number(figure), turn.back));
      due = 0;
    }
    due++;
  }
  if (!isBroughtElsewhere(section, step)) {
    steps.push(figures.length === 2 ? 'shift left' : `shift left ${figures.length - 1}`);
  }
  return [insteadOf(subject, steps)];
}

/** Whether the next step that asks where the carriage stands is one that brings it to a place of its own. */
function isBroughtElsewhere(section: AroundStep['section'], step: AroundStep['step']): boolean {
  const { among, at } = neighboursOf(section, step);
  for (const { syntax } of among.slice(at + 1)) {
    if (syntax.kind === 'shift') return syntax.way === 'to' || syntax.way === 'out';
    const isBlind = ['set', 'note', 'caution', 'points', 'clear', 'count', 'auto-clear', 'dial', 'ask'].includes(
      syntax.kind,
    );
    const readsRegisters = syntax.kind === 'expect' && syntax.items.every(({ kind }) => kind === 'register');
    if (!isBlind && !readsRegisters) return false;
  }
  return false;
}

/** The cheaper steps in the place of the run. Comments, and other lines between its steps, have nowhere to stay. */
export function shorterFixes({ facts, section, step, draft, words }: StepSubject<'shorter-sequence'>): Fix[] {
  const { among, at } = neighboursOf(section, step);
  const last = among[at + facts.count - 1];
  if (!last) return [];
  const written = among.slice(at, at + facts.count);
  for (let line = step.line; line <= last.line; line++) {
    const { items, errors, comment } = section.lines[line];
    const isOwn = (item: LineItem) => written.some(({ syntax }) => syntax === item);
    const isInside = line > step.line && line < last.line;
    if (errors.length > 0 || draft.isProse(line) || (isInside && !items.every(isOwn))) return [];
    if (comment && line < last.line) return [];
  }
  const span = { line: step.line, syntax: across(step.syntax, last.syntax) };
  const { steps } = facts;
  const title =
    steps.length > 0
      ? words.changeTo(steps.join('; '))
      : words.leaveOut(written.map(({ syntax }) => print(syntax)).join('; '));
  if (step.line === last.line) return [{ title, edits: [draft.instead(span, steps)], isPreferred: true }];
  const isAlone = draft.isFirst(step) && draft.isLast(last);
  if (steps.length === 0) {
    const edits = isAlone && !section.lines[last.line].comment ? [draft.cut(step.line, last.line)] : [];
    return edits.length > 0 ? [{ title, edits, isPreferred: true }] : [];
  }
  return [{ title, edits: [draft.insteadOfLines(step, last, steps)], isPreferred: true }];
}
