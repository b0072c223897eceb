/**
 * Arbitrary files that are written as the notation wants them: every form of every line, odd blanks, comments, names of
 * several scripts, `repeat` on one line and over several. They parse without error; whether a machine could carry the
 * steps out is not looked at.
 */
import fc, { type Arbitrary } from 'fast-check';
import { REGISTERS, wordOf } from '../../grammar/tokens.js';

/** The words of an item, to be joined by blanks. */
type Item = Arbitrary<readonly string[]>;
/** Lines of a file. */
type Lines = Arbitrary<readonly string[]>;

export const anyName: Arbitrary<string> = fc
  .oneof(
    fc.constantFrom('rows', 'a', 'b', 'pots-10', 'größe', 'стол-2', '数', 'gro\u0308sse', 'set-up', 'on-', 'K9'),
    fc.stringMatching(/^[a-zéΩж][a-z0-9é-]{0,10}$/),
  )
  .filter((name) => !wordOf(name.normalize('NFC')));

const digits = fc.stringMatching(/^[0-9]{1,6}([_'][0-9]{1,3}){0,2}$/);
export const anyNumber: Arbitrary<string> = fc.oneof(
  digits,
  fc.tuple(digits, digits).map(([whole, decimals]) => `${whole}.${decimals}`),
);
/** Text in quotation marks, escapes and all marks of the notation among it. */
export const anyText: Arbitrary<string> = fc
  .array(
    fc.oneof(
      fc.constantFrom('\\"', '\\\\', '#', ';', '{', '}', ' ', 'turn', '{count}'),
      fc.string({ unit: 'grapheme', maxLength: 3 }).map((text) => text.replace(/["\\\r\n]/g, '-')),
    ),
    { maxLength: 6 },
  )
  .map((parts) => `"${parts.join('')}"`);

const anyArgument = fc.oneof(anyNumber, anyName);
const register = fc.constantFrom(...REGISTERS);

/** One of these words. */
const word = (...words: string[]): Item => fc.constantFrom(...words).map((one) => [one]);
const one = (text: Arbitrary<string>): Item => text.map((t) => [t]);
const row = (...items: Item[]): Item => fc.tuple(...items).map((parts) => parts.flat());
const maybe = (item: Item): Item => fc.oneof(fc.constant([]), item);
const some = (item: Item): Item => fc.array(item, { minLength: 1, maxLength: 3 }).map((parts) => parts.flat());
const parted = (item: Item, mark: string): Item =>
  fc
    .array(item, { minLength: 1, maxLength: 3 })
    .map((parts) => parts.flatMap((part, i) => (i === 0 ? part : [mark, ...part])));
const forms = (...texts: string[]): Item => fc.constantFrom(...texts).map((text) => text.split(' '));

const argument = one(anyArgument);
const number = one(anyNumber);
const name = one(anyName);
const text = one(anyText);
const part = row(argument, maybe(row(word('at'), argument)));
const assignment = row(name, word('='), number);
const assignments = parted(assignment, ',');

const reading = row(
  fc.oneof(
    row(one(register), maybe(word('-')), argument),
    row(word('carriage'), argument),
    word('bell', 'overflow', 'overdraw', 'parked'),
  ),
  maybe(row(word('as'), name)),
);

const { expression } = fc.letrec<{
  expression: readonly string[];
  term: readonly string[];
  operand: readonly string[];
}>((tie) => ({
  expression: row(
    tie('term'),
    fc.array(row(word('+', '-', '*', '/', '^'), tie('term')), { maxLength: 2 }).map((parts) => parts.flat()),
  ),
  term: row(maybe(word('-')), tie('operand')),
  operand: fc.oneof(
    { maxDepth: 3 },
    argument,
    row(word('('), tie('expression'), word(')')),
    row(word('sqrt'), word('('), tie('expression'), word(')')),
  ),
}));
export const anyExpression: Arbitrary<string> = expression.map((parts) => parts.join(' '));

/** Every step but `repeat`. */
const step: Item = fc.oneof(
  row(word('set'), parted(part, 'and')),
  row(word('turn'), maybe(word('back')), maybe(fc.oneof(argument, forms('until overdraw', 'until stop')))),
  row(word('shift'), word('right', 'left'), maybe(fc.oneof(argument, word('half')))),
  row(word('shift'), word('to'), argument),
  forms('shift out', 'clear all', 'transfer result', 'transfer counter', 'mode add', 'mode subtract'),
  forms('count plus', 'count minus', 'auto-clear on', 'auto-clear off', 'auto-divide on', 'auto-divide off'),
  row(word('clear', 'ask'), some(one(register))),
  row(word('dial'), word('result'), part),
  row(word('points'), some(row(one(register), argument))),
  row(word('expect'), some(reading)),
  row(word('note', 'caution'), text),
  row(word('goal'), one(register), word('='), expression),
  row(word('case'), assignments),
  row(word('run'), name, maybe(row(word('('), maybe(parted(argument, ',')), word(')')))),
  row(word('multiply'), word('by'), argument, maybe(word('short'))),
  row(word('divide'), maybe(row(word('to'), argument)), maybe(word('short'))),
);

const profileLine: Item = fc.oneof(
  row(word('setting', 'carriage'), number),
  row(word('counter'), number, maybe(word('carry', 'plain', 'signed'))),
  row(word('result'), number, maybe(word('dials')), maybe(row(word('reach'), number))),
  row(word('subtract'), word('reverse', 'lever', 'half-step', 'lift', 'none')),
  row(word('count'), word('follow', 'lever', 'first')),
  forms('park left', 'bell', 'auto-clear', 'auto-divide', 'transfer result', 'transfer counter', 'no park left'),
  row(forms('transfer result at'), number),
  row(word('effort'), word('turn'), number, word('shift'), number, word('lever'), number),
  row(word('phrase'), forms('turn back', 'clear result', 'shift right half', 'auto-clear on'), text),
  row(word('no'), word('bell', 'auto-clear', 'phrase', 'effort')),
);
const foundLine: Item = row(word('found'), argument, some(reading));

const blank = fc.constantFrom(' ', ' ', '  ', '\t', '\u00a0', ' \u3000');
const margin = fc.constantFrom('', '', '  ', '\t', '       ');
const joined = (item: Item): Arbitrary<string> => fc.tuple(item, blank).map(([words, mark]) => words.join(mark));
const comment = fc
  .string({ unit: 'grapheme', maxLength: 12 })
  .map((text) => `#${text.replace(/[\r\n\u2028\u2029]/g, '-')}`);

/** Lines without an item, and a way to put a comment behind one that has some. */
const empty = fc.oneof(
  fc.constantFrom('', '   ', ' ; '),
  fc.tuple(margin, comment).map((parts) => parts.join('')),
);
const finished = (code: Arbitrary<string>): Arbitrary<string> =>
  fc
    .tuple(margin, code, fc.constantFrom('', ' ', ';'), fc.option(comment, { nil: '', freq: 3 }))
    .map((parts) => parts.join(''));
const itemsLine = (item: Item): Arbitrary<string> =>
  finished(fc.array(joined(item), { minLength: 1, maxLength: 3 }).map((items) => items.join(';')));

const stepsLine = itemsLine(step);
const repeatHead = joined(row(word('repeat'), argument, word('{')));
const { steps } = fc.letrec<{ steps: readonly string[]; block: readonly string[] }>((tie) => ({
  steps: fc.array(tie('block'), { maxLength: 4 }).map((blocks) => blocks.flat()),
  block: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    stepsLine.map((line) => [line]),
    empty.map((line) => [line]),
    // On one line.
    finished(
      fc
        .tuple(repeatHead, fc.array(joined(step), { maxLength: 3 }))
        .map(([head, items]) => `${head}${items.join('; ')}}`),
    ).map((line) => [line]),
    // Over several, the braces alone or in company.
    fc
      .tuple(finished(repeatHead), tie('steps'), finished(fc.constantFrom('}', '} turn', 'turn }')))
      .map(([head, body, close]) => [head, ...body, close]),
  ),
}));

const body = (item: Item): Lines => fc.array(fc.oneof(itemsLine(item), empty), { maxLength: 6 });
const section = (header: Item, lines: Lines): Lines =>
  fc.tuple(finished(joined(header)), lines).map(([head, rest]) => [head, ...rest]);

export const anyMachine: Lines = section(
  row(word('machine'), name, maybe(text), maybe(row(word('like'), name))),
  body(profileLine),
);
export const anySequence: Lines = section(
  row(word('sequence'), name, maybe(text), maybe(row(word('('), assignments, word(')'))), maybe(row(word('on'), name))),
  steps,
);
const anyUse = section(row(word('use'), text), fc.array(empty, { maxLength: 2 }));
const anyBench = section(row(word('bench'), text, word('of'), name, word('on'), name), body(foundLine));

/** A whole file without an error, and its line end. */
export const anyFile: Arbitrary<{ readonly lines: readonly string[]; readonly end: string }> = fc.record({
  lines: fc
    .tuple(
      fc.array(empty, { maxLength: 2 }),
      fc.array(fc.oneof(anyUse, anyMachine, anySequence, anySequence, anyBench), { maxLength: 4 }),
    )
    .map(([preamble, sections]) => [...preamble, ...sections.flat()]),
  end: fc.constantFrom('\n', '\r\n', '\r'),
});
export const anyFileText: Arbitrary<string> = anyFile.map(({ lines, end }) => lines.join(end));
