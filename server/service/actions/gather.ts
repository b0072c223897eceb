/**
 * Turns and shifts, written as the `multiply` that stands for them.
 *
 * Invariant: what `multiply` is opened out into is what stood there, turn by turn.
 */
import type { TextEdit } from 'vscode-languageserver';
import type { NumberSyntax, Step } from '../../../grammar/tree.js';
import { openMultiply } from '../../sequence/expand.js';
import { wholeOf } from '../../sequence/readings.js';
import { stateBefore } from '../../sequence/rows.js';
import { across } from './edits.js';
import type { Scene } from './scene.js';
import { neighboursOf, rowsOfStep } from './subject.js';

/** Turns in one position that a figure can stand for. */
const MOST_TURNS = 9;

export interface Gathered {
  /** The `multiply` step. */
  readonly step: string;
  readonly edits: readonly TextEdit[];
}

/** Undefined where what is selected, or stands around the cursor, is no multiplication. */
export function gather(scene: Scene): Gathered | undefined {
  const stretch = stretchOf(scene);
  const figures = stretch && figuresOf(stretch);
  if (!figures || !isSame(scene, stretch, figures)) return undefined;
  const step = `multiply by ${figures}`;
  return { step, edits: editsFor(scene, stretch, step) };
}

/** Adjacent turns and shifts to the right, from the first turn to the last. */
function stretchOf(scene: Scene): readonly Step[] | undefined {
  const { section, selected, step, draft } = scene;
  let stretch: readonly Step[];
  if (selected.length > 0) {
    if (!selected.every((one) => isPart(one))) return undefined;
    stretch = selected;
  } else {
    if (!step || !isPart(step)) return undefined;
    const { among, at } = neighboursOf(section, step);
    const joins = (a: Step, b: Step) => isPart(a) && isPart(b) && !draft.hasProse(a.line, b.line);
    let first = at;
    let last = at;
    while (first > 0 && joins(among[first - 1], among[first])) first--;
    while (last + 1 < among.length && joins(among[last], among[last + 1])) last++;
    stretch = among.slice(first, last + 1);
  }
  const isTurn = ({ syntax }: Step) => syntax.kind === 'turn';
  const from = stretch.findIndex(isTurn);
  return from < 0 ? undefined : stretch.slice(from, stretch.findLastIndex(isTurn) + 1);
}

function isPart({ syntax }: Step): boolean {
  if (syntax.kind === 'turn') return !syntax.back && !syntax.until && syntax.count?.kind !== 'name';
  return syntax.kind === 'shift' && syntax.way === 'right' && !syntax.half && syntax.count?.kind !== 'name';
}

const countOf = ({ syntax }: Step): number => {
  const count = 'count' in syntax ? syntax.count : undefined;
  return count?.kind === 'number' ? (wholeOf(count) ?? Number.NaN) : 1;
};

/** The number that the turns make, its units first. */
function figuresOf(stretch: readonly Step[]): string | undefined {
  const figures = [0];
  for (const step of stretch) {
    const count = countOf(step);
    if (!(count >= 1 && count <= 999)) return undefined;
    if (step.syntax.kind === 'turn') figures[figures.length - 1] += count;
    else figures.push(...Array<number>(Math.min(count, 20)).fill(0));
  }
  const isNumber = figures.length >= 2 && figures.length <= 20 && figures.every((figure) => figure <= MOST_TURNS);
  return isNumber ? figures.reverse().join('') : undefined;
}

/** Whether the machine does the same, wherever it stands when it comes to it. */
function isSame({ report, draft }: Scene, stretch: readonly Step[], figures: string): boolean {
  const [first] = stretch;
  const number: NumberSyntax = { kind: 'number', text: figures, figures, isValue: false, decimals: 0, from: 0, to: 0 };
  if (!report || report.runs.length === 0 || draft.hasProse(first.line, stretch[stretch.length - 1].line)) return false;
  const wanted = merged(stretch);
  for (const run of report.runs) {
    for (const row of rowsOfStep(run, first)) {
      const machine = { state: stateBefore(run, row), profile: run.order.profile };
      const opened = openMultiply(first, number, false, machine);
      if (!('steps' in opened) || merged(opened.steps) !== wanted) return false;
    }
  }
  return true;
}

/** Steps as text, several turns or shifts in a row as one. */
function merged(steps: Iterable<Step>): string {
  const parts: { kind: string; count: number }[] = [];
  for (const step of steps) {
    const { kind } = step.syntax;
    const last = parts.at(-1);
    if (last?.kind === kind) last.count += countOf(step);
    else parts.push({ kind, count: countOf(step) });
  }
  return parts.map(({ kind, count }) => `${kind} ${count}`).join('; ');
}

/** One of the steps becomes the new one, and the others go, line by line. */
function editsFor({ draft }: Scene, stretch: readonly Step[], step: string): TextEdit[] {
  const byLine = new Map<number, Step[]>();
  for (const one of stretch) byLine.set(one.line, [...(byLine.get(one.line) ?? []), one]);
  return [...byLine].map(([line, steps], i) => {
    const at = { line, syntax: across(steps[0].syntax, steps[steps.length - 1].syntax) };
    return i === 0 ? draft.replace(at, step) : draft.remove(at);
  });
}
