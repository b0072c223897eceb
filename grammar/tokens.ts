/**
 * Every word of the notation, once: what it is called, what kind of word it is, and what it means in one line.
 * The lexer, the TextMate grammar, the messages and the tables of REFERENCE.md are all made from this table.
 *
 * Invariant: no other file spells out a list of words; a test fails when something generated from here is stale.
 */
import { type CustomPatternMatcherFunc, createToken, Lexer, type TokenType } from 'chevrotain';

/** What a word can be: it opens a section, is a line of a machine, a step, a register, or a detail of one of these. */
export type WordKind = 'section' | 'machine' | 'step' | 'register' | 'detail';

export interface Word {
  readonly word: string;
  readonly kinds: readonly WordKind[];
  /** One line for hovers, completion and the reference. */
  readonly meaning: string;
  /** How a section, a machine line or a step that begins with this word is written; `[ ]` may be left out. */
  readonly forms?: Partial<Record<'section' | 'machine' | 'step', readonly string[]>>;
}

const word = (word: string, kinds: readonly WordKind[], meaning: string, forms?: Word['forms']): Word =>
  forms ? { word, kinds, meaning, forms } : { word, kinds, meaning };

/** The words, in the order in which the reference lists them. */
export const WORDS: readonly Word[] = [
  word('use', ['section'], 'Makes the machines and sequences of another file known here.', { section: ['use "FILE"'] }),
  word('machine', ['section'], 'Describes a machine: its registers, its carriage and what its levers and buttons do.', {
    section: ['machine NAME ["Title"] [like NAME]'],
  }),
  word('sequence', ['section'], 'A crank sequence: steps that are run on a machine from the top.', {
    section: ['sequence NAME ["Title"] [(NAME = N, …)] [on NAME]'],
  }),
  word('bench', ['section'], 'Records what a real machine showed when a sequence was cranked on it.', {
    section: ['bench "Title" of NAME on NAME'],
  }),

  word('setting', ['machine', 'register'], 'The setting levers: the figures that a turn adds or subtracts.', {
    machine: ['setting N'],
  }),
  word('counter', ['machine', 'register'], 'The revolution counter: how many turns were made in each position.', {
    machine: ['counter N [carry | plain | signed]'],
  }),
  word('result', ['machine', 'register'], 'The result register: what the turns have added up to.', {
    machine: ['result N [dials] [reach K]'],
  }),
  word('carriage', ['machine', 'detail'], 'The carriage, and in how many positions it works.', {
    machine: ['carriage N'],
  }),
  word('subtract', ['machine', 'detail'], 'How the machine subtracts; as a place of the drive lever: turns subtract.', {
    machine: ['subtract reverse | lever | half-step | lift | none'],
  }),
  word('count', ['machine', 'step'], 'How the counter takes the turns; as a step: moves the count lever.', {
    machine: ['count follow | lever | first'],
    step: ['count plus', 'count minus'],
  }),
  word('park', ['machine'], 'One step left of position 1 the carriage is out of gear: a turn moves nothing.', {
    machine: ['park left'],
  }),
  word('bell', ['machine', 'detail'], 'A bell that rings when a carry or a borrow leaves the top of the result.', {
    machine: ['bell'],
  }),
  word('auto-clear', ['machine', 'step'], 'The button that returns the levers to zero after every turn.', {
    machine: ['auto-clear'],
    step: ['auto-clear on', 'auto-clear off'],
  }),
  word('auto-divide', ['machine', 'step'], 'The lever for automatic division.', {
    machine: ['auto-divide'],
    step: ['auto-divide on', 'auto-divide off'],
  }),
  word('transfer', ['machine', 'step'], 'Back transfer: the figures of a register go to the levers.', {
    machine: ['transfer result [at 1]', 'transfer counter'],
    step: ['transfer result', 'transfer counter'],
  }),
  word('effort', ['machine'], 'What a turn, a shift and a lever move cost on this machine.', {
    machine: ['effort turn A shift B lever C'],
  }),
  word('phrase', ['machine'], "The machine's own wording of a step, for printed sheets.", {
    machine: ['phrase STEP "…"'],
  }),
  word('no', ['machine'], 'Drops a line taken over by `like`.', { machine: ['no LINE'] }),

  word('set', ['step'], 'All setting levers take new figures; levers that are not named stand at zero.', {
    step: ['set N [at K] [and N [at K]]'],
  }),
  word('turn', ['step', 'detail'], 'Turns the crank.', {
    step: ['turn [back] [N]', 'turn [back] until overdraw', 'turn until stop'],
  }),
  word('shift', ['step', 'detail'], 'Moves the carriage by hand.', {
    step: ['shift right [N]', 'shift left [N]', 'shift to N', 'shift out', 'shift right half', 'shift left half'],
  }),
  word('clear', ['step'], 'Sets registers to zero.', {
    step: ['clear setting', 'clear counter', 'clear result', 'clear all'],
  }),
  word('dial', ['step'], 'Sets the result wheels by hand, all of them.', { step: ['dial result N [at K]'] }),
  word('mode', ['step'], 'Moves the drive lever to add or to subtract.', { step: ['mode add', 'mode subtract'] }),
  word('points', ['step'], 'Moves the decimal markers: so many decimals in that register.', {
    step: ['points REGISTER N …'],
  }),
  word('expect', ['step'], 'The reading must be this; what differs is a finding.', {
    step: ['expect REGISTER N …', 'expect bell | overflow | overdraw | parked', 'expect carriage N'],
  }),
  word('ask', ['step'], 'The reader is to note this reading: a blank on the exercise, filled in on the key.', {
    step: ['ask REGISTER …'],
  }),
  word('goal', ['step'], 'What the register must show at the end, by arithmetic.', {
    step: ['goal REGISTER = EXPRESSION'],
  }),
  word('note', ['step'], 'Prose for the printed sheet.', { step: ['note "…"'] }),
  word('caution', ['step'], 'A warning for the printed sheet.', { step: ['caution "…"'] }),
  word('repeat', ['step'], 'The steps between the braces, so many times.', { step: ['repeat N { … }'] }),
  word('run', ['step'], 'The steps of another sequence, here.', { step: ['run NAME [(N, …)]'] }),
  word('multiply', ['step'], 'Stands for the turns and shifts of the figures of a number.', {
    step: ['multiply by N [short]'],
  }),
  word('divide', ['step'], 'Brings the quotient into the counter, position by position.', {
    step: ['divide [to K] [short]'],
  }),
  word('case', ['step'], 'One more set of numbers with which the sequence is run.', { step: ['case NAME = N, …'] }),
  word('found', ['step'], 'What the real machine showed at a reading.', { step: ['found NAME | N REGISTER N …'] }),

  word('like', ['detail'], 'Takes over every line of another machine that is not written again.'),
  word('on', ['detail'], 'On which machine; as the place of a button or lever: switched on.'),
  word('off', ['detail'], 'Switched off.'),
  word('of', ['detail'], 'Of which sequence.'),
  word('carry', ['detail'], 'A counter with a tens carry through all its places.'),
  word('plain', ['detail'], 'A counter without carry: each wheel counts by itself.'),
  word('signed', ['detail'], 'A counter without carry whose wheels show −9 to 9, negative figures marked.'),
  word('dials', ['detail'], 'The result wheels can be set by hand.'),
  word('reach', ['detail'], 'How many places the tens carry covers from where the carriage stands.'),
  word('reverse', ['detail'], 'The crank turns both ways; a back turn subtracts.'),
  word('lever', ['detail'], 'By a lever.'),
  word('half-step', ['detail'], 'Half a place to the right the carriage is driven in reverse.'),
  word('lift', ['detail'], 'Lifting the crank puts the drive to subtract.'),
  word('none', ['detail'], 'The machine only adds.'),
  word('follow', ['detail'], 'An adding turn counts one up, a subtracting turn one down.'),
  word('first', ['detail'], 'The first turn after clearing counts one up and fixes the sense.'),
  word('right', ['detail'], 'To the right, towards higher positions.'),
  word('left', ['detail'], 'To the left, towards position 1.'),
  word('half', ['detail'], 'Half a place.'),
  word('out', ['detail'], 'Out of gear.'),
  word('at', ['detail'], 'With its units in this place.'),
  word('and', ['detail'], 'And further figures on other levers.'),
  word('back', ['detail'], 'The other way round.'),
  word('until', ['detail'], 'Until this happens.'),
  word('overdraw', ['detail'], 'The result goes below zero.'),
  word('overflow', ['detail'], 'The result goes past its highest place.'),
  word('stop', ['detail'], 'Automatic division has run its carriage out of gear.'),
  word('to', ['detail'], 'To this position.'),
  word('all', ['detail'], 'Setting, counter and result.'),
  word('add', ['detail'], 'Turns add.'),
  word('plus', ['detail'], 'The count lever at plus.'),
  word('minus', ['detail'], 'The count lever at minus.'),
  word('by', ['detail'], 'By this number.'),
  word('short', ['detail'], 'With the least effort.'),
  word('parked', ['detail'], 'The carriage is out of gear.'),
  word('as', ['detail'], 'Gives the reading a name.'),
  word('sqrt', ['detail'], 'The square root of what stands in the parentheses.'),
];

export const REGISTERS = ['setting', 'counter', 'result'] as const;
/** A register of the machine: the levers count as one. */
export type RegisterName = (typeof REGISTERS)[number];

const byWord: ReadonlyMap<string, Word> = new Map(WORDS.map((w) => [w.word, w]));

/** The table's entry for a word of the notation, or undefined for any other text. */
export const wordOf = (text: string): Word | undefined => byWord.get(text);

/** All words of one kind, for messages and completion. */
export const wordsOf = (kind: WordKind): readonly string[] =>
  WORDS.filter((w) => w.kinds.includes(kind)).map((w) => w.word);

/*
 * Chevrotain drops the Unicode flag of a pattern, so that such patterns are handed to it as functions. It also sorts patterns by their first character, so that most tokens are tried
 * nowhere but where they can begin. It can't work that out for a function; characters above 255 it keeps in buckets of
 * 255 anyway, so that one character out of each bucket stands for all of it.
 */
function matching(pattern: RegExp): CustomPatternMatcherFunc {
  const sticky = new RegExp(pattern.source, 'uy');
  return (text, offset) => {
    sticky.lastIndex = offset;
    return sticky.exec(text);
  };
}
const latin = Array.from({ length: 256 }, (_, code) => String.fromCharCode(code));
const buckets = Array.from({ length: 257 }, (_, i) => Math.min(0xffff, 256 + i * 255));
const startsWhere = (pattern: RegExp): (string | number)[] => [...latin.filter((c) => pattern.test(c)), ...buckets];

export const Name = createToken({
  name: 'Name',
  pattern: matching(/\p{L}[\p{L}\p{M}\p{N}-]*/u),
  start_chars_hint: startsWhere(/\p{L}/u),
  line_breaks: false,
});
/** Digits, grouped by `_` or `'` if wanted, with at most one point between digits. */
export const NumberToken = createToken({
  name: 'Number',
  pattern: /\d+(?:[_']\d+)*(?:\.\d+(?:[_']\d+)*)?/,
  line_breaks: false,
});
/** Text in quotation marks: `\"` and `\\` escaped. */
export const Text = createToken({ name: 'Text', pattern: /"(?:[^"\\]|\\["\\])*"/, line_breaks: false });
const Comment = createToken({ name: 'Comment', pattern: /#[^\r\n]*/, line_breaks: false, group: 'comments' });

const WhiteSpace = createToken({
  name: 'WhiteSpace',
  pattern: matching(/[\t\v\f\p{Zs}\ufeff]+/u),
  start_chars_hint: startsWhere(/[\t\v\f\p{Zs}]/u),
  line_breaks: false,
  group: Lexer.SKIPPED,
});
/** Whatever no other token takes, one character at a time, so that any text can be read. */
const Stray = createToken({
  name: 'Stray',
  pattern: matching(/[\s\S]/u),
  start_chars_hint: [...latin, ...buckets],
  line_breaks: true,
});

const symbol = (name: string, pattern: string) => createToken({ name, pattern });
export const Semicolon = symbol('Semicolon', ';');
export const Open = symbol('Open', '{');
export const Close = symbol('Close', '}');
export const LeftParen = symbol('LeftParen', '(');
export const RightParen = symbol('RightParen', ')');
export const Comma = symbol('Comma', ',');
export const Equals = symbol('Equals', '=');
export const Plus = symbol('Plus', '+');
export const Minus = symbol('Minus', '-');
export const Times = symbol('Times', '*');
export const Over = symbol('Over', '/');
export const Power = symbol('Power', '^');

/** The token of each word. */
export const Words: Readonly<Record<string, TokenType>> = Object.fromEntries(
  WORDS.map((w) => [w.word, createToken({ name: w.word, pattern: w.word, longer_alt: Name })]),
);

const symbols = [Semicolon, Open, Close, LeftParen, RightParen, Comma, Equals, Plus, Minus, Times, Over, Power];

/** Longer words first, so that `half-step` is not read as `half`. */
const wordTokens = Object.values(Words).sort((a, b) => b.name.length - a.name.length);

/** Every token, in the order in which the lexer tries them. */
export const TOKENS: TokenType[] = [WhiteSpace, Comment, NumberToken, Text, ...symbols, ...wordTokens, Name, Stray];
