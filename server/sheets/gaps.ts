/** What the gaps of a wording are filled with, and what no wording of a step must leave out. */
import type { PointsStep, StepSyntax } from '../../grammar/tree.js';
import { POSITION, type Profile, type Register, TURNS } from '../machine/index.js';
import { clearedBy } from '../sequence/hands.js';
import type { Text } from './model.js';
import { countOf, numberText, placedPart } from './placed.js';
import { readingSpan, type StepPlace, shownReading } from './shown.js';
import { listed } from './spans.js';
import type { SheetWords } from './wording/index.js';

/** What a wording may leave to be filled in. */
type Gap = 'figures' | 'count' | 'position' | 'register';
export type Filling = ReadonlyMap<string, Text>;

/** What a wording has to say: with any of these gaps it does, else `said` is put behind it. */
export interface Need {
  readonly gaps: readonly Gap[];
  readonly said: Text;
}

/** The registers of the machine that a step clears. */
export function cleared(step: Extract<StepSyntax, { kind: 'clear' }>, profile: Profile): readonly Register[] {
  const there = clearedBy(step).filter((register) => profile[register] > 0);
  return there.length > 0 ? there : step.registers;
}

/** Where the markers go: `2 decimals in the setting, no decimals in the counter`. */
export const markerTexts = ({ items }: PointsStep, { steps }: SheetWords): Text =>
  listed(
    items.map(({ register, decimals }) => [steps.decimals(countOf(decimals), register)]),
    ', ',
  );

/** What each gap of a wording of this step is filled with. */
export function fillingOf(step: StepSyntax, at: StepPlace, words: SheetWords): Filling {
  const { before, after } = at;
  const { steps, parts } = words;
  const names = (registers: readonly Register[]): Text =>
    listed(
      registers.map((register) => [parts.registers[register]]),
      steps.and,
    );
  const position = (place: number | string): [Gap, Text] => ['position', [steps.position(place)]];
  const here = position(after[POSITION]);
  switch (step.kind) {
    case 'set': {
      const hasPlaces = step.parts.length > 1 || step.parts[0]?.at !== undefined;
      const figures = step.parts.map((part): Text => {
        const number = readingSpan(numberText(part.figures), words);
        const placed = hasPlaces ? placedPart(part, at, 'setting') : undefined;
        return placed ? steps.withLevers(number, placed.from, placed.to) : number;
      });
      return new Map([['figures', listed(figures, steps.and)], ['register', names(['setting'])], here]);
    }
    case 'dial': {
      const number = readingSpan(numberText(step.part.figures), words);
      const figures = step.part.at ? steps.withUnits(number, numberText(step.part.at)) : number;
      return new Map([['figures', figures], ['register', names(['result'])], here]);
    }
    case 'turn': {
      const n = step.until ? after[TURNS] : countOf(step.count);
      return new Map([['count', [steps.times(n)]], position(before[POSITION])]);
    }
    case 'shift': {
      const moved = Math.abs(after[POSITION] - before[POSITION]);
      const to = step.way === 'to' && step.count ? position(numberText(step.count)) : here;
      return new Map([['count', [step.half ? steps.halfPlace : steps.places(moved)]], to]);
    }
    case 'clear':
      return new Map([['register', names(cleared(step, at.profile))], here]);
    case 'transfer': {
      const figures = shownReading(before, at.profile, step.register, words);
      return new Map([['figures', figures], ['register', names([step.register])], here]);
    }
    case 'points': {
      const registers = names(step.items.map(({ register }) => register));
      return new Map([['figures', markerTexts(step, words)], ['register', registers], here]);
    }
    case 'ask':
      return new Map([['register', names(step.items.map(({ register }) => register))], here]);
    case 'expect': {
      const items = step.items.filter((item) => item.kind === 'register');
      if (items.length === 0) return new Map([here]);
      const figures = items.map(({ register }) => shownReading(after, at.profile, register, words));
      const registers = names(items.map(({ register }) => register));
      return new Map([['figures', listed(figures, steps.and)], ['register', registers], here]);
    }
    case 'multiply':
      return new Map([['figures', readingSpan(numberText(step.by), words)], here]);
    case 'divide':
      return new Map([step.downTo ? position(numberText(step.downTo)) : here]);
    default:
      return new Map([here]);
  }
}

/** What a wording of the step must not leave out; `isWider` if it is one of several such steps. */
export function needOf(
  step: StepSyntax,
  at: StepPlace,
  { steps }: SheetWords,
  filling: Filling,
  isWider: boolean,
): Need | undefined {
  const gap = (name: Gap, ...others: Gap[]): Need => ({ gaps: [name, ...others], said: filling.get(name) ?? [] });
  switch (step.kind) {
    case 'set':
    case 'dial':
    case 'multiply':
      return gap('figures');
    case 'expect':
    case 'points':
      return filling.has('figures') ? gap('figures') : undefined;
    case 'turn':
      return step.until || countOf(step.count) === 1 ? undefined : gap('count');
    case 'shift': {
      const written = step.way === 'to' && step.count ? numberText(step.count) : at.after[POSITION];
      const place: Need = { gaps: ['position'], said: [steps.toPosition(written)] };
      if (step.way === 'to' || (isWider && !step.half)) return place;
      const isOne = step.half || step.way === 'out' || Math.abs(at.after[POSITION] - at.before[POSITION]) === 1;
      return isOne ? undefined : gap('count', 'position');
    }
    case 'divide':
      return step.downTo && { gaps: ['position'], said: [steps.toPosition(numberText(step.downTo))] };
    case 'clear':
    case 'transfer':
    case 'ask':
      return isWider ? gap('register') : undefined;
    default:
      return undefined;
  }
}
