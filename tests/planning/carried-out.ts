/** Planned lines, written out as a sequence and carried out on the machine that they were planned for. */

import type { Profile } from '../../server/machine/index.js';
import type { PlannedLine } from '../../server/planning/order.js';
import { Library } from '../../server/sequence/library.js';
import { type TracedSequence, traceOf } from '../../server/sequence/trace.js';
import { profileOf as profileIn } from './planned.js';

/** A machine by its lines, as `machine` sections have them. */
export const profileOf = (machine: readonly string[]): Profile =>
  profileIn(['machine desk', ...machine, ''].join('\n'));

/** Lines that may have remarks of other kinds than a plan for an expression. */
export type Line = PlannedLine | { readonly remark: { readonly is: string } };

export interface CarriedOut {
  readonly traced: TracedSequence;
  /** Everything found, hints as well, as `line: code: message`. */
  readonly found: readonly string[];
  readonly text: string;
}

/** The sequence of the lines, with its goals; remarks become notes. */
export function carryOut(
  machine: readonly string[],
  lines: readonly Line[],
  goals: readonly { readonly register: string; readonly expression: string }[],
): CarriedOut {
  const text = [
    'machine desk',
    ...machine,
    'sequence planned on desk',
    ...goals.map(({ register, expression }) => `goal ${register} = ${expression}`),
    ...lines.map((line) => ('step' in line ? line.step : `note "${line.remark.is}"`)),
    '',
  ].join('\n');
  const library = new Library();
  library.set('planned.crank', text);
  const { sequences, findings } = traceOf(library, library.check('planned.crank'));
  const written = text.split('\n');
  const found = findings.map(({ line, code, message }) => `${line} ${written[line - 1].trim()}: ${code}: ${message}`);
  return { traced: sequences[0], found, text };
}

/** The steps alone. */
export const stepsOf = (lines: readonly Line[]): string[] =>
  lines.flatMap((line) => ('step' in line ? [line.step] : []));
