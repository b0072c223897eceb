/**
 * Figures of a register: up to 20 decimal places, held in three whole numbers of seven figures each.
 *
 * Places are numbered from the right, place 1 the units. All functions work on figures inside an array, beginning at
 * an offset, lowest seven first, and make no new objects, since a run takes millions of turns.
 *
 * Invariant: nothing here is floating point. Three limbs hold 21 places, so that a register of 20 and what is added to
 * it never leave them before the carry out of the top has been seen.
 */

export const LIMBS = 3;
/** The most places that a register may have. */
export const MOST_PLACES = 20;

const LIMB_PLACES = 7;
const BASE = 10_000_000;
const POWERS = [1, 10, 100, 1_000, 10_000, 100_000, 1_000_000];

export type Figures = Int32Array;

/** Limb and power of ten in which a place's figure counts. */
const limbOf = (place: number): number => ((place - 1) / LIMB_PLACES) | 0;
const powerOf = (place: number): number => POWERS[(place - 1) % LIMB_PLACES];

/** The figure 0…9 in a place 1…21. */
export function figureAt(figures: Figures, at: number, place: number): number {
  return ((figures[at + limbOf(place)] / powerOf(place)) | 0) % 10;
}

/** Puts a figure 0…9 into a place 1…21. */
export function putFigure(figures: Figures, at: number, place: number, figure: number): void {
  figures[at + limbOf(place)] += (figure - figureAt(figures, at, place)) * powerOf(place);
}

export const isZero = (figures: Figures, at: number): boolean =>
  figures[at] === 0 && figures[at + 1] === 0 && figures[at + 2] === 0;

export function setZero(figures: Figures, at: number): void {
  figures[at] = 0;
  figures[at + 1] = 0;
  figures[at + 2] = 0;
}

/** Whether any place above `places` (0…20) shows something else than 0. */
export function exceeds(figures: Figures, at: number, places: number): boolean {
  const limb = limbOf(places + 1);
  if (figures[at + limb] >= powerOf(places + 1)) return true;
  for (let i = limb + 1; i < LIMBS; i++) if (figures[at + i] !== 0) return true;
  return false;
}

/** Sets every place above `places` (0…20) to 0. */
export function cutAbove(figures: Figures, at: number, places: number): void {
  const limb = limbOf(places + 1);
  figures[at + limb] %= powerOf(places + 1);
  for (let i = limb + 1; i < LIMBS; i++) figures[at + i] = 0;
}

/** Writes `from`, moved up by so many places, to `into`; what passes place 21 is lost. */
export function moveUp(from: Figures, at: number, places: number, into: Figures): void {
  const limbs = (places / LIMB_PLACES) | 0;
  const up = POWERS[places % LIMB_PLACES];
  const split = BASE / up;
  let lower = 0;
  for (let i = 0; i < LIMBS; i++) {
    const limb = i < limbs ? 0 : from[at + i - limbs];
    into[i] = (limb % split) * up + lower;
    lower = (limb / split) | 0;
  }
}

/**
 * Adds figures to a register in which the carry goes no further than place `top` (1…20): what is due from there is
 * taken off. Returns whether a carry was due out of `top`. Places above it stay as they are.
 */
export function add(register: Figures, at: number, addend: Figures, top: number): boolean {
  const limb = limbOf(top + 1);
  const power = powerOf(top + 1);
  const above = limb === 2 ? 0 : liftAbove(register, at, limb);
  const own = (register[at + limb] / power) | 0;
  register[at + limb] -= own * power;
  sum(register, at, addend, 1);
  const carries = register[at + limb] >= power;
  if (carries) register[at + limb] -= power;
  register[at + limb] += own * power;
  if (above) putBack(register, at, limb);
  return carries;
}

/** Subtracts likewise; returns whether a borrow was due out of `top`. */
export function subtract(register: Figures, at: number, addend: Figures, top: number): boolean {
  const limb = limbOf(top + 1);
  const power = powerOf(top + 1);
  const above = limb === 2 ? 0 : liftAbove(register, at, limb);
  const own = (register[at + limb] / power) | 0;
  // One is lent to the place above `top` beforehand: if it is gone afterwards, a borrow was due.
  register[at + limb] += (1 - own) * power;
  sum(register, at, addend, -1);
  const borrows = register[at + limb] < power;
  if (!borrows) register[at + limb] -= power;
  register[at + limb] += own * power;
  if (above) putBack(register, at, limb);
  return borrows;
}

/*
 * Places above the limb of `top` are put aside while the lower ones are summed, for nothing may carry into them.
 */
const aside = new Int32Array(LIMBS);
function liftAbove(register: Figures, at: number, limb: number): number {
  let any = 0;
  for (let i = limb + 1; i < LIMBS; i++) {
    aside[i] = register[at + i];
    any |= aside[i];
    register[at + i] = 0;
  }
  return any;
}
function putBack(register: Figures, at: number, limb: number): void {
  for (let i = limb + 1; i < LIMBS; i++) register[at + i] += aside[i];
}

function sum(register: Figures, at: number, addend: Figures, sign: 1 | -1): void {
  let low = register[at] + sign * addend[0];
  let middle = register[at + 1] + sign * addend[1];
  let high = register[at + 2] + sign * addend[2];
  if (low >= BASE) {
    low -= BASE;
    middle++;
  } else if (low < 0) {
    low += BASE;
    middle--;
  }
  if (middle >= BASE) {
    middle -= BASE;
    high++;
  } else if (middle < 0) {
    middle += BASE;
    high--;
  }
  register[at] = low;
  register[at + 1] = middle;
  register[at + 2] = high;
}

/** The figures as text, highest place first, as many as places. */
export function toText(figures: Figures, at: number, places: number): string {
  const pad = (i: number) => String(figures[at + i]).padStart(LIMB_PLACES, '0');
  return places === 0 ? '' : (pad(2) + pad(1) + pad(0)).slice(-places);
}

/** Reads digits, highest place first, at most 21 of them. */
export function fromText(figures: Figures, at: number, digits: string): void {
  const all = digits.padStart(LIMBS * LIMB_PLACES, '0');
  for (let i = 0; i < LIMBS; i++) {
    const end = all.length - i * LIMB_PLACES;
    figures[at + i] = Number(all.slice(end - LIMB_PLACES, end));
  }
}
