/** What stands on plates beneath the machine: levers and buttons, a short tens carry, and that the bell rang. */
import { POSITION } from '../../machine/index.js';
import type { FigureData } from '../model.js';
import type { SheetWords } from '../wording/index.js';
import { carryRange, type DeviceKind, devicesOf } from './devices.js';
import { type Frame, MARGIN } from './frame.js';
import { type Box, type Lettering, lettering, type Point } from './lettering.js';

/** A plate with a name and where that stands. */
export interface Sign {
  /** What it is of; missing for that of a short tens carry. */
  readonly is?: DeviceKind;
  readonly box: Box;
  readonly lettering: readonly Lettering[];
  /** Parts its name from where it stands. */
  readonly middle: number;
  /** Under where it stands, if it was moved. */
  readonly bar?: Box;
}

/** The middle of the bell, and what is written beside it. */
export interface Bell extends Point {
  readonly word: Lettering;
}

interface Signs {
  readonly signs: readonly Sign[];
  /** All of them together. */
  readonly lettering: readonly Lettering[];
  readonly bell?: Bell;
  /** How far they come to the right, and down with the room around them. */
  readonly right: number;
  readonly end: number;
}

const HEIGHT = 15;
const GAP = 8;
/** Between rows there is room for the bar of one that was moved. */
const ROW = HEIGHT + 7;
/** A row may be so wide beneath the narrowest machine. */
const LEAST_ROOM = 300;
/** What the bell takes beside its words. */
const BELL = 17;

/** Rows of plates beneath the machine, and the bell behind them. */
export function signsOf(frame: Frame, data: FigureData, words: SheetWords): Signs {
  const { profile, after, rang } = data;
  const { figure } = words;
  const signs: Sign[] = [];
  let bell: Bell | undefined;
  let x = MARGIN;
  let y = frame.rows.devices;
  let right = 0;
  const most = Math.max(frame.right, LEAST_ROOM);
  /** Where something so wide goes; in a new row if the old one is full. */
  const room = (width: number): Point => {
    if (x > MARGIN && x + width > most) {
      x = MARGIN;
      y += ROW;
    }
    const at = { x, y };
    x += width + GAP;
    right = Math.max(right, at.x + width);
    return at;
  };
  const sign = (name: string, value: string, isMoved: boolean, is?: DeviceKind): void => {
    const nameWidth = lettering(name, 0, 0).box.width + 8;
    const valueWidth = lettering(value, 0, 0, { isBold: isMoved }).box.width + 8;
    const at = room(nameWidth + valueWidth);
    const middle = at.x + nameWidth;
    const line = at.y + HEIGHT / 2 + 3.4;
    const letters = [
      lettering(name, at.x + nameWidth / 2, line, { anchor: 'middle' }),
      lettering(value, middle + valueWidth / 2, line, { anchor: 'middle', isBold: isMoved }),
    ];
    const bar = { x: middle, y: at.y + HEIGHT + 1.8, width: valueWidth, height: 2.2 };
    const box = { ...at, width: nameWidth + valueWidth, height: HEIGHT };
    signs.push({ ...(is && { is }), box, middle, lettering: letters, ...(isMoved && { bar }) });
  };
  for (const { is, name, now, before } of devicesOf(data, words)) {
    sign(name, before === undefined ? now : `${before} → ${now}`, before !== undefined, is);
  }
  if (profile.reach !== undefined && after[POSITION] > 0) {
    const range = carryRange(profile, after[POSITION]);
    sign(figure.carry, range ? figure.carryTo(...range) : figure.carryNowhere, false);
  }
  if (rang) {
    const at = room(lettering(figure.bell, 0, 0, { isBold: true }).box.width + BELL);
    const word = lettering(figure.bell, at.x + BELL, at.y + HEIGHT / 2 + 3.4, { isBold: true });
    bell = { x: at.x + 7, y: at.y + HEIGHT / 2, word };
  }
  const letters = [...signs.flatMap((one) => one.lettering), ...(bell ? [bell.word] : [])];
  const isEmpty = letters.length === 0;
  return { signs, lettering: letters, ...(bell && { bell }), right, end: isEmpty ? y - 1 : y + HEIGHT + 4 };
}
