/** Single steps, made for a step that stands for them. They stand on its line and have no columns of their own. */
import type { NumberSyntax, Step, StepSyntax } from '../../grammar/tree.js';

const NOWHERE = { from: 0, to: 0 } as const;

const made = (at: Step, syntax: StepSyntax): Step => ({ line: at.line, syntax });

/** So many turns, 0 or more. */
export const turnStep = (at: Step, back: boolean, times: number): Step =>
  made(at, { kind: 'turn', back, ...(times !== 1 && { count: numberSyntax(times) }), ...NOWHERE });

export const turnUntil = (at: Step, back: boolean, until: 'overdraw' | 'stop'): Step =>
  made(at, { kind: 'turn', back, until, ...NOWHERE });

/** So many whole positions, 0 or more. */
export const shiftStep = (at: Step, way: 'right' | 'left', positions: number): Step =>
  made(at, { kind: 'shift', way, half: false, ...(positions !== 1 && { count: numberSyntax(positions) }), ...NOWHERE });

export const halfShiftStep = (at: Step, way: 'right' | 'left'): Step =>
  made(at, { kind: 'shift', way, half: true, ...NOWHERE });

export const modeStep = (at: Step, subtracting: boolean): Step =>
  made(at, { kind: 'mode', drive: subtracting ? 'subtract' : 'add', ...NOWHERE });

export const countStep = (at: Step, minus: boolean): Step =>
  made(at, { kind: 'count', sense: minus ? 'minus' : 'plus', ...NOWHERE });

/** A number as a digit string. */
export const numberSyntax = (n: number): NumberSyntax => ({
  kind: 'number',
  text: String(n),
  figures: String(n),
  isValue: false,
  decimals: 0,
  ...NOWHERE,
});
