/**
 * Steps of an exercise in plain sentences, with the parameters' names in place of numbers.
 *
 * Invariant: no sentence is made with a state that shows figures. Of a run, only where carriage, levers and markers
 * stand is looked at.
 */
import type { DivideStep, ShiftStep } from '../../grammar/tree.js';
import {
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  LEVERS,
  newState,
  OVERDRAWN,
  OVERFLOWED,
  POINTS,
  POSITION,
  type Profile,
  RANG,
  type State,
} from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import type { Done, ExerciseStep } from './exercise-steps.js';
import { withArguments } from './exercise-steps.js';
import type { Text } from './model.js';
import { numberText } from './placed.js';
import { stepSentence } from './sentences.js';
import { tidy } from './spans.js';
import type { SheetWords } from './wording/index.js';

/** Where the machine stands, with all figures at zero and nothing heard. */
function veiled(state: State): State {
  const shown = newState();
  shown[POSITION] = state[POSITION];
  shown[LEVERS] = state[LEVERS] & ~(RANG | OVERFLOWED | OVERDRAWN);
  shown[POINTS] = state[POINTS];
  return shown;
}

/** How the parameters are called on the sheet. */
export type Names = ReadonlyMap<string, string>;

export class Sentences {
  private readonly places = new Map<ExerciseStep, { readonly run: CaseRun; readonly done: Done }>();
  /** Steps that move the carriage from or to another position in another round or exercise. */
  private readonly wandering = new Set<ExerciseStep>();

  constructor(
    runs: readonly { readonly run: CaseRun; readonly done: readonly Done[] }[],
    private readonly profile: Profile,
    private readonly names: Names,
    private readonly words: SheetWords,
  ) {
    for (const { run, done } of runs) {
      for (const one of done) {
        const known = this.places.get(one.step);
        if (!known) this.places.set(one.step, { run, done: one });
        else if (one.step.syntax.kind === 'shift' && !isSameMove(known, { run, done: one }))
          this.wandering.add(one.step);
      }
    }
  }

  /** What is to be done in a step; of a `multiply` or `divide` also how. */
  of(step: ExerciseStep): Text {
    const { exercise } = this.words;
    const syntax = withArguments(
      step.syntax,
      new Map([...this.names].map(([name, shown]) => [name, { kind: 'name', name: shown, from: 0, to: 0 } as const])),
    );
    const { before, after } = this.placeOf(step);
    if (syntax.kind === 'shift' && this.isUnsettled(step, syntax)) return this.shift(syntax);
    const profile = this.withoutTellingPhrases(step);
    const text = this.withNames(stepSentence(syntax, { before, after, profile }, this.words));
    if (syntax.kind === 'multiply' && !syntax.short) return tidy([...text, ' ', exercise.multiplying]);
    if (syntax.kind === 'divide') return tidy([...text, ...this.dividing(syntax, before)]);
    return text;
  }

  private placeOf(step: ExerciseStep): { before: State; after: State } {
    const place = this.places.get(step);
    if (!place) return { before: newState(), after: newState() };
    const { run, done } = place;
    const before = done.from > 0 ? run.tape.stateAt(done.from - 1) : newState();
    return { before: veiled(before), after: veiled(run.tape.stateAt(done.to - 1)) };
  }

  /** A phrase with a gap for what only a run tells would be filled with the figures of a state, which are veiled here. */
  private withoutTellingPhrases({ syntax }: ExerciseStep): Profile {
    const isTelling = syntax.kind === 'transfer' || (syntax.kind === 'turn' && syntax.until !== undefined);
    if (!isTelling) return this.profile;
    const phrases = Object.entries(this.profile.phrases).filter(([, text]) => !/\{(?:figures|count)\}/.test(text));
    return { ...this.profile, phrases: Object.fromEntries(phrases) };
  }

  /** Names stand out, and numbers that are given are no readings. */
  private withNames(text: Text): Text {
    return text.map((span) => (typeof span === 'object' && 'reading' in span ? { strong: span.reading } : span));
  }

  private isUnsettled(step: ExerciseStep, { way, count }: ShiftStep): boolean {
    if (count?.kind === 'name') return true;
    return way !== 'to' && way !== 'out' && (this.wandering.has(step) || !this.places.has(step));
  }

  /** Without saying in which position the carriage then stands. */
  private shift({ way, count }: ShiftStep): Text {
    const { exercise, steps } = this.words;
    const written = count ? numberText(count) : '';
    if (way === 'to') return [steps.shiftTo(written)];
    return way === 'out' ? [steps.shiftOut] : [exercise.shift(written, way)];
  }

  private dividing({ short }: DivideStep, before: State): Text {
    const { dividing } = this.words.exercise;
    const { subtract, count } = this.profile;
    if (has(before, AUTO_DIVIDE)) return [' ', dividing.automatic];
    if (short || subtract === 'none') return [];
    const how = subtract === 'reverse' || subtract === 'lift' ? dividing[subtract] : dividing.lever;
    const needsLever = count === 'lever' && !has(before, COUNT_MINUS);
    return [' ', how, ...(needsLever ? [' ', dividing.countLever] : [])];
  }
}

interface Place {
  readonly run: CaseRun;
  readonly done: Done;
}

function isSameMove(a: Place, b: Place): boolean {
  const move = ({ run, done }: Place): number[] => [
    done.from > 0 ? run.tape.lookAt(done.from - 1)[POSITION] : 1,
    run.tape.lookAt(done.to - 1)[POSITION],
  ];
  return move(a).join() === move(b).join();
}
