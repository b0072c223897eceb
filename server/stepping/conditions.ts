/**
 * What may be asked of a machine that stands still: the arithmetic of goals, with registers as names beside the
 * parameters, and comparisons of it.
 */
import type Fraction from 'fraction.js';
import { LineReader } from '../../grammar/lines.js';
import { nearest } from '../../grammar/nearest.js';
import type { Expression, NumberSyntax } from '../../grammar/tree.js';
import {
  figuresIn,
  numberIn,
  POSITION,
  type Profile,
  pointOf,
  REGISTERS,
  type Register,
  type State,
  textOf,
  WRAPS,
} from '../machine/index.js';
import type { GoalProblem } from '../sequence/findings.js';
import { exactValue } from '../sequence/goals.js';
import { numberSyntax } from '../sequence/made.js';
import { namesIn } from '../sequence/names.js';
import type { Values } from '../sequence/substitute.js';

/** What stands still: the machine, and the numbers that are known there. */
export interface Scene {
  readonly state: State;
  readonly profile: Profile;
  readonly values: Values;
}

/** A register, or one of its wheels. */
export interface Looked {
  readonly register: Register;
  /** Counted from the right; the whole register where it is missing. */
  readonly place?: number;
}

/** Arithmetic in which names stand for what is looked at. */
export interface Sum {
  readonly expression: Expression;
  readonly looked: ReadonlyMap<string, Looked>;
}

export const COMPARISONS = ['<=', '>=', '!=', '==', '=', '<', '>'] as const;
export type Comparison = (typeof COMPARISONS)[number];

export type Question =
  | { readonly is: 'sum'; readonly sum: Sum }
  | { readonly is: 'compared'; readonly by: Comparison; readonly left: Sum; readonly right: Sum }
  | { readonly is: 'and' | 'or'; readonly parts: readonly Question[] };

/** Why a text asks nothing. */
export type Slip =
  | { readonly is: 'empty' }
  | { readonly is: 'not-read'; readonly found: string }
  | { readonly is: 'unknown-name'; readonly name: string; readonly nearest?: string }
  | { readonly is: 'no-such-place'; readonly register: Register; readonly place: number; readonly places: number }
  /** A condition says whether; this only says how much. */
  | { readonly is: 'not-compared'; readonly found: string };

export const isSlip = (read: Question | Slip): read is Slip =>
  read.is !== 'sum' && read.is !== 'compared' && read.is !== 'and' && read.is !== 'or';

/** What can be named besides registers and parameters. */
export const NAMED = ['position', 'wraps'] as const;

const LONGEST = 1_000;
const reader = new LineReader();

/** Reads what somebody asks where these parameters are known. */
export function readQuestion(text: string, profile: Profile, parameters: Iterable<string>): Question | Slip {
  const trimmed = text.trim();
  if (trimmed === '') return { is: 'empty' };
  if (trimmed.length > LONGEST) return { is: 'not-read', found: `${trimmed.slice(0, 40)}…` };
  return readPart(trimmed, profile, new Set(parameters));
}

/** The same where only yes or no is an answer. */
export function readCondition(text: string, profile: Profile, parameters: Iterable<string>): Question | Slip {
  const read = readQuestion(text, profile, parameters);
  return read.is === 'sum' ? { is: 'not-compared', found: text.trim() } : read;
}

function readPart(text: string, profile: Profile, names: ReadonlySet<string>): Question | Slip {
  const tokens = tokensOf(text);
  for (const word of ['or', 'and'] as const) {
    const cuts = tokens.filter((token) => token.depth === 0 && token.text === word);
    if (cuts.length === 0) continue;
    const parts: Question[] = [];
    let from = 0;
    for (const cut of [...cuts, { from: text.length, to: text.length }]) {
      const piece = text.slice(from, cut.from).trim();
      const part = piece === '' ? ({ is: 'not-read', found: text } as const) : readPart(piece, profile, names);
      if (isSlip(part)) return part;
      if (part.is === 'sum') return { is: 'not-compared', found: piece };
      parts.push(part);
      from = cut.to;
    }
    return { is: word, parts };
  }
  const compared = tokens.filter(({ depth, kind }) => depth === 0 && kind === 'comparison');
  if (compared.length > 1) return { is: 'not-read', found: text };
  if (compared.length === 1) {
    const [{ from, to, text: sign }] = compared;
    const left = readSum(text.slice(0, from), text, profile, names);
    const right = readSum(text.slice(to), text, profile, names);
    if ('is' in left) return left;
    if ('is' in right) return right;
    return { is: 'compared', by: SIGNS[sign] ?? (sign as Comparison), left, right };
  }
  const inner = /^\((.*)\)$/s.exec(text)?.[1];
  const isQuestion = tokens.some(({ kind, text: word }) => kind === 'comparison' || word === 'and' || word === 'or');
  if (inner !== undefined && isQuestion) return readPart(inner.trim(), profile, names);
  const sum = readSum(text, text, profile, names);
  return 'is' in sum ? sum : { is: 'sum', sum };
}

/** Signs that people write and keyboards hide. */
const SIGNS: Readonly<Record<string, Comparison>> = { '≤': '<=', '≥': '>=', '≠': '!=' };

interface Token {
  readonly text: string;
  readonly kind: 'name' | 'comparison' | 'other';
  readonly from: number;
  readonly to: number;
  /** How many parentheses are open around it. */
  readonly depth: number;
}

const TOKEN = /(\p{L}[\p{L}\p{M}\p{N}-]*)|(<=|>=|!=|==|[=<>≤≥≠])|(\d+(?:[_']\d+)*(?:\.\d+(?:[_']\d+)*)?)|(\S)/gu;

function tokensOf(text: string): Token[] {
  let depth = 0;
  return Array.from(text.matchAll(TOKEN), (match): Token => {
    const [found, name, comparison] = match;
    if (found === ')') depth--;
    const own = depth;
    if (found === '(') depth++;
    const kind = name ? 'name' : comparison ? 'comparison' : 'other';
    return { text: found, kind, from: match.index, to: match.index + found.length, depth: own };
  });
}

/** A letter with which nobody begins a name: what is looked at is read as a name that begins with it. */
const PLACEHOLDER = 'ʬ';
const LOOK = /(?<![\p{L}\p{M}\p{N}-])(setting|counter|result)(?![\p{L}\p{M}\p{N}-])(?:\s+at\s+(\d{1,2})(?![\d.]))?/gu;
const BEFORE = 'goal result = ';

function readSum(text: string, whole: string, profile: Profile, names: ReadonlySet<string>): Sum | Slip {
  const looked = new Map<string, Looked>();
  let slip: Slip | undefined;
  const written = text.replace(LOOK, (_, register: Register, place: string | undefined) => {
    const places = profile[register];
    if (places === 0) slip = { is: 'unknown-name', name: register };
    else if (place !== undefined && (Number(place) < 1 || Number(place) > places)) {
      slip = { is: 'no-such-place', register, place: Number(place), places };
    }
    const name = `${PLACEHOLDER}${looked.size}`;
    looked.set(name, { register, ...(place !== undefined && { place: Number(place) }) });
    return ` ${name} `;
  });
  if (slip) return slip;
  const { items, errors, comment } = reader.read(BEFORE + written, 'sequence');
  const [item] = items;
  if (errors.length > 0 || comment || items.length !== 1 || item?.kind !== 'goal') {
    return { is: 'not-read', found: whole.trim() };
  }
  for (const { name } of namesIn(item.expression)) {
    if (looked.has(name) || names.has(name) || (NAMED as readonly string[]).includes(name)) continue;
    const near = nearest(name, [...names, ...NAMED, ...REGISTERS]);
    return { is: 'unknown-name', name, ...(near && { nearest: near }) };
  }
  return { expression: item.expression, looked };
}

/** What a sum comes to where the machine stands; or why it has no value. */
export function amountOf(sum: Sum, scene: Scene): Fraction | GoalProblem {
  const { state, values } = scene;
  const known = new Map<string, NumberSyntax>([
    ['position', numberSyntax(state[POSITION])],
    ['wraps', numberSyntax(state[WRAPS])],
    ...values,
  ]);
  for (const [name, looked] of sum.looked) known.set(name, readingSyntax(looked, scene));
  return exactValue(sum.expression, known, pointOf(state, 'result'));
}

/** A register as a number at its marker; a wheel as the figure that it shows. */
function readingSyntax({ register, place }: Looked, { state, profile }: Scene): NumberSyntax {
  if (place !== undefined) return numberSyntax(wheelAt(state, profile, register, place));
  const figures = String(numberIn(state, profile, register));
  return { ...numberSyntax(0), figures, text: figures, isValue: true, decimals: pointOf(state, register) };
}

/** The figure of one wheel or lever, −9 … 9. */
export const wheelAt = (state: State, profile: Profile, register: Register, place: number): number =>
  Number(figuresIn(textOf(state, profile, register)).at(-place) ?? 0);

/** Whether it is so where the machine stands; what has no value is so nowhere. */
export function isSo(question: Question, scene: Scene): boolean {
  switch (question.is) {
    case 'and':
      return question.parts.every((part) => isSo(part, scene));
    case 'or':
      return question.parts.some((part) => isSo(part, scene));
    case 'sum':
      return false;
    case 'compared': {
      const left = amountOf(question.left, scene);
      const right = amountOf(question.right, scene);
      if (typeof left === 'string' || typeof right === 'string') return false;
      const order = left.compare(right);
      return {
        '<=': order <= 0,
        '>=': order >= 0,
        '!=': order !== 0,
        '==': order === 0,
        '=': order === 0,
        '<': order < 0,
        '>': order > 0,
      }[question.by];
    }
  }
}
