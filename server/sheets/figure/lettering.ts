/** Pieces of lettering, and how much room they take before anybody draws them. Units are px at 96 to the inch. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Lettering {
  readonly text: string;
  /** The anchor's place, and the line that the letters stand on. */
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly size: number;
  readonly isBold?: boolean;
  /** Set back: a zero that only fills the register. */
  readonly isFaint?: boolean;
  /** What it may take at most. */
  readonly box: Box;
}

/** The smallest lettering: 7.2 points. */
export const SMALL = 9.6;
/** Sans serifs that are on most machines. Widths below are those of the widest of them. */
export const TYPEFACE = "'Helvetica Neue', Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/** Widths of letters by the size of one em; what is not here is as wide as a figure. */
const WIDTHS: readonly (readonly [RegExp, number])[] = [
  [/[ijl'|]/, 0.29],
  [/[ I.,:;!()[\]/frt-]/, 0.42],
  [/[scz]/, 0.56],
  [/[mMW→—…%@]/, 1],
  [/[w−+=<>]/, 0.84],
  [/\p{Lu}/u, 0.78],
];
const FIGURE = 0.64;
/** Letters beyond Latin may be as wide as they are high. */
const BEYOND_LATIN = /[^\u0000-\u024f]/;

const widthOfLetter = (letter: string): number =>
  WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? (BEYOND_LATIN.test(letter) ? 1.05 : FIGURE);

/** Room that a line takes at the most. */
export function widthOf(text: string, size: number, isBold = false): number {
  let ems = 0;
  for (const letter of text) ems += widthOfLetter(letter);
  return ems * size * (isBold ? 1.12 : 1);
}

interface Style {
  readonly anchor?: Lettering['anchor'];
  readonly size?: number;
  readonly isBold?: boolean;
  readonly isFaint?: boolean;
}

/** A line of letters, and the box around them. */
export function lettering(text: string, x: number, y: number, style: Style = {}): Lettering {
  const { anchor = 'start', size = SMALL, isBold = false, isFaint = false } = style;
  const width = widthOf(text, size, isBold);
  const left = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
  // Capitals and figures; tails of letters hang below.
  const box = { x: left, y: y - size * 0.78, width, height: size };
  return { text, x, y, anchor, size, box, ...(isBold && { isBold }), ...(isFaint && { isFaint }) };
}
