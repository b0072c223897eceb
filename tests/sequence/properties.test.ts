/** What holds on every machine, reckoned apart from the project's own machine. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { type TracedStep, traceOf } from '../../server/sequence/trace.js';
import { checkText } from '../marked.js';
import { deedText, machineText, trials, trialText } from './random.js';
import type { Deed, Plan } from './slow-model.js';

/** Findings with which arithmetic is lost: what is reckoned here holds no longer. */
const LOSSES = ['carry-short', 'digits-off-end'];

interface Turned {
  readonly before: TracedStep;
  readonly after: TracedStep;
  /** +1 where the turns add, −1 where they take away. */
  readonly sign: 1 | -1;
}

/** The rows of a run in which the crank turned in one position without automatic division. */
function* turnsIn(rows: readonly TracedStep[]): Generator<Turned> {
  for (let i = 1; i < rows.length; i++) {
    const [before, after] = [rows[i - 1], rows[i]];
    if (after.turns === 0 || before.position === 0 || before.autoDivide) continue;
    const isBack = after.step.startsWith('turn back');
    yield { before, after, sign: (before.drive === 'subtract') === isBack ? 1 : -1 };
  }
}
/** Turns that find the levers set: with auto-clear on only the first. */
const effective = ({ before, after }: Turned): bigint => (before.autoClear ? 1n : BigInt(after.turns));
const modulo = (n: bigint, m: bigint): bigint => ((n % m) + m) % m;

function traced(plan: Plan, deeds: readonly Deed[]) {
  // A step that does nothing comes first, so that every turn has a row before it.
  const { library, report, findings } = checkText(trialText(plan, [{ do: 'shift', by: 0 }, ...deeds]));
  return { rows: traceOf(library, report).sequences[0].steps, findings };
}

test('the result is the start and setting × turns in place, and wraps say how often it left its places', () => {
  let checked = 0;
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      const { rows, findings } = traced(plan, deeds);
      fc.pre(!findings.some(({ code }) => LOSSES.includes(code)));
      const places = 10n ** BigInt(plan.result);
      for (const turned of turnsIn(rows)) {
        const { before, after, sign } = turned;
        const driven = BigInt(before.setting) * 10n ** BigInt(before.position - 1);
        const total = BigInt(before.result) + BigInt(sign) * driven * effective(turned);
        expect(BigInt(after.result)).toBe(modulo(total, places));
        expect(BigInt(after.wraps - before.wraps)).toBe((total - modulo(total, places)) / places);
        expect(after.bell).toBe(plan.bell && after.wraps !== before.wraps);
        checked++;
      }
    }),
    { numRuns: 600 },
  );
  expect(checked).toBeGreaterThan(500);
});

test('a counter with carry is the start and the turns in place', () => {
  let checked = 0;
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      fc.pre(plan.carry === 'carry' && plan.counter > 0);
      const places = 10n ** BigInt(plan.counter);
      const { rows } = traced(plan, deeds);
      const turns = new Map([...turnsIn(rows)].map((turned) => [turned.after, turned]));
      let sense = 0;
      for (const [i, after] of rows.entries()) {
        const before = rows[Math.max(0, i - 1)];
        const isTransferred = plan.transferCounter && /^0+$/.test(before.setting) && after.step === 'transfer counter';
        if (isTransferred || /^clear.* (?:counter|all)/.test(after.step)) sense = 0;
        if (after.turns === 0 || before.position === 0) continue;
        const turned = turns.get(after);
        // Automatic division turns both ways in one step: which way came first is not seen here.
        if (!turned) return;
        sense ||= turned.sign;
        const by = turned.sign * { follow: 1, lever: before.count === 'minus' ? -1 : 1, first: sense }[plan.count];
        const isCounted = before.position <= plan.counter;
        const counted = isCounted ? BigInt(by * after.turns) * 10n ** BigInt(before.position - 1) : 0n;
        expect(BigInt(after.counter)).toBe(modulo(BigInt(before.counter) + counted, places));
        checked++;
      }
    }),
    { numRuns: 1_500 },
  );
  expect(checked).toBeGreaterThan(300);
});

test('casting out nines and elevens', () => {
  const sumOf = (figures: string): number => [...figures].reduce((sum, figure) => sum + Number(figure), 0);
  /** Units less tens plus hundreds … */
  const alternating = (figures: string): number =>
    [...figures].reverse().reduce((sum, figure, i) => sum + (i % 2 === 0 ? 1 : -1) * Number(figure), 0);
  const rest = (n: number, by: number): number => ((n % by) + by) % by;
  let checked = 0;
  fc.assert(
    fc.property(trials(), ([plan, deeds]) => {
      const { rows, findings } = traced(plan, deeds);
      fc.pre(!findings.some(({ code }) => LOSSES.includes(code)));
      for (const turned of turnsIn(rows)) {
        const { before, after, sign } = turned;
        const turns = sign * Number(effective(turned));
        const wraps = after.wraps - before.wraps;
        // A wrap takes 10^places away: 1 by nines, 1 or −1 by elevens.
        const nines = sumOf(before.result) + turns * sumOf(before.setting) - wraps;
        expect(rest(sumOf(after.result), 9)).toBe(rest(nines, 9));
        const place = before.position % 2 === 1 ? 1 : -1;
        const elevens =
          alternating(before.result) +
          turns * place * alternating(before.setting) -
          wraps * (plan.result % 2 === 0 ? 1 : -1);
        expect(rest(alternating(after.result), 11)).toBe(rest(elevens, 11));
        checked++;
      }
    }),
    { numRuns: 600 },
  );
  expect(checked).toBeGreaterThan(500);
});

describe('the text', () => {
  const noise = fc.constantFrom('', ' ', '   ', '\t', '  # at the bench', ' ;');
  /** A trial written untidily: blanks, comments, blank lines, steps on one line. */
  const untidy = fc
    .tuple(trials(8), fc.infiniteStream(noise), fc.constantFrom('\n', '\r\n'))
    .map(([[plan, deeds], stream, end]) => {
      const next = () => String(stream.next().value);
      const blanks = () => next().replace(/[#;].*/, '');
      const lines = deeds.map((deed) => `${blanks()}${deedText(deed).replaceAll(' ', `${blanks()} `)}${next()}`);
      const body = lines.reduce((text, line, i) => {
        const joins = i > 0 && !text.split('\n').at(-1)?.includes('#') && next() === ' ;';
        return text + (joins ? ' ; ' : '\n') + line;
      }, 'sequence trial on   stores # here');
      const prose = '\n\n# and\n  sew 5\n  expect result 1 counter -3\n  repeat 2 {turn;turn  ;shift left}\n';
      return `${machineText(plan)}${body}${prose}`.replaceAll('\n', end);
    });

  test('findings do not hang on how it is formatted', () => {
    fc.assert(
      fc.property(untidy, (text) => {
        const told = (of: string) => checkText(of).findings.map(({ line, code, message }) => [line, code, message]);
        const formatted = format(text);
        expect(told(formatted)).toEqual(told(text));
        expect(format(formatted)).toBe(formatted);
      }),
      { numRuns: 300 },
    );
  });

  const FRAGMENTS = [
    ...[
      'machine m',
      'machine m like m',
      'sequence s',
      'sequence s (a = 5) on m',
      'use "b.crank"',
      'bench "x" of s on m',
    ],
    ...['setting 4', 'result 8 dials reach 5', 'counter 5 signed', 'subtract half-step', 'auto-divide', 'no bell', '}'],
    ...['repeat 9 {', 'repeat 999 { turn 999 }', 'run s', 'run s (1, a)', 'multiply by 99', 'divide', 'case a = 7'],
    ...['set a', 'set 12 and 5 at 3', 'turn until stop', 'turn back until overdraw', 'auto-divide on', 'mode subtract'],
    ...[
      'goal result = (1 / 3) ^ a',
      'expect result -42 bell as a',
      '"',
      '((((',
      '# x',
      '',
      '\u0000',
      '\ud800',
      '⚙',
      '{ { {',
    ],
  ];
  const lines = fc.array(fc.oneof(fc.constantFrom(...FRAGMENTS), fc.string({ maxLength: 12 })), { maxLength: 25 });
  const survives = (text: string): void => {
    const { report, findings } = checkText(text);
    const lineCount = text.split(/\r\n|\n|\r/).length;
    for (const { line, column, endColumn, message } of findings) {
      expect(line).toBeGreaterThan(0);
      expect(line).toBeLessThanOrEqual(lineCount);
      expect(column).toBeLessThanOrEqual(endColumn);
      expect(message.length).toBeGreaterThan(0);
    }
    expect(report.sequences.every(({ runs }) => runs.every(({ tape }) => tape.length <= 100_000))).toBe(true);
  };

  test('whatever is appended, a check ends and finds its places', () => {
    fc.assert(
      fc.property(trials(6), lines, ([plan, deeds], more) => survives(trialText(plan, deeds) + more.join('\n'))),
      { numRuns: 150 },
    );
  });

  test('whatever lines are changed, dropped, doubled or swapped, too', () => {
    const changes = fc.array(
      fc.tuple(
        fc.constantFrom('drop', 'double', 'swap', 'cut', 'put'),
        fc.nat(60),
        fc.nat(60),
        fc.oneof(fc.constantFrom(...FRAGMENTS), fc.string({ maxLength: 8 })),
      ),
      { minLength: 1, maxLength: 6 },
    );
    const changed = (text: string, list: readonly (readonly [string, number, number, string])[]): string => {
      const all = text.split('\n');
      for (const [what, a, b, fragment] of list) {
        const at = a % all.length;
        const other = b % all.length;
        if (what === 'drop' && all.length > 1) all.splice(at, 1);
        else if (what === 'double') all.splice(at, 0, all[other]);
        else if (what === 'swap') [all[at], all[other]] = [all[other], all[at]];
        else if (what === 'cut') all[at] = all[at].slice(0, b);
        else all[at] = all[at].slice(0, b) + fragment + all[at].slice(b);
      }
      return all.join('\n');
    };
    fc.assert(
      fc.property(trials(8), changes, ([plan, deeds], list) => survives(changed(trialText(plan, deeds), list))),
      { numRuns: 300 },
    );
  });
});
