/** What somebody does by hand where the machine stands, as a step of the notation. */
import { LineReader } from '../../grammar/lines.js';
import type { LineItem, StepSyntax } from '../../grammar/tree.js';
import { figuresIn, type Profile, type Register, type State, textOf } from '../machine/index.js';

/** A part of the machine that somebody moves. */
export type Part =
  | { readonly is: 'register'; readonly register: Register }
  | { readonly is: 'wheel'; readonly register: Register; readonly place: number }
  | { readonly is: 'position' }
  | { readonly is: 'drive' | 'count' | 'auto-clear' | 'auto-divide' }
  | { readonly is: 'marker'; readonly register: Register };

/** Why it is not done. */
export type NotByHand =
  | { readonly is: 'not-a-number'; readonly found: string }
  | { readonly is: 'not-a-figure'; readonly found: string }
  | { readonly is: 'not-a-place-of'; readonly found: string; readonly places: readonly [string, string] }
  /** Counter wheels are turned by the crank alone, and cleared. */
  | { readonly is: 'counter' }
  /** No step of the notation, or one that is none for a hand. */
  | { readonly is: 'not-a-step'; readonly found: string }
  | { readonly is: 'not-single'; readonly word: string };

export const isNotByHand = (done: readonly StepSyntax[] | NotByHand): done is NotByHand => 'is' in done;

/** What a lever or button may be put to, the place at the start first, as the notation has it. */
export const PLACES = {
  drive: ['add', 'subtract'],
  count: ['plus', 'minus'],
  'auto-clear': ['off', 'on'],
  'auto-divide': ['off', 'on'],
} as const;
const WORDS = { drive: 'mode', count: 'count', 'auto-clear': 'auto-clear', 'auto-divide': 'auto-divide' } as const;

const NUMBER = /^\d+(?:[_']\d+)*(?:\.\d+(?:[_']\d+)*)?$/;

/**
 * The step that puts a part to a place; what the machine then makes of it shows when it is done.
 *
 * @param places what the two places of a lever are called to the reader, as they may be written beside the notation's
 */
export function stepFor(
  part: Part,
  wanted: string,
  state: State,
  profile: Profile,
  places?: readonly [string, string],
): readonly StepSyntax[] | NotByHand {
  const text = wanted.trim();
  switch (part.is) {
    case 'register':
      return NUMBER.test(text) ? putRegister(part.register, text) : { is: 'not-a-number', found: text };
    case 'wheel':
      return putWheel(part, text, state, profile);
    case 'marker':
      return NUMBER.test(text) ? readSteps(`points ${part.register} ${text}`) : { is: 'not-a-number', found: text };
    case 'position': {
      if (text === '0' || text === 'out' || text === places?.[0]) return readSteps('shift out');
      return NUMBER.test(text) ? readSteps(`shift to ${text}`) : { is: 'not-a-number', found: text };
    }
    default: {
      const own = PLACES[part.is];
      const which = own.findIndex((place, i) => text === place || text === places?.[i] || text === String(i));
      if (which < 0) return { is: 'not-a-place-of', found: text, places: places ?? [own[0], own[1]] };
      return readSteps(`${WORDS[part.is]} ${own[which]}`);
    }
  }
}

function putRegister(register: Register, text: string): readonly StepSyntax[] | NotByHand {
  const isZero = /^[0_'.]+$/.test(text);
  if (isZero) return readSteps(`clear ${register}`);
  if (register === 'counter') return { is: 'counter' };
  return readSteps(register === 'setting' ? `set ${text}` : `dial result ${text}`);
}

/** All others stay as they are. */
function putWheel(
  { register, place }: { readonly register: Register; readonly place: number },
  text: string,
  state: State,
  profile: Profile,
): readonly StepSyntax[] | NotByHand {
  if (!/^\d$/.test(text)) return { is: 'not-a-figure', found: text };
  const figures = figuresIn(textOf(state, profile, register));
  figures[figures.length - place] = text;
  if (register === 'counter') {
    return figures.every((figure) => Number(figure) === 0) ? readSteps('clear counter') : { is: 'counter' };
  }
  return readSteps(register === 'setting' ? `set ${figures.join('')}` : `dial result ${figures.join('')}`);
}

const reader = new LineReader();

/** Steps as somebody writes them, each of which is one act. */
export function readSteps(text: string): readonly StepSyntax[] | NotByHand {
  const { items, errors, comment, header } = reader.read(text, 'sequence');
  if (errors.length > 0 || comment || header || items.length === 0) return { is: 'not-a-step', found: text.trim() };
  const other = items.find((item) => !isAct(item));
  return other ? { is: 'not-single', word: other.kind } : (items as readonly StepSyntax[]);
}

const NO_ACTS: ReadonlySet<LineItem['kind']> = new Set([
  'repeat',
  'run',
  'multiply',
  'divide',
  'goal',
  'case',
  'close',
  'note',
  'caution',
]);
const isAct = ({ kind }: LineItem): boolean => !NO_ACTS.has(kind);
