/** What the readings of a bench sheet prove: for each the faults that it would be the first to show, by what they are of. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Fault } from '../machine/index.js';
import { type Coverage, coverageOf } from '../proving/coverage.js';
import { unproved } from '../proving/script.js';
import type { CaseRun } from '../sequence/check.js';
import type { Block, Cell } from './model.js';
import type { Told, ToldStep } from './told.js';
import type { SheetWords } from './wording/index.js';

/** Faults that are told together: of one kind, register and direction. */
export interface Proved {
  readonly of: Fault;
  /** Ascending, each once; none of what has no places. */
  readonly places: readonly number[];
}

/** A heading with a table; nothing where nobody reads anything, or where it would take too long to find out. */
export function* provesBlocks(run: CaseRun, course: readonly Told[], words: SheetWords): Gradual<Block[]> {
  if (unproved({ profile: run.order.profile, runs: [run] })) return [];
  const { bench } = words;
  const coverage = yield* coverageOf([run]);
  const rows = [...caughtBy(coverage, course)].map(([step, faults]): Cell[] => {
    const labels = [...new Set(step.readings.flatMap(({ label }) => label ?? []))];
    return [[step.number], [labels.join(', ')], [`${together(faults).map(bench.proved).join('; ')}.`]];
  });
  return [
    { is: 'heading', level: 2, text: [bench.proves] },
    { is: 'paragraph', text: [bench.provesHow(coverage.total)] },
    ...(rows.length === 0
      ? []
      : [{ is: 'table', caption: '', columns: bench.provesColumns.map((head) => ({ head })), rows } as const]),
  ];
}

/** The faults that are first seen in each step, in the order of the steps. */
function caughtBy({ judged }: Coverage, course: readonly Told[]): Map<ToldStep, Fault[]> {
  const steps = course.filter((told): told is ToldStep => told.is === 'step');
  const reading = steps.filter(({ readings }) => readings.length > 0);
  const caught = new Map<ToldStep, Fault[]>(reading.map((step) => [step, []]));
  for (const { fault, caught: where } of judged) {
    if (!where) continue;
    // A reading belongs to the step before it. What never ends, nobody reads: it is seen in the step itself.
    const step =
      (where.neverEnds ? steps : reading).findLast(({ from }) => from <= where.row) ?? reading[0] ?? steps[0];
    const faults = caught.get(step) ?? [];
    caught.set(step, faults);
    faults.push(fault);
  }
  return new Map([...caught].filter(([, faults]) => faults.length > 0).sort(([a], [b]) => a.from - b.from));
}

/**
 * Faults by what they are of. A lever that was set to a figure is proved at that figure, whether it would drive one less
 * or nothing: that is one thing to whoever reads it.
 */
function together(faults: readonly Fault[]): Proved[] {
  const groups = new Map<string, { of: Fault; places: Set<number> }>();
  for (const fault of faults) {
    const { kind } = fault;
    const parts = [
      kind === 'lever-dead' ? 'lever-short' : kind,
      'register' in fault ? fault.register : '',
      'way' in fault ? fault.way : '',
    ];
    const group = groups.get(parts.join(' ')) ?? { of: fault, places: new Set<number>() };
    groups.set(parts.join(' '), group);
    if ('place' in fault) group.places.add(fault.place);
  }
  return [...groups.values()].map(({ of, places }) => ({ of, places: [...places].sort((a, b) => a - b) }));
}

/** Places as they are said: `1–4, 7`. */
export function placesText(places: readonly number[]): string {
  const runs: [first: number, last: number][] = [];
  for (const place of places) {
    const last = runs.at(-1);
    if (last && last[1] === place - 1) last[1] = place;
    else runs.push([place, place]);
  }
  return runs.map(([first, last]) => (first === last ? `${first}` : `${first}–${last}`)).join(', ');
}
