/** Steps that carry figures: levers set and markers placed, on a machine that may have fewer places. */
import { print } from '../../../grammar/printer.js';
import type { Argument, NumberSyntax, Part, PointsStep, SetStep } from '../../../grammar/tree.js';
import { numberIn, pointOf, type Register } from '../../machine/index.js';
import { wholeOf } from '../../sequence/readings.js';
import type { Occurrence } from './walk.js';
import { lowered, movedOf, placesOf, refuse, type Way } from './way.js';

/** The levers, all of them. Where a complement was set, what it stands for. */
export function carrySet(way: Way, o: Occurrence): string[] {
  const step = o.step.syntax as SetStep;
  const { line } = o.step;
  const value = numberIn(o.after, way.from, 'setting');
  const subtracted = o.run.complementSets.get(o.first);
  if (subtracted !== undefined) {
    if (step.parts.some(({ figures }) => figures.kind === 'name')) refuse({ kind: 'varies', line, what: 'complement' });
    return [`set ${fitting(way, line, subtracted)}`];
  }
  const figures = fitting(way, line, value);
  const { setting } = way.moved;
  const parts = step.parts.map((part): Part => {
    if (part.figures.kind === 'name' || setting === 0) return part;
    if (part.figures.isValue) {
      const marker = pointOf(o.before, 'setting') - setting;
      return { figures: loweredNumber(part.figures, marker) ?? tooWide(way, line, value) };
    }
    return loweredPart(part, setting) ?? tooWide(way, line, value);
  });
  const hasNames = parts.some(({ figures: f, at }) => f.kind === 'name' || at?.kind === 'name');
  if (hasNames && setting > 0 && step.parts.some(({ figures: f }) => f.kind === 'name' && !isAligned(o, f))) {
    tooWide(way, line, value);
  }
  // Noughts in front take levers too: without them it may fit.
  const isTooLong = parts.some(({ figures: f, at }) => {
    const place = at?.kind === 'number' ? Number(at.figures) : 1;
    return f.kind === 'number' && !f.isValue && f.figures.length + place - 1 > way.to.setting;
  });
  return [isTooLong ? `set ${figures}` : print({ ...step, parts })];
}

/** A parameter that is aligned to the marker moves with it. */
function isAligned(o: Occurrence, { name }: { name: string }): boolean {
  return o.run.run.order.values.get(name)?.isValue ?? false;
}

/** What the levers take on the new machine, if it has enough of them. */
function fitting(way: Way, line: number, value: bigint): bigint {
  const moved = lowered(value, way.moved.setting) ?? tooWide(way, line, value);
  if (placesOf(moved) > way.to.setting) tooWide(way, line, moved);
  return moved;
}

const tooWide = (way: Way, line: number, value: bigint): never =>
  refuse({
    kind: 'limit',
    line,
    limit: 'setting',
    has: way.to.setting,
    needs: Math.max(placesOf(value), way.to.setting + 1),
  });

/** A part of a setting so many places further right; undefined if figures would be lost. */
function loweredPart({ figures, at }: Part, places: number): Part | undefined {
  if (figures.kind === 'name' || at?.kind === 'name') return undefined;
  const place = at ? (wholeOf(at) ?? 1) : 1;
  const stays = Math.min(place - 1, places);
  const cut = places - stays;
  const digits = figures.figures;
  if (cut > 0 && !/^0*$/.test(digits.slice(-cut))) return undefined;
  const left = cut > 0 ? digits.slice(0, -cut) || '0' : digits;
  const rest = place - stays;
  return { figures: digitString(left), ...(rest > 1 && { at: digitString(String(rest)) }) };
}

/** A value as it can be aligned to a marker with fewer decimals; undefined if figures would be lost. */
export function loweredNumber(number: NumberSyntax, marker: number): NumberSyntax | undefined {
  if (marker < 0) return undefined;
  const surplus = number.decimals - marker;
  if (surplus <= 0) return number;
  if (!/^0*$/.test(number.figures.slice(-surplus))) return undefined;
  const figures = number.figures.slice(0, -surplus) || '0';
  if (marker === 0) return digitString(figures);
  const text = `${figures.slice(0, -marker) || '0'}.${figures.slice(-marker)}`;
  return { ...number, text, figures, decimals: marker };
}

export const digitString = (digits: string): NumberSyntax => ({
  kind: 'number',
  text: digits,
  figures: digits,
  isValue: false,
  decimals: 0,
  from: 0,
  to: 0,
});

/** Markers, each so much further right as its register is narrower. */
export function carryPoints(way: Way, o: Occurrence): string[] {
  const step = o.step.syntax as PointsStep;
  const { line } = o.step;
  const items = step.items.flatMap((item) => {
    if (item.register === 'counter' && way.to.counter === 0) return [];
    const moved = movedOf(way, item.register);
    const placed = pointOf(o.after, item.register);
    const decimals = moved === 0 ? item.decimals : movedMarker(way, line, item.register, item.decimals, placed - moved);
    if (placed - moved > way.to[item.register]) {
      refuse({ kind: 'limit', line, limit: item.register, has: way.to[item.register], needs: placed - moved });
    }
    return [{ ...item, decimals }];
  });
  return items.length > 0 ? [print({ ...step, items })] : [];
}

function movedMarker(way: Way, line: number, register: Register, decimals: Argument, wanted: number): Argument {
  if (wanted < 0)
    return refuse({ kind: 'limit', line, limit: register, has: way.to[register], needs: way.to[register] + 1 });
  return decimals.kind === 'name' ? refuse({ kind: 'varies', line, what: 'marker' }) : digitString(String(wanted));
}
