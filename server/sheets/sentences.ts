/**
 * A plain sentence for every step of the notation: in the machine's own words where it has some, else in ours.
 *
 * Invariant: what is said of readings and places is taken from the run, not from what the sequence says of it.
 */
import type { ExpectItem, Part, RepeatStep, StepSyntax } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasHalfSteps,
  hasSignedWheels,
  POSITION,
  REFUSED,
  SUBTRACTING,
} from '../machine/index.js';
import { compare } from '../sequence/expects.js';
import { cleared, markerTexts } from './gaps.js';
import type { Text } from './model.js';
import { phraseOf } from './phrases.js';
import { countOf, movesOthers, numberText, type Placed, placedPart } from './placed.js';
import { readingSpan, type StepPlace, shownReading } from './shown.js';
import { listed, tidy } from './spans.js';
import type { SheetWords } from './wording/index.js';

export { machineTable, timeEstimate, usualCautions } from './head.js';
export { readingsOf, type StepPlace } from './shown.js';

/**
 * What somebody is to do in a step, as one or more sentences. The step has numbers in place of its parameters, and `at`
 * is what the machine shows before and after it, as the tape has it. A `repeat` announces what follows with a colon;
 * prose is given as it is written. A step that the machine could not do is told as it is written.
 */
export function stepSentence(step: StepSyntax, at: StepPlace, words: SheetWords): Text {
  const sentence = phraseOf(step, at, words);
  if (step.kind === 'set') return tidy([...(sentence ?? set(step.parts, at, words)), ...others(step.parts, at, words)]);
  if (step.kind === 'dial') {
    return tidy([...(sentence ?? dial(step.part, at, words)), ...others([step.part], at, words, 'result')]);
  }
  return tidy(sentence ?? ownSentence(step, at, words));
}

/** What is said behind the steps of a `repeat`. */
export const repeatEnd = ({ count }: RepeatStep, { steps }: SheetWords): Text => [steps.repeatEnd(countOf(count))];

type Told = Exclude<StepSyntax, { kind: 'set' | 'dial' }>;

function ownSentence(step: Told, at: StepPlace, words: SheetWords): Text {
  const { steps } = words;
  switch (step.kind) {
    case 'turn': {
      const { after, profile } = at;
      if (step.until === 'overdraw') return [steps.untilOverdraw(step.back, profile.bell)];
      if (step.until === 'stop') return [steps.untilStop(has(after, REFUSED) ? 0 : after[POSITION])];
      return [steps.turn(countOf(step.count), step.back)];
    }
    case 'shift':
      return [shift(step, at, words)];
    case 'clear': {
      const names = cleared(step, at.profile).map((register): Text => [steps.the(register)]);
      return step.all ? steps.clearAll(listed(names, steps.and)) : steps.clear(listed(names, steps.and));
    }
    case 'transfer':
      return [steps.transfer(step.register)];
    case 'mode':
    case 'count':
    case 'auto-clear':
    case 'auto-divide':
      return [lever(step, at, words)];
    case 'points':
      return steps.points(markerTexts(step, words), step.items.length);
    case 'expect':
      return expected(step.items, at, words);
    case 'ask':
      return steps.ask(
        listed(
          step.items.map(({ register }) => [steps.the(register)]),
          steps.and,
        ),
      );
    case 'note':
    case 'caution':
      return [step.text.value];
    case 'repeat':
      return [steps.repeat(countOf(step.count))];
    case 'run': {
      const numbers = step.args.map((argument) => readingSpan(numberText(argument), words));
      return steps.run([{ code: step.name.name }], listed(numbers, steps.and));
    }
    case 'multiply':
      return steps.multiply(readingSpan(numberText(step.by), words), step.short);
    case 'divide':
      return [steps.divide(step.downTo && numberText(step.downTo), step.short)];
  }
}

const isZero = ({ figures }: Part): boolean => figures.kind === 'number' && /^0*$/.test(figures.figures);

function set(parts: readonly Part[], at: StepPlace, words: SheetWords): Text {
  const { steps } = words;
  if (parts.every(isZero) && !has(at.after, REFUSED)) return [steps.setZero];
  const figures = parts.map((part): Text => {
    const number = readingSpan(numberText(part.figures), words);
    const placed = placedPart(part, at, 'setting');
    if (!placed) return steps.onSomeLevers(number, part.at && numberText(part.at));
    if (part.figures.kind === 'name' || !part.figures.isValue) return steps.onLevers(number, placed.from, placed.to);
    return steps.valueOnLevers(number, [{ reading: placed.digits }], placed.from, placed.to);
  });
  return steps.set(listed(figures, steps.and));
}

function dial(part: Part, at: StepPlace, words: SheetWords): Text {
  if (isZero(part) && !has(at.after, REFUSED)) return [words.steps.dialZero];
  return words.steps.dial(readingSpan(numberText(part.figures), words), part.at && numberText(part.at));
}

/** Levers and wheels that the figures do not go to stand at zero afterwards: said where one has to be moved for that. */
function others(
  parts: readonly Part[],
  at: StepPlace,
  { steps }: SheetWords,
  register: 'setting' | 'result' = 'setting',
): Text {
  const placed = parts.map((part) => placedPart(part, at, register));
  if (parts.every(isZero) || !placed.every((one): one is Placed => one !== undefined)) return [];
  if (!movesOthers(placed, at, register)) return [];
  return [` ${register === 'setting' ? steps.otherLevers : steps.otherWheels}`];
}

function shift(step: Extract<StepSyntax, { kind: 'shift' }>, at: StepPlace, { steps }: SheetWords): string {
  const { before, after } = at;
  const [from, to] = [before[POSITION], after[POSITION]];
  const isRefused = has(after, REFUSED);
  if (step.way === 'to' && isRefused) return steps.shiftTo(step.count ? numberText(step.count) : '');
  if (step.half && (step.way === 'right' || step.way === 'left')) {
    return isRefused
      ? steps.half(step.way)
      : steps.half(step.way, { position: to, subtracts: has(after, SUBTRACTING) });
  }
  if (step.way === 'out' && isRefused) return steps.shiftOut;
  if (from === to) return steps.stays(to);
  if (step.way === 'to') return steps.shiftTo(`${to}`);
  return step.way === 'out' ? steps.shiftOut : steps.shift(Math.abs(to - from), step.way, to);
}

type LeverStep = Extract<StepSyntax, { kind: 'mode' | 'count' | 'auto-clear' | 'auto-divide' }>;

function lever(step: LeverStep, { before, after, profile }: StepPlace, { steps }: SheetWords): string {
  const stays = (bit: number): boolean => !has(after, REFUSED) && has(before, bit) === has(after, bit);
  switch (step.kind) {
    case 'mode': {
      const subtracts = step.drive === 'subtract';
      if (profile.subtract === 'lift') {
        return stays(SUBTRACTING) ? steps.crankStays(subtracts) : steps.crank(subtracts);
      }
      if (stays(SUBTRACTING)) return steps.driveStays(subtracts);
      const position = after[POSITION];
      if (!hasHalfSteps(profile) || position === 0) return steps.drive(subtracts);
      return steps.half(subtracts ? 'right' : 'left', { position, subtracts });
    }
    case 'count': {
      const isMinus = step.sense === 'minus';
      return stays(COUNT_MINUS) ? steps.countStays(isMinus) : steps.countLever(isMinus);
    }
    case 'auto-clear':
    case 'auto-divide': {
      if (stays(step.kind === 'auto-clear' ? AUTO_CLEAR : AUTO_DIVIDE)) return steps.switchStays(step.kind, step.on);
      return step.kind === 'auto-clear' ? steps.autoClear(step.on) : steps.autoDivide(step.on);
    }
  }
}

/** Readings in one sentence, then what is seen or heard besides. */
function expected(items: readonly ExpectItem[], at: StepPlace, words: SheetWords): Text {
  const { steps } = words;
  const registers = items.filter((item) => item.kind === 'register');
  const readings = registers.map(
    (item, i): Text => [steps.reads(item.register, i === 0), ...readingIn(item, at, words)],
  );
  const sentences: Text[] = registers.length > 0 ? [[...listed(readings, steps.and), '.']] : [];
  for (const item of items) {
    if (item.kind === 'parked' || item.kind === 'carriage') sentences.push([steps.carriageStands(at.after[POSITION])]);
    else if (item.kind !== 'register') sentences.push([steps.events[item.kind]]);
  }
  return sentences.flatMap((sentence, i) => (i === 0 ? sentence : [' ', ...sentence]));
}

/** What the register reads, and of which number it is the complement if the step says so. */
function readingIn(
  item: Extract<ExpectItem, { kind: 'register' }>,
  { after, profile }: StepPlace,
  words: SheetWords,
): Text {
  const { register, figures, negative } = item;
  if (profile[register] === 0) return readingSpan((negative ? '-' : '') + numberText(figures), words);
  const reading = shownReading(after, profile, register, words);
  if (!negative || figures.kind === 'name' || hasSignedWheels(profile, register)) return reading;
  if (/^0*$/.test(figures.figures) || compare(item, after, 0, profile)) return reading;
  return [...reading, ...words.steps.complementOf(readingSpan(numberText(figures), words))];
}
