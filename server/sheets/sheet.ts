/** A sheet of the kind that is ordered, or the reason why there is none. */
import { finish, type Gradual } from '../../grammar/gradual.js';
import { benchSheetGradually } from './bench.js';
import { courseOf } from './course.js';
import { exerciseSheet } from './exercise.js';
import { keySheetGradually } from './key.js';
import type { Sheet } from './model.js';
import { operatingSheet } from './operating.js';
import type { SheetOrder } from './order.js';
import { flawIn, refusal, type SheetRefusal } from './refusal.js';
import { sheetWords } from './wording/index.js';

export type { RefusalReason, SheetRefusal } from './refusal.js';

/** Steps of a sheet, parts included: more than that nobody cranks from paper. */
export const MOST_SHEET_STEPS = 2_000;

export const isSheetRefused = (made: Sheet | SheetRefusal): made is SheetRefusal => 'refused' in made;

/** Makes a sheet. It is refused where the sequence has an error, or can't be run to its end. */
export const sheetOf = (order: SheetOrder): Sheet | SheetRefusal => finish(sheetGradually(order));

export function* sheetGradually(order: SheetOrder): Gradual<Sheet | SheetRefusal> {
  const flaw = flawIn(order.report);
  if (flaw) return refusal(flaw, order.language);
  switch (order.kind) {
    case 'exercise':
      return exerciseSheet(order);
    case 'key':
      return yield* keySheetGradually(order);
  }
  const course = courseOf(order.report.runs[0], sheetWords(order.language));
  const steps = course.length;
  if (steps > MOST_SHEET_STEPS) return refusal({ is: 'too-long', steps, limit: MOST_SHEET_STEPS }, order.language);
  yield;
  return order.kind === 'operating' ? operatingSheet(order, course) : yield* benchSheetGradually(order, course);
}
