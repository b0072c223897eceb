/**
 * The drawing as it is printed: it may stand within a page or be a file of its own. A picture by itself says on its
 * outermost element what colour its ink is.
 */
import type { Colours } from '../colours.js';
import { escapeXml } from '../escape.js';
import type { FigureLayout } from './layout.js';
import { TYPEFACE } from './lettering.js';
import {
  type Attributes,
  bell,
  carriageBox,
  carryLine,
  driving,
  element,
  knob,
  lettered,
  mark,
  n,
  plate,
  railDrawn,
  rectangle,
  shifted,
  sign,
  slot,
  wedge,
  wheelDrawn,
  window,
} from './strokes.js';

/** Millimetres of a px at 96 to the inch. */
const MILLIMETRES = 25.4 / 96;

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

export function whole(size: Attributes, { title, description, idPrefix }: Telling, inner: string): string {
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
    driving(layout.drives),
    carriage(layout),
    mark(layout.mark),
    ...layout.signs.map(sign),
    layout.bell ? bell(layout.bell) : '',
    lettered(layout.lettering),
  ].join('');

/** The levers: a plate with a window over each slot. */
const setting = ({ body, wheels, slots }: FigureLayout): string =>
  [
    plate(body),
    ...wheels.filter(({ register }) => register === 'setting').map(window),
    ...slots.map(slot),
    ...slots.map(knob),
  ].join('');

const carriage = ({ carriage: box, shift, wheels, wedges, carry, rail }: FigureLayout): string =>
  [
    carriageBox(box),
    ...wheels.filter(({ register }) => register !== 'setting').map(wheelDrawn),
    ...wedges.map(wedge),
    carryLine(carry),
    railDrawn(rail),
    shifted(shift),
  ].join('');
