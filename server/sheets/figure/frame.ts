/** Where columns and rows of a machine's figure lie. All figures of one machine have the same frame. */
import { hasHalfSteps, hasSignedWheels, leftmost, type Profile } from '../../machine/index.js';
import type { SheetWords } from '../wording/index.js';
import { registersOf } from './devices.js';
import { SMALL, widthOf } from './lettering.js';

/** 17 cm at 96 px to the inch: what a page has room for. */
export const PAGE_WIDTH = 642;
/** Around everything. */
export const MARGIN = 3;
/** From the outermost wheels to the edge of what holds them. */
export const RIM = 4;

const WIDEST_PITCH = 18;
/** Where there must be room for a sign beside a figure. */
const WIDEST_SIGNED_PITCH = 20;
const SMALLEST_FIGURE = 9.4;

/** Room below a wheel for the bar under a changed figure and for decimal markers. */
export const BELOW_WHEEL = 9;

export interface Frame {
  /** From one column to the next. */
  readonly pitch: number;
  /** The middle of lever 1, which stays where it is. */
  readonly leverOne: number;
  /** The carriage runs from here to there at the most. */
  readonly left: number;
  readonly right: number;
  readonly wheelWidth: number;
  readonly wheelHeight: number;
  /** Height of the letters of a figure. */
  readonly figureSize: number;
  readonly rows: Rows;
}

/** Upper ends of rows, from the top down. */
interface Rows {
  readonly leverNumbers: number;
  readonly body: number;
  readonly windows: number;
  readonly slots: number;
  readonly slotEnd: number;
  readonly bodyEnd: number;
  readonly carriage: number;
  readonly reach: number;
  readonly result: number;
  readonly placeNumbers: number;
  readonly counter: number;
  readonly carriageEnd: number;
  readonly rail: number;
  readonly position: number;
  readonly devices: number;
}

/**
 * Columns as far as the carriage can come, so that the levers stand in the same place in every figure and it is the
 * carriage that moves. They are narrower where all of that would not fit a page.
 */
export function frameOf(profile: Profile, words: SheetWords): Frame {
  const places = Math.max(profile.result, profile.counter, profile.setting);
  const isHalf = hasHalfSteps(profile);
  // Automatic division runs out of gear on any machine.
  const outOfGear = isHalf ? 0.5 : leftmost(profile) === 0 || profile.autoDivide ? 1 : 0;
  const leftColumns = places - 0.5 + outOfGear;
  const rightColumns = profile.carriage - 0.5 + (isHalf ? 0.5 : 0);
  const names = registersOf(profile).flatMap((register) => words.figure.registers[register]);
  const gutter = MARGIN + Math.max(...names.map((name) => widthOf(name, SMALL))) + 6;
  const room = PAGE_WIDTH - gutter - 2 * RIM - MARGIN;
  const isSigned = hasSignedWheels(profile, 'counter');
  const pitch = Math.min(isSigned ? WIDEST_SIGNED_PITCH : WIDEST_PITCH, room / (leftColumns + rightColumns));
  const leverOne = gutter + RIM + leftColumns * pitch;
  const wheelWidth = pitch - 2;
  const wheelHeight = 20;
  const figureSize = Math.max(SMALLEST_FIGURE, Math.min(14, (wheelWidth - (isSigned ? 7.6 : 1.5)) / 0.72));
  return {
    pitch,
    leverOne,
    left: gutter,
    right: leverOne + rightColumns * pitch + RIM,
    wheelWidth,
    wheelHeight,
    figureSize,
    rows: rowsOf(profile, wheelHeight),
  };
}

function rowsOf(profile: Profile, wheelHeight: number): Rows {
  const leverNumbers = MARGIN;
  const body = leverNumbers + 11;
  const windows = body + RIM;
  const slots = windows + wheelHeight + BELOW_WHEEL;
  const slotEnd = slots + 18;
  const bodyEnd = slotEnd + RIM;
  const carriage = bodyEnd + 15;
  const reach = carriage + 4.5;
  const result = profile.reach === undefined ? carriage + RIM : reach + 4.5;
  const placeNumbers = result + wheelHeight + BELOW_WHEEL;
  const counter = placeNumbers + 11;
  const carriageEnd = profile.counter > 0 ? counter + wheelHeight + BELOW_WHEEL + 1 : counter + 1;
  const rail = carriageEnd + 10;
  const position = rail + 3;
  const devices = position + 17;
  return {
    leverNumbers,
    body,
    windows,
    slots,
    slotEnd,
    bodyEnd,
    carriage,
    reach,
    result,
    placeNumbers,
    counter,
    carriageEnd,
    rail,
    position,
    devices,
  };
}
