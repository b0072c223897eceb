/** The key to an exercise sheet: its pages filled in, the work step by step with its readings, and common slips. */
import type { Gradual } from '../../grammar/gradual.js';
import { has, newState, RANG } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { ExercisePages } from './exercise.js';
import type { Block, FigureChoice, FigureData, Sheet, SheetStep, Text } from './model.js';
import { StepNumbers } from './numbering.js';
import type { SheetOrder } from './order.js';
import { stepSentence } from './sentences.js';
import { readingSpan, readingsOf, type StepPlace } from './shown.js';
import { type Slip, type SlipReason, slipsGradually, type WrongReading } from './slips.js';
import { listed, tidy } from './spans.js';

export function* keySheetGradually(order: SheetOrder): Gradual<Sheet> {
  const pages = new ExercisePages(order);
  const key = new Key(pages, order.figures);
  return { ...pages.frame('key'), blocks: [...pages.blocks('key'), ...(yield* key.worked())] };
}

/** Steps of one exercise that are printed, and of those with a figure. */
const MOST_ROWS = 400;
const MOST_FIGURES = 60;

type Exercise = ExercisePages['exercises'][number];

class Key {
  constructor(
    private readonly pages: ExercisePages,
    private readonly figures: FigureChoice,
  ) {}

  *worked(): Gradual<Block[]> {
    const { exercises, words } = this.pages;
    const { exercise } = words;
    const blocks: Block[] = [];
    for (const [i, one] of exercises.entries()) {
      const numbers = this.numbersIn(one, true);
      const title = exercises.length > 1 ? exercise.worked(i + 1) : exercise.workedOnly;
      const given = this.pages.givenIn(one);
      blocks.push(
        { is: 'page' },
        { is: 'heading', level: 2, text: [title] },
        ...(given.length > 0 ? [{ is: 'paragraph', text: given } as const] : []),
        ...this.steps(one, numbers, i === 0),
        { is: 'heading', level: 3, text: [exercise.slips] },
        ...(yield* this.slips(one, exercises[i - 1])),
      );
      yield;
    }
    return blocks;
  }

  /** What stands at each row of the tape: the number of its step, with letters where that came to several rows. */
  private numbersIn({ done }: Exercise, withRounds: boolean): ReadonlyMap<number, string> {
    const { exercise } = this.pages.words;
    const numbers = new Map<number, string>();
    for (const { step, from, to, round } of done) {
      const depth = /\d$/.test(step.number) ? 1 : 0;
      const parts = new StepNumbers(step.number, depth);
      for (let row = from; row < to; row++) {
        const number = to - from > 1 ? parts.next() : step.number;
        numbers.set(row, withRounds && round > 0 ? exercise.round(number, round) : number);
      }
    }
    return numbers;
  }

  private steps({ run }: Exercise, numbers: ReadonlyMap<number, string>, withProse: boolean): Block[] {
    const { words } = this.pages;
    const { tape } = run;
    const blocks: Block[] = [];
    let steps: SheetStep[] = [];
    const close = () => {
      if (steps.length > 0) blocks.push({ is: 'steps', steps });
      steps = [];
    };
    let figures = 0;
    for (let row = 0; row < Math.min(tape.length, MOST_ROWS); row++) {
      const { syntax } = tape.stepAt(row);
      const number = numbers.get(row);
      if (syntax.kind === 'note' || syntax.kind === 'caution') {
        // The same in every exercise: said in the first.
        if (!withProse) continue;
        close();
        blocks.push({ is: syntax.kind, text: [syntax.text.value] });
      } else if (number !== undefined) {
        const at = placeOf(run, row);
        const isAsked = syntax.kind === 'ask';
        const registers = isAsked ? syntax.items.map(({ register }) => register) : undefined;
        const readings = readingsOf(at, words, registers);
        const hasFigure = (this.figures === 'all' || (this.figures === 'stages' && isAsked)) && figures < MOST_FIGURES;
        if (hasFigure) figures++;
        steps.push({
          number,
          text: stepSentence(syntax, at, words),
          ...(readings.length > 0 && { readings }),
          ...(hasFigure && { figure: figureOf(at) }),
        });
      }
    }
    close();
    const { exercise } = words;
    if (tape.length > MOST_ROWS) blocks.push({ is: 'paragraph', text: [exercise.cutOff], isFine: true });
    if (run.brokeOff) blocks.push({ is: 'caution', text: [exercise.brokeOff] });
    return blocks;
  }

  private *slips(one: Exercise, before: Exercise | undefined): Gradual<Block[]> {
    const { words, atEnd } = this.pages;
    const { exercise } = words;
    const slips = yield* slipsGradually(one.run, { before: before?.run, atEnd, cases: this.pages.exercises.length });
    if (!slips) return [{ is: 'paragraph', text: [exercise.notTried] }];
    if (slips.length === 0) return [{ is: 'paragraph', text: [exercise.noSlips] }];
    const isUncleared = slips.some(({ reasons }) => reasons.some(({ is }) => is === 'not-cleared'));
    const numbers = this.numbersIn(one, false);
    const items = slips.map((slip) => this.slip(slip, one, numbers));
    const assumed: Block = {
      is: 'paragraph',
      isFine: true,
      text: [before ? exercise.leftBefore : exercise.leftBySame],
    };
    return [{ is: 'list', items }, ...(isUncleared ? [assumed] : [])];
  }

  private slip({ readings, reasons }: Slip, one: Exercise, numbers: ReadonlyMap<number, string>): Text {
    const { words } = this.pages;
    const { slip } = words.exercise;
    return tidy([...this.reads(readings, one), slip.because(this.reasons(reasons, one.run, numbers).join(slip.or))]);
  }

  /** The same slip in one or another of several steps is told once. */
  private reasons(reasons: readonly SlipReason[], run: CaseRun, numbers: ReadonlyMap<number, string>): string[] {
    const { or } = this.pages.words.exercise.slip;
    const steps = new Map<string, { reason: SlipReason; in: Set<string> }>();
    for (const reason of reasons) {
      const key = JSON.stringify({ ...reason, row: 0 });
      const alike = steps.get(key) ?? { reason, in: new Set() };
      steps.set(key, alike);
      alike.in.add(numbers.get(reason.row) ?? '');
    }
    return [...steps.values()].map((alike) => this.reason(alike.reason, run, [...alike.in].join(or)));
  }

  private reads(readings: readonly WrongReading[], { asked }: Exercise): Text {
    const { words } = this.pages;
    const { slip } = words.exercise;
    const spans = ({ reading, right }: WrongReading) =>
      [readingSpan(reading, words), readingSpan(right, words)] as const;
    if (asked.length === 1) return slip.reads(...spans(readings[0]));
    const items = readings.map((wrong, i) => {
      const isOnly = asked.filter(({ register }) => register === wrong.register).length === 1;
      const told = asked[wrong.index];
      const at = isOnly || !told ? undefined : { step: told.number, round: told.round };
      return slip.registerReads(wrong.register, at, ...spans(wrong), i === 0);
    });
    return listed(items, ', ');
  }

  private reason(reason: SlipReason, { order }: CaseRun, step: string): string {
    const { slip } = this.pages.words.exercise;
    switch (reason.is) {
      case 'not-cleared':
        return slip.notCleared(reason.register, reason.isOneOfSeveral ? step : '');
      case 'shift-forgotten':
        return slip.shiftForgotten(step);
      case 'carriage-off':
        return slip.carriageOff(reason.way, step);
      case 'turns':
        return slip.turns(reason.more, step);
      case 'wrong-way':
        return slip.forwards(step);
      case 'drive-left':
        return slip.driveLeft(reason.at, order.profile.subtract === 'lift', step);
      case 'count-left':
        return slip.countLeft(reason.at, step);
      case 'switch-left':
        return slip.switchLeft(reason.what, reason.on, step);
      case 'places-off':
        return slip.placesOff(reason.register, reason.way, step);
      case 'marker-off':
        return slip.markerOff(reason.register, reason.more ? 'left' : 'right', step);
    }
  }
}

function placeOf({ tape, order }: CaseRun, row: number): StepPlace {
  const before = row > 0 ? tape.stateAt(row - 1) : newState();
  return { before, after: tape.stateAt(row), profile: order.profile };
}

const figureOf = (at: StepPlace): FigureData => ({ ...at, rang: has(at.after, RANG) });
