/**
 * What the figure is drawn with: elements of SVG, and each part of a machine by itself. Only presentation attributes, no
 * style sheet, no script and nothing from outside.
 *
 * Invariant: every colour is `currentColor` or `none`, so that the figure is as legible as the page's own text on paper
 * and on a dark screen alike; what has changed is told apart by weight and a bar.
 */
import { escapeXml } from '../escape.js';
import type { Drive, FigureLayout, Level, Slot, Wedge, Wheel } from './layout.js';
import type { Box, Lettering, Point } from './lettering.js';
import type { Sign } from './signs.js';

/** Two decimals are finer than any printer. */
export const n = (value: number): string => String(Math.round(value * 100) / 100);

export type Attributes = Readonly<Record<string, string | number>>;

export function element(name: string, attributes: Attributes, inner?: string): string {
  const written = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${typeof value === 'number' ? n(value) : escapeXml(value)}"`,
  );
  return inner === undefined ? `<${name}${written.join('')}/>` : `<${name}${written.join('')}>${inner}</${name}>`;
}

const path = (d: string, attributes: Attributes = {}): string => element('path', { d, ...attributes });
export const line = (from: Point, to: Point, attributes: Attributes = {}): string =>
  path(`M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`, attributes);
export const rectangle = ({ x, y, width, height }: Box, attributes: Attributes = {}): string =>
  element('rect', { x, y, width, height, ...attributes });
const solid = { fill: 'currentColor', stroke: 'none' };
const bar = (box: Box | undefined): string => (box ? rectangle(box, { ...solid, rx: 0.6 }) : '');

/** Pieces of lettering, which are filled and have no outline. */
export const lettered = (all: readonly Lettering[]): string => element('g', { ...solid }, all.map(letters).join(''));

function letters({ text, x, y, anchor, size, isBold, isFaint }: Lettering): string {
  return element(
    'text',
    {
      x,
      y,
      'font-size': size,
      ...(anchor !== 'start' && { 'text-anchor': anchor }),
      ...(isBold && { 'font-weight': 'bold' }),
      ...(isFaint && { opacity: 0.62 }),
    },
    escapeXml(text),
  );
}

/** The plate of the levers. */
export const plate = (body: Box): string => rectangle(body, { rx: 5 });

/** The window of a lever. */
export const window = ({ box, bar: changed }: Wheel): string =>
  rectangle(box, { rx: 1, 'stroke-width': changed ? 1.6 : 0.8 }) + bar(changed);

export const slot = ({ x, top, end }: Slot): string =>
  line({ x, y: top }, { x, y: end }, { 'stroke-width': 1.2, 'stroke-linecap': 'round' });

export const knob = ({ x, knob: y }: Slot): string =>
  rectangle({ x: x - 4, y: y - 2, width: 8, height: 4 }, { ...solid, rx: 1.4 });

/** Lines of levers at zero are broken: they turn nothing. */
export const driving = (drives: readonly Drive[]): string =>
  drives
    .map(({ from, to, isSet }) =>
      line(from, to, isSet ? { 'stroke-width': 1.3 } : { 'stroke-width': 0.8, 'stroke-dasharray': '1.6 2.4' }),
    )
    .join('');

export const carriageBox = (box: Box): string => rectangle(box, { rx: 2, 'stroke-width': 1.6 });

/** A drum: its edges are drawn a little inward, above and below the figure. */
export function wheelDrawn({ box, sign: minus, bar: changed }: Wheel): string {
  const { x, y, width, height } = box;
  return [
    rectangle(box, { rx: 3, 'stroke-width': changed ? 1.7 : 0.9 }),
    path(`M${n(x + 3)} ${n(y + 2.6)}h${n(width - 6)}M${n(x + 3)} ${n(y + height - 2.6)}h${n(width - 6)}`, {
      'stroke-width': 0.7,
      opacity: 0.5,
    }),
    minus ? line({ x: minus.from, y: minus.y }, { x: minus.to, y: minus.y }, { 'stroke-width': 1.5 }) : '',
    bar(changed),
  ].join('');
}

export const wedge = ({ tip, bar: moved }: Wedge): string =>
  path(`M${n(tip.x)} ${n(tip.y)}l3 5.2h-6z`, solid) + bar(moved);

export const carryLine = (carry: Level | undefined): string =>
  carry ? path(`M${n(carry.from)} ${n(carry.y + 2.5)}v-2.5H${n(carry.to)}v2.5`, { 'stroke-width': 1 }) : '';

export const railDrawn = ({ from, to, y }: Level): string =>
  path(`M${n(from)} ${n(y - 3)}v6M${n(to)} ${n(y - 3)}v6M${n(from)} ${n(y)}H${n(to)}`);

/** An arrow from where the carriage came. */
export function shifted(shift: Level | undefined): string {
  if (!shift) return '';
  const { from, to, y } = shift;
  const way = Math.sign(to - from);
  return [
    path(`M${n(from)} ${n(y - 3)}v6M${n(from)} ${n(y)}H${n(to - way * 4)}`, { 'stroke-width': 1.3 }),
    path(`M${n(to)} ${n(y)}l${n(-way * 5)} -3v6z`, solid),
  ].join('');
}

/** The position mark on the rail, with a pointer to the counter's wheel; hollow where it points to none. */
export function mark({ x, y, tip, bar: moved }: FigureLayout['mark']): string {
  const triangle = `M${n(x)} ${n(y - 7)}l4.5 7h-9z`;
  return [
    tip ? line({ x, y: y - 6 }, tip, { 'stroke-width': 1.3 }) : '',
    path(triangle, tip ? solid : { 'stroke-width': 1.1 }),
    bar(moved),
  ].join('');
}

/** A plate with a name and where that stands. */
export const sign = ({ box, middle, bar: moved }: Sign): string =>
  rectangle(box, { rx: 2.5, 'stroke-width': moved ? 1.6 : 0.9 }) +
  path(`M${n(middle)} ${n(box.y)}v${n(box.height)}`) +
  bar(moved);

/** A bell with sound on both sides. */
export const bell = ({ x, y }: Point): string =>
  [
    path(`M${n(x - 4.4)} ${n(y + 3.2)}c1.6 -1.4 1 -7.6 4.4 -7.6s2.8 6.2 4.4 7.6z`, { ...solid }),
    element('circle', { cx: x, cy: y + 4.6, r: 1.3, ...solid }),
    path(`M${n(x - 4.8)} ${n(y - 4.6)}q-1.8 2 -1.6 4.6M${n(x + 4.8)} ${n(y - 4.6)}q1.8 2 1.6 4.6`),
  ].join('');

/** Around what is about to go wrong: a broken frame, and strokes across it, thin enough to read what is below them. */
export function heeded({ x, y, width, height }: Box): string {
  const [left, top, right, bottom] = [x - 1, y - 1, x + width + 1, y + height + 1];
  const strokes: string[] = [];
  for (let at = left + top + 4.5; at < right + bottom; at += 4.5) {
    // From where the slant enters the box at its lower or left side, to where it leaves at its upper or right side.
    const [x1, y1] = at - left <= bottom ? [left, at - left] : [at - bottom, bottom];
    const [x2, y2] = at - top <= right ? [at - top, top] : [right, at - right];
    strokes.push(`M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}`);
  }
  return [
    rectangle(
      { x: left, y: top, width: right - left, height: bottom - top },
      { rx: 2.5, 'stroke-width': 2.2, 'stroke-dasharray': '4 2.2' },
    ),
    path(strokes.join(''), { 'stroke-width': 0.7, opacity: 0.55 }),
  ].join('');
}
