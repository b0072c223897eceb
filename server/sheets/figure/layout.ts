/**
 * The register figure as plain data: where everything stands, and what it is. Units are px at 96 to the inch.
 *
 * The levers stand still and the carriage moves beneath them, as on the machine: in position p lever i is over place
 * p + i − 1 of the result, and a mark below the carriage points to the counter's place p.
 */
import { POSITION, type Profile, pointOf, type Register } from '../../machine/index.js';
import type { FigureData } from '../model.js';
import type { SheetWords } from '../wording/index.js';
import { carryRange, placesRight, registersOf } from './devices.js';
import { BELOW_WHEEL, type Frame, frameOf, MARGIN, RIM } from './frame.js';
import { type Box, type Lettering, lettering, type Point, SMALL } from './lettering.js';
import { type Shown, shownOf } from './shown.js';
import { type Bell, type Sign, signsOf } from './signs.js';

/** A level line. */
export interface Level {
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

/** A wheel, or the window of a lever. */
export interface Wheel extends Shown {
  readonly box: Box;
  readonly figureAt: Lettering;
  /** The sign of a negative figure. */
  readonly sign?: Level;
  /** Under a figure that has changed. */
  readonly bar?: Box;
}

export interface Slot {
  readonly lever: number;
  readonly x: number;
  readonly top: number;
  readonly end: number;
  /** Where the lever stands in its slot: 0 at the top, 9 at the end. */
  readonly knob: number;
}

/** From a lever to the result wheel that it drives. */
export interface Drive {
  readonly lever: number;
  readonly place: number;
  readonly from: Point;
  readonly to: Point;
  /** The lever is not at zero. */
  readonly isSet: boolean;
}

/** A decimal marker; its tip stands between two wheels. */
export interface Wedge {
  readonly register: Register;
  readonly decimals: number;
  readonly tip: Point;
  /** Under one that was moved. */
  readonly bar?: Box;
}

export interface FigureLayout {
  readonly width: number;
  readonly height: number;
  readonly body: Box;
  readonly carriage: Box;
  /** What the carriage runs on. */
  readonly rail: Level;
  /** From where an end of the carriage was before it was shifted, to where it is. */
  readonly shift?: Level;
  readonly wheels: readonly Wheel[];
  readonly slots: readonly Slot[];
  readonly drives: readonly Drive[];
  readonly wedges: readonly Wedge[];
  /** Above the wheels that a short tens carry comes to. */
  readonly carry?: Level;
  /** The position mark, and where it points to: nowhere out of gear, or where the counter has no such place. */
  readonly mark: Point & { readonly tip?: Point; readonly bar?: Box };
  readonly signs: readonly Sign[];
  /** The bell, if it rang. */
  readonly bell?: Bell;
  /** Numbers of places below the wheels of the carriage. */
  readonly placeNumbers: readonly Lettering[];
  /** What stands below the position mark. */
  readonly markLabel?: Lettering;
  /** All lettering, that of the wheels too. */
  readonly lettering: readonly Lettering[];
}

/** Draws up the figure of a machine as it stands afterwards, with what has changed. */
export function layoutOf(data: FigureData, words: SheetWords): FigureLayout {
  const { profile, after } = data;
  const frame = frameOf(profile, words);
  const { rows } = frame;
  const place = placer(frame, placesRight(profile, after));
  const wheels = registersOf(profile).flatMap((register) =>
    shownOf(data, register).map((shown) => wheelAt(frame, place(register, shown.place), shown)),
  );
  const labels = registersOf(profile).flatMap((register) => namesOf(frame, register, words));
  const leverNumbers = placeNumbers(profile.setting, (i) => ({ x: place('setting', i).x, y: rows.leverNumbers + 8.5 }));
  const wheelNumbers = placeNumbers(Math.max(profile.result, profile.counter), (i) => ({
    x: place('result', i).x,
    y: rows.placeNumbers + 8,
  }));
  const below = signsOf(frame, data, words);
  const position = positionOf(frame, data, words);
  const inTheGap = after[POSITION] === 0 ? outOfGear(frame, profile, words) : undefined;
  const said = [position, inTheGap].flatMap((line) => line ?? []);
  const width = Math.max(frame.right, below.right, ...said.map(({ box }) => MARGIN + box.width)) + MARGIN;
  const placed = said.map((line) => clampedTo(width, line));
  const carriage = carriageBox(frame, profile, placesRight(profile, after));
  const shift = shiftOf(frame, data, carriage);
  const carry = carryLine(frame, profile, after[POSITION], place);
  return {
    width,
    height: below.end + MARGIN,
    body: bodyBox(frame, profile),
    carriage,
    rail: { from: frame.left, to: frame.right, y: rows.rail },
    ...(shift && { shift }),
    wheels,
    slots: wheels
      .filter(({ register }) => register === 'setting')
      .map(({ place: lever, figure }) => ({
        lever,
        x: place('setting', lever).x,
        top: rows.slots,
        end: rows.slotEnd,
        knob: rows.slots + 2 + (figure / 9) * (rows.slotEnd - rows.slots - 4),
      })),
    drives: after[POSITION] === 0 ? [] : drivesOf(frame, profile, wheels, place, after[POSITION]),
    wedges: registersOf(profile).flatMap((register) => wedgeOf(frame, data, register, place)),
    ...(carry && { carry }),
    mark: markOf(frame, data, wheels, place, position && placed[0]),
    signs: below.signs,
    ...(below.bell && { bell: below.bell }),
    placeNumbers: wheelNumbers,
    ...(position && { markLabel: placed[0] }),
    lettering: [
      ...wheels.map(({ figureAt }) => figureAt),
      ...labels,
      ...leverNumbers,
      ...wheelNumbers,
      ...placed,
      ...below.lettering,
    ],
  };
}

type Placer = (register: Register, place: number) => Point;

/** The middle of a place's column, and the upper end of its wheel. */
function placer(frame: Frame, right: number): Placer {
  const { leverOne, pitch, rows } = frame;
  const top = { setting: rows.windows, counter: rows.counter, result: rows.result };
  return (register, place) => ({
    x: leverOne + (register === 'setting' ? 1 - place : right + 1 - place) * pitch,
    y: top[register],
  });
}

function wheelAt(frame: Frame, { x, y }: Point, shown: Shown): Wheel {
  const { wheelWidth, wheelHeight, figureSize } = frame;
  const box = { x: x - wheelWidth / 2, y, width: wheelWidth, height: wheelHeight };
  const edge = Math.min(1.7, wheelWidth * 0.1);
  const minus = Math.min(4, wheelWidth * 0.27);
  const middle = shown.isNegative ? x + (minus + 0.8) / 2 : x;
  const figureAt = lettering(String(shown.figure), middle, y + wheelHeight / 2 + figureSize * 0.36, {
    anchor: 'middle',
    size: figureSize,
    isBold: shown.isChanged,
    isFaint: shown.isFiller,
  });
  return {
    ...shown,
    box,
    figureAt,
    ...(shown.isNegative && { sign: { from: box.x + edge, to: box.x + edge + minus, y: y + wheelHeight / 2 } }),
    ...(shown.isChanged && { bar: { x: box.x + 2.6, y: y + wheelHeight + 2.2, width: wheelWidth - 5.2, height: 2.8 } }),
  };
}

/** A register's name beside its row. */
function namesOf(frame: Frame, register: Register, words: SheetWords): Lettering[] {
  const lines = words.figure.registers[register];
  const { windows, counter, result } = frame.rows;
  const middle = { setting: windows, counter, result }[register] + frame.wheelHeight / 2;
  const first = middle + SMALL * 0.34 - ((lines.length - 1) * 11) / 2;
  return lines.map((line, i) => lettering(line, MARGIN, first + i * 11));
}

/** Numbers of places 1, 5, 10, … */
const placeNumbers = (places: number, at: (place: number) => Point): Lettering[] =>
  Array.from({ length: places }, (_, i) => i + 1)
    .filter((place) => place === 1 || place % 5 === 0)
    .map((place) => lettering(String(place), at(place).x, at(place).y, { anchor: 'middle' }));

function bodyBox({ leverOne, pitch, rows }: Frame, { setting }: Profile): Box {
  const x = leverOne - (setting - 0.5) * pitch - RIM;
  return { x, y: rows.body, width: setting * pitch + 2 * RIM, height: rows.bodyEnd - rows.body };
}

function carriageBox({ leverOne, pitch, rows }: Frame, { result, counter }: Profile, right: number): Box {
  const places = Math.max(result, counter);
  const x = leverOne + (right + 0.5 - places) * pitch - RIM;
  return { x, y: rows.carriage, width: places * pitch + 2 * RIM, height: rows.carriageEnd - rows.carriage };
}

/** Along the rail, at the end that does not come near the position mark. */
function shiftOf(frame: Frame, { profile, before, after }: FigureData, now: Box): Level | undefined {
  const then = carriageBox(frame, profile, placesRight(profile, before));
  if (then.x === now.x) return undefined;
  const isParking = before[POSITION] === 0 || after[POSITION] === 0;
  const end = isParking ? 0 : now.width;
  return { from: then.x + end, to: now.x + end, y: frame.rows.rail - 4.5 };
}

function drivesOf(
  { rows }: Frame,
  { result }: Profile,
  wheels: readonly Wheel[],
  place: Placer,
  position: number,
): Drive[] {
  return wheels
    .filter((wheel) => wheel.register === 'setting' && position + wheel.place - 1 <= result)
    .map(({ place: lever, figure }) => {
      const driven = position + lever - 1;
      const from = { x: place('setting', lever).x, y: rows.slotEnd };
      return { lever, place: driven, from, to: place('result', driven), isSet: figure > 0 };
    });
}

function wedgeOf(frame: Frame, { before, after }: FigureData, register: Register, place: Placer): Wedge[] {
  const decimals = pointOf(after, register);
  if (decimals === 0) return [];
  const { x, y } = place(register, decimals);
  const tip = { x: x - frame.pitch / 2, y: y + frame.wheelHeight + 0.5 };
  const isMoved = pointOf(before, register) !== decimals;
  const bar = { x: tip.x - 3.5, y: tip.y + BELOW_WHEEL - 2.3, width: 7, height: 1.6 };
  return [{ register, decimals, tip, ...(isMoved && { bar }) }];
}

function carryLine(frame: Frame, profile: Profile, position: number, place: Placer): Level | undefined {
  const range = profile.reach === undefined ? undefined : carryRange(profile, position);
  if (!range) return undefined;
  const half = frame.wheelWidth / 2;
  return { from: place('result', range[1]).x - half, to: place('result', range[0]).x + half, y: frame.rows.reach };
}

/** The words in the gap above a carriage that nothing drives. */
const outOfGear = ({ leverOne, pitch, rows }: Frame, { setting }: Profile, words: SheetWords): Lettering =>
  lettering(words.figure.outOfGear, leverOne - ((setting - 1) / 2) * pitch, (rows.bodyEnd + rows.carriage) / 2 + 3.4, {
    anchor: 'middle',
    isBold: true,
  });

/** What stands beneath the position mark; nothing where it has been said in the gap that the carriage is out of gear. */
function positionOf(
  { leverOne, rows }: Frame,
  { before, after }: FigureData,
  { figure }: SheetWords,
): Lettering | undefined {
  const [from, to] = [before[POSITION], after[POSITION]];
  if (from === to && to === 0) return undefined;
  const text = from === to ? figure.position(to) : figure.moved(from, to);
  return lettering(text, leverOne, rows.position + 8.5, { anchor: 'middle', isBold: from !== to });
}

/** The same, within the figure. */
function clampedTo(width: number, { box, ...rest }: Lettering): Lettering {
  const x = Math.max(MARGIN, Math.min(box.x, width - MARGIN - box.width));
  return { ...rest, x: rest.x + x - box.x, box: { ...box, x } };
}

function markOf(
  { leverOne, rows }: Frame,
  { profile, before, after }: FigureData,
  wheels: readonly Wheel[],
  place: Placer,
  label: Lettering | undefined,
): FigureLayout['mark'] {
  const position = after[POSITION];
  const counting = wheels.find((wheel) => wheel.register === 'counter' && wheel.place === position);
  const isDriven = position > 0 && (counting !== undefined || profile.counter === 0);
  const isMoved = before[POSITION] !== position;
  const box = label?.box;
  return {
    x: leverOne,
    y: rows.rail,
    ...(isDriven && {
      tip: { x: place('result', position).x, y: counting ? undersideOf(counting) : rows.carriageEnd },
    }),
    ...(isMoved && box && { bar: { x: box.x, y: box.y + box.height + 0.6, width: box.width, height: 1.8 } }),
  };
}

/** Where a line from below ends at a wheel. */
const undersideOf = ({ box, bar }: Wheel): number => (bar ? bar.y + bar.height : box.y + box.height) + 0.4;
