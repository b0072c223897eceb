/**
 * Roots by dividing and averaging, in the machine: what is near the root, the guess, goes away from the radicand as
 * often as the guess says, which leaves radicand − guess² in the result and the guess in the counter. With twice the
 * guess on the levers the division then goes on, and the counter comes to show guess + (radicand − guess²) ÷ (2 · guess):
 * the mean of the guess and of what the radicand divided by it would be.
 *
 * The mean is never below the root and has about twice as many right figures as the guess. It is common practice, of
 * which no source was found.
 *
 * Where subtracting turns can't be counted up, the result climbs from zero towards the radicand by the same turns.
 */
import type Fraction from 'fraction.js';
import { type Amount, amount, exactAmount, figuresOf, fractionOf, plainText, tenTo } from '../amount.js';
import { firstOf } from '../choose.js';
import { crank } from '../cranking.js';
import { type Operator, Stuck } from '../operator.js';
import { countsQuotientsUp, divide } from '../quotients.js';
import { cutForm, enter, fresh, isRight, isWithinAUnit, onPaper, type Radicand, type RootOrder } from './radicand.js';

/** Figures of the first guess, known by heart or looked up in a table of roots. */
const FEWEST_GUESSED = 2;
const MOST_GUESSED = 5;
/** Each doubles the figures, so that three reach as far as any counter. */
const MOST_ROUNDS = 3;

/** One division with the mean that it gives. */
interface Round {
  readonly guess: Amount;
  /** Decimals to which the mean is taken. */
  readonly decimals: number;
  /** What the division adds to the guess, in units of that. */
  readonly quotient: bigint;
}

/** Brings the root into the counter, by as few rounds and then by as few figures of a guess as will do. */
export function byAverage(operator: Operator, order: RootOrder): Operator {
  const { profile } = operator;
  // Nothing can be divided by a guess of nought.
  if (order.root === 0n) throw new Stuck({ is: 'not-met' });
  const divides = profile.subtract !== 'none' && countsQuotientsUp(profile);
  const ways = divides ? [dividing, climbing] : [climbing];
  // A root that is cut off is tried for in every way, before one that ends a unit above.
  const works = [cutOffPlans, nearPlans].flatMap((plans) => ways.map((way) => (at: Operator) => way(at, order, plans)));
  return firstOf(operator, works);
}

/** Rounds that lead to the root of a number. */
type Plans = (value: Fraction, order: RootOrder) => Generator<readonly Round[]>;

/** Figures of the first guess. Somebody who knows the whole root need not work it out. */
function* guesses({ root }: RootOrder): Generator<number> {
  const most = Math.max(1, Math.min(MOST_GUESSED, figuresOf(root) - 1));
  for (let guessed = Math.min(FEWEST_GUESSED, most); guessed <= most; guessed++) yield guessed;
}

/** Those that end with the root cut off: by the fewest rounds, and among these by the shortest first guess. */
function* cutOffPlans(value: Fraction, order: RootOrder): Generator<readonly Round[]> {
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    for (const guessed of guesses(order)) {
      const plan = roundsFrom(value, order, guessed, rounds);
      if (plan?.length === rounds) yield plan;
    }
  }
}

/** A single round that ends less than a unit away. */
function* nearPlans(value: Fraction, order: RootOrder): Generator<readonly Round[]> {
  for (const guessed of guesses(order)) {
    const round = roundOf(value, cutTo(order, guessed), order.decimals);
    if (isWithinAUnit(meanOf(round), order)) yield [round];
  }
}

/**
 * Rounds from a guess of so many figures to the root, in no more than so many. Each but the first begins with as few
 * certain figures of the mean before it as will do, which are twice as many as that had at the most.
 */
function roundsFrom(value: Fraction, order: RootOrder, known: number, most: number): Round[] | undefined {
  const figures = figuresOf(order.root);
  const guess = cutTo(order, known);
  const last = roundOf(value, guess, order.decimals);
  const mean = meanOf(last);
  if (isRight(mean, order)) return [last];
  if (most === 1) return undefined;
  for (let certain = known + 1; certain < Math.min(2 * known + 1, figures); certain++) {
    const below = figures - certain;
    if (mean / tenTo(below) !== order.root / tenTo(below)) return undefined;
    const rest = roundsFrom(value, order, certain, most - 1);
    if (rest) return [roundOf(value, guess, Math.max(0, order.decimals - below)), ...rest];
  }
  return undefined;
}

/** The root cut off behind so many figures. */
function cutTo({ root, decimals }: RootOrder, figures: number): Amount {
  const below = tenTo(Math.max(0, figuresOf(root) - figures));
  return amount((root / below) * below, decimals);
}

function roundOf({ n, d }: Fraction, guess: Amount, decimals: number): Round {
  // (value − guess²) / (2 · guess), in whole numbers: fractions of so many figures would take long to shorten.
  const scale = tenTo(guess.decimals);
  const over = (n * scale * scale - guess.units * guess.units * d) * tenTo(decimals);
  const under = 2n * guess.units * scale * d;
  return { guess, decimals, quotient: over < 0n ? 0n : over / under };
}

const meanOf = ({ guess, decimals, quotient }: Round): bigint =>
  guess.units * tenTo(decimals - guess.decimals) + quotient;

/** With the radicand in the result, from which everything is taken away. */
function dividing(operator: Operator, order: RootOrder, plans: Plans): Operator {
  const { of, value } = order;
  const exact = of.under || of.over.isInexact ? undefined : exactAmount(value);
  const works: ((at: Operator) => Operator)[] = [];
  if (exact) works.push((at) => divided({ operator: at, form: of.over }, exact, order, plans));
  // A number may be left without its last figures, for which the levers would have to make room.
  works.push((at) => {
    const { operator: done, form } = onPaper(at, order);
    return divided({ operator: done, form }, form.figures.value, order, plans);
  });
  return firstOf(operator, works);
}

function divided({ operator, form }: Radicand, number: Amount, order: RootOrder, plans: Plans): Operator {
  const works = [...plans(fractionOf(number), order)].flatMap((rounds) => {
    const worked = (whole: boolean) => (at: Operator) =>
      inRounds(at, rounds, (one, round, isFirst) =>
        divideRound({ operator: one, form }, number, order, round, whole, isFirst),
      );
    return form.is === 'number' ? [worked(true), worked(false)] : [worked(true)];
  });
  return firstOf(operator, works);
}

/** The mean's certain figures are noted after every round but the last, for the next guess. */
function inRounds(
  operator: Operator,
  rounds: readonly Round[],
  work: (at: Operator, round: Round, isFirst: boolean) => Operator,
) {
  return rounds.reduce((at, round, i) => {
    if (i > 0) {
      at.writeDown('counter', round.guess);
    }
    const done = work(at, round, i === 0);
    if (done.units('counter') !== meanOf(round)) throw new Stuck({ is: 'not-met' });
    return done;
  }, operator);
}

function divideRound(
  { operator, form }: Radicand,
  number: Amount,
  { terms }: RootOrder,
  { guess, decimals, quotient }: Round,
  whole: boolean,
  isFirst: boolean,
): Operator {
  const setting = whole ? Math.max(guess.decimals, number.decimals - decimals) : guess.decimals;
  const cut = form.is === 'number' ? cutForm(form, setting + decimals) : form;
  const begun = enter({ operator, form: cut }, 1n, terms, { setting, counter: decimals });
  if (isFirst) guessRemarks(begun, number, guess);
  begun.set({ value: guess });
  if (begun.profile.count === 'lever') begun.countLever(true);
  const squared = crank(begun, { value: guess }, -1);
  // A counter that took its sense from a turn the other way would count the guess down.
  if (squared.units('counter') !== guess.units * tenTo(decimals - guess.decimals)) throw new Stuck({ is: 'not-met' });
  if (quotient > 0n) return divide(squared, { value: twice(guess) }, decimals, { ...terms, method: undefined });
  squared.atRest();
  squared.expect('counter', 'result');
  return squared;
}

const twice = ({ units, decimals }: Amount): Amount => amount(2n * units, decimals);

function guessRemarks(operator: Operator, number: Amount, guess: Amount): void {
  operator.remark({ is: 'root', method: 'divide-and-average', of: plainText(number) });
  operator.remark({ is: 'first-guess', guess: plainText(guess) });
}

/** With the radicand on paper, towards which the result climbs. */
function climbing(operator: Operator, order: RootOrder, plans: Plans): Operator {
  const known = onPaper(operator, order);
  const number = known.form.figures.value;
  const works = [...plans(fractionOf(number), order)].map((rounds) => (at: Operator) => {
    return inRounds(at, rounds, (one, round, isFirst) => climbRound(one, number, round, isFirst));
  });
  return firstOf(known.operator, works);
}

function climbRound(operator: Operator, number: Amount, round: Round, isFirst: boolean): Operator {
  const { guess, decimals, quotient } = round;
  fresh(operator);
  operator.place(guess.decimals, decimals);
  if (isFirst) {
    guessRemarks(operator, number, guess);
    operator.remark({ is: 'root-climbs' });
  }
  operator.set({ value: guess });
  let done = crank(operator, { value: guess }, 1);
  if (quotient > 0n) {
    done.set({ value: twice(guess) });
    done = crank(done, { value: amount(quotient, decimals) }, 1);
  }
  done.atRest();
  done.expect('counter', 'result');
  return done;
}
