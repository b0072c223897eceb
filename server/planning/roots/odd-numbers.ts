/**
 * Roots by odd numbers: 1 + 3 + 5 + … up to k numbers is k², so that as many odd numbers can be taken away from the
 * radicand as the root has units. It is done figure by figure: behind what is known of the root, doubled, come 1, 3, 5 …
 * for the next figure, one place further to the right on the levers and one position further to the left with the carriage,
 * which is two places in the result.
 *
 * From five times the radicand five times each odd number is taken away. These end in 5: the levers show the root so far
 * before the 5, and for the next figure only a nought is put before it (F. Jarvis, “Square roots by subtraction”).
 *
 * Where subtracting turns can't be counted up, the result climbs from zero towards the radicand by the same numbers.
 */
import Fraction from 'fraction.js';
import { cutOff, figuresOf, fractionOf, plainText, tenTo } from '../amount.js';
import { bestOf, firstOf } from '../choose.js';
import { type Operator, Stuck } from '../operator.js';
import { countsQuotientsUp } from '../quotients.js';
import {
  cutForm,
  decimalsIn,
  enter,
  fresh,
  isRight,
  onPaper,
  type Radicand,
  type RootOrder,
  radicandsFor,
  rootOf,
} from './radicand.js';

/** 1 for the odd numbers, 5 for five times them. */
type Times = 1n | 5n;

/** Brings the root into the counter; the remainder, or five times it, is left in the result unless that had to climb. */
export function byOddNumbers(operator: Operator, order: RootOrder, times: Times): Operator {
  const climb = (at: Operator) => climbed(at, order, times);
  const { profile } = operator;
  // What has no room is seen before anything is worked out.
  hasRoom(operator, order.root, times, 0);
  operator.room('setting', order.decimals);
  operator.room('result', Math.max(2 * order.decimals, figuresOf(times * order.root * order.root)));
  if (profile.subtract === 'none' || !countsQuotientsUp(profile)) return climb(operator);
  const subtract = (at: Operator) =>
    bestOf(
      at,
      [...radicandsFor(order)].map((radicand) => (one) => subtracted(radicand(one), order, times)),
    );
  return firstOf(operator, [subtract, climb]);
}

function subtracted(radicand: Radicand, order: RootOrder, times: Times): Operator {
  const { decimals, terms } = order;
  const { form } = radicand;
  const take = (more: number) => (at: Operator) => takenAway({ operator: at, form }, order, times, more);
  if (form.is === 'number') return take(Math.max(0, form.figures.value.decimals - 2 * decimals))(radicand.operator);
  const withMore = (at: Operator) => {
    const more = decimalsIn({ operator: at, form }, terms) - 2 * decimals;
    if (more <= 0) throw new Stuck({ is: 'not-met' });
    return take(more)(at);
  };
  return firstOf(radicand.operator, [take(0), withMore]);
}

/** What has so many more decimals than twice those of the root takes levers further to the left. */
function takenAway(radicand: Radicand, order: RootOrder, times: Times, more: number): Operator {
  const { decimals, terms } = order;
  const done = enter(radicand, times, terms, { setting: decimals + more, counter: decimals });
  const shown = new Fraction(done.units('result'), times * tenTo(2 * decimals + more));
  const root = rootOf(shown, decimals);
  if (!isRight(root, order)) throw new Stuck({ is: 'not-met' });
  rootRemark(done, shown, times, 2 * decimals + more);
  hasRoom(done, root, times, more);
  if (done.profile.count === 'lever') done.countLever(true);
  turnOdds(done, root, times, more, false);
  done.atRest();
  done.expect('counter', 'result');
  return done;
}

function climbed(operator: Operator, order: RootOrder, times: Times): Operator {
  const { decimals } = order;
  const known = onPaper(operator, order);
  const at = known.operator;
  const { value } = cutForm(known.form, 2 * decimals).figures;
  const root = rootOf(fractionOf(value), decimals);
  if (!isRight(root, order)) throw new Stuck({ is: 'not-met' });
  fresh(at);
  at.place(decimals, decimals);
  at.room('result', figuresOf(times * root * root));
  hasRoom(at, root, times, 0);
  rootRemark(at, fractionOf(value), times, 2 * decimals);
  at.remark({ is: 'root-climbs' });
  turnOdds(at, root, times, 0, true);
  at.expect('counter', 'result');
  return at;
}

function rootRemark(operator: Operator, value: Fraction, times: Times, decimals: number): void {
  const of = plainText(cutOff(value, decimals));
  operator.remark({ is: 'root', method: times === 1n ? 'odd-numbers' : 'five-fold', of });
}

/** The numbers in the order in which they are turned, each with the position for it. */
function* odds(root: bigint, times: Times): Generator<{ readonly odd: bigint; readonly position: number }> {
  const figures = root.toString();
  let prefix = 0n;
  for (const [i, figure] of [...figures].entries()) {
    for (let turned = 0n; turned < BigInt(figure); turned++) {
      yield { odd: times * (20n * prefix + 2n * turned + 1n), position: figures.length - i };
    }
    prefix = 10n * prefix + BigInt(figure);
  }
}

function hasRoom(operator: Operator, root: bigint, times: Times, more: number): void {
  const figures = figuresOf(root);
  operator.room('counter', figures);
  operator.room('carriage', figures);
  const levers = [...odds(root, times)].map(({ odd, position }) => figuresOf(odd) + position - 1 + more);
  operator.room('setting', Math.max(0, ...levers));
}

function turnOdds(operator: Operator, root: bigint, times: Times, more: number, adds: boolean): void {
  for (const { odd, position } of odds(root, times)) {
    operator.shiftTo(position);
    operator.setDigits(odd, position + more);
    operator.turn(1, adds);
  }
}
