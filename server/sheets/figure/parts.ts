/**
 * The drawing for whoever points at it and sees it move: the same as in print, put together part by part, each with its
 * name and the box that it takes.
 *
 * Invariant: what is seen is what the figure shows in print, but for the marks of what is about to go wrong.
 */
import type { Register } from '../../machine/index.js';
import type { DeviceKind } from './devices.js';
import type { FigureLayout, Wedge, Wheel } from './layout.js';
import type { Box, Lettering } from './lettering.js';
import {
  bell,
  carriageBox,
  carryLine,
  driving,
  element,
  heeded,
  knob,
  lettered,
  mark,
  n,
  plate,
  railDrawn,
  shifted,
  sign,
  slot,
  wedge,
  wheelDrawn,
  window,
} from './strokes.js';
import { type Telling, whole } from './svg.js';

/** A wheel or lever by its place, a decimal marker, the carriage, a lever or button, the bell. */
export type PartName = `${Register}-${number}` | `marker-${Register}` | 'carriage' | DeviceKind | 'bell';

export interface FigurePart {
  readonly name: PartName;
  /** In the units of the drawing. */
  readonly box: Box;
}

export interface FigureInParts {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** Where the carriage begins: between two figures it has moved by the difference. */
  readonly carriageAt: number;
  /** From the top down; places from the units up. */
  readonly parts: readonly FigurePart[];
}

export function drawnInParts(
  layout: FigureLayout,
  telling: Telling,
  isHeeded: (part: PartName) => boolean,
): FigureInParts {
  const { width, height, carriage, wheels, wedges, signs } = layout;
  const parts: FigurePart[] = [];
  /** A part of the machine, with the mark of what is about to go wrong over it. */
  const part = (name: PartName, box: Box, inner: string): string => {
    parts.push({ name, box });
    return element('g', { 'data-part': name }, inner + (isHeeded(name) ? element('g', HEEDED, heeded(box)) : ''));
  };
  const ofRegister = (register: Register, draw: (wheel: Wheel) => string): string[] => [
    ...wheels
      .filter((wheel) => wheel.register === register)
      .map((wheel) => part(`${register}-${wheel.place}`, boxOf(wheel, layout), draw(wheel))),
    ...wedges
      .filter((one) => one.register === register)
      .map((one) => part(`marker-${register}`, boxOfWedge(one), wedge(one))),
  ];
  const known = new Set<Lettering>();
  const written = (all: readonly Lettering[]): string => {
    for (const one of all) known.add(one);
    return lettered(all);
  };
  const figure = (wheel: Wheel): string => {
    known.add(wheel.figureAt);
    return windowed(wheel);
  };
  const lever = (wheel: Wheel): string => {
    const own = layout.slots.find((one) => one.lever === wheel.place);
    return window(wheel) + (own ? slot(own) + element('g', { 'data-knob': '' }, knob(own)) : '') + figure(wheel);
  };
  const drum = (wheel: Wheel): string => wheelDrawn(wheel) + figure(wheel);
  const inner = [
    plate(layout.body),
    ...ofRegister('setting', lever),
    driving(layout.drives),
    element(
      'g',
      { 'data-carriage': '' },
      [
        carriageBox(carriage),
        ...ofRegister('result', drum),
        ...ofRegister('counter', drum),
        written(layout.placeNumbers),
      ].join(''),
    ),
    carryLine(layout.carry),
    railDrawn(layout.rail),
    shifted(layout.shift),
    part('carriage', boxOfMark(layout), mark(layout.mark) + written(layout.markLabel ? [layout.markLabel] : [])),
    ...signs.map((one) => {
      const drawn = sign(one) + written(one.lettering);
      return one.is ? part(one.is, one.box, drawn) : drawn;
    }),
    layout.bell ? part('bell', boxOfBell(layout.bell), bell(layout.bell) + written([layout.bell.word])) : '',
  ].join('');
  const labels = written(layout.lettering.filter((one) => !known.has(one)));
  const svg = whole({ viewBox: `0 0 ${n(width)} ${n(height)}` }, telling, inner + labels);
  return { svg, width, height, carriageAt: carriage.x, parts };
}

const HEEDED = { 'data-heeded': '' };

/** A figure in a window of its own, in which it may roll. */
function windowed({ box, figureAt }: Wheel): string {
  const { x, y, width, height } = box;
  const own = { ...figureAt, x: figureAt.x - x, y: figureAt.y - y };
  return element('svg', { x, y, width, height, 'data-figure': '' }, lettered([own]));
}

/** A wheel; of a lever the slot as well. */
function boxOf({ register, place, box }: Wheel, { slots }: FigureLayout): Box {
  const own = register === 'setting' ? slots.find(({ lever }) => lever === place) : undefined;
  return own ? { ...box, height: own.end - box.y } : box;
}

const boxOfWedge = ({ tip }: Wedge): Box => ({ x: tip.x - 4, y: tip.y - 1, width: 8, height: 8 });

/** The position mark, with what stands below it. */
function boxOfMark({ mark: { x, y }, markLabel }: FigureLayout): Box {
  const top = y - 8;
  if (!markLabel) return { x: x - 7, y: top, width: 14, height: 10 };
  const { box } = markLabel;
  const left = Math.min(box.x, x - 7) - 2;
  const right = Math.max(box.x + box.width, x + 7) + 2;
  return { x: left, y: top, width: right - left, height: box.y + box.height - top };
}

function boxOfBell({ x, y, word }: NonNullable<FigureLayout['bell']>): Box {
  return { x: x - 7, y: y - 8, width: word.box.x + word.box.width - x + 7, height: 16 };
}
