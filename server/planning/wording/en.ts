/**
 * What is said of plans, in English: what the operator does and why, what stands in the way, what would do.
 *
 * Another language is another file with the same exports.
 */
import type { Effort } from '../../sequence/effort.js';
import { shortNumber } from '../../sequence/wording/en.js';
import type { ListLimit, ListRemark } from '../lists/order.js';
import { isRootMethod, type Limit, type Method, type Reason, type Remark, type Topic, type WayOut } from '../order.js';
import { listLimit, listRemark } from './en-lists.js';

/** The text of a `note` in the sequence: what the operator does and why. */
export const remarkText = (remark: ListRemark): string => listRemark(remark) ?? ownRemark(remark as Remark);

function ownRemark(remark: Remark): string {
  switch (remark.is) {
    case 'sum-of-products':
      return `The ${remark.terms} products add up in the result: it is not cleared between them.`;
    case 'dividend':
      return 'The dividend goes into the result; the turn that brings it there is cleared from the counter.';
    case 'divide':
      return 'Subtract what is set as often as it goes, place by place from the left: the counter takes the figures.';
    case 'half-unit':
      return 'Half a unit of the last decimal is added first, so that cutting off rounds the answer.';
    case 'root-climbs':
      return 'The result climbs towards the number, by turns that add: what it lacks at the end is the remainder.';
    case 'write-down':
      return `Write down what the ${remark.register} reads, ${shortNumber(remark.reading)}: it is needed again.`;
    case 'building-up':
      return `Build up ${shortNumber(remark.dividend)} in the result, from the highest place down: the counter shows the quotient.`;
    case 'root':
      return `The square root of ${shortNumber(remark.of)}${remark.method === 'automatic' ? '' : `, ${ROOT_WAY[remark.method]}`}.`;
    case 'first-guess':
      return `Begin with a number near the root: ${shortNumber(remark.guess)}.`;
    case 'power':
      return `${shortNumber(remark.base)} to the power ${remark.exponent}, by way of the ${remark.chain.length > 1 ? `powers ${list(remark.chain.map(String))}` : `power ${remark.chain.join('')}`}.`;
    case 'complement':
      return `Take away ${shortNumber(remark.of)} by adding its complement in every place of the result.`;
    case 'in-parts':
      return `${shortNumber(remark.number)} has more figures than there are levers: it is taken in two parts, ${list(remark.parts.map(shortNumber))}.`;
    case 'fair-copy':
      return `Set the answer once more, so that it stands by itself with ${count(remark.decimals, 'decimal')}.`;
    case 'points-moved':
      return `The quotient stays the same with both points moved ${count(remark.places, 'place')} to the right: ${shortNumber(remark.over)} divided by ${shortNumber(remark.under)}.`;
    case 'columns-apart':
      return `Both numbers stand on the levers at once, ${count(remark.places, 'place')} apart, so that their sums do not meet.`;
  }
}

const ROOT_WAY: Readonly<Record<Exclude<Method, 'automatic'>, string>> = {
  restoring: 'by division with restoring',
  'non-restoring': 'by division without restoring',
  'building-up': 'by building up',
  'odd-numbers': 'by subtracting the odd numbers 1, 3, 5 and so on',
  'five-fold': 'by subtracting 5, 15, 25 and so on from five times the number',
  'divide-and-average': 'by dividing by a number near it and taking the mean',
};

/** What stands in the way: one sentence or two about the machine, or about what was asked. */
export const limitText = (limit: ListLimit): string => listLimit(limit) ?? ownLimit(limit as Limit);

function ownLimit(limit: Limit): string {
  switch (limit.is) {
    case 'places':
      return placesText(limit);
    case 'below-zero':
      return `The ${limit.register} would go below zero.`;
    case 'runs-over':
      return `The ${limit.register} would run over at its upper end.`;
    case 'reach':
      return `The tens carry ends ${count(limit.places, 'place')} from where the carriage stands, and a carry would be lost.`;
    case 'no-counter':
      return 'The machine has no counter.';
    case 'cannot-subtract':
      return 'The machine only adds, and this needs a subtraction.';
    case 'quotient-as-complement':
      return 'Subtracting turns count backwards here: the counter would show the quotient as a complement.';
    case 'parameters':
      return 'No one sequence of steps is right for all values of the parameters.';
    case 'not-met':
      return 'No steps were found that bring this value into a register.';
    case 'method':
      return `${capital(methodName[limit.method])} does not lead there on this machine.`;
    case 'nothing-for-method':
      return isRootMethod(limit.method)
        ? `There is no square root in this, and so nothing for ${methodName[limit.method]}.`
        : `Nothing is divided in this, and so there is nothing for ${methodName[limit.method]}.`;
    case 'no-value':
      return NO_VALUE[limit.why];
  }
}

function placesText({ register, has, needs }: Extract<Limit, { is: 'places' }>): string {
  switch (register) {
    case 'setting':
      return `The machine has ${count(has, 'lever')}, and at least ${needs} are needed.`;
    case 'carriage':
      return `The carriage has ${count(has, 'position')}, and at least ${needs} are needed.`;
    default:
      return has === 0 && register === 'counter'
        ? 'The machine has no counter.'
        : `The ${register} has ${count(has, 'place')}, and at least ${needs} are needed.`;
  }
}

const NO_VALUE: Readonly<Record<Extract<Limit, { is: 'no-value' }>['why'], string>> = {
  'divides-by-zero': 'This has no value: it divides by zero.',
  'root-of-negative': 'This has no value: there is no square root of a negative number.',
  'power-not-whole': 'This has no value here: a power must be a whole number; for a root write sqrt( ).',
  'too-large': 'This has more figures than any machine could hold.',
  'unknown-name': 'This has no value: it names something that is not known here.',
};

/** What would do instead. */
export function wayOutText(wayOut: WayOut): string {
  switch (wayOut.is) {
    case 'fewer-decimals':
      return wayOut.decimals === 0
        ? 'Without decimals it can be done.'
        : `With ${count(wayOut.decimals, 'decimal')} it can be done.`;
    case 'split':
      return `Split ${shortNumber(wayOut.number)} into ${list(wayOut.parts.map(shortNumber))}, crank with each by itself and add up the answers.`;
  }
}

/** Which of the machines that were tried can do it. */
export const othersText = (machines: readonly string[]): string =>
  machines.length === 0 ? 'None of the other machines here can do it.' : `Machines that can: ${list(machines)}.`;

/** Ways of working, as somebody who asks for one would call them. */
export const methodName: Readonly<Record<Method, string>> = {
  automatic: 'automatic division',
  restoring: 'division with restoring',
  'non-restoring': 'division without restoring',
  'building-up': 'division by building up',
  'odd-numbers': 'the root by odd numbers',
  'five-fold': 'the root by fives',
  'divide-and-average': 'the root by dividing and averaging',
};

/** A way of doing a part of the work, as a table of alternatives names it. */
export function wayText(way: string): string {
  const points = /^points (\d+) (\d+) (\d+)$/.exec(way);
  if (points) return `decimals: setting ${points[1]}, counter ${points[2]}, result ${points[3]}`;
  const factors = /^set (\S+) crank (\S+)$/.exec(way);
  if (factors) return `set ${shortNumber(factors[1])}, crank ${shortNumber(factors[2])}`;
  return WAYS.get(way) ?? methodName[way as Method] ?? way;
}

const WAYS: ReadonlyMap<string, string> = new Map([
  ['points each', 'other decimals for each product'],
  ['accumulate', 'term by term, added up in the result'],
  ['products written down', 'products that are taken away written down first'],
  ['distribute', 'parentheses multiplied out'],
  ['pass back', 'passed back to the levers'],
  ['write down', 'written down and set again'],
  ['repeated', 'times the number again and again'],
  ['shortest chain', 'by the shortest chain of powers'],
  ['product', 'dividend worked out in the result'],
  ['dial', 'dividend dialled in the result'],
  ['set and turn', 'dividend set and brought in by a turn'],
]);

/** What was decided, above a table of alternatives. */
export const topicName: Readonly<Record<Topic, string>> = {
  layout: 'where the numbers stand',
  dividend: 'how the dividend comes into the result',
  division: 'how to divide',
  root: 'how to take the root',
  power: 'how to raise to the power',
  product: 'which factor is set and which is cranked',
  form: 'in which form it is worked out',
  list: 'how the list is worked through',
};

/** Why a way was taken, below a table of alternatives. */
export const reasonText: Readonly<Record<Reason, string>> = {
  only: 'It is the only way that can be done here.',
  written: 'It leaves the fewest numbers to write down and set again; effort decides only among those.',
  effort: 'It costs the least.',
  steps: 'It costs no more than any other, in the fewest steps.',
  'by-itself': 'What the machine does by itself is left to it, whatever it costs by hand.',
};

/** What tables of plans and alternatives have columns for. */
export type Heading =
  | 'way'
  | 'machine'
  | 'answer'
  | 'register'
  | 'figures'
  | 'turns'
  | 'shifts'
  | 'levers'
  | 'cost'
  | 'written'
  | 'chosen';

/** Headings of tables; `written` are numbers that are written down and set again, `chosen` marks what was taken. */
export const headings: Readonly<Record<Heading, string>> = {
  way: 'way',
  machine: 'machine',
  answer: 'answer',
  register: 'in',
  figures: 'figures',
  turns: 'turns',
  shifts: 'shifts',
  levers: 'levers',
  cost: 'cost',
  written: 'to note',
  chosen: 'taken',
};

/** How an answer stands to the value that was asked for. */
export const answerText: Readonly<Record<'exact' | 'cutOff' | 'rounded', string>> = {
  exact: 'exact',
  cutOff: 'cut off',
  rounded: 'rounded',
};

/** What a plan costs. */
export const effortText = ({ turns, shifts, levers, cost }: Effort, written: number): string =>
  `effort ${cost}: ${count(turns, 'turn')}, ${count(shifts, 'shift')}, ${count(levers, 'lever')} moved${written > 0 ? `, ${count(written, 'number')} to note down` : ''}`;

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
