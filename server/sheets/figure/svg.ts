/**
 * The drawing. Only presentation attributes, no style sheet, no script and nothing from outside: it may stand within a
 * page or be a file of its own.
 *
 * Invariant: every colour is `currentColor` or `none`, so that the figure is as legible as the page's own text on paper
 * and on a dark screen alike; what has changed is told apart by weight and a bar. A picture by itself says on its
 * outermost element what colour that is.
 */
import type { Colours } from '../colours.js';
import { escapeXml } from '../escape.js';
import type { FigureLayout, Level, Wheel } from './layout.js';
import { type Box, type Lettering, type Point, TYPEFACE } from './lettering.js';
import type { Sign } from './signs.js';

/** Millimetres of a px at 96 to the inch. */
const MILLIMETRES = 25.4 / 96;

/** Two decimals are finer than any printer. */
const n = (value: number): string => String(Math.round(value * 100) / 100);

type Attributes = Readonly<Record<string, string | number>>;

function element(name: string, attributes: Attributes, inner?: string): string {
  const written = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${typeof value === 'number' ? n(value) : escapeXml(value)}"`,
  );
  return inner === undefined ? `<${name}${written.join('')}/>` : `<${name}${written.join('')}>${inner}</${name}>`;
}

const path = (d: string, attributes: Attributes = {}): string => element('path', { d, ...attributes });
const line = (from: Point, to: Point, attributes: Attributes = {}): string =>
  path(`M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}`, attributes);
const rectangle = ({ x, y, width, height }: Box, attributes: Attributes = {}): string =>
  element('rect', { x, y, width, height, ...attributes });
const solid = { fill: 'currentColor', stroke: 'none' };
const bar = (box: Box | undefined): string => (box ? rectangle(box, { ...solid, rx: 0.6 }) : '');

const PEN = { fill: 'none', stroke: 'currentColor', 'stroke-width': 0.9, 'font-family': TYPEFACE };

/** What is told of the figure without seeing it, and where its ids begin. */
export interface Telling {
  readonly title: string;
  readonly description: string;
  readonly idPrefix?: string;
}

export function drawn(layout: FigureLayout, telling: Telling): string {
  const viewBox = `0 0 ${n(layout.width)} ${n(layout.height)}`;
  return whole({ viewBox, width: `${n(layout.width * MILLIMETRES)}mm` }, telling, strokes(layout));
}

/** Around a drawing that has a ground of its own. */
const EDGE = 5;

/** The drawing as a picture, in whole px. */
export function pictured(
  layout: FigureLayout,
  { ink, ground }: Colours,
  telling: Telling,
): { svg: string; width: number; height: number } {
  const width = Math.ceil(layout.width + 2 * EDGE);
  const height = Math.ceil(layout.height + 2 * EDGE);
  const viewBox = `${-EDGE} ${-EDGE} ${width} ${height}`;
  const paper = rectangle(
    { x: 0.5 - EDGE, y: 0.5 - EDGE, width: width - 1, height: height - 1 },
    { rx: 4, fill: ground, 'stroke-width': 1, 'stroke-opacity': 0.3 },
  );
  return { svg: whole({ viewBox, width, height, color: ink }, telling, paper + strokes(layout)), width, height };
}

function whole(size: Attributes, { title, description, idPrefix }: Telling, inner: string): string {
  const id = idPrefix?.replace(/[^\w-]/g, '-');
  const named = id === undefined ? {} : { 'aria-labelledby': `${id}-title`, 'aria-describedby': `${id}-desc` };
  const told =
    element('title', id === undefined ? {} : { id: `${id}-title` }, escapeXml(title)) +
    element('desc', id === undefined ? {} : { id: `${id}-desc` }, escapeXml(description));
  return element('svg', { xmlns: 'http://www.w3.org/2000/svg', role: 'img', ...named, ...size, ...PEN }, told + inner);
}

const strokes = (layout: FigureLayout): string =>
  [
    setting(layout),
    driving(layout),
    carriage(layout),
    mark(layout),
    ...layout.signs.map(sign),
    layout.bell ? bell(layout.bell) : '',
    element('g', { ...solid }, layout.lettering.map(letters).join('')),
  ].join('');

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

/** The levers: a plate with a window over each slot. */
function setting({ body, wheels, slots }: FigureLayout): string {
  const windows = wheels.filter(({ register }) => register === 'setting');
  const knobs = slots.map(({ x, knob }) =>
    rectangle({ x: x - 4, y: knob - 2, width: 8, height: 4 }, { ...solid, rx: 1.4 }),
  );
  return [
    rectangle(body, { rx: 5 }),
    ...windows.map(
      (window) => rectangle(window.box, { rx: 1, 'stroke-width': window.bar ? 1.6 : 0.8 }) + bar(window.bar),
    ),
    ...slots.map(({ x, top, end }) =>
      line({ x, y: top }, { x, y: end }, { 'stroke-width': 1.2, 'stroke-linecap': 'round' }),
    ),
    ...knobs,
  ].join('');
}

/** Lines of levers at zero are broken: they turn nothing. */
const driving = ({ drives }: FigureLayout): string =>
  drives
    .map(({ from, to, isSet }) =>
      line(from, to, isSet ? { 'stroke-width': 1.3 } : { 'stroke-width': 0.8, 'stroke-dasharray': '1.6 2.4' }),
    )
    .join('');

function carriage({ carriage: box, shift, wheels, wedges, carry, rail }: FigureLayout): string {
  return [
    rectangle(box, { rx: 2, 'stroke-width': 1.6 }),
    ...wheels.filter(({ register }) => register !== 'setting').map(wheelDrawn),
    ...wedges.map(({ tip, bar: moved }) => {
      return path(`M${n(tip.x)} ${n(tip.y)}l3 5.2h-6z`, solid) + bar(moved);
    }),
    carry ? path(`M${n(carry.from)} ${n(carry.y + 2.5)}v-2.5H${n(carry.to)}v2.5`, { 'stroke-width': 1 }) : '',
    path(
      `M${n(rail.from)} ${n(rail.y - 3)}v6M${n(rail.to)} ${n(rail.y - 3)}v6M${n(rail.from)} ${n(rail.y)}H${n(rail.to)}`,
    ),
    shift ? shifted(shift) : '',
  ].join('');
}

/** A drum: its edges are drawn a little inward, above and below the figure. */
function wheelDrawn({ box, sign: minus, bar: changed }: Wheel): string {
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

/** An arrow from where the carriage came. */
function shifted({ from, to, y }: Level): string {
  const way = Math.sign(to - from);
  return [
    path(`M${n(from)} ${n(y - 3)}v6M${n(from)} ${n(y)}H${n(to - way * 4)}`, { 'stroke-width': 1.3 }),
    path(`M${n(to)} ${n(y)}l${n(-way * 5)} -3v6z`, solid),
  ].join('');
}

/** The position mark on the rail, with a pointer to the counter's wheel; hollow where it points to none. */
function mark({ mark: { x, y, tip, bar: moved } }: FigureLayout): string {
  const triangle = `M${n(x)} ${n(y - 7)}l4.5 7h-9z`;
  return [
    tip ? line({ x, y: y - 6 }, tip, { 'stroke-width': 1.3 }) : '',
    path(triangle, tip ? solid : { 'stroke-width': 1.1 }),
    bar(moved),
  ].join('');
}

/** A plate with a name and where that stands. */
const sign = ({ box, middle, bar: moved }: Sign): string =>
  rectangle(box, { rx: 2.5, 'stroke-width': moved ? 1.6 : 0.9 }) +
  path(`M${n(middle)} ${n(box.y)}v${n(box.height)}`) +
  bar(moved);

/** A bell with sound on both sides. */
const bell = ({ x, y }: Point): string =>
  [
    path(`M${n(x - 4.4)} ${n(y + 3.2)}c1.6 -1.4 1 -7.6 4.4 -7.6s2.8 6.2 4.4 7.6z`, { ...solid }),
    element('circle', { cx: x, cy: y + 4.6, r: 1.3, ...solid }),
    path(`M${n(x - 4.8)} ${n(y - 4.6)}q-1.8 2 -1.6 4.6M${n(x + 4.8)} ${n(y - 4.6)}q1.8 2 1.6 4.6`),
  ].join('');
