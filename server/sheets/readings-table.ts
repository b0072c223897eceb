/**
 * A run as a table: a row for each step as it is written, with what it has changed on the machine. What `repeat`, `run`,
 * `multiply` and `divide` do is summed up in one row each.
 *
 * Invariant: readings come off the tape; nothing is worked out here.
 */
import { joinItems, print } from '../../grammar/printer.js';
import type { Step, StepSyntax } from '../../grammar/tree.js';
import { POSITION, REGISTERS, type Register } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { isSummedUp, rowsOf, type StepRows, stateBefore, writtenAs } from '../sequence/rows.js';
import { titleOf } from './course.js';
import { devicesOf } from './figure/devices.js';
import type { Block, Column, Text } from './model.js';
import { formed } from './numbers.js';
import { numberText } from './placed.js';
import { hasChanged, type StepPlace, shownReading } from './shown.js';
import { plainText } from './spans.js';
import { isLook, isProse } from './stages.js';
import type { SheetWords } from './wording/index.js';

export type TableBlock = Extract<Block, { is: 'table' }>;

/** Steps in a table; of a longer sequence the middle is left out. */
export const MOST_ROWS = 200;
/** Of these, so many are the last ones: what the work comes to. */
const LAST_ROWS = 20;
/** Signs of a `repeat` that is shown with all that it holds. */
const LONGEST_STEP = 60;

/**
 * What the machine shows after every step, in the number form of a language. What somebody reads there (`expect`,
 * `ask`) is set off as a reading. Notes and cautions have no row; neither have steps that a broken-off run never came
 * to, of which a last row tells how many there are.
 *
 * @param isWanted which steps there are rows for; all if it is left out
 */
export function readingsTable(
  run: CaseRun,
  words: SheetWords,
  isWanted: (step: Step) => boolean = () => true,
): TableBlock {
  const { order } = run;
  const steps = order.section.steps.filter((step) => !isProse(step.syntax) && isWanted(step));
  const rows = rowsOf(run);
  // Where nothing was left undone, a step without a row is one in which there was nothing to do.
  const done = steps
    .map((step) => ({ step, rows: rows.of(writtenAs(step)) }))
    .filter(({ rows: own }) => own !== undefined || !run.brokeOff);
  const registers = REGISTERS.filter((register) => order.profile[register] > 0);
  const cells = (all: typeof done): Row[] => all.map(({ step, rows: own }) => rowOf(run, step, own, registers, words));
  const isCut = done.length > MOST_ROWS;
  const shown = isCut
    ? [...cells(done.slice(0, MOST_ROWS - LAST_ROWS)), ...cells(done.slice(-LAST_ROWS))]
    : cells(done);
  const hasPosition = shown.some(({ position }) => position.length > 0);
  const hasBesides = shown.some(({ besides }) => besides.length > 0);
  const columns: Column[] = [
    { head: words.readings.step },
    ...registers.map((register): Column => ({ head: words.readings.registers[register], isFigures: true })),
    ...(hasPosition ? [{ head: words.readings.position, isFigures: true }] : []),
    ...(hasBesides ? [{ head: words.readings.besides }] : []),
  ];
  const written = shown.map(({ step, readings, position, besides }): Text[] => [
    step,
    ...readings,
    ...(hasPosition ? [position] : []),
    ...(hasBesides ? [besides] : []),
  ]);
  const remark = (text: string): Text[] => [[text], ...columns.slice(1).map((): Text => [])];
  if (isCut) written.splice(MOST_ROWS - LAST_ROWS, 0, remark(words.readings.leftOut(done.length - MOST_ROWS)));
  const missing = run.brokeOff ? steps.length - done.length : 0;
  if (missing > 0) written.push(remark(words.readings.brokeOff(missing)));
  return { is: 'table', caption: captionOf(run, words), columns, rows: written };
}

/** What a run is of: title, machine, numbers. */
export function captionOf({ order: { section, profile, values } }: CaseRun, words: SheetWords): string {
  const numbers = [...values].map(([name, value]) => `${name} = ${formed(numberText(value), words.numbers)}`);
  const machine = profile.title?.trim() || profile.name;
  return words.readings.caption(titleOf(section), machine, numbers.join(', '));
}

interface Row {
  readonly step: Text;
  /** One a register, in their order. */
  readonly readings: readonly Text[];
  readonly position: Text;
  readonly besides: Text;
}

function rowOf(
  run: CaseRun,
  step: Step,
  rows: StepRows | undefined,
  registers: readonly Register[],
  words: SheetWords,
): Row {
  const { syntax } = step;
  const { profile } = run.order;
  const written: Text = [{ code: stepText(step) }];
  if (!rows) return { step: written, readings: registers.map(() => []), position: [], besides: [] };
  const at: StepPlace = { before: stateBefore(run, rows.first), after: run.tape.stateAt(rows.last), profile };
  const looked = new Set(isLook(syntax) ? lookedAt(syntax) : []);
  const reading = (register: Register): Text => {
    const shown = shownReading(at.after, profile, register, words);
    if (looked.has(register)) return shown;
    const isTold = hasChanged(register, at) || (syntax.kind === 'set' && register === 'setting');
    return isTold ? [plainText(shown)] : [];
  };
  const position = at.after[POSITION];
  const moved = position !== at.before[POSITION] || looked.has('carriage');
  return {
    step: written,
    readings: registers.map(reading),
    position: moved ? [position === 0 ? words.readings.outOfGear : `${position}`] : [],
    besides: besides(syntax, rows, at, words),
  };
}

/** What an `expect` or `ask` reads. */
function lookedAt(syntax: StepSyntax): (Register | 'carriage')[] {
  if (syntax.kind === 'ask') return syntax.items.map(({ register }) => register);
  if (syntax.kind !== 'expect') return [];
  return syntax.items.flatMap((item) => {
    if (item.kind === 'register') return [item.register];
    return item.kind === 'carriage' || item.kind === 'parked' ? ['carriage' as const] : [];
  });
}

/** Levers and buttons that have been moved, the bell, and how often the crank was turned where that is not written. */
function besides(syntax: StepSyntax, { rang, turns }: StepRows, at: StepPlace, words: SheetWords): Text {
  const devices = devicesOf({ ...at, rang }, words).filter(({ before }) => before !== undefined);
  const told = [
    ...devices.map(({ name, now }) => `${name}: ${now}`),
    ...(turns > 0 && isSummedUp(syntax) ? [words.readings.turns(turns)] : []),
    ...(rang ? [words.figure.bell] : []),
  ];
  return told.length > 0 ? [told.join(' · ')] : [];
}

/** A step on one line as it is written; a long `repeat` without what it holds. */
function stepText(step: Step): string {
  const opening = print(step.syntax);
  if (step.syntax.kind !== 'repeat') return opening;
  const inside = repeatText(step, LONGEST_STEP);
  return inside.length <= LONGEST_STEP ? inside : `${opening} … }`;
}

/** All that a `repeat` holds; where that is more than so many signs, at least as many of them. */
function repeatText(step: Step, most: number): string {
  const parts: string[] = [];
  let length = 0;
  for (const inner of step.body ?? []) {
    if (length > most) break;
    const text = inner.syntax.kind === 'repeat' ? repeatText(inner, most) : print(inner.syntax);
    parts.push(text);
    length += text.length;
  }
  return joinItems([print(step.syntax), ...parts, '}']);
}
