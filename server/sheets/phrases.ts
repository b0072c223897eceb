/**
 * A machine's own wording of a step, with its gaps filled.
 *
 * Invariant: no wording leaves out how often, how far or what. Where it has no gap for that, it stands in brackets behind
 * it, and a step that a wording says only in part (`back`, `half`, `until`) is not taken for another.
 */
import type { StepSyntax } from '../../grammar/tree.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasHalfSteps,
  LEVERS,
  POSITION,
  REFUSED,
  SUBTRACTING,
} from '../machine/index.js';
import { lookedIn } from '../sequence/looks.js';
import { cleared, type Filling, fillingOf, type Need, needOf } from './gaps.js';
import type { Text } from './model.js';
import { countOf } from './placed.js';
import type { StepPlace } from './shown.js';
import type { SheetWords } from './wording/index.js';

/**
 * A step in the words of the machine, closed by a full stop if it has no other mark; undefined where the machine has
 * none, or where the step does something else here than its wording says.
 */
export function phraseOf(step: StepSyntax, at: StepPlace, words: SheetWords): Text | undefined {
  if (isOtherwise(step, at)) return undefined;
  const { phrases } = at.profile;
  const filling = fillingOf(step, at, words);
  const [exact, ...wider] = keysOf(step);
  const own = exact !== undefined && phrases[exact];
  if (own && isWording(own)) return filled(own, filling, needOf(step, at, words, filling, false));
  if (step.kind === 'clear') {
    const each = cleared(step, at.profile).map((register) => ({ register, text: phrases[`clear ${register}`] ?? '' }));
    if (each.length > 0 && each.every(({ text }) => isWording(text))) {
      return each.flatMap(({ register, text }, i) => {
        const alone = new Map(filling).set('register', [words.parts.registers[register]]);
        return [i === 0 ? '' : ' ', ...filled(text, alone, undefined)];
      });
    }
  }
  const text = wider.map((key) => phrases[key] ?? '').find(isWording);
  return text === undefined ? undefined : filled(text, filling, needOf(step, at, words, filling, true));
}

/** The words of a step under which a machine may have its wording, the step's own first. */
export function keysOf(step: StepSyntax): readonly string[] {
  switch (step.kind) {
    case 'set':
      return ['set'];
    case 'turn': {
      const until = step.until && `turn until ${step.until}`;
      if (!step.back) return [until ?? 'turn'];
      // On a crank that turns both ways nothing is turned forwards until the result is overdrawn.
      return until ? [`turn back until ${step.until}`, until] : ['turn back'];
    }
    case 'shift':
      return step.half ? [`shift ${step.way} half`] : [`shift ${step.way}`, 'shift'];
    case 'clear':
      return [step.all ? 'clear all' : `clear ${step.registers.join(' ')}`, 'clear'];
    case 'transfer':
      return [`transfer ${step.register}`, 'transfer'];
    case 'dial':
      return ['dial result', 'dial'];
    case 'mode':
      return [`mode ${step.drive}`, 'mode'];
    case 'count':
      return [`count ${step.sense}`, 'count'];
    case 'auto-clear':
    case 'auto-divide':
      return [`${step.kind} ${step.on ? 'on' : 'off'}`, step.kind];
    case 'points':
      return [`points ${step.items.map(({ register }) => register).join(' ')}`, 'points'];
    case 'ask':
      return [`ask ${step.items.map(({ register }) => register).join(' ')}`, 'ask'];
    case 'expect':
      // A general wording is one for readings of registers.
      return [
        `expect ${step.items.map(lookedIn).join(' ')}`,
        ...(step.items.every(({ kind }) => kind === 'register') ? ['expect'] : []),
      ];
    case 'multiply':
      return step.short ? ['multiply by short', 'multiply'] : ['multiply by', 'multiply'];
    case 'divide': {
      const end = step.short ? ' short' : '';
      return step.downTo ? [`divide to${end}`, `divide${end}`] : [`divide${end}`];
    }
    default:
      // Prose and what holds other steps is done by nobody's hands.
      return [];
  }
}

const isWording = (text: string): boolean => /[\p{L}\p{N}{]/u.test(text);

const LEVER_BITS = {
  mode: SUBTRACTING,
  count: COUNT_MINUS,
  'auto-clear': AUTO_CLEAR,
  'auto-divide': AUTO_DIVIDE,
} as const;

/**
 * Whether the machine's wording would say something else than what is done: a lever or the carriage is there already,
 * there are no turns, automatic division ends before the carriage runs out of gear, or out of gear a half-step carriage stands still while its
 * lever is moved.
 */
function isOtherwise(step: StepSyntax, { before, after, profile }: StepPlace): boolean {
  if (step.kind === 'mode' && hasHalfSteps(profile) && after[POSITION] === 0) return true;
  if (step.kind === 'turn') {
    return step.until === 'stop' ? !has(after, REFUSED) && after[POSITION] > 0 : countOf(step.count) === 0;
  }
  if (step.kind === 'shift') return step.way !== 'to' && !step.half && before[POSITION] === after[POSITION];
  if (!(step.kind in LEVER_BITS)) return false;
  const bit = LEVER_BITS[step.kind as keyof typeof LEVER_BITS];
  return ((before[LEVERS] ^ after[LEVERS]) & bit) === 0;
}

/** The text with its gaps filled. What is no gap of this step stays as it is written. */
function filled(text: string, filling: Filling, need: Need | undefined): Text {
  const line = text.replace(/\s+/gu, ' ').trim();
  const [end = ''] = /[.!?:;,…]+["'”“»«’)\]]*$/u.exec(line) ?? [];
  const core = line.slice(0, line.length - end.length).trimEnd();
  const spans = core
    .split(/\{(\p{L}+)\}/u)
    .flatMap((piece, i): Text => (i % 2 === 0 ? [piece] : (filling.get(piece) ?? [`{${piece}}`])));
  const isSaid = !need || need.said.length === 0 || need.gaps.some((gap) => core.includes(`{${gap}}`));
  return [...spans, ...(isSaid ? [] : [' (', ...need.said, ')']), end || '.'];
}
