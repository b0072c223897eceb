/** Fixes for what is done by hand: carriage, levers, markers, clearing, transfers, and what the machine hasn't got. */
import { print } from '../../../grammar/printer.js';
import type { LineItem, Span } from '../../../grammar/tree.js';
import { leftmost, POSITION } from '../../machine/index.js';
import { stateBefore } from '../../sequence/rows.js';
import { numberOf } from './fixes-numbers.js';
import { type AroundStep, endOfStep, type Fix, type StepSubject, type Subject } from './subject.js';

/** One step right before the one that lacks it. */
export function putBefore({ draft, step, words }: AroundStep, steps: readonly string[], isPreferred = true): Fix {
  return { title: words.putBefore(steps.join('; ')), edits: [draft.before(step, steps)], isPreferred };
}
export function putAfter({ draft, step, words }: AroundStep, steps: readonly string[], isPreferred = true): Fix {
  return { title: words.putAfter(steps.join('; ')), edits: [draft.after(endOfStep(step), steps)], isPreferred };
}
/** Steps right before one, and others right behind it. */
export function putAround({ draft, step, words }: AroundStep, before: string, after: string): Fix {
  const isAlone = draft.isFirst(step) && draft.isLast(step) && !step.body;
  const edits = isAlone
    ? [draft.before(step, [before]), draft.after(step, [after])]
    : [draft.before(step, [before]), draft.after(endOfStep(step), [after])];
  return { title: words.putAround(before, after), edits, isPreferred: true };
}
export function insteadOf({ draft, step, words }: AroundStep, steps: readonly string[], isPreferred = true): Fix {
  return { title: words.changeTo(steps.join('; ')), edits: [draft.instead(step, steps)], isPreferred };
}

/** The step, or what in it the machine hasn't got, is left out. A goal or a reading is somebody's word, and is not taken unseen. */
export function notHereFixes(subject: Subject<'not-on-this-machine'>): Fix[] {
  const { draft, at, facts, words } = subject;
  const { line } = at;
  const item = draft.section.lines[line]?.items.find(({ from }) => from === at.syntax.from);
  if (!item || item.kind === 'repeat' || item.kind === 'run') return [];
  const isMachines = item.kind !== 'expect' && item.kind !== 'ask' && item.kind !== 'goal';
  const text = draft.text(line);
  const parts = partsWithout(item, facts.device, text);
  if (!parts || parts.others === 0) {
    const edits = [draft.remove({ line, syntax: item })];
    return [{ title: words.leaveOut(print(item)), edits, isPreferred: true, isSafe: isMachines }];
  }
  // What is left of the step is carried out now, and was not before.
  const edits = parts.lacking.map((span) => {
    const blanks = /\s*$/.exec(text.slice(0, span.from))?.[0].length ?? 0;
    return draft.replace({ line, syntax: { from: span.from - blanks, to: span.to } }, '');
  });
  return [{ title: words.leaveOut(text.slice(parts.lacking[0].from, parts.lacking[0].to)), edits, isPreferred: true }];
}

/** The parts of a step that name what is lacking, and how many others there are. */
function partsWithout(item: LineItem, device: string, text: string): { lacking: Span[]; others: number } | undefined {
  if (item.kind === 'clear') {
    const counters = text.slice(item.from, item.to).matchAll(/(?<=\s)counter(?=\s|$)/g);
    const lacking = Array.from(counters, ({ index }) => ({ from: item.from + index, to: item.from + index + 7 }));
    return { lacking, others: item.registers.length - lacking.length };
  }
  if (item.kind !== 'expect' && item.kind !== 'ask' && item.kind !== 'points') return undefined;
  const all: readonly (Span & { readonly register?: string; readonly kind?: string })[] = item.items;
  const lacking = all.filter((one) => (one.register ?? one.kind) === device);
  return { lacking, others: lacking.length > 0 ? all.length - lacking.length : 0 };
}

/** As far as the carriage goes, or to its last position: it goes there anyway. */
export function carriageEndFixes(subject: StepSubject<'carriage-end'>): Fix[] {
  const { step, facts, run, rows, profile, draft, words } = subject;
  const { syntax } = step;
  if (syntax.kind === 'multiply') {
    const number = numberOf(subject, syntax.by);
    return number && facts.at !== 1 ? [putBefore(subject, ['shift to 1'])] : [];
  }
  if (syntax.kind !== 'shift') return [];
  const leaveOut: Fix = {
    title: words.leaveOut(print(syntax)),
    edits: [draft.remove(step)],
    isPreferred: true,
    isSafe: true,
  };
  if (syntax.half) return rows.length === 1 ? [leaveOut] : [];
  if (syntax.way === 'to') {
    return [
      insteadOf(subject, [`shift to ${facts.wanted.replace(/[0_']/g, '') === '' ? 1 : profile.carriage}`], false),
    ];
  }
  const home = leftmost(profile) === 0 ? 'shift out' : 'shift to 1';
  const end = syntax.way === 'right' ? `shift to ${profile.carriage}` : home;
  const moved = new Set(rows.map((row) => Math.abs(run.tape.stateAt(row)[POSITION] - stateBefore(run, row)[POSITION])));
  const toEnd = { ...insteadOf(subject, [end]), isSafe: rows.length === 1 };
  const [possible] = moved;
  if (moved.size !== 1 || syntax.count?.kind === 'name') return [toEnd];
  if (possible === 0) return [leaveOut, { ...toEnd, isPreferred: false, isSafe: false }];
  const shift = `shift ${syntax.way}${possible === 1 ? '' : ` ${possible}`}`;
  return [
    { ...insteadOf(subject, [shift]), isSafe: rows.length === 1 && run.order.section.cases.length === 0 },
    { ...toEnd, isPreferred: false, isSafe: false },
  ];
}

export function parkedFixes(subject: StepSubject<'carriage-parked'>): Fix[] {
  const fix = putBefore(subject, ['shift to 1']);
  return subject.step.syntax.kind === 'turn' ? [fix, putBefore(subject, ['expect parked'], false)] : [fix];
}

/** The marker of the result goes where a product needs it. */
export function pointsFixes(subject: StepSubject<'points-disagree'>): Fix[] {
  const { draft, step, facts, words, profile } = subject;
  const { syntax, line } = step;
  const right = facts.setting + facts.counter;
  if (syntax.kind !== 'points' || right > profile.result) return [];
  const item = syntax.items.findLast(({ register }) => register === 'result');
  const edit = item
    ? draft.replace({ line, syntax: item.decimals }, String(right))
    : draft.insert(line, syntax.to, ` result ${right}`);
  if (item?.decimals.kind === 'name') return [];
  return [{ title: words.changeTo(`result ${right}`), edits: [edit], isPreferred: true }];
}

/** Everything, or what is used, is cleared before the first step: once, however often that is repeated. */
export function clearFixes(subject: StepSubject<'assumes-clear'>): Fix[] {
  const { draft, section, facts, words } = subject;
  const first = section.steps.find(({ syntax }) => syntax.kind !== 'note' && syntax.kind !== 'caution');
  if (!first) return [];
  const named = `clear ${facts.registers.join(' ')}`;
  return ['clear all', named].map((step, i) => ({
    title: words.putAtStart(step),
    edits: [draft.before(first, [step])],
    isPreferred: i === 0,
  }));
}

const BACK = {
  'auto-divide': 'auto-divide off',
  subtract: 'mode add',
  minus: 'count plus',
  'auto-clear': 'auto-clear off',
};

/** Levers and buttons go back behind the last step. */
export function engagedFixes({ draft, section, facts, words }: StepSubject<'left-engaged'>): Fix[] {
  const last = section.steps.at(-1);
  if (!last) return [];
  const steps = (['auto-divide', 'subtract', 'minus', 'auto-clear'] as const)
    .filter((what) => facts.what.includes(what))
    .map((what) => BACK[what]);
  return [{ title: words.putAtEnd(steps.join('; ')), edits: [draft.after(endOfStep(last), steps)], isPreferred: true }];
}
