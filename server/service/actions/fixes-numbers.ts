/** Fixes for numbers that don't fit where they are to go. */
import type { Argument, DialStep, NumberSyntax, Part, SetStep } from '../../../grammar/tree.js';
import { pointOf, REGISTERS, type Register } from '../../machine/index.js';
import { alignedDigits, withoutLeadingZeros } from '../../sequence/readings.js';
import { argumentsOf } from '../../sequence/substitute.js';
import type { AroundStep, Fix, StepSubject } from './subject.js';

export function argumentFixes(subject: StepSubject<'wrong-arguments'>): Fix[] {
  const { draft, step, facts, words } = subject;
  const { line, syntax } = step;
  const { why } = facts;
  switch (why.is) {
    case 'too-many': {
      if (syntax.kind !== 'run') return [];
      const { args } = syntax;
      const text = draft.text(line);
      const from = why.takes === 0 ? syntax.name.to : args[why.takes - 1].to;
      const to = why.takes === 0 ? syntax.to : args[args.length - 1].to;
      const title = words.leaveOut(text.slice(from, to).replace(/^[\s,]+/, ''));
      return [{ title, edits: [draft.replace({ line, syntax: { from, to } }, '')], isPreferred: true }];
    }
    case 'not-whole': {
      const number = written(subject, why.number);
      const whole = /^(.*)\.[0_']+$/.exec(why.number)?.[1];
      return number && whole !== undefined ? [changeTo(subject, number, whole, true)] : [];
    }
    case 'value-with-at': {
      const part = partsOf(subject).find(({ figures, at }) => at && numberOf(subject, figures)?.text === why.number);
      if (!part?.at) return [];
      const span = { from: part.figures.to, to: part.at.to };
      const title = words.leaveOut(draft.text(line).slice(span.from, span.to).trim());
      return [{ title, edits: [draft.replace({ line, syntax: span }, '')], isPreferred: true }];
    }
    case 'out-of-range': {
      const number = written(subject, why.number);
      if (!number) return [];
      const isSmall = BigInt(number.figures) < BigInt(why.lowest);
      return [changeTo(subject, number, String(isSmall ? why.lowest : why.highest), false)];
    }
    case 'divide-to': {
      const shift = `shift to ${why.to}`;
      const fix: Fix = { title: words.putBefore(shift), edits: [draft.before(step, [shift])] };
      const number = syntax.kind === 'divide' ? syntax.downTo : undefined;
      return number?.kind === 'number' ? [fix, changeTo(subject, number, String(why.position), false)] : [fix];
    }
  }
}

function changeTo({ draft, step, words }: AroundStep, number: NumberSyntax, to: string, isPreferred: boolean): Fix {
  return { title: words.changeTo(to), edits: [draft.replace({ line: step.line, syntax: number }, to)], isPreferred };
}

/** The number of a step that reads so; undefined where it comes from a parameter. */
function written({ step }: AroundStep, text: string): NumberSyntax | undefined {
  return argumentsOf(step.syntax).find((one): one is NumberSyntax => one.kind === 'number' && one.text === text);
}

/** What a number or a parameter stands for in the run. */
export const numberOf = ({ run }: AroundStep, argument: Argument): NumberSyntax | undefined =>
  argument.kind === 'number' ? argument : run.order.values.get(argument.name);

function partsOf({ step }: AroundStep): readonly Part[] {
  if (step.syntax.kind === 'set') return step.syntax.parts;
  return step.syntax.kind === 'dial' ? [step.syntax.part] : [];
}

/** Noughts in front are dropped; a value finds room where the marker stands further right. */
export function tooLongFixes(subject: StepSubject<'setting-too-long' | 'dial-too-long'>): Fix[] {
  const { draft, step, facts, words, before } = subject;
  const { figures, at, places } = facts;
  const register = facts.code === 'setting-too-long' ? 'setting' : 'result';
  const number = partsOf(subject)
    .flatMap((part) => numberOf(subject, part.figures) ?? [])
    .find((n) => n.text === figures);
  if (!number || !before) return [];
  const room = places - at + 1;
  if (!number.isValue) {
    const short = figures.replace(/^[0_']+(?=.)/, '');
    const literal = written(subject, figures);
    const fits = short.replace(/[_']/g, '').length <= room;
    return literal && short !== figures && fits ? [changeTo(subject, literal, short, true)] : [];
  }
  const fits = withoutLeadingZeros(number.figures).length <= room;
  if (!fits || number.decimals >= pointOf(before, register)) return [];
  return [markerFix(subject, register, number.decimals)].map((steps) => ({
    title: words.putBefore(steps),
    edits: [draft.before(step, [steps])],
  }));
}

export function decimalsFixes(subject: StepSubject<'too-many-decimals'>): Fix[] {
  const { draft, step, facts, words, profile } = subject;
  const decimals = (facts.number.replace(/[_']/g, '').split('.')[1] ?? '').length;
  if (decimals > profile[facts.register]) return [];
  const points = markerFix(subject, facts.register, decimals);
  return [{ title: words.putBefore(points), edits: [draft.before(step, [points])], isPreferred: true }];
}

/** Moves a marker; that of the result goes with it, where the three agreed before. */
function markerFix({ before, profile }: AroundStep, register: Register, decimals: number): string {
  if (!before || register === 'result') return `points ${register} ${decimals}`;
  const [setting, counter, result] = REGISTERS.map((one) => pointOf(before, one));
  const moved = setting + counter + decimals - (register === 'setting' ? setting : counter);
  const agreed = result > 0 && result === setting + counter && moved <= profile.result;
  return `points ${register} ${decimals}${agreed ? ` result ${moved}` : ''}`;
}

/** The part that wants levers of another goes to the first ones left of all before it. */
export function overlapFixes(subject: StepSubject<'places-overlap'>): Fix[] {
  const { draft, step, words, before, profile } = subject;
  if (step.syntax.kind !== 'set' || !before) return [];
  const marker = pointOf(before, 'setting');
  let top = 0;
  const taken = new Set<number>();
  for (const { figures, at } of (step.syntax satisfies SetStep).parts) {
    const number = numberOf(subject, figures);
    const digits = number && alignedDigits(number, marker);
    const place = at ? Number(numberOf(subject, at)?.figures ?? Number.NaN) : 1;
    if (!number || digits === undefined || !(place >= 1)) return [];
    const levers = Array.from(digits, (_, i) => place + i);
    if (!levers.some((lever) => taken.has(lever))) {
      for (const lever of levers) taken.add(lever);
      top = Math.max(top, place + digits.length - 1);
      continue;
    }
    const free = top + 1;
    if (number.isValue || free + digits.length - 1 > profile.setting) return [];
    const { line } = step;
    const edit = at ? draft.replace({ line, syntax: at }, String(free)) : draft.insert(line, figures.to, ` at ${free}`);
    return [
      {
        title: words.changeTo(`${draft.text(line).slice(figures.from, figures.to)} at ${free}`),
        edits: [edit],
        isPreferred: true,
      },
    ];
  }
  return [];
}

/** The nearest place that there is, such that the figures fit. */
export function placeFixes(subject: StepSubject<'no-such-place'>): Fix[] {
  const { step, facts, before } = subject;
  const { place, places } = facts;
  const { syntax } = step;
  if (syntax.kind === 'points') {
    const item = syntax.items.find(({ decimals }) => decimals.kind === 'number' && decimals.text === place);
    return item?.decimals.kind === 'number' ? [changeTo(subject, item.decimals, String(places), false)] : [];
  }
  if ((syntax.kind !== 'set' && syntax.kind !== 'dial') || !before) return [];
  const register = syntax.kind === 'set' ? 'setting' : 'result';
  const part = partsOf({ ...subject, step: { ...step, syntax: syntax satisfies SetStep | DialStep } }).find(
    ({ at }) => at?.kind === 'number' && at.text === place,
  );
  const number = part && numberOf(subject, part.figures);
  const digits = number && alignedDigits(number, pointOf(before, register));
  if (part?.at?.kind !== 'number' || digits === undefined) return [];
  const highest = places - digits.length + 1;
  if (highest < 1) return [];
  const isSmall = !part.at.isValue && Number(part.at.figures) < 1;
  return [changeTo(subject, part.at, String(isSmall ? 1 : highest), false)];
}
